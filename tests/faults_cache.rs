//! What is kept in the cache folder is damaged, of another version, or dated wrongly: no answer changes.

use std::fs;
use std::path::{Path, PathBuf};
use std::time::{Duration, SystemTime};

use crate::faults_support::{Place, date, kept};
use crate::support::Run;
use kaoyi::claim::Facet;
use kaoyi::index::{Asked, Library, Opened};
use pretty_assertions::assert_eq;

/// All that can be asked of what is kept, in one text; or the fault that is told.
fn answers(folder: &Path, cache: &Path) -> Result<String, String> {
    let Opened::Library(library) =
        Library::folder(folder, Some(cache)).map_err(|fault| fault.to_string())?
    else {
        panic!("the folder has no fault");
    };
    let herbs = library.corpus.herbs().map_err(|fault| fault.to_string())?;
    let stands = library
        .stands(&Facet::ALL)
        .map_err(|fault| fault.to_string())?;
    let ties = library.ties().map_err(|fault| fault.to_string())?;
    let words = library.words().map_err(|fault| fault.to_string())?;
    let asked = Asked {
        phrases: vec!["味辛".to_owned()],
        ..Asked::default()
    };
    let best = words
        .best(&asked, 0, 5)
        .map_err(|fault| fault.to_string())?;
    Ok(format!("{herbs:?}{stands:?}{ties:?}{best:?}"))
}

/// A large corpus, the answers, and the files that are then kept.
fn filled() -> (Place, String, Vec<PathBuf>) {
    let place = Place::large();
    let right = answers(&place.corpus(), &place.cache()).unwrap();
    let files = kept(&place.cache());
    for name in [
        "records",
        "stands",
        "stands-of-open-lists",
        "ties",
        "seal",
        "meta.json",
        "folding",
    ] {
        assert!(
            files.iter().any(|file| file.ends_with(name)),
            "{name} {files:?}"
        );
    }
    (place, right, files)
}

/// The answer after a damage: right, or a fault that says what to do, and right the next time.
fn heals(folder: &Path, cache: &Path, right: &str, what: &str) {
    match answers(folder, cache) {
        Ok(found) => assert!(found == right, "{what}"),
        Err(fault) => {
            assert!(fault.contains("run the command again"), "{what}: {fault}");
            assert!(
                answers(folder, cache).as_deref() == Ok(right),
                "{what}, the next time"
            );
        }
    }
}

#[test]
fn damage_at_any_place_of_any_file_changes_no_answer() {
    let (place, right, _) = filled();
    let cache = place.cache();
    let mut random = fastrand::Rng::with_seed(11);
    let names = |cache: &Path| -> Vec<PathBuf> {
        // An index that is made anew has files of other names: the order is by what they hold.
        let mut files = kept(cache);
        files.sort_by_key(|file| {
            (
                file.extension().map(ToOwned::to_owned),
                file.file_name().map(ToOwned::to_owned),
            )
        });
        files.retain(|file| file.extension().is_none_or(|ending| ending != "lock"));
        files
    };
    for number in 0..names(&cache).len() {
        for kind in 0..6 {
            let file = names(&cache).swap_remove(number);
            let bytes = fs::read(&file).unwrap();
            let cut = [0, 8, bytes.len() / 2, bytes.len().saturating_sub(1)];
            let damaged = match cut.get(kind) {
                Some(length) => bytes[..*length.min(&bytes.len())].to_vec(),
                None => {
                    let mut turned = bytes.clone();
                    let at = random.usize(..turned.len());
                    turned[at] ^= 1 << random.u32(..8);
                    turned
                }
            };
            fs::write(&file, &damaged).unwrap();
            heals(
                &place.corpus(),
                &cache,
                &right,
                &format!("{} {kind}", file.display()),
            );
        }
    }
    let fresh = Place::empty();
    answers(&place.corpus(), &fresh.cache()).unwrap();
    assert_eq!(
        kept(&cache).len(),
        kept(&fresh.cache()).len(),
        "nothing is left beside"
    );
}

#[test]
fn what_another_version_kept_is_made_anew() {
    let (place, right, files) = filled();
    for name in ["records", "stands", "stands-of-open-lists", "ties"] {
        let file = files.iter().find(|file| file.ends_with(name)).unwrap();
        let whole = fs::read(file).unwrap();
        // The last of the first eight bytes is the version of the form; the next eight are the key of the content.
        for place_of_byte in [7, 8, 15] {
            let mut other = whole.clone();
            other[place_of_byte] = other[place_of_byte].wrapping_add(1);
            fs::write(file, &other).unwrap();
            assert!(
                answers(&place.corpus(), &place.cache()).as_deref() == Ok(&right),
                "{name} {place_of_byte}"
            );
            assert!(fs::read(file).unwrap() == whole, "{name} is made anew");
        }
    }
    // An index of another version has another description of its fields.
    let meta = files
        .iter()
        .find(|file| file.ends_with("meta.json"))
        .unwrap();
    let older = fs::read_to_string(meta)
        .unwrap()
        .replace("\"herb\"", "\"drug\"");
    fs::write(meta, older).unwrap();
    assert!(answers(&place.corpus(), &place.cache()).as_deref() == Ok(&right));
}

