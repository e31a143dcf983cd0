//! Amounts: numbers with units, as the books and their readers write them.

use std::fmt;

use super::units::{Measures, PeriodId, UnitId};
use crate::claim::{Quantity, UnitRecord};
use crate::text::{Exact, Letters, NumeralFault, decimal, fold, han_numeral, is_han, nearest};

/// What is longer is no amount.
const LONGEST: usize = 64;

/// An amount: one or more numbers with units of one quantity, each unit once.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Amount {
    /// Numbers and units, in the order in which they were written.
    pub parts: Vec<(Exact, UnitId)>,
    /// Whether it is a weight or a volume.
    pub quantity: Quantity,
}

/// An amount that cannot be read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct AmountFault {
    /// The character at which it shows, from 1.
    pub at: usize,
    /// What stands there.
    pub found: String,
    /// What was expected.
    pub expected: String,
    /// Units near to what stands there.
    pub nearest: Vec<String>,
}

impl fmt::Display for AmountFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self {
            at,
            found,
            expected,
            ..
        } = self;
        write!(f, "found {found} at character {at}, expected {expected}")
    }
}

impl std::error::Error for AmountFault {}

impl From<NumeralFault> for AmountFault {
    fn from(fault: NumeralFault) -> Self {
        Self {
            at: fault.at,
            found: fault.found,
            expected: fault.expected.to_owned(),
            nearest: Vec::new(),
        }
    }
}

impl Measures<'_> {
    /// The amount that `text` writes: `三兩`, `一兩二錢`, `三兩半`, `兩半`, `半斤`, `3 liang`, `1 1/2 jin`. A unit without
    /// a number before 半 stands for one of it; 兩 where a number is wanted and a unit follows is two.
    ///
    /// # Errors
    /// When it is no such amount; the fault names the place and what was expected.
    ///
    /// ```
    /// let corpus = kaoyi::corpus::embedded().unwrap();
    /// let measures = kaoyi::measure::Measures::new(&corpus.vocabulary.measures).unwrap();
    /// assert_eq!(measures.amount("兩半"), measures.amount("1.5 liang"));
    /// assert_eq!(measures.amount("两钱"), measures.amount("2 qian"));
    /// assert_eq!(measures.amount("3 linag").unwrap_err().nearest, ["liang"]);
    /// ```
    pub fn amount(&self, text: &str) -> Result<Amount, AmountFault> {
        let length = text.chars().count();
        if length > LONGEST {
            return Err(AmountFault {
                at: LONGEST + 1,
                found: format!("{length} characters"),
                expected: format!("an amount of at most {LONGEST} characters"),
                nearest: Vec::new(),
            });
        }
        let letters = Letters::new(text);
        let mut parts: Vec<(Exact, UnitId)> = Vec::new();
        let mut at = letters.skip_blanks(0);
        while letters.get(at).is_some() || parts.is_empty() {
            let (number, unit, end) = self.part(&letters, at)?;
            if parts.iter().any(|(_, other)| *other == unit) {
                return Err(fault(&letters, at, "each unit once"));
            }
            let first = parts.first().map(|(_, other)| self.quantity(*other));
            if first.is_some_and(|first| first != self.quantity(unit)) {
                return Err(fault(&letters, at, "weights alone or volumes alone"));
            }
            parts.push((number, unit));
            at = letters.skip_blanks(end);
        }
        let quantity = parts.first().map(|(_, unit)| self.quantity(*unit));
        Ok(Amount {
            quantity: quantity.unwrap_or(Quantity::Weight),
            parts,
        })
    }

    /// One number with its unit, and the place behind it.
    fn part(&self, letters: &Letters, at: usize) -> Result<(Exact, UnitId, usize), AmountFault> {
        let (number, end) = match letters.number(at)? {
            Some((number, end)) => (number, end),
            None => return self.part_without_number(letters, at),
        };
        let place = letters.skip_blanks(end);
        let Some((unit, end)) = self.unit_at(letters, place) else {
            return Err(self.no_unit(letters, place));
        };
        match self.half_behind(letters, end) {
            Some(behind) => Ok((number + half(), unit, behind)),
            None => Ok((number, unit, end)),
        }
    }

    /// `兩半`: one and a half. `兩錢`: two qian.
    fn part_without_number(
        &self,
        letters: &Letters,
        at: usize,
    ) -> Result<(Exact, UnitId, usize), AmountFault> {
        let wanted = "a number above zero before the unit: 3 liang, 三兩, 半斤, 1/2 jin";
        let Some((unit, end)) = self.unit_at(letters, at) else {
            return Err(fault(letters, at, wanted));
        };
        if let Some(behind) = self.half_behind(letters, end) {
            return Ok((one() + half(), unit, behind));
        }
        let two = matches!(letters.get(at), Some('兩' | '两'));
        match self.unit_at(letters, letters.skip_blanks(end)) {
            Some((of, end)) if two => {
                let number = one() + one();
                match self.half_behind(letters, end) {
                    Some(behind) => Ok((number + half(), of, behind)),
                    None => Ok((number, of, end)),
                }
            }
            _ => Err(fault(letters, at, wanted)),
        }
    }

    /// The place behind a 半 that halves the unit before it, and is no number before a unit of its own.
    fn half_behind(&self, letters: &Letters, at: usize) -> Option<usize> {
        let begins_a_part = self.unit_at(letters, letters.skip_blanks(at + 1)).is_some();
        (letters.get(at) == Some('半') && !begins_a_part).then_some(at + 1)
    }

    /// The unit that is written at a place, with the place behind it.
    fn unit_at(&self, letters: &Letters, at: usize) -> Option<(UnitId, usize)> {
        let rest = letters.from(at);
        let word = word(rest);
        if !word.is_empty() {
            let key = fold(&word);
            let named = self
                .units()
                .find(|(_, unit)| names(unit).any(|name| fold(name) == key));
            return named.map(|(id, _)| (id, at + word.chars().count()));
        }
        let first = rest.first()?;
        let sign = |name: &str| {
            let mut name = name.chars();
            name.next() == Some(*first) && name.next().is_none()
        };
        let named = self.units().find(|(_, unit)| names(unit).any(sign));
        named.map(|(id, _)| (id, at + 1))
    }

    fn no_unit(&self, letters: &Letters, at: usize) -> AmountFault {
        let units: Vec<&str> = self.units().map(|(_, unit)| unit.id.as_str()).collect();
        let expected = format!("a unit: {}", units.join(", "));
        let word = word(letters.from(at));
        let mut fault = fault(letters, at, &expected);
        if !word.is_empty() {
            fault.found = format!("`{word}`");
            let all = self.units().flat_map(|(_, unit)| names(unit));
            for one in nearest(&word, all) {
                let mut of = self.units();
                let id = of.find(|(_, unit)| names(unit).any(|name| name == one));
                fault.nearest.extend(id.map(|(_, unit)| unit.id.clone()));
            }
            fault.nearest.dedup();
        }
        fault
    }
}

