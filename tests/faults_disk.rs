//! Full disks, folders that may not be written to, users without a home: what was there stays, and what is wrong is said in
//! plain words.

use std::fs;
use std::process::Command;

use crate::faults_support::{Place, book, kept, rights};
use kaoyi::corpus;
use pretty_assertions::assert_eq;

/// Whether a run failed with these words and no panic.
fn plain(run: &crate::support::Run, words: &[&str]) {
    let said = run.err.split_whitespace().collect::<Vec<_>>().join(" ");
    assert_eq!(run.code, 2, "{}", run.whole());
    assert!(
        words.iter().all(|word| said.contains(word)),
        "{words:?} {said}"
    );
    assert!(!said.contains("panicked"), "{said}");
}

#[cfg(unix)]
#[test]
fn on_a_full_disk_no_merge_changes_anything() {
    let place = Place::new();
    let text_of_book = place.file("book.txt", &book(40));
    let arguments = [
        "read",
        &text_of_book,
        "--work",
        "circle-first",
        "--into",
        "corpus",
    ];
    let before = place.content("corpus");
    let run = place.full(&arguments);
    plain(&run, &["nothing was merged", "corpus/herbs/"]);
    assert_eq!(place.content("corpus"), before);
    // With room again all is merged.
    assert_eq!(place.run(&arguments).code, 0);
    assert_eq!(place.content("corpus").len(), before.len() + 40);
    assert_eq!(corpus::load_folder(&place.corpus()).unwrap().findings, []);
}

/// Commands that write a file.
const WRITTEN: [&str; 6] = [
    "export csv --corpus corpus -o out/claims.csv",
    "export ndjson --corpus corpus -o out/claims.ndjson",
    "export xlsx --corpus corpus -o out/claims.xlsx",
    "export package --corpus corpus -o out/package",
    "handout circle-mint --corpus corpus -o out/mint.html",
    "chart nature circle-mint --corpus corpus -o out/mint.svg",
];

/// Commands that keep what they made.
const ASKED: [&str; 5] = [
    "is circle-mint acrid --corpus corpus",
    "disputes --corpus corpus --witnesses 1 --json",
    "find 味辛 --corpus corpus --json",
    "compare circle-mint --corpus corpus",
    "taste list",
];

fn words(line: &str) -> Vec<&str> {
    line.split(' ').collect()
}

#[cfg(unix)]
#[test]
fn on_a_full_disk_what_is_written_out_stays_as_it_was() {
    let place = Place::new();
    for line in WRITTEN {
        let run = place.run(&words(line));
        assert_eq!(run.code, 0, "{line} {}", run.whole());
        let before = place.content("out");
        plain(&place.full(&words(line)), &["could not be written", "out/"]);
        assert_eq!(place.content("out"), before, "{line}");
    }
}

#[cfg(unix)]
#[test]
fn on_a_full_disk_nothing_is_kept_and_all_is_answered() {
    let place = Place::large();
    for line in ASKED {
        let arguments = words(line);
        let full = place.full(&arguments);
        assert_eq!(
            kept(&place.cache()),
            Vec::<std::path::PathBuf>::new(),
            "{arguments:?}"
        );
        let right = place.run(&arguments);
        assert_eq!(
            (&full.out, full.code),
            (&right.out, right.code),
            "{arguments:?}"
        );
        fs::remove_dir_all(place.cache()).unwrap();
        fs::create_dir(place.cache()).unwrap();
    }
}

#[cfg(target_os = "linux")]
#[test]
fn an_answer_that_cannot_be_written_is_a_failure() {
    let place = Place::new();
    for arguments in [
        ["works", "--corpus", "corpus"],
        ["export", "csv", "--corpus=corpus"],
    ] {
        let full = fs::File::options().write(true).open("/dev/full").unwrap();
        let output = place.command(&arguments).stdout(full).output().unwrap();
        assert_eq!(output.status.code(), Some(2));
        let said = String::from_utf8(output.stderr).unwrap();
        assert!(
            said.contains("could not be written") && !said.contains("panicked"),
            "{said}"
        );
    }
}

