//! The nearest valid choice to a word that is not one.

use super::fold;

/// At most so many suggestions, all equally near.
const MOST: usize = 4;

/// No name is longer; what is longer is not compared.
const LONGEST: usize = 64;

/// The candidates nearest to `word`, best first; empty when none is near.
///
/// Nearness is the Damerau–Levenshtein distance (with transpositions) between folded spellings. A
/// candidate counts as near when the distance is at most a third of the longer spelling; of Latin
/// letters one may always differ. Two Han characters of which one differs are another word, not a slip.
/// Among equally near ones the order of `candidates` stands; what is farther than the nearest is not
/// offered. When none is near, those are offered that contain the word: four letters or two Han
/// characters at the least.
///
/// ```
/// let herbs = ["bohe", "juhua", "dried ginger"];
/// assert_eq!(kaoyi::text::nearest("bohee", herbs), ["bohe"]);
/// assert_eq!(kaoyi::text::nearest("ginger", herbs), ["dried ginger"]);
/// assert!(kaoyi::text::nearest("xyz", herbs).is_empty());
/// ```
#[must_use]
pub fn nearest<'c>(word: &str, candidates: impl IntoIterator<Item = &'c str>) -> Vec<&'c str> {
    let key = fold(word);
    let length = key.chars().count();
    if length == 0 || length > LONGEST {
        return Vec::new();
    }
    let han = !key.is_ascii();
    let (mut best, mut near): (usize, Vec<&str>) = (usize::MAX, Vec::new());
    let mut containing: Vec<&str> = Vec::new();
    for candidate in candidates {
        let other = fold(candidate);
        let longer = length.max(other.chars().count());
        let distance = strsim::damerau_levenshtein(&key, &other);
        let allowed = if han { longer / 3 } else { (longer / 3).max(1) };
        if distance < longer && distance <= allowed && distance <= best {
            if distance < best {
                best = distance;
                near.clear();
            }
            keep(&mut near, candidate);
        } else if length >= if han { 2 } else { 4 } && other.contains(&key) {
            keep(&mut containing, candidate);
        }
    }
    let mut found = if near.is_empty() { containing } else { near };
    found.truncate(MOST);
    found
}

fn keep<'c>(found: &mut Vec<&'c str>, candidate: &'c str) {
    if !found.contains(&candidate) {
        found.push(candidate);
    }
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
            "slight-warm",
            "薄荷",
            "蒲黃",
            "麥門冬",
        ];
        let cases: [(&str, &[&str], &str); 9] = [
            ("biter", &["bitter"], "a letter left out"),
            ("swete", &["sweet"], "two letters changed places"),
            (
                "slightly warm",
                &["slight-warm"],
                "a blank for a hyphen is no distance",
            ),
            (
                "薄菏",
                &[],
                "of two Han characters one differs: another word",
            ),
            ("麥門", &["麥門冬"], "two Han characters of a longer name"),
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
