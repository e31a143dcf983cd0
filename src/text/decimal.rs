//! Exact numbers as decimals, for showing them.

use super::Exact;

/// A number as decimals of at most `places` places, rounded half away from zero, without zeros at the end.
///
/// ```
/// use kaoyi::text::{decimal, numeral};
/// assert_eq!(decimal(&numeral("125/8").unwrap(), 3), "15.625");
/// assert_eq!(decimal(&numeral("1/3").unwrap(), 2), "0.33");
/// assert_eq!(decimal(&numeral("45").unwrap(), 3), "45");
/// ```
#[must_use]
pub fn decimal(number: &Exact, places: u32) -> String {
    let unit = Exact::from_integer(10.into()).pow(i32::try_from(places).unwrap_or(0));
    let scaled = (number * unit).round().to_integer().to_string();
    let (sign, digits) = match scaled.strip_prefix('-') {
        Some(digits) => ("-", digits),
        None => ("", scaled.as_str()),
    };
    let places = places as usize;
    let digits = format!("{digits:0>width$}", width = places + 1);
    let (whole, part) = digits.split_at(digits.len() - places);
    let part = part.trim_end_matches('0');
    if part.is_empty() {
        format!("{sign}{whole}")
    } else {
        format!("{sign}{whole}.{part}")
    }
}

/// A weight or volume as it is shown: three places, or more where fewer than three digits would be left of a small one.
///
/// ```
/// use kaoyi::text::{figure, numeral};
/// assert_eq!(figure(&numeral("413/30").unwrap()), "13.767");
/// assert_eq!(figure(&numeral("1/7000").unwrap()), "0.000143");
/// ```
#[must_use]
pub fn figure(number: &Exact) -> String {
    let mut places = 3;
    let mut left = number * Exact::from_integer(10.into());
    // Below a tenth each place more keeps one digit more; beyond twelve nothing is weighed.
    while places < 12 && left < Exact::from_integer(1.into()) {
        left *= Exact::from_integer(10.into());
        places += 1;
    }
    decimal(number, places)
}

#[cfg(test)]
mod tests {
    use super::{Exact, decimal, figure};
    use pretty_assertions::assert_eq;
    use proptest::prelude::*;

    fn exact(above: i64, below: i64) -> Exact {
        Exact::new(above.into(), below.into())
    }

    #[test]
    fn halves_are_rounded_away_from_zero_and_zeros_fall_away() {
        let cases = [
            (exact(1, 8), 2, "0.13"),
            (exact(-1, 8), 2, "-0.13"),
            (exact(5, 2), 0, "3"),
            (exact(1999, 1000), 2, "2"),
            (exact(1, 10), 3, "0.1"),
            (exact(0, 1), 3, "0"),
        ];
        for (number, places, shown) in cases {
            assert_eq!(decimal(&number, places), shown);
        }
        assert_eq!(figure(&exact(1, 30)), "0.0333");
    }

    proptest! {
        #[test]
        fn what_is_shown_is_no_farther_than_half_a_place(above in 0_i64..1_000_000, below in 1_i64..1_000_000) {
            let number = exact(above, below);
            let shown: String = decimal(&number, 3);
            let back: f64 = shown.parse().unwrap();
            prop_assert!((back - above as f64 / below as f64).abs() <= 0.000_500_001);
        }
    }
}