/// A disk of 64 KiB that fills up in the middle. Where a user may not mount one nothing is shown.
#[cfg(target_os = "linux")]
#[test]
fn a_disk_that_fills_up_in_the_middle_of_a_merge_loses_nothing() {
    let place = Place::new();
    let many = place.file("book.txt", &book(60));
    let script = "mount -t tmpfs -o size=160k none out && cp -r corpus/. out && (cd out && find . -type f | sort | xargs cksum) > before && \
        { \"$0\" read \"$1\" --work circle-first --into out > said 2>&1; echo $? > code; (cd out && find . -type f | sort | xargs cksum) > after; }";
    let mounted = Command::new("unshare")
        .args([
            "-rm",
            "/bin/sh",
            "-c",
            script,
            env!("CARGO_BIN_EXE_kaoyi"),
            &many,
        ])
        .env_clear()
        .env("PATH", "/usr/bin:/bin:/usr/sbin:/sbin")
        .env("XDG_CACHE_HOME", place.cache())
        .current_dir(place.at(""))
        .output();
    if !mounted.is_ok_and(|output| output.status.success()) {
        return;
    }
    let file = |name: &str| fs::read_to_string(place.at(name)).unwrap();
    assert_eq!(file("code").trim(), "2", "{}", file("said"));
    assert!(
        file("said").contains("nothing was merged") && file("said").contains("No space"),
        "{}",
        file("said")
    );
    assert_eq!(file("after"), file("before"));
}

/// Needs the superuser, who can run a program as somebody without rights; else nothing is shown.
#[cfg(unix)]
#[test]
fn folders_that_may_only_be_read_are_read() {
    let place = Place::large();
    // With an empty cache, then with a filled one that may not be written to either.
    for _ in 0..2 {
        for line in ASKED {
            let Some(run) = place.nobody(&words(line), true) else {
                return;
            };
            let elsewhere = Place::large();
            let right = elsewhere.run(&words(line));
            let own = |place: &Place, out: &str| out.replace(&place.name(), "");
            assert_eq!(
                (own(&place, &run.out), run.code),
                (own(&elsewhere, &right.out), right.code),
                "{line} {}",
                run.err
            );
        }
        for line in ASKED {
            place.run(&words(line));
        }
    }
}

/// Likewise.
#[cfg(unix)]
#[test]
fn folders_that_may_only_be_read_are_not_written_to() {
    let place = Place::new();
    place.file("book.txt", &book(3));
    let folders = ["corpus", "notebook", "out", "cache"];
    let before = folders.map(|folder| place.content(folder));
    let others = [
        "manual out/man",
        "taste add bohe --date 2026-03-14 --score acrid=6",
        "read book.txt --work circle-first --into corpus",
    ];
    for line in WRITTEN.into_iter().chain(others) {
        let told = match line {
            line if line.starts_with("taste") => ["nothing was", "notebook"],
            line if line.starts_with("read") => ["nothing was merged", "corpus/herbs"],
            _ => ["could not be written", "out/"],
        };
        let Some(run) = place.nobody(&words(line), true) else {
            return;
        };
        plain(&run, &told);
    }
    assert_eq!(folders.map(|folder| place.content(folder)), before);
}

/// Likewise.
#[cfg(unix)]
#[test]
fn without_a_home_all_but_the_notebook_is_answered() {
    let place = Place::new();
    for arguments in [
        vec!["is", "circle-mint", "acrid", "--corpus", "corpus"],
        vec!["find", "味辛", "--corpus", "corpus"],
        vec!["compare", "circle-mint", "--corpus", "corpus"],
        vec!["check", "corpus"],
    ] {
        let Some(run) = place.nobody(&arguments, false) else {
            return;
        };
        let right = place.run(&arguments);
        assert_eq!(
            (&run.out, run.code),
            (&right.out, right.code),
            "{}",
            run.whole()
        );
    }
    let Some(run) = place.nobody(&["taste", "list"], false) else {
        return;
    };
    plain(
        &run,
        &[
            "no home folder is known",
            "--notebook DIR",
            "KAOYI_NOTEBOOK",
        ],
    );
    rights(&place.at("notebook"), 0o777);
    let add = [
        "taste",
        "add",
        "bohe",
        "--date",
        "2026-03-14",
        "--score",
        "acrid=6",
        "--notebook",
        "notebook",
    ];
    let run = place.nobody(&add, false).unwrap();
    assert_eq!(run.code, 0, "{}", run.whole());
    assert_eq!(place.content("notebook").len(), 1);
}
