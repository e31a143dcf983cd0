//! Changing single keys of a file that a person may have written: what is not changed stays as it stands, comments too.

use super::read::Reader;
use super::record::Tasting;
use super::write::{KEYS, blocks, tasting_yaml};

/// The text of a file in which the keys `changed` have the values of `tasting`. The lines of these keys are written anew;
/// all others stay. Where the file is not laid out with a key a line, it is written anew as a whole.
///
/// ```
/// use kaoyi::tasting::{Field, read_tasting, with_fields};
/// let vocabulary = kaoyi::corpus::embedded().unwrap().vocabulary;
/// let text = "herb: bohe # from the bed by the wall\namount: 3\ndate: 2026-03-14\n";
/// let mut tasting = read_tasting("mint.yaml", text, &vocabulary).unwrap();
/// Field::Amount.set(&mut tasting, "4.5").unwrap();
/// Field::Hours.set(&mut tasting, "12").unwrap();
/// assert_eq!(
///     with_fields(text, &tasting, &["amount", "hours"]),
///     "herb: bohe # from the bed by the wall\namount: 4.5\nhours: 12\ndate: 2026-03-14\n",
/// );
/// ```
#[must_use]
pub fn with_fields(text: &str, tasting: &Tasting, changed: &[&str]) -> String {
    let reader = Reader::new();
    let edited = edited(&reader, text, tasting, changed);
    let right = edited.filter(|text| {
        let read = reader.read("", text.clone(), &mut Vec::new());
        read.is_some_and(|reading| reading.record == *tasting)
    });
    right.unwrap_or_else(|| tasting_yaml(tasting))
}

fn edited(reader: &Reader, text: &str, tasting: &Tasting, changed: &[&str]) -> Option<String> {
    let reading = reader.read("", text.to_owned(), &mut Vec::new())?;
    let keys = reading.key_lines()?;
    let lines: Vec<&str> = reading.text().split_inclusive('\n').collect();
    let first = keys.first()?.1;
    let mut edited = lines.get(..first - 1)?.concat();
    let mut parts: Vec<(String, String)> = Vec::new();
    for (place, (key, line)) in keys.iter().enumerate() {
        let end = keys.get(place + 1).map_or(lines.len() + 1, |next| next.1);
        let mut part = lines.get(line - 1..end - 1)?.concat();
        if !part.ends_with('\n') {
            part.push('\n');
        }
        parts.push((key.clone(), part));
    }
    let new = blocks(tasting);
    for key in changed {
        let block = new
            .iter()
            .find(|(name, _)| name == key)
            .map(|(_, block)| block.clone());
        let at = parts.iter().position(|(name, _)| name == key);
        match (at, block) {
            (Some(at), Some(block)) => {
                let below = comments_below(&parts[at].1).to_owned();
                parts[at].1 = format!("{block}{below}");
            }
            (Some(at), None) => {
                let below = comments_below(&parts[at].1).to_owned();
                parts[at] = (String::new(), below);
            }
            (None, Some(block)) => {
                let at = place_of(key, &parts);
                parts.insert(at, ((*key).to_owned(), block));
            }
            (None, None) => {}
        }
    }
    edited.extend(parts.into_iter().map(|(_, part)| part));
    Some(edited)
}

/// The blank lines and comments at the margin that end the lines of a key: they belong to what follows.
fn comments_below(part: &str) -> &str {
    let mut start = part.len();
    for line in part.split_inclusive('\n').rev() {
        if !(line.starts_with('#') || line.trim().is_empty()) {
            break;
        }
        start -= line.len();
    }
    &part[start..]
}

/// Where a new key is put: behind the last of those that stand before it in the order of the notebook.
fn place_of(key: &str, parts: &[(String, String)]) -> usize {
    let rank = |key: &str| {
        KEYS.iter()
            .position(|one| *one == key)
            .unwrap_or(KEYS.len())
    };
    let before = |(name, _): &(String, String)| !name.is_empty() && rank(name) < rank(key);
    parts.iter().rposition(before).map_or(0, |last| last + 1)
}