#[test]
fn files_of_the_past_and_of_the_future_are_read_and_every_change_is_seen() {
    let year = Duration::from_secs(365 * 24 * 3600);
    let epoch = SystemTime::UNIX_EPOCH;
    let place = Place::large();
    for (when, time) in [
        ("a century ahead", SystemTime::now() + 100 * year),
        ("twenty years ago", SystemTime::now() - 20 * year),
        ("before 1970", epoch - Duration::from_secs(1)),
        ("at the beginning of 1970", epoch),
    ] {
        let is = || {
            let run = place.run(&["is", "circle-mint", "acrid", "--corpus", "corpus"]);
            assert_eq!(run.err, "", "{when}");
            run.code
        };
        let acrid = fs::read_to_string(place.mint()).unwrap();
        // As long as before, and of the same date.
        let sour = acrid
            .replace("[acrid", "[sweet")
            .replace("{sweet", "{acrid");
        for (record, code) in [(&acrid, 0), (&sour, 1), (&acrid, 0)] {
            fs::write(place.mint(), record).unwrap();
            date(&place.mint(), time);
            assert_eq!((is(), is()), (code, code), "{when}");
        }
    }
}

#[test]
fn a_clock_that_was_set_back_or_forward_makes_nothing_stale() {
    let (place, right, files) = filled();
    let hour = Duration::from_secs(3600);
    for time in [
        SystemTime::now() + 1000 * hour,
        SystemTime::now() - 1000 * hour,
        SystemTime::UNIX_EPOCH,
    ] {
        for file in &files {
            if file.is_file() {
                date(file, time);
            }
        }
        assert!(answers(&place.corpus(), &place.cache()).as_deref() == Ok(&right));
        place.herb(&fs::read_to_string(place.mint()).unwrap());
        assert!(answers(&place.corpus(), &place.cache()).as_deref() == Ok(&right));
    }
}

#[test]
fn a_notebook_is_read_anew_whatever_the_clock_said() {
    let place = Place::empty();
    let record = |score: u32| {
        format!("herb: bohe\ndate: 2026-03-14\nscores: {{flavours: {{acrid: {score}}}}}\n")
    };
    let file = place.at("notebook/cup.yaml");
    let list = || -> Run { place.run(&["taste", "list", "--json"]) };
    let day = Duration::from_secs(24 * 3600);
    for time in [
        SystemTime::now() + day,
        SystemTime::now() - day,
        SystemTime::UNIX_EPOCH - day,
    ] {
        for score in [6, 9] {
            fs::write(&file, record(score)).unwrap();
            date(&file, time);
            for _ in 0..2 {
                let run = list();
                assert_eq!(
                    (run.code, run.out.contains(&format!("\"acrid\": {score}"))),
                    (0, true),
                    "{}",
                    run.whole()
                );
            }
            for table in kept(&place.cache())
                .iter()
                .filter(|file| file.ends_with("tastings"))
            {
                date(table, time + day);
            }
        }
    }
}

#[test]
fn what_a_killed_run_left_beside_is_removed_when_it_is_old() {
    let place = Place::large();
    answers(&place.corpus(), &place.cache()).unwrap();
    let shelf = kept(&place.cache())
        .iter()
        .find(|file| file.ends_with("records"))
        .unwrap()
        .parent()
        .unwrap()
        .to_owned();
    let hours = |n: u64| SystemTime::now() - Duration::from_secs(n * 3600);
    for (name, time) in [
        (".tmpOld", hours(3)),
        (".tmpNew", hours(0)),
        (".tmpAhead", hours(0) + Duration::from_secs(9999)),
    ] {
        fs::write(shelf.join(name), "half").unwrap();
        date(&shelf.join(name), time);
    }
    fs::remove_file(shelf.join("ties")).unwrap();
    answers(&place.corpus(), &place.cache()).unwrap();
    let left = [".tmpOld", ".tmpNew", ".tmpAhead"].map(|name| shelf.join(name).exists());
    assert_eq!(left, [false, true, true], "what may still be written stays");
}
