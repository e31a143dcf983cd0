//! The names of the embedded herbs, folded and sorted when the program was built: who bears one is found without opening a
//! record.

use super::model::HerbId;

/// Lines `key`, tab, kind and number of the herb, sorted by key.
static KEYS: &str = include_str!(concat!(env!("OUT_DIR"), "/keys.txt"));
/// Lines `id`, tab, number of the herb, sorted by id.
static IDS: &str = include_str!(concat!(env!("OUT_DIR"), "/ids.txt"));

/// What a name is among an herb's names.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum NameKind {
    /// Its pinyin.
    Sound,
    /// Another of its main names.
    Main,
    /// Any other name.
    Other,
}

/// The herb whose id it is.
pub(super) fn by_id(id: &str) -> Option<HerbId> {
    let number = lines_of(IDS, id).next()?;
    number.parse().ok().map(HerbId)
}

/// The herbs that bear a folded name, with what it is among their names.
pub(super) fn bearing(key: &str) -> Vec<(HerbId, NameKind)> {
    let herb = |line: &str| {
        let kind = match line.as_bytes().first()? {
            b'p' => NameKind::Sound,
            b'm' => NameKind::Main,
            _ => NameKind::Other,
        };
        Some((HerbId(line.get(1..)?.parse().ok()?), kind))
    };
    lines_of(KEYS, key).filter_map(herb).collect()
}

/// What stands behind the tab in the lines of `table` that begin with `key` and a tab; the lines are sorted by bytes.
fn lines_of<'t>(table: &'t str, key: &str) -> impl Iterator<Item = &'t str> {
    let (mut from, mut to) = (0, table.len());
    while from < to {
        let middle = line_start(table, from.midpoint(to));
        if key_of(table, middle) < key {
            from = table[middle..]
                .find('\n')
                .map_or(table.len(), |end| middle + end + 1);
        } else {
            to = middle;
        }
    }
    let key = key.to_owned();
    let lines = table[from..].lines();
    let parted = lines.map_while(|line| line.split_once('\t'));
    parted
        .take_while(move |(one, _)| *one == key)
        .map(|(_, rest)| rest)
}

/// Where the line begins in which the byte `at` stands.
fn line_start(table: &str, at: usize) -> usize {
    let before = &table.as_bytes()[..at];
    before
        .iter()
        .rposition(|byte| *byte == b'\n')
        .map_or(0, |end| end + 1)
}

fn key_of(table: &str, start: usize) -> &str {
    let line = table[start..].lines().next().unwrap_or_default();
    line.split_once('\t').map_or(line, |(key, _)| key)
}

#[cfg(test)]
mod tests {
    use super::{IDS, KEYS, bearing, by_id, lines_of};
    use crate::corpus::embedded;
    use crate::text::fold;
    use pretty_assertions::assert_eq;

    #[test]
    fn every_name_leads_to_the_herbs_that_bear_it() {
        let corpus = embedded().unwrap();
        for (place, herb) in corpus.names().iter().enumerate() {
            assert_eq!(
                by_id(&herb.id).map(|id| id.0 as usize),
                Some(place),
                "{}",
                herb.id
            );
            for name in herb.all().filter(|name| !fold(name).is_empty()) {
                let bearers = bearing(&fold(name));
                assert!(
                    bearers.iter().any(|one| one.0.0 as usize == place),
                    "{} {name}",
                    herb.id
                );
            }
        }
    }

    #[test]
    fn the_first_and_the_last_line_are_found_and_what_is_not_there_is_not() {
        for table in [IDS, KEYS] {
            let lines: Vec<&str> = table.lines().collect();
            assert!(
                lines
                    .windows(2)
                    .all(|pair| pair[0].split('\t').next() <= pair[1].split('\t').next())
            );
            for line in [lines[0], lines[lines.len() - 1]] {
                let (key, rest) = line.split_once('\t').unwrap();
                assert!(lines_of(table, key).any(|one| one == rest));
            }
            assert_eq!(
                lines_of(table, "zzzz").count() + lines_of(table, "").count(),
                0
            );
        }
    }
}
