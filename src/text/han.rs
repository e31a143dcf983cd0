//! One form for all the ways in which a Han text is written, character for character.

use std::collections::HashMap;
use std::ops::RangeInclusive;
use std::sync::{Mutex, PoisonError};

use ferrous_opencc::{OpenCC, config::BuiltinConfig};
use unicode_normalization::UnicodeNormalization;

use super::ScriptError;
use super::variants::VARIANTS;

/// Whether a character is of the Han script: of the blocks of radicals and ideographs, their compatibility forms and extensions
/// (Unicode, Blocks.txt), or the zero 〇.
///
/// ```
/// assert!(kaoyi::text::is_han('薄') && kaoyi::text::is_han('〇'));
/// assert!(!kaoyi::text::is_han('、') && !kaoyi::text::is_han('a'));
/// ```
#[must_use]
pub const fn is_han(c: char) -> bool {
    matches!(c, '\u{2e80}'..='\u{2fdf}' | '\u{3007}' | '\u{3400}'..='\u{9fff}' | '\u{f900}'..='\u{faff}' | '\u{20000}'..='\u{323af}')
}

/// Folds traditional and simplified forms, variants, full-width letters and case, one character for one, so that the place
/// of a match in the folded text is its place in the text as recorded.
///
/// Compatibility forms are made ordinary (NFKC, Unicode Standard Annex 15), then each character by itself is made
/// simplified by the tables of Open Chinese Convert, then variants are folded by our own table.
///
/// ```
/// let folder = kaoyi::text::HanFolder::new().unwrap();
/// assert_eq!(folder.fold("欬逆上氣"), folder.fold("咳逆上气"));
/// assert_eq!(folder.fold("ＡＢ薑"), "ab姜");
/// assert_eq!(folder.fold("莨").chars().count(), 1);
/// ```
pub struct HanFolder {
    simplified: Simplified,
    known: Mutex<HashMap<char, char>>,
}

/// What makes a character simplified.
enum Simplified {
    /// The tables of the library.
    Tables(Box<OpenCC>),
    /// The characters that these tables change, sorted.
    Pairs(Vec<(char, char)>),
}

/// Where Han characters stand: radicals to compatibility forms, and the supplementary planes.
const HAN: [RangeInclusive<char>; 3] = [
    '\u{2e80}'..='\u{9fff}',
    '\u{f900}'..='\u{faff}',
    '\u{20000}'..='\u{323af}',
];

impl HanFolder {
    /// A folder; loading its tables takes a few milliseconds.
    ///
    /// # Errors
    /// When the tables are damaged.
    pub fn new() -> Result<Self, ScriptError> {
        let tables = OpenCC::from_config(BuiltinConfig::T2s);
        let tables = tables.map_err(|error| ScriptError::new(&error.to_string()))?;
        Ok(Self::of(Simplified::Tables(Box::new(tables))))
    }

    /// A folder from the pairs of another one, which takes no time.
    ///
    /// ```
    /// use kaoyi::text::HanFolder;
    /// let folder = HanFolder::new().unwrap();
    /// let again = HanFolder::from_pairs(folder.pairs());
    /// assert_eq!(again.fold("欬逆上氣，龍腦"), folder.fold("欬逆上氣，龍腦"));
    /// ```
    #[must_use]
    pub fn from_pairs(mut pairs: Vec<(char, char)>) -> Self {
        pairs.sort_unstable();
        Self::of(Simplified::Pairs(pairs))
    }

    fn of(simplified: Simplified) -> Self {
        let variants = VARIANTS.iter().map(|(from, to, _)| (*from, *to));
        Self {
            simplified,
            known: Mutex::new(variants.collect()),
        }
    }

    /// All Han characters that are made other ones, variants apart.
    #[must_use]
    pub fn pairs(&self) -> Vec<(char, char)> {
        let all: Vec<char> = HAN.into_iter().flatten().collect();
        let Simplified::Tables(tables) = &self.simplified else {
            let pairs = all.into_iter().map(|c| (c, self.simplified(c)));
            return pairs.filter(|(c, other)| c != other).collect();
        };
        // In one go, each on a line of its own, so that no two make a word.
        let lines: String = all.iter().flat_map(|c| [*c, '\n']).collect();
        let converted = tables.convert(&lines);
        let others = converted.lines().map(|line| only(line.chars()));
        let pairs = all.into_iter().zip(others);
        pairs
            .filter_map(|(c, other)| Some((c, other.filter(|other| *other != c)?)))
            .collect()
    }

