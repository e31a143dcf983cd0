//! A circle's plan: one herb a week, steeped in the evening and tasted in the morning after.

use std::fmt;
use std::str::FromStr;

use jiff::civil::{Date, DateTime, Time};
use jiff::{Span, ToSpan as _};

/// How often a circle meets.
///
/// ```
/// use kaoyi::tasting::Every;
/// assert_eq!("week".parse::<Every>(), "1 week".parse());
/// assert!("2 weeks".parse::<Every>().is_ok() && "0 weeks".parse::<Every>().is_err());
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Every {
    /// So many days.
    Days(u16),
    /// So many weeks.
    Weeks(u16),
    /// So many months, on the day of the first; in a month that has no such day on its last one.
    Months(u16),
}

/// A word that is no interval, with what is expected.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct EveryError;

impl fmt::Display for EveryError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("expected day, week, month, or a number with one of these: 2 weeks")
    }
}

impl std::error::Error for EveryError {}

/// The longest interval, in its own unit.
const LONGEST: u16 = 366;

impl FromStr for Every {
    type Err = EveryError;

    fn from_str(words: &str) -> Result<Self, EveryError> {
        let words = words.trim().to_lowercase();
        let digits = words.chars().take_while(char::is_ascii_digit).count();
        let (number, unit) = words.split_at(digits);
        let number = match number {
            "" => 1,
            digits => digits.parse().map_err(|_| EveryError)?,
        };
        if number == 0 || number > LONGEST {
            return Err(EveryError);
        }
        match unit.trim_start_matches([' ', '-']) {
            "day" | "days" => Ok(Self::Days(number)),
            "week" | "weeks" => Ok(Self::Weeks(number)),
            "month" | "months" => Ok(Self::Months(number)),
            _ => Err(EveryError),
        }
    }
}

impl fmt::Display for Every {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (number, unit) = match self {
            Self::Days(number) => (number, "day"),
            Self::Weeks(number) => (number, "week"),
            Self::Months(number) => (number, "month"),
        };
        match number {
            1 => f.write_str(unit),
            more => write!(f, "{more} {unit}s"),
        }
    }
}

impl Every {
    /// From the first meeting to the one at `place`, from 0.
    fn after(self, place: usize) -> Option<Span> {
        let times = |number: u16| i64::try_from(place).ok()?.checked_mul(i64::from(number));
        match self {
            Self::Days(number) => Span::new().try_days(times(number)?).ok(),
            Self::Weeks(number) => Span::new().try_weeks(times(number)?).ok(),
            Self::Months(number) => Span::new().try_months(times(number)?).ok(),
        }
    }
}

/// One meeting: times by the clock on the wall, wherever that is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Meeting {
    /// When the herb is steeped.
    pub steep: DateTime,
    /// When that is done.
    pub steeped: DateTime,
    /// When it is tasted.
    pub taste: DateTime,
    /// When that is done.
    pub tasted: DateTime,
}

/// How long it takes to weigh an herb and pour on the water, in minutes (common practice, no source).
const STEEPING: i64 = 30;
/// How long a circle tastes and talks, in minutes (common practice, no source).
const TASTING: i64 = 60;

/// So many meetings from a day on, each with its tasting `hours` later; `None` where they would go beyond the calendar
/// (the year 9999).
///
/// ```
/// use jiff::civil::{date, time};
/// use kaoyi::tasting::{Every, meetings};
/// let two = meetings(2, date(2027, 1, 4), time(18, 0, 0, 0), Every::Weeks(1), 12).unwrap();
/// assert_eq!(two[1].steep.to_string(), "2027-01-11T18:00:00");
/// assert_eq!(two[1].taste.to_string(), "2027-01-12T06:00:00");
/// ```
#[must_use]
pub fn meetings(
    count: usize,
    from: Date,
    at: Time,
    every: Every,
    hours: u8,
) -> Option<Vec<Meeting>> {
    let meeting = |place| {
        let steep = from.checked_add(every.after(place)?).ok()?.to_datetime(at);
        let taste = steep.checked_add(i64::from(hours).hours()).ok()?;
        Some(Meeting {
            steep,
            steeped: steep.checked_add(STEEPING.minutes()).ok()?,
            taste,
            tasted: taste.checked_add(TASTING.minutes()).ok()?,
        })
    };
    (0..count).map(meeting).collect()
}

#[cfg(test)]
mod tests {
    use super::{Every, meetings};
    use jiff::civil::{date, time};
    use pretty_assertions::assert_eq;
    use proptest::prelude::*;

    #[test]
    fn a_month_without_the_day_takes_its_last_and_the_next_has_it_again() {
        let days: Vec<_> = meetings(
            3,
            date(2027, 1, 31),
            time(18, 0, 0, 0),
            Every::Months(1),
            12,
        )
        .unwrap()
        .iter()
        .map(|one| one.steep.date().to_string())
        .collect();
        assert_eq!(days, ["2027-01-31", "2027-02-28", "2027-03-31"]);
    }

    #[test]
    fn beyond_the_calendar_there_is_no_plan() {
        let from = date(9999, 12, 20);
        assert_eq!(
            meetings(3, from, time(18, 0, 0, 0), Every::Weeks(1), 12),
            None
        );
    }

    proptest! {
        #[test]
        fn an_interval_is_read_as_it_is_written(number in 1_u16..=366, unit in 0..3) {
            let every = match unit { 0 => Every::Days(number), 1 => Every::Weeks(number), _ => Every::Months(number) };
            prop_assert_eq!(every.to_string().parse(), Ok(every));
        }

        #[test]
        fn no_word_makes_it_panic(words in "\\PC{0,12}") {
            let _ = words.parse::<Every>();
        }
    }
}
