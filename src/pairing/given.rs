//! Herbs with amounts, as they are typed.

use std::fmt;

/// What an amount is counted in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Unit {
    /// Grams.
    Grams,
    /// Parts of the whole.
    Parts,
}

/// An herb's name and amount.
#[derive(Debug, Clone, PartialEq)]
pub struct Given {
    /// The name.
    pub name: String,
    /// The amount.
    pub amount: f64,
    /// In what.
    pub unit: Unit,
}

/// Words that are no herb with an amount.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum GivenError {
    /// There is no amount.
    NoAmount(String),
    /// There is no name before the amount.
    NoName(String),
    /// The amount is not a number above zero that can be used.
    NoNumber(String),
    /// The unit is not known.
    NoUnit(String),
}

impl fmt::Display for GivenError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoAmount(words) => write!(
                f,
                "`{words}` has no amount; expected HERB=9g or HERB=2 (parts)"
            ),
            Self::NoName(words) => write!(f, "`{words}` names no herb; expected HERB=9g"),
            Self::NoNumber(words) => write!(
                f,
                "`{words}`: expected a number above 0 and below a million, such as 9, 4.5 or 1/2"
            ),
            Self::NoUnit(words) => {
                write!(f, "`{words}`: expected g for grams, or no unit for parts")
            }
        }
    }
}

impl std::error::Error for GivenError {}

/// An amount of a million or more is a slip of the keyboard.
const TOO_MUCH: f64 = 1e6;

impl Given {
    /// Understands `HERB=9g`, `HERB=9 g`, `HERB=9克`, and without a unit parts: `HERB=2`, `HERB=1/2`.
    ///
    /// # Errors
    /// When there is no name or amount, or the amount is not a number above zero.
    ///
    /// ```
    /// use kaoyi::pairing::{Given, Unit};
    /// let mint = Given::parse("薄荷=4.5g").unwrap();
    /// assert_eq!((mint.name.as_str(), mint.amount, mint.unit), ("薄荷", 4.5, Unit::Grams));
    /// assert!(Given::parse("薄荷=-1g").is_err() && Given::parse("薄荷=0").is_err());
    /// ```
    pub fn parse(words: &str) -> Result<Self, GivenError> {
        let whole = || words.to_owned();
        let (name, amount) = words
            .split_once(['=', '＝'])
            .ok_or_else(|| GivenError::NoAmount(whole()))?;
        let name = name.trim();
        if name.is_empty() {
            return Err(GivenError::NoName(whole()));
        }
        let amount = amount.trim();
        let is_number = |c: char| c.is_ascii_digit() || matches!(c, '.' | '/' | '-' | '+');
        let end = amount.find(|c| !is_number(c)).unwrap_or(amount.len());
        let (number, unit) = amount.split_at(end);
        let unit = match unit.trim() {
            "" => Unit::Parts,
            "g" | "G" | "gram" | "grams" | "克" => Unit::Grams,
            _ => return Err(GivenError::NoUnit(whole())),
        };
        let number = number_of(number)
            .filter(|number| *number > 0.0 && *number < TOO_MUCH)
            .ok_or_else(|| GivenError::NoNumber(whole()))?;
        Ok(Self {
            name: name.to_owned(),
            amount: number,
            unit,
        })
    }
}

/// A number, or one divided by another.
fn number_of(words: &str) -> Option<f64> {
    match words.split_once('/') {
        Some((above, below)) => {
            let number = above.parse::<f64>().ok()? / below.parse::<f64>().ok()?;
            number.is_finite().then_some(number)
        }
        None => words.parse().ok(),
    }
}

/// Understands parts with colons between them: `2:1`, `3:2:1`.
///
/// # Errors
/// When one of them is not a number above zero.
///
/// ```
/// assert_eq!(kaoyi::pairing::parts("2:1").unwrap(), [2.0, 1.0]);
/// assert!(kaoyi::pairing::parts("2:0").is_err());
/// ```
pub fn parts(words: &str) -> Result<Vec<f64>, GivenError> {
    let part = |part: &str| {
        number_of(part.trim())
            .filter(|number| *number > 0.0 && *number < TOO_MUCH)
            .ok_or_else(|| GivenError::NoNumber(part.to_owned()))
    };
    words.split([':', '：']).map(part).collect()
}
