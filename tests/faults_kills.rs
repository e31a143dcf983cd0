//! Runs that are killed at any moment, in their first milliseconds too: what was there is there, nothing is half-written, and
//! the next run does the rest. The kept corpus and index: `killed` too; a tasting that is added: `notebook_keeping`.

use std::collections::BTreeMap;
use std::path::PathBuf;

use crate::faults_support::{Place, book, kept, killed_often, kills, time_of};
use crate::support::Run;
use kaoyi::corpus;
use kaoyi::tasting::Notebook;
use pretty_assertions::assert_eq;

#[test]
fn an_index_whose_making_was_killed_is_made_by_the_next_run() {
    let place = Place::large();
    let find = ["find", "味辛", "--top", "2", "--corpus", "corpus"];
    let whole = time_of(place.command(&find));
    let right = place.run(&find);
    assert_eq!((right.code, right.err.as_str()), (0, ""));
    let number = kept(&place.cache()).len();
    let empty = || {
        std::fs::remove_dir_all(place.cache()).unwrap();
        std::fs::create_dir(place.cache()).unwrap();
    };
    empty();
    let killed = killed_often(
        1,
        (kills(12), whole),
        || place.command(&find),
        |_| {
            let next = place.run(&find);
            assert_eq!(
                (&next.out, &next.err, next.code),
                (&right.out, &right.err, 0)
            );
            let whole: Vec<PathBuf> = kept(&place.cache())
                .into_iter()
                .filter(|file| !beside(file))
                .collect();
            assert_eq!(whole.len(), number, "{whole:?}");
            empty();
        },
    );
    assert!(killed >= kills(12) / 3, "{killed}");
}

/// Whether a file is not in its place yet.
fn beside(file: &std::path::Path) -> bool {
    let names = file
        .components()
        .map(|part| part.as_os_str().to_string_lossy());
    names.into_iter().any(|name| {
        [".tmp", "beside-", ".kaoyi-"]
            .iter()
            .any(|begin| name.starts_with(begin))
            && name.len() < 20
    })
}

#[test]
fn a_merge_that_was_killed_leaves_whole_files_and_the_next_one_does_the_rest() {
    let place = Place::new();
    let book = place.file("book.txt", &book(80));
    let merge = ["read", &book, "--work", "circle-first", "--into", "corpus"];
    let before = place.content("corpus");
    let whole = time_of(place.command(&merge));
    let right = place.content("corpus");
    let anew = || {
        std::fs::remove_dir_all(place.corpus()).unwrap();
        for (file, bytes) in &before {
            std::fs::create_dir_all(file.parent().unwrap()).unwrap();
            std::fs::write(file, bytes).unwrap();
        }
    };
    anew();
    let mut parts = 0;
    let killed = killed_often(
        2,
        (kills(30), whole),
        || place.command(&merge),
        |_| {
            let left: BTreeMap<_, _> = place
                .content("corpus")
                .into_iter()
                .filter(|(file, _)| !beside(file))
                .collect();
            for (file, bytes) in &left {
                let whole = right.get(file) == Some(bytes) || before.get(file) == Some(bytes);
                assert!(
                    whole,
                    "{} is neither as before nor as merged",
                    file.display()
                );
            }
            assert!(
                before.keys().all(|file| left.contains_key(file)),
                "nothing is lost"
            );
            assert_eq!(corpus::load_folder(&place.corpus()).unwrap().findings, []);
            parts += usize::from(left.len() > before.len() && left.len() < right.len());
            assert_eq!(place.run(&merge).code, 0);
            assert!(
                place.content("corpus") == right,
                "the next merge does the rest and removes what is left over"
            );
            anew();
        },
    );
    assert!(killed >= kills(30) / 3, "{killed}, {parts} in the middle");
}

#[test]
fn a_file_that_is_written_out_is_the_old_one_or_the_new_one() {
    let place = Place::large();
    let dir = "corpus";
    for (name, arguments) in [
        (
            "claims.csv",
            vec!["export", "csv", "--corpus", dir, "-o", "out/claims.csv"],
        ),
        (
            "claims.xlsx",
            vec!["export", "xlsx", "--corpus", dir, "-o", "out/claims.xlsx"],
        ),
        (
            "leaf.html",
            vec![
                "handout",
                "circle-mint",
                "--corpus",
                dir,
                "-o",
                "out/leaf.html",
            ],
        ),
    ] {
        let path = place.at("out").join(name);
        let whole = time_of(place.command(&arguments));
        let new = std::fs::read(&path).unwrap();
        killed_often(
            3,
            (kills(10), whole),
            || {
                std::fs::write(&path, "the old one").unwrap();
                place.command(&arguments)
            },
            |done| {
                let left = std::fs::read(&path).unwrap();
                let old = left == b"the old one";
                // A workbook holds the time at which it was made.
                let is_new =
                    left == new || (name.ends_with("xlsx") && left.len().abs_diff(new.len()) < 64);
                assert!(is_new || (old && !done), "{name}: {} bytes", left.len());
            },
        );
        assert_eq!(place.run(&arguments).code, 0);
    }
}

#[test]
fn a_tasting_that_is_changed_or_moved_is_the_old_one_or_the_new_one() {
    let place = Place::empty();
    let add = [
        "taste",
        "add",
        "bohe",
        "--date",
        "2026-03-14",
        "--score",
        "acrid=6",
        "--words",
        "cool",
    ];
    let whole = time_of(place.command(&add));
    let (file, old) = place.content("notebook").pop_first().unwrap();
    let edit = ["taste", "edit", "last", "--hours", "12"];
    assert_eq!(place.run(&edit).code, 0);
    let new = std::fs::read(&file).unwrap();
    assert!(new != old);
    killed_often(
        4,
        (kills(16), whole),
        || {
            std::fs::write(&file, &old).unwrap();
            place.command(&edit)
        },
        |done| {
            let left = std::fs::read(&file).unwrap();
            assert!(left == new || (left == old && !done));
            let (notebook, findings) = Notebook::open(&place.at("notebook"));
            assert_eq!((notebook.all().len(), findings), (1, vec![]));
        },
    );
    let undone = place.at("notebook/undone").join(file.file_name().unwrap());
    killed_often(
        5,
        (kills(16), whole),
        || place.command(&["taste", "undo", "--yes"]),
        |_| {
            assert!(
                file.exists() != undone.exists(),
                "in one place and not in two"
            );
            if undone.exists() {
                std::fs::rename(&undone, &file).unwrap();
            }
        },
    );
}

#[test]
fn a_run_after_a_kill_says_what_was_left_over() {
    let place = Place::empty();
    std::fs::write(place.at("notebook/.kaoyi-x.tmp"), "herb: bo").unwrap();
    let run: Run = place.run(&["taste", "list", "--json"]);
    assert_eq!(run.json()["findings"], serde_json::json!([]));
    assert!(run.out.contains("unfinished"), "{}", run.whole());
}