    /// The text folded, as many characters as before.
    #[must_use]
    pub fn fold(&self, text: &str) -> String {
        // What is known holds whoever wrote it last: nothing in it is ever half done.
        let mut known = self.known.lock().unwrap_or_else(PoisonError::into_inner);
        text.chars().map(|c| self.one(&mut known, c)).collect()
    }

    fn one(&self, known: &mut HashMap<char, char>, c: char) -> char {
        if c.is_ascii() {
            return c.to_ascii_lowercase();
        }
        if let Some(known) = known.get(&c) {
            return *known;
        }
        let plain = only(std::iter::once(c).nfkc().flat_map(char::to_lowercase)).unwrap_or(c);
        let simplified = self.simplified(plain);
        // A variant may be written in traditional form only, or in simplified form only.
        let variant = |c: char| VARIANTS.iter().find(|one| one.0 == c).map(|one| one.1);
        let folded = variant(simplified).unwrap_or(simplified);
        known.insert(c, folded);
        folded
    }

    fn simplified(&self, c: char) -> char {
        match &self.simplified {
            Simplified::Tables(tables) => {
                only(tables.convert(c.encode_utf8(&mut [0; 4])).chars()).unwrap_or(c)
            }
            Simplified::Pairs(pairs) => {
                let place = pairs.binary_search_by_key(&c, |pair| pair.0);
                place.map_or(c, |place| pairs[place].1)
            }
        }
    }
}

/// The only character of a text; `None` where there are several.
fn only(mut characters: impl Iterator<Item = char>) -> Option<char> {
    let first = characters.next()?;
    characters.next().is_none().then_some(first)
}

#[cfg(test)]
mod tests {
    use super::super::variants::VARIANTS;
    use super::HanFolder;
    use pretty_assertions::assert_eq;
    use proptest::prelude::*;

    #[test]
    fn no_variant_is_folded_twice_or_to_two_forms() {
        let folder = HanFolder::new().unwrap();
        for (place, (from, to, why)) in VARIANTS.iter().enumerate() {
            assert!(
                VARIANTS.iter().all(|other| other.0 != *to),
                "{to} is folded on"
            );
            let mut others = VARIANTS[place + 1..].iter();
            assert!(others.all(|other| other.0 != *from), "{from} twice");
            assert!(!why.is_empty());
            assert_eq!(folder.fold(&from.to_string()), to.to_string(), "{from}");
            assert_eq!(folder.fold(&to.to_string()), to.to_string(), "{to} stays");
        }
    }

    /// Two drugs or two meanings: they must never become one. From memory.
    #[test]
    fn look_alikes_of_different_meaning_stay_apart() {
        let folder = HanFolder::new().unwrap();
        for (one, other) in [
            ("莨", "茛"),
            ("炙", "灸"),
            ("术", "木"),
            ("藁", "稿"),
            ("己", "已"),
            ("疸", "疽"),
            ("礜", "礬"),
            ("蘘", "穰"),
        ] {
            assert!(folder.fold(one) != folder.fold(other), "{one} {other}");
        }
    }

    #[test]
    fn the_two_scripts_and_common_variants_are_one() {
        let folder = HanFolder::new().unwrap();
        for (one, other) in [
            ("涼", "凉"),
            ("欬嗽", "咳嗽"),
            ("鬱", "郁"),
            ("濇", "涩"),
            ("痺", "痹"),
            ("煖", "暖"),
            ("麤", "粗"),
            ("薬", "药"),
            ("本草綱目", "本草纲目"),
        ] {
            assert_eq!(folder.fold(one), folder.fold(other));
        }
    }

    proptest! {
        #[test]
        fn as_many_characters_as_before_and_folding_twice_is_folding_once(text in "\\PC{0,24}") {
            let folder = HanFolder::new().unwrap();
            let once = folder.fold(&text);
            prop_assert_eq!(once.chars().count(), text.chars().count());
            prop_assert_eq!(folder.fold(&once), once);
        }
    }
}
