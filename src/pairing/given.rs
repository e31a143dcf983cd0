//! Herbs with amounts, as they are typed.

use std::fmt;

use num_traits::ToPrimitive;

use crate::claim::Quantity;
use crate::measure::{Amount, AmountFault, Measures, PeriodId, UnitId};

/// What an amount is counted in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Unit {
    /// Grams.
    Grams,
    /// Parts of the whole.
    Parts,
    /// A unit of old, in the measures of its period.
    Old(UnitId),
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
    /// How it was written, in units of old.
    pub written: Option<Amount>,
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
    /// It is no amount in units of old.
    NotOld(String, AmountFault),
    /// It is a volume, and what that weighs of an herb is not on record.
    Volume(String),
    /// The period does not know the unit; with the units that it knows.
    NotOfPeriod(String, String),
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
                write!(
                    f,
                    "`{words}`: expected g for grams, no unit for parts, or with --period units of old"
                )
            }
            Self::NotOld(words, fault) => {
                write!(f, "`{words}`: {fault}")?;
                if fault.nearest.is_empty() {
                    return Ok(());
                }
                write!(f, "; near: {}", fault.nearest.join(", "))
            }
            Self::Volume(words) => write!(
                f,
                "`{words}` is a volume, and what that weighs of the herb is not on record; expected a weight"
            ),
            Self::NotOfPeriod(words, known) => write!(f, "`{words}`: expected {known}"),
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
        let (name, amount) = cut(words)?;
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
            written: None,
        })
    }

    /// Understands `HERB=三兩` and `HERB=1 1/2 liang` by the measures of a period; the amount is told in `unit`, and
    /// without one in the first unit that is written.
    ///
    /// # Errors
    /// When there is no name or amount, or it is no weight in units that the period knows.
    ///
    /// ```
    /// use kaoyi::{corpus, measure::Measures, pairing::Given};
    /// let corpus = corpus::embedded().unwrap();
    /// let measures = Measures::new(&corpus.vocabulary.measures).unwrap();
    /// let han = measures.period("han").unwrap();
    /// let peony = Given::parse_old("芍藥=一斤二兩", (&measures, han), None).unwrap();
    /// assert_eq!(peony.amount, 1.125);
    /// assert!(Given::parse_old("半夏=半升", (&measures, han), None).is_err());
    /// ```
    pub fn parse_old(
        words: &str,
        (measures, period): (&Measures<'_>, PeriodId),
        unit: Option<UnitId>,
    ) -> Result<Self, GivenError> {
        let whole = || words.to_owned();
        let (name, text) = cut(words)?;
        let written = measures
            .amount(text)
            .map_err(|fault| GivenError::NotOld(whole(), fault))?;
        if written.quantity != Quantity::Weight {
            return Err(GivenError::Volume(whole()));
        }
        measures.fits(period, &written).map_err(|(_, known)| {
            GivenError::NotOfPeriod(whole(), measures.unit_of(period, &known))
        })?;
        let unit = unit.or_else(|| written.parts.first().map(|part| part.1));
        let told = unit.and_then(|unit| Some((unit, written.in_unit(measures, period, unit)?)));
        let told = told.and_then(|(unit, exact)| Some((unit, exact.to_f64()?)));
        let (unit, amount) = told
            .filter(|(_, amount)| *amount > 0.0 && *amount < TOO_MUCH)
            .ok_or_else(|| GivenError::NoNumber(whole()))?;
        Ok(Self {
            name: name.to_owned(),
            amount,
            unit: Unit::Old(unit),
            written: Some(written),
        })
    }
}

/// The name and the amount.
fn cut(words: &str) -> Result<(&str, &str), GivenError> {
    let whole = || words.to_owned();
    let (name, amount) = words
        .split_once(['=', '＝'])
        .ok_or_else(|| GivenError::NoAmount(whole()))?;
    let (name, amount) = (name.trim(), amount.trim());
    if name.is_empty() {
        return Err(GivenError::NoName(whole()));
    }
    Ok((name, amount))
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
