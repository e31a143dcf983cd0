//! Scores and measures as exact numbers with their range: a score of 2.5 is five halves and never 2.4999.

use std::borrow::Cow;
use std::fmt;
use std::str::FromStr;

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::{Deserialize, Deserializer, Serialize, Serializer};

/// A number that is no value of its kind.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RangeError {
    /// What was found.
    pub found: String,
    /// What was expected.
    pub expected: String,
}

impl fmt::Display for RangeError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "`{}`: expected {}", self.found, self.expected)
    }
}

impl std::error::Error for RangeError {}

/// A number of equal steps, `$per` of which make one, from `$min` steps to `$max`. What lies between two steps is refused
/// where it is a score, since nobody meant the neighbour, and rounded where it is measured, since no scale is finer.
macro_rules! stepped {
    (@expected refused, $min:expr, $max:expr) => {
        format!("a number from {} to {}, halves allowed", $min, $max)
    };
    (@expected rounded, $min:expr, $max:expr) => {
        format!("a number from {} to {}", $min, $max)
    };
    (@fits refused, $exact:expr) => { $exact };
    (@fits rounded, $exact:expr) => { true };
    (@number 2, $steps:expr) => { $steps / 2 };
    (@number 1000, $steps:expr) => { f64::from($steps) / 1000.0 };
    (@schema refused, $least:expr, $greatest:expr) => {
        json_schema!({ "type": "number", "minimum": $least, "maximum": $greatest, "multipleOf": 0.5 })
    };
    (@schema rounded, $least:expr, $greatest:expr) => {
        json_schema!({ "type": "number", "minimum": $least, "maximum": $greatest })
    };
    ($(#[doc = $doc:literal])+ $name:ident, $per:tt, $min:literal ..= $max:literal, $finer:ident) => {
        $(#[doc = $doc])+
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
        pub struct $name(i32);

        impl $name {
            /// The least value.
            pub const MIN: Self = Self($min);
            /// The greatest value.
            pub const MAX: Self = Self($max);
            /// How many steps make one.
            pub const STEPS_IN_ONE: i32 = $per;

            /// The value of so many steps, where it is in range.
            #[must_use]
            pub const fn of_steps(steps: i32) -> Option<Self> {
                if steps < Self::MIN.0 || steps > Self::MAX.0 { None } else { Some(Self(steps)) }
            }

            /// The value counted in steps, exact.
            #[must_use]
            pub const fn steps(self) -> i32 {
                self.0
            }

            /// The value as a number.
            #[must_use]
            pub fn value(self) -> f64 {
                f64::from(self.0) / f64::from($per)
            }

            /// What may be written, in words.
            #[must_use]
            pub fn expected() -> String {
                stepped!(@expected $finer, Self::MIN, Self::MAX)
            }
        }

        impl TryFrom<f64> for $name {
            type Error = RangeError;

            fn try_from(value: f64) -> Result<Self, RangeError> {
                let steps = (value * f64::from($per)).round();
                let inside = steps >= f64::from($min) && steps <= f64::from($max);
                if inside && stepped!(@fits $finer, steps / f64::from($per) == value) {
                    // In range, so the conversion cannot cut anything off.
                    #[allow(clippy::cast_possible_truncation)]
                    return Ok(Self(steps as i32));
                }
                Err(RangeError { found: value.to_string(), expected: Self::expected() })
            }
        }

        impl FromStr for $name {
            type Err = RangeError;

            fn from_str(words: &str) -> Result<Self, RangeError> {
                let refused = || RangeError { found: words.to_owned(), expected: Self::expected() };
                words.trim().parse::<f64>().map_err(|_| refused())?.try_into().map_err(|_| refused())
            }
        }

        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                write!(f, "{}", self.value())
            }
        }

        impl Serialize for $name {
            fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                if !serializer.is_human_readable() {
                    serializer.serialize_i32(self.0)
                } else if self.0 % $per == 0 {
                    serializer.serialize_i32(self.0 / $per)
                } else {
                    serializer.serialize_f64(self.value())
                }
            }
        }

        impl<'de> Deserialize<'de> for $name {
            fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
                if deserializer.is_human_readable() {
                    return Self::try_from(f64::deserialize(deserializer)?).map_err(serde::de::Error::custom);
                }
                let steps = i32::deserialize(deserializer)?;
                Self::of_steps(steps).ok_or_else(|| serde::de::Error::custom(Self::expected()))
            }
        }

        impl JsonSchema for $name {
            fn schema_name() -> Cow<'static, str> {
                stringify!($name).into()
            }

            fn inline_schema() -> bool {
                true
            }

            fn json_schema(_: &mut SchemaGenerator) -> Schema {
                let (least, greatest) = (stepped!(@number $per, $min), stepped!(@number $per, $max));
                stepped!(@schema $finer, least, greatest)
            }
        }
    };
}

stepped! {
    /// How strong a taste is: from 0, not there, to 10, the strongest that the taster knows; halves are allowed.
    ///
    /// ```
    /// use kaoyi::tasting::Score;
    /// let acrid: Score = "2.5".parse().unwrap();
    /// assert_eq!((acrid.steps(), acrid.value()), (5, 2.5));
    /// assert!("2.3".parse::<Score>().is_err() && Score::try_from(11.0).is_err());
    /// ```
    Score, 2, 0..=20, refused
}

stepped! {
    /// How warm it feels within: from -5, cold, over 0, neutral, to 5, hot; halves are allowed.
    ///
    /// ```
    /// use kaoyi::tasting::Warmth;
    /// assert_eq!("-1.5".parse::<Warmth>().unwrap().value(), -1.5);
    /// assert!("-6".parse::<Warmth>().is_err());
    /// ```
    Warmth, 2, -10..=10, refused
}

stepped! {
    /// Grams, to the milligram; at most ten kilograms.
    ///
    /// ```
    /// assert_eq!("4.35".parse::<kaoyi::tasting::Grams>().unwrap().to_string(), "4.35");
    /// ```
    Grams, 1000, 1..=10_000_000, rounded
}

stepped! {
    /// Millilitres, at most a hundred litres.
    ///
    /// ```
    /// assert_eq!("250".parse::<kaoyi::tasting::Millilitres>().unwrap().value(), 250.0);
    /// ```
    Millilitres, 1000, 1..=100_000_000, rounded
}

stepped! {
    /// Degrees Celsius of the water that is poured on: from 0 to 150.
    ///
    /// ```
    /// assert!("212".parse::<kaoyi::tasting::Celsius>().is_err(), "Fahrenheit by mistake");
    /// ```
    Celsius, 1000, 0..=150_000, rounded
}

stepped! {
    /// Hours that the herb steeped, at most a thousand.
    ///
    /// ```
    /// assert_eq!("0.25".parse::<kaoyi::tasting::Hours>().unwrap().value(), 0.25);
    /// ```
    Hours, 1000, 0..=1_000_000, rounded
}
