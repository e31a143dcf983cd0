//! Han and Arabic numerals as exact fractions.

use std::fmt;

use num_rational::BigRational;
use unicode_normalization::UnicodeNormalization;

use super::han_number::{Han, han};

/// An exact number: a fraction of two whole numbers of any size.
pub type Exact = BigRational;

/// No number that is read is greater: nobody weighs a million of anything here.
pub const LARGEST: u32 = 1_000_000;

/// So many digits may stand on either side of a point or a stroke.
const DIGITS: usize = 9;

/// A numeral that cannot be read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NumeralFault {
    /// The character at which it shows, from 1.
    pub at: usize,
    /// What stands there.
    pub found: String,
    /// What was expected.
    pub expected: &'static str,
}

impl fmt::Display for NumeralFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self {
            at,
            found,
            expected,
        } = self;
        write!(f, "found {found} at character {at}, expected {expected}")
    }
}

impl std::error::Error for NumeralFault {}

const NUMBER: &str = "a number, such as 3, 2.5, 1/2, 三, 十二 or 半";
const ABOVE_ZERO: &str = "a number above zero";
const NOT_GREATER: &str = "a number of at most 1000000";

/// The exact number that the whole of `text` writes: Han numerals with their financial forms (十二, 廿, 壹佰, 半,
/// 三分之一), digits of any width (12, 2.5, 1/2, 1 1/2) and ½. It is above zero and at most a million.
///
/// # Errors
/// When it is no such number; the fault names the place and what was expected.
///
/// ```
/// use kaoyi::text::numeral;
/// let half = numeral("半").unwrap();
/// assert_eq!(half, numeral("1/2").unwrap());
/// assert_eq!(half, numeral("０.５").unwrap());
/// assert_eq!(numeral("廿四").unwrap(), numeral("24").unwrap());
/// assert_eq!(numeral("十x").unwrap_err().at, 2);
/// ```
pub fn numeral(text: &str) -> Result<Exact, NumeralFault> {
    let words = Letters::new(text);
    let start = words.skip_blanks(0);
    let Some((number, end)) = words.number(start)? else {
        return Err(words.fault(start, NUMBER));
    };
    let end = words.skip_blanks(end);
    match words.get(end) {
        Some(_) => Err(words.fault(end, "nothing more after the number")),
        None => Ok(number),
    }
}

/// A text as characters in their ordinary width, for reading numbers within it.
pub(crate) struct Letters(Vec<char>);

impl Letters {
    /// The characters of `text`. Each stays one character, so that places are those of what was typed.
    pub(crate) fn new(text: &str) -> Self {
        Self(text.chars().map(ordinary).collect())
    }

    /// The character at a place from 0.
    pub(crate) fn get(&self, at: usize) -> Option<char> {
        self.0.get(at).copied()
    }

    /// The characters from a place on.
    pub(crate) fn from(&self, at: usize) -> &[char] {
        self.0.get(at..).unwrap_or_default()
    }

    /// The first place from `at` on that is no blank.
    pub(crate) fn skip_blanks(&self, at: usize) -> usize {
        let blanks = self.from(at).iter().take_while(|c| c.is_whitespace());
        at + blanks.count()
    }

    /// A fault at a place from 0.
    pub(crate) fn fault(&self, at: usize, expected: &'static str) -> NumeralFault {
        NumeralFault {
            at: at + 1,
            found: self
                .get(at)
                .map_or("nothing".to_owned(), |c| format!("`{c}`")),
            expected,
        }
    }

    /// The number that begins at `at` with the place behind it; `None` where none begins there.
    ///
    /// # Errors
    /// When one begins there and cannot be read, is zero, negative or too great.
    pub(crate) fn number(&self, at: usize) -> Result<Option<(Exact, usize)>, NumeralFault> {
        let read = match self.get(at) {
            Some('0'..='9') => self.arabic(at)?,
            Some('-' | '−' | '負' | '负' | '+') => return Err(self.fault(at, ABOVE_ZERO)),
            Some(c) if vulgar(c).is_some() => (self.vulgar(at)?, at + 1),
            Some('半') => (ratio(1, 2), at + 1),
            Some(c) if han(c).is_some() => self.han(at)?,
            _ => return Ok(None),
        };
        if *read.0.numer() == 0.into() {
            return Err(self.fault(at, ABOVE_ZERO));
        }
        if read.0 > Exact::from_integer(LARGEST.into()) {
            return Err(self.fault(at, NOT_GREATER));
        }
        Ok(Some(read))
    }

