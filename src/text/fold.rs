//! One key for all the ways in which a name is typed.

use unicode_normalization::{UnicodeNormalization, char::is_combining_mark};

/// The key under which two spellings of a name are the same name.
///
/// Compatibility forms (full width) are made ordinary by NFKD (Unicode Standard Annex 15), letters
/// are lower-cased, combining marks (tones and other diacritics) dropped, tone numbers after a letter dropped,
/// and everything that is neither letter, digit nor Han character left out. `v` and `ü` both fold
/// to `u`, as both are typed for it. Traditional and simplified characters stay apart: see
/// [`crate::text::Converter`].
///
/// ```
/// use kaoyi::text::fold;
/// assert_eq!(fold("Bò he"), "bohe");
/// assert_eq!(fold("bo4he"), "bohe");
/// assert_eq!(fold("Ｂｏｈｅ"), "bohe");
/// assert_eq!(fold("lü"), fold("lv"));
/// assert_eq!(fold("薄 荷"), "薄荷");
/// ```
#[must_use]
pub fn fold(name: &str) -> String {
    let mut key = String::with_capacity(name.len());
    for c in name
        .nfkd()
        .filter(|c| !is_combining_mark(*c))
        .flat_map(char::to_lowercase)
    {
        let after_letter = key
            .chars()
            .next_back()
            .is_some_and(|last| last.is_ascii_alphabetic());
        match c {
            '1'..='5' if after_letter => {}
            'v' => key.push('u'),
            c if c.is_alphanumeric() => key.push(c),
            _ => {}
        }
    }
    key.nfkc().collect()
}

#[cfg(test)]
mod tests {
    use super::fold;
    use pretty_assertions::assert_eq;
    use proptest::prelude::*;

    #[test]
    fn pinyin_is_found_with_tones_numbers_apostrophes_and_spaces() {
        for typed in [
            "dāngguī",
            "dang gui",
            "dang1gui1",
            "Dang'gui",
            "DANGGUI",
            "dang-gui",
        ] {
            assert_eq!(fold(typed), "danggui", "{typed}");
        }
    }

    #[test]
    fn latin_case_and_diacritics_do_not_matter() {
        assert_eq!(fold("Zingíberis  RHIZÓMA"), "zingiberisrhizoma");
        assert_eq!(fold("Menthæ Herba"), "menthæherba");
    }

    #[test]
    fn lost_character_signs_and_punctuation_fall_away() {
        assert_eq!(fold("吳菝□"), "吳菝");
    }

    proptest! {
        #[test]
        fn folding_twice_is_folding_once(name in "\\PC{0,24}") {
            let once = fold(&name);
            prop_assert_eq!(fold(&once), once);
        }
    }
}
