//! What is kept in the cache folder: it changes no answer, follows every change, and heals.

use std::fs::{self, File};
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::{Duration, SystemTime};

use crate::support::{Run, text};
use kaoyi::index::{Library, Opened};
use pretty_assertions::assert_eq;
use tempfile::TempDir;

/// A run with a cache folder of its own.
fn run(cache: &Path, arguments: &[&str]) -> Run {
    let output = command(cache, arguments).output().unwrap();
    Run::from(output)
}

fn command(cache: &Path, arguments: &[&str]) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_kaoyi"));
    command
        .args(arguments)
        .env_clear()
        .env("XDG_CACHE_HOME", cache);
    command
}

/// An invented folder large enough to be kept: fifty herbs, each in sixty lessons of the circle.
fn folder() -> TempDir {
    let folder = tempfile::tempdir().unwrap();
    for part in ["herbs", "works"] {
        fs::create_dir(folder.path().join(part)).unwrap();
    }
    let work = "id: circle-lessons\ntitle: {hant: 園課, pinyin: yuán kè, english: lessons of the circle}\nauthor: invented\n\
                kind: extant\ndate: {from: 1900, to: 1900}\n";
    write(folder.path(), "works/circle-lessons.yaml", work);
    let letters = "abcdefghij";
    for (n, name) in letters
        .chars()
        .flat_map(|a| letters.chars().map(move |b| (a, b)))
        .take(50)
        .enumerate()
    {
        let id = format!("circle-{}{}", name.0, name.1);
        let mut record = format!(
            "id: {id}\nnames: {{hant: 園草{n}, hans: 园草{n}, pinyin: yuán cǎo {}{}}}\nentries:\n",
            name.0, name.1
        );
        for lesson in 1..=60 {
            record.push_str(&format!(
                "  - work: circle-lessons\n    at: {{ordinal: {lesson}, heading: 园草}}\n    status: read\n    sayings:\n      \
                 - {{flavour: [acrid, sweet], nature: warm, toxicity: none, wording: 味辛甘温}}\n"
            ));
        }
        write(folder.path(), &format!("herbs/{id}.yaml"), &record);
    }
    folder
}

/// Writes a record with a date of an hour ago: what was written this moment is not kept.
fn write(folder: &Path, name: &str, record: &str) {
    fs::write(folder.join(name), record).unwrap();
    let file = File::options().write(true).open(folder.join(name)).unwrap();
    let hour = Duration::from_secs(3600);
    file.set_modified(SystemTime::now() - hour).unwrap();
}

/// The files kept in a cache folder.
fn kept(cache: &Path) -> Vec<std::path::PathBuf> {
    let mut files = crate::support::files_below(cache);
    files.sort();
    files
}

#[test]
fn a_kept_corpus_gives_the_answers_of_a_read_one() {
    let (folder, cache) = (folder(), tempfile::tempdir().unwrap());
    let dir = text(folder.path());
    for arguments in [
        vec!["compare", "circle-ab", "--corpus", dir, "--evidence"],
        vec!["disputes", "--corpus", dir, "--witnesses", "1", "--json"],
        vec!["compare", "bohe", "--corpus", dir, "--json"],
        vec!["works", "--corpus", dir, "--json"],
    ] {
        let nowhere = tempfile::tempdir().unwrap();
        let read = run(nowhere.path(), &arguments).whole();
        let first = run(cache.path(), &arguments).whole();
        let second = run(cache.path(), &arguments).whole();
        assert_eq!(first, read);
        assert_eq!(second, read);
    }
    assert!(
        kept(cache.path())
            .iter()
            .any(|file| file.ends_with("records"))
    );
}