    /// `12`, `2.5`, `1/2`, `1 1/2`, `1½`.
    fn arabic(&self, at: usize) -> Result<(Exact, usize), NumeralFault> {
        let (whole, end) = self.digits(at)?;
        match self.get(end) {
            Some('.') => {
                let (part, behind) = self.digits(end + 1)?;
                let places = u32::try_from(behind - end - 1).unwrap_or(u32::MAX);
                let part = ratio(part, 10_u64.saturating_pow(places));
                Ok((ratio(whole, 1) + part, behind))
            }
            Some('/' | '⁄') => self.over(whole, end),
            Some(c) if vulgar(c).is_some() => Ok((ratio(whole, 1) + self.vulgar(end)?, end + 1)),
            _ => {
                // A fraction after a blank belongs to the whole number: 1 1/2.
                let next = self.skip_blanks(end);
                let more = (next > end).then(|| self.digits(next).ok()).flatten();
                match more {
                    Some((above, stroke)) if matches!(self.get(stroke), Some('/' | '⁄')) => {
                        let (part, behind) = self.over(above, stroke)?;
                        Ok((ratio(whole, 1) + part, behind))
                    }
                    _ => Ok((ratio(whole, 1), end)),
                }
            }
        }
    }

    /// What stands under the stroke at `stroke`.
    fn over(&self, above: u64, stroke: usize) -> Result<(Exact, usize), NumeralFault> {
        let (below, end) = self.digits(stroke + 1)?;
        if below == 0 {
            return Err(self.fault(stroke + 1, "a number above zero under the stroke"));
        }
        Ok((ratio(above, below), end))
    }

    /// Digits as a whole number.
    fn digits(&self, at: usize) -> Result<(u64, usize), NumeralFault> {
        let digits = self.from(at).iter().map_while(|c| c.to_digit(10));
        let digits: Vec<u32> = digits.take(DIGITS + 1).collect();
        match digits.len() {
            0 => Err(self.fault(at, "a digit")),
            count if count > DIGITS => Err(self.fault(at, "at most 9 digits in a row")),
            count => {
                let number = digits.iter().fold(0, |sum, d| sum * 10 + u64::from(*d));
                Ok((number, at + count))
            }
        }
    }

    /// `½` and the like.
    fn vulgar(&self, at: usize) -> Result<Exact, NumeralFault> {
        let parts = self.get(at).and_then(vulgar);
        match parts {
            Some((above, below)) if below > 0 => Ok(ratio(above, below)),
            _ => Err(self.fault(at, NUMBER)),
        }
    }

    /// `三`, `十二`, `三分之一`.
    fn han(&self, at: usize) -> Result<(Exact, usize), NumeralFault> {
        let (first, end) = self.han_whole(at)?;
        if self.get(end) != Some('分') || self.get(end + 1) != Some('之') {
            return Ok((ratio(first, 1), end));
        }
        if first == 0 {
            return Err(self.fault(at, ABOVE_ZERO));
        }
        let begins = self.get(end + 2).and_then(han).is_some();
        if !begins {
            return Err(self.fault(end + 2, "a Han numeral after 分之"));
        }
        let (above, behind) = self.han_whole(end + 2)?;
        Ok((ratio(above, first), behind))
    }

    /// A whole number in Han numerals: thousands before hundreds before tens before ones, a gap told by 零.
    fn han_whole(&self, start: usize) -> Result<(u64, usize), NumeralFault> {
        let (mut total, mut section, mut digit) = (0_u64, 0_u64, None::<u64>);
        // The unit below which the next one must stand.
        let (mut below, mut zero, mut at) = (u64::MAX, false, start);
        while let Some(sign) = self.get(at).and_then(han) {
            match sign {
                Han::Digit(_) | Han::Tens(_) if digit.is_some() => {
                    return Err(self.fault(at, "十, 百, 千 or 萬 between two numerals"));
                }
                Han::Digit(0) => zero = true,
                Han::Digit(one) => digit = Some(one),
                Han::Tens(tens) if below > 10 => {
                    section += tens * 10;
                    (below, zero) = (10, false);
                }
                Han::Unit(10_000)
                    if total == 0 && (section > 0 || digit.is_some() || at == start) =>
                {
                    total = (section + digit.take().unwrap_or(0)).max(1) * 10_000;
                    (section, below, zero) = (0, 10_000, false);
                }
                Han::Unit(unit) if unit < below && unit < 10_000 => {
                    section += digit.take().unwrap_or(1) * unit;
                    (below, zero) = (unit, false);
                }
                Han::Tens(_) | Han::Unit(_) => {
                    return Err(self.fault(at, "greater units before smaller ones"));
                }
            }
            at += 1;
        }
        // 一百二 may be 120 or 102: it is not guessed.
        if digit.is_some() && below > 10 && below != u64::MAX && !zero {
            return Err(self.fault(
                at,
                "十 or 百 after it, or 零 before it: 一百二十 or 一百零二",
            ));
        }
        Ok((total + section + digit.unwrap_or(0), at))
    }
}

