//! Full disks, folders that may not be written to, users without a home: what was there stays, and what is wrong is said in
//! plain words.

use std::collections::BTreeMap;
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

#[cfg(unix)]
#[test]
fn on_a_full_disk_what_is_written_out_stays_as_it_was() {
    let place = Place::new();
    for arguments in [
        vec![
            "export",
            "csv",
            "--corpus",
            "corpus",
            "-o",
            "out/claims.csv",
        ],
        vec![
            "export",
            "ndjson",
            "--corpus",
            "corpus",
            "-o",
            "out/claims.ndjson",
        ],
        vec![
            "export",
            "xlsx",
            "--corpus",
            "corpus",
            "-o",
            "out/claims.xlsx",
        ],
        vec![
            "export",
            "package",
            "--corpus",
            "corpus",
            "-o",
            "out/package",
        ],
        vec![
            "handout",
            "circle-mint",
            "--corpus",
            "corpus",
            "-o",
            "out/mint.html",
        ],
        vec![
            "chart",
            "nature",
            "circle-mint",
            "--corpus",
            "corpus",
            "-o",
            "out/mint.svg",
        ],
        vec![
            "taste",
            "plan",
            "mint",
            "--from",
            "2026-03-14",
            "-o",
            "out/plan.ics",
        ],
    ] {
        if place.run(&arguments).code != 0 {
            panic!("{arguments:?} {}", place.run(&arguments).whole());
        }
        let before = place.content("out");
        plain(&place.full(&arguments), &["could not be written", "out/"]);
        assert_eq!(place.content("out"), before, "{arguments:?}");
    }
}

#[cfg(unix)]
#[test]
fn on_a_full_disk_nothing_is_kept_and_all_is_answered() {
    let place = Place::large();
    for arguments in [
        vec!["is", "circle-mint", "warm", "--corpus", "corpus"],
        vec![
            "disputes",
            "--corpus",
            "corpus",
            "--witnesses",
            "1",
            "--json",
        ],
        vec!["find", "味辛", "--corpus", "corpus", "--json"],
        vec!["taste", "list"],
    ] {
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
    for folder in ["cache", "corpus", "notebook", "out"] {
        rights(&place.at(folder), 0o755);
    }
    let asked = [
        vec!["is", "circle-mint", "warm", "--corpus", "corpus"],
        vec!["find", "味辛", "--corpus", "corpus", "--json"],
        vec!["compare", "circle-mint", "--corpus", "corpus"],
        vec![
            "disputes",
            "--corpus",
            "corpus",
            "--witnesses",
            "1",
            "--json",
        ],
    ];
    // With an empty cache, then with a filled one that may not be written to either.
    for _ in 0..2 {
        for arguments in &asked {
            let Some(run) = place.nobody(arguments, true) else {
                return;
            };
            let elsewhere = Place::large();
            let right = elsewhere.run(arguments);
            assert_eq!(
                (&run.out, run.code),
                (&right.out, right.code),
                "{arguments:?} {}",
                run.err
            );
        }
        for arguments in &asked {
            place.run(arguments);
        }
    }
    let written = [
        (
            vec![
                "export",
                "csv",
                "--corpus",
                "corpus",
                "-o",
                "out/claims.csv",
            ],
            ["out/claims.csv could not be written"],
        ),
        (
            vec![
                "handout",
                "circle-mint",
                "--corpus",
                "corpus",
                "-o",
                "out/mint.html",
            ],
            ["out/mint.html could not be written"],
        ),
        (vec!["manual", "out/man"], ["out/man could not be written"]),
        (
            vec![
                "taste",
                "add",
                "bohe",
                "--date",
                "2026-03-14",
                "--score",
                "acrid=6",
            ],
            ["nothing was"],
        ),
    ];
    let book = place.file("book.txt", &book(3));
    let merge = vec![
        "read",
        book.as_str(),
        "--work",
        "circle-first",
        "--into",
        "corpus",
    ];
    let before: BTreeMap<_, _> = ["corpus", "notebook", "out"]
        .map(|folder| (folder, place.content(folder)))
        .into();
    for (arguments, words) in written
        .iter()
        .map(|(a, w)| (a, w.as_slice()))
        .chain([(&merge, &["nothing was merged"][..])])
    {
        let Some(run) = place.nobody(arguments, true) else {
            return;
        };
        plain(&run, words);
    }
    let after: BTreeMap<_, _> = ["corpus", "notebook", "out"]
        .map(|folder| (folder, place.content(folder)))
        .into();
    assert_eq!(after, before);
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