#[test]
fn a_changed_added_or_removed_file_is_seen_at_once() {
    let (folder, cache) = (folder(), tempfile::tempdir().unwrap());
    let ask = || {
        run(
            cache.path(),
            &["is", "circle-ab", "warm", "--corpus", text(folder.path())],
        )
    };
    assert_eq!((ask().code, ask().code), (0, 0));
    let path = folder.path().join("herbs/circle-ab.yaml");
    let warm = fs::read_to_string(&path).unwrap();
    // As long as before and with the date of before: the time of the change tells.
    write(
        folder.path(),
        "herbs/circle-ab.yaml",
        &warm.replace("warm", "cold"),
    );
    assert_eq!(ask().code, 1);
    fs::remove_file(&path).unwrap();
    assert_eq!(ask().code, 2, "the herb is gone");
    write(
        folder.path(),
        "herbs/circle-ab.yaml",
        &warm.replace("warm", "wram"),
    );
    let faulty = ask();
    assert!(
        faulty.code == 2 && faulty.err.contains("wram"),
        "{}",
        faulty.err
    );
}

#[test]
fn a_damaged_cache_heals() {
    let (folder, cache) = (folder(), tempfile::tempdir().unwrap());
    let arguments = [
        "disputes",
        "--corpus",
        text(folder.path()),
        "--witnesses",
        "1",
        "--json",
    ];
    let right = run(cache.path(), &arguments).whole();
    let files = kept(cache.path());
    assert_eq!(files.len(), 2, "{files:?}");
    for file in &files {
        let whole = fs::read(file).unwrap();
        let mut turned = whole.clone();
        turned[40] ^= 0xff;
        for damaged in [&whole[..whole.len() / 2], &whole[..5], &[], &turned[..]] {
            fs::write(file, damaged).unwrap();
            assert_eq!(
                run(cache.path(), &arguments).whole(),
                right,
                "{}",
                file.display()
            );
        }
        assert!(fs::read(file).unwrap() == whole, "made anew");
    }
    assert_eq!(kept(cache.path()), files, "nothing is left beside");
}

#[test]
fn a_damaged_record_is_reported_and_the_next_run_heals() {
    let (folder, cache) = (folder(), tempfile::tempdir().unwrap());
    let arguments = ["is", "circle-ej", "sweet", "--corpus", text(folder.path())];
    assert_eq!(run(cache.path(), &arguments).code, 0);
    let records = kept(cache.path()).remove(0);
    let mut bytes = fs::read(&records).unwrap();
    let text_of_record = "味辛甘温".as_bytes();
    let own = bytes
        .windows(text_of_record.len())
        .rposition(|part| part == text_of_record)
        .unwrap();
    bytes[own] ^= 0xff;
    fs::write(&records, bytes).unwrap();
    let damaged = run(cache.path(), &arguments);
    assert!(
        damaged.code == 2 && damaged.err.contains("run the command again"),
        "{}",
        damaged.err
    );
    assert_eq!(run(cache.path(), &arguments).code, 0);
}

#[test]
fn without_a_place_for_a_cache_all_is_answered_all_the_same() {
    let folder = folder();
    let dir = text(folder.path());
    let no_folder = tempfile::NamedTempFile::new().unwrap();
    let run = run(
        no_folder.path(),
        &["is", "circle-ab", "warm", "--corpus", dir],
    );
    assert_eq!((run.code, run.err.as_str()), (0, ""));
}

#[test]
fn what_is_still_being_written_is_not_kept() {
    let (folder, cache) = (folder(), tempfile::tempdir().unwrap());
    fs::write(
        folder.path().join("herbs/circle-new.yaml"),
        "id: circle-new\nnames: {hant: 園新, hans: 园新, pinyin: yuán xīn}\nentries: []\n",
    )
    .unwrap();
    let cache = cache.path().join("kaoyi");
    let opened = Library::folder(folder.path(), Some(&cache)).unwrap();
    assert!(matches!(opened, Opened::Library(_)));
    assert!(!cache.exists());
}

#[test]
fn many_runs_at_once_make_one_cache() {
    let (folder, cache) = (folder(), tempfile::tempdir().unwrap());
    let arguments = ["is", "circle-ab", "warm", "--corpus", text(folder.path())];
    let mut runs: Vec<_> = (0..6)
        .map(|_| {
            command(cache.path(), &arguments)
                .stdout(Stdio::null())
                .spawn()
                .unwrap()
        })
        .collect();
    for one in &mut runs {
        assert!(one.wait().unwrap().success());
    }
    assert_eq!(kept(cache.path()).len(), 1);
}