/// `above` over `below`, which is not zero.
fn ratio(above: u64, below: u64) -> Exact {
    Exact::new(above.into(), below.max(1).into())
}

/// A character in its ordinary width and form; one that would become several stays as it is.
fn ordinary(c: char) -> char {
    let mut forms = std::iter::once(c).nfkc();
    match (forms.next(), forms.next()) {
        (Some(one), None) => one,
        _ => c,
    }
}

/// The two numbers of a fraction that is one character.
fn vulgar(c: char) -> Option<(u64, u64)> {
    let whole: String = std::iter::once(c).nfkc().collect();
    let (above, below) = whole.split_once('⁄')?;
    if above.is_empty() {
        return None;
    }
    Some((above.parse().ok()?, below.parse().unwrap_or(0)))
}

#[cfg(test)]
mod tests {
    use super::{Exact, Han, han, numeral};
    use crate::text::han_numeral;
    use pretty_assertions::assert_eq;
    use proptest::prelude::*;

    fn exact(above: u64, below: u64) -> Exact {
        Exact::new(above.into(), below.into())
    }

    #[test]
    fn numerals_of_every_manner_are_exact() {
        let cases = [
            ("三", 3, 1),
            ("十", 10, 1),
            ("十二", 12, 1),
            ("二十", 20, 1),
            ("廿", 20, 1),
            ("廿四", 24, 1),
            ("卅", 30, 1),
            ("卌八", 48, 1),
            ("百", 100, 1),
            ("一百零五", 105, 1),
            ("一百〇五", 105, 1),
            ("百二十", 120, 1),
            ("一百廿", 120, 1),
            ("一千二百", 1200, 1),
            ("三萬二千", 32_000, 1),
            ("壹佰貳拾", 120, 1),
            ("叁", 3, 1),
            ("半", 1, 2),
            ("三分之一", 1, 3),
            ("1/2", 1, 2),
            ("2.5", 5, 2),
            ("½", 1, 2),
            ("1½", 3, 2),
            ("1 1/2", 3, 2),
            ("３", 3, 1),
            ("２．５", 5, 2),
            (" 12 ", 12, 1),
            ("1000000", 1_000_000, 1),
        ];
        for (text, above, below) in cases {
            assert_eq!(numeral(text), Ok(exact(above, below)), "{text}");
        }
    }

    #[test]
    fn what_is_no_number_is_told_with_its_place() {
        let cases = [
            ("", 1, "a number,"),
            ("x", 1, "a number,"),
            ("0", 1, "above zero"),
            ("零", 1, "above zero"),
            ("-3", 1, "above zero"),
            ("1/0", 3, "under the stroke"),
            ("2.", 3, "a digit"),
            ("1/", 3, "a digit"),
            ("12345678901", 1, "at most 9 digits"),
            ("1000001", 1, "at most 1000000"),
            ("九千萬", 1, "at most 1000000"),
            ("壹貳", 2, "between two numerals"),
            ("十百", 2, "greater units before smaller"),
            ("一百二", 4, "一百二十 or 一百零二"),
            ("三分之", 4, "after 分之"),
            ("十x", 2, "nothing more"),
            ("兩", 1, "a number,"),
            ("⅟", 1, "a number"),
        ];
        for (text, at, expected) in cases {
            let fault = numeral(text).unwrap_err();
            assert_eq!(fault.at, at, "{text}: {fault}");
            assert!(fault.expected.contains(expected), "{text}: {fault}");
        }
    }

    #[test]
    fn every_unit_stands_for_a_power_of_ten() {
        let units: Vec<_> = "十百千萬".chars().filter_map(han).collect();
        assert_eq!(units, [10, 100, 1000, 10_000].map(Han::Unit));
    }

    proptest! {
        #[test]
        fn numerals_go_there_and_back(number in 1_u32..=9999) {
            let whole = exact(u64::from(number), 1);
            prop_assert_eq!(numeral(&han_numeral(number)), Ok(whole.clone()));
            prop_assert_eq!(numeral(&number.to_string()), Ok(whole));
        }

        #[test]
        fn fractions_and_decimals_are_what_they_say(above in 1_u64..100_000, below in 1_u64..100_000) {
            prop_assert_eq!(numeral(&format!("{above}/{below}")), Ok(exact(above, below)));
            let decimal = format!("{above}.{below:05}");
            prop_assert_eq!(numeral(&decimal), Ok(exact(above * 100_000 + below, 100_000)));
        }

        #[test]
        fn no_text_makes_it_panic(text in "[0-9./ 一二三十百千萬零半分之兩廿½-]{0,12}|\\PC{0,12}") {
            let _ = numeral(&text);
        }
    }
}
