//! A day of the calendar, as written: 2026-03-14.

use std::borrow::Cow;
use std::fmt;
use std::str::FromStr;

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::{Deserialize, Serialize};

use super::score::RangeError;

/// A day of the Gregorian calendar, from the year 1000 to 9999.
///
/// ```
/// use kaoyi::tasting::Day;
/// let day: Day = "2026-03-14".parse().unwrap();
/// assert_eq!(day.to_string(), "2026-03-14");
/// assert!("2026-02-29".parse::<Day>().is_err(), "no leap year");
/// assert!("14.3.2026".parse::<Day>().is_err() && "2026-3-14".parse::<Day>().is_err());
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct Day {
    year: u16,
    month: u8,
    day: u8,
}

impl Day {
    /// The first day that can be written.
    pub const FIRST: Self = Self {
        year: 1000,
        month: 1,
        day: 1,
    };

    /// The day of these numbers, where the calendar has it.
    #[must_use]
    pub fn new(year: u16, month: u8, day: u8) -> Option<Self> {
        let fits = (1000..=9999).contains(&year) && (1..=days_in(year, month)).contains(&day);
        fits.then_some(Self { year, month, day })
    }

    /// What may be written, in words.
    #[must_use]
    pub fn expected() -> String {
        "a day such as 2026-03-14 (year-month-day)".to_owned()
    }
}

/// How many days a month has; 0 where there is no such month.
fn days_in(year: u16, month: u8) -> u8 {
    let leap = year.is_multiple_of(4) && (!year.is_multiple_of(100) || year.is_multiple_of(400));
    match month {
        2 if leap => 29,
        2 => 28,
        4 | 6 | 9 | 11 => 30,
        1 | 3 | 5 | 7 | 8 | 10 | 12 => 31,
        _ => 0,
    }
}

impl FromStr for Day {
    type Err = RangeError;

    fn from_str(words: &str) -> Result<Self, RangeError> {
        let number = |from: usize, to: usize| {
            let digits = words.get(from..to)?;
            let plain = digits.bytes().all(|byte| byte.is_ascii_digit());
            plain.then(|| digits.parse::<u16>().ok())?
        };
        let parts = || {
            let hyphens = words.len() == 10 && words.get(4..5)? == "-" && words.get(7..8)? == "-";
            let (year, month, day) = (number(0, 4)?, number(5, 7)?, number(8, 10)?);
            let day = Self::new(year, u8::try_from(month).ok()?, u8::try_from(day).ok()?);
            day.filter(|_| hyphens)
        };
        parts().ok_or_else(|| RangeError {
            found: words.to_owned(),
            expected: Self::expected(),
        })
    }
}

impl TryFrom<String> for Day {
    type Error = RangeError;

    fn try_from(words: String) -> Result<Self, RangeError> {
        words.parse()
    }
}

impl From<Day> for String {
    fn from(day: Day) -> Self {
        day.to_string()
    }
}

impl fmt::Display for Day {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:04}-{:02}-{:02}", self.year, self.month, self.day)
    }
}

impl JsonSchema for Day {
    fn schema_name() -> Cow<'static, str> {
        "Day".into()
    }

    fn inline_schema() -> bool {
        true
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({ "type": "string", "format": "date" })
    }
}