/// The letters of an alphabet that a text begins with.
fn word(rest: &[char]) -> String {
    let letter = |c: &&char| c.is_alphabetic() && !is_han(**c) || is_mark(**c);
    rest.iter().take_while(letter).collect()
}

/// A tone mark of its own behind its letter.
fn is_mark(c: char) -> bool {
    matches!(c, '\u{300}'..='\u{36f}')
}

fn names(unit: &UnitRecord) -> impl Iterator<Item = &str> {
    let main = [
        &unit.id,
        &unit.hant,
        &unit.hans,
        &unit.pinyin,
        &unit.english,
    ];
    main.into_iter().chain(&unit.also).map(String::as_str)
}

fn fault(letters: &Letters, at: usize, expected: &str) -> AmountFault {
    AmountFault {
        at: at + 1,
        found: letters
            .get(at)
            .map_or("nothing".to_owned(), |c| format!("`{c}`")),
        expected: expected.to_owned(),
        nearest: Vec::new(),
    }
}

/// So many places behind the point are read.
const FINEST: u32 = 9;

/// Whether a number has so many places that as a fraction it could not be read again.
fn finest(number: &Exact) -> bool {
    let most = Exact::from_integer(10.into()).pow(FINEST as i32);
    *number.denom() >= most.to_integer() && (number * most).is_integer()
}

fn one() -> Exact {
    Exact::from_integer(1.into())
}

fn half() -> Exact {
    Exact::new(1.into(), 2.into())
}

impl Amount {
    /// How many of `unit` the amount is in a period; `None` where its units do not hold each other there.
    #[must_use]
    pub fn in_unit(
        &self,
        measures: &Measures<'_>,
        period: PeriodId,
        unit: UnitId,
    ) -> Option<Exact> {
        let mut sum = Exact::from_integer(0.into());
        for (number, of) in &self.parts {
            sum += number * measures.ratio(period, *of, unit)?;
        }
        Some(sum)
    }

    /// The amount in letters: `1 jin 2 1/2 liang`. A fraction of more digits than can be read stands as a decimal where that is exact.
    #[must_use]
    pub fn words(&self, measures: &Measures<'_>) -> String {
        let part = |(number, unit): &(Exact, UnitId)| {
            let whole = number.to_integer();
            let rest = number.fract();
            let number = match (whole == 0.into(), number.is_integer()) {
                (_, true) => whole.to_string(),
                _ if finest(number) => decimal(number, FINEST),
                (true, _) => rest.to_string(),
                _ => format!("{whole} {rest}"),
            };
            format!("{number} {}", measures.unit(*unit).id)
        };
        self.parts.iter().map(part).collect::<Vec<_>>().join(" ")
    }

    /// The amount in Han characters, `一斤二兩半`; `None` where a number is neither whole nor ends in a half, or is beyond
    /// 9999.
    #[must_use]
    pub fn han(&self, measures: &Measures<'_>) -> Option<String> {
        let mut written = String::new();
        for (number, unit) in &self.parts {
            let whole: u32 = number.to_integer().try_into().ok()?;
            let rest = number.fract();
            let halved = rest == half();
            if whole > 9999 || !(halved || number.is_integer()) {
                return None;
            }
            let unit = &measures.unit(*unit).hant;
            written.push_str(&match (whole, halved) {
                (0, _) => format!("半{unit}"),
                (_, true) => format!("{}{unit}半", han_numeral(whole)),
                (_, false) => format!("{}{unit}", han_numeral(whole)),
            });
        }
        Some(written)
    }
}
