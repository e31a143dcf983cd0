//! The nearest valid choice to a word that is not one.

use super::fold;

/// At most so many suggestions, all equally near.
const MOST: usize = 3;

/// The candidates nearest to `word`, best first; empty when none is near.
///
/// Nearness is the Damerau–Levenshtein distance (with transpositions) between folded spellings. A
/// candidate counts as near when the distance is at most a third of the longer spelling, at least
/// one. A Han word of two or three characters must keep its first: the last is often a common noun
/// (草, 花, 子) that tells nothing. Among equally near ones the order of `candidates` stands; what is
/// farther than the nearest is not offered.
///
/// ```
/// let herbs = ["bohe", "juhua", "chaihu"];
/// assert_eq!(kaoyi::text::nearest("bohee", herbs), ["bohe"]);
/// assert!(kaoyi::text::nearest("xyz", herbs).is_empty());
/// ```
#[must_use]
pub fn nearest<'c>(word: &str, candidates: impl IntoIterator<Item = &'c str>) -> Vec<&'c str> {
    let key = fold(word);
    let length = key.chars().count();
    if length == 0 {
        return Vec::new();
    }
    let mut best = usize::MAX;
    let mut found: Vec<&str> = Vec::new();
    for candidate in candidates {
        let other = fold(candidate);
        let longer = length.max(other.chars().count());
        let distance = strsim::damerau_levenshtein(&key, &other);
        let short_han = longer <= 3 && !key.is_ascii();
        let other_head = short_han && key.chars().next() != other.chars().next();
        if distance >= longer || distance > (longer / 3).max(1) || distance > best || other_head {
            continue;
        }
        if distance < best {
            best = distance;
            found.clear();
        }
        if !found.contains(&candidate) {
            found.push(candidate);
        }
    }
    found.truncate(MOST);
    found
}

#[cfg(test)]
mod tests {
    use super::nearest;
    use pretty_assertions::assert_eq;

    #[test]
    fn near_misses_are_offered_and_far_ones_are_not() {
        let words = [
            "bitter",
            "sweet",
            "sour",
            "salty",
            "bland",
            "warm",
            "slightly-warm",
            "薄荷",
            "蒲黃",
            "甘草",
        ];
        let cases: [(&str, &[&str], &str); 9] = [
            ("biter", &["bitter"], "a letter left out"),
            ("swete", &["sweet"], "two letters changed places"),
            (
                "slightly warm",
                &["slightly-warm"],
                "a blank for a hyphen is no distance",
            ),
            ("薄菏", &["薄荷"], "one Han character of two differs"),
            ("通草", &[], "甘草 shares only the common noun 草"),
            (
                "荷薄花",
                &[],
                "a different word with a shared character is not near",
            ),
            (
                "cold",
                &[],
                "bland shares letters, but more than a third differs",
            ),
            ("w", &[], "one letter says nothing"),
            ("", &[], "nothing is near to nothing"),
        ];
        for (typed, expected, reason) in cases {
            assert_eq!(nearest(typed, words), expected, "{reason}");
        }
    }

    #[test]
    fn equally_near_words_are_all_offered() {
        assert_eq!(nearest("sout", ["sour", "soup", "salt"]), ["sour", "soup"]);
    }
}
