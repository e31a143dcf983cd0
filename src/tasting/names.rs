//! Names of a notebook's files: day, herb, and an ending that tells when it was added and is nobody else's.

use super::day::Day;

/// The digits of an ending: without letters that are taken for another.
const DIGITS: &[u8; 32] = b"0123456789abcdefghjkmnpqrstvwxyz";

/// Digits for the millisecond in which it was added; enough for the next thousand years.
const OF_TIME: usize = 9;

/// Digits drawn at random, so that two who add in one millisecond do not meet.
const AT_RANDOM: usize = 3;

/// How long an ending is.
pub const ENDING: usize = OF_TIME + AT_RANDOM;

/// The name, without `.yaml`, of a tasting of `herb` on `date` that is added `now`, in milliseconds of the clock that
/// began in 1970.
pub(super) fn name(date: Day, herb: &str, now: u64, random: &mut fastrand::Rng) -> String {
    let digit = |number: u64| char::from(DIGITS[(number % 32) as usize]);
    let time = (0..OF_TIME)
        .rev()
        .map(|place| digit(now >> (5 * place as u64)));
    let time: String = time.collect();
    let ending: String = (0..AT_RANDOM).map(|_| digit(random.u64(..32))).collect();
    format!("{date}-{}-{time}{ending}", plain(herb))
}

/// An herb's id, or what of another name can stand in a file's name on every system.
fn plain(herb: &str) -> String {
    let fits = |c: &char| c.is_alphanumeric() || *c == '-';
    let plain: String = herb.chars().filter(fits).take(40).collect();
    if plain.is_empty() {
        "herb".to_owned()
    } else {
        plain
    }
}

/// The millisecond in which a tasting of this name was added, where `taste add` gave the name.
pub(super) fn added(name: &str) -> Option<u64> {
    let day = name.get(..10)?.parse::<Day>();
    let ending = name.rsplit_once('-')?.1;
    let right = day.is_ok() && ending.len() == ENDING;
    right.then_some(())?;
    let value = |byte: &u8| {
        let place = DIGITS.iter().position(|digit| digit == byte)?;
        u64::try_from(place).ok()
    };
    let digits: Option<Vec<u64>> = ending.as_bytes().iter().map(value).collect();
    let time = &digits?[..OF_TIME];
    Some(time.iter().fold(0, |number, digit| number * 32 + digit))
}

/// Whether `name` is that of `original` with something added, as programs that copy files between computers do when
/// both were written: only names that `taste add` gave are looked at, since a person may call files as they like.
pub(super) fn is_variant(name: &str, original: &str) -> bool {
    let rest = name.strip_prefix(original);
    added(original).is_some() && rest.is_some_and(|rest| !rest.is_empty())
}

#[cfg(test)]
mod tests {
    use super::{added, is_variant, name};
    use pretty_assertions::assert_eq;

    #[test]
    fn a_name_tells_when_it_was_added_and_sorts_by_it() {
        let mut random = fastrand::Rng::with_seed(7);
        let day = "2026-03-14".parse().unwrap();
        let first = name(day, "bohe", 1_773_480_000_000, &mut random);
        let second = name(day, "bohe", 1_773_480_000_001, &mut random);
        assert!(first.starts_with("2026-03-14-bohe-") && first < second);
        assert_eq!(added(&first), Some(1_773_480_000_000));
        assert_eq!(added("2026-03-14-bohe-by-hand"), None);
    }

    #[test]
    fn a_herb_without_an_id_gives_a_name_that_every_system_takes() {
        let mut random = fastrand::Rng::with_seed(7);
        let day = "2026-03-14".parse().unwrap();
        assert!(name(day, "../薄荷 leaf", 1, &mut random).starts_with("2026-03-14-薄荷leaf-"));
        assert!(name(day, "/", 1, &mut random).starts_with("2026-03-14-herb-"));
    }

    #[test]
    fn names_that_were_added_to_are_variants_and_those_of_people_are_not() {
        let original = "2026-03-14-bohe-01kmpj800abc0";
        assert_eq!(added(original), None, "a digit too many");
        let original = "2026-03-14-bohe-01kmpj800abc";
        assert!(is_variant(&format!("{original} (copy)"), original));
        assert!(is_variant(
            &format!("{original}.sync-conflict-20260315"),
            original
        ));
        assert!(!is_variant(original, original));
        assert!(!is_variant("mint 2", "mint"));
    }
}
