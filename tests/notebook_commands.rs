//! `taste add`, `list`, `show`, `edit` and `undo` with the real binary; toxic herbs are refused.

use std::fs;
use std::path::Path;
use std::process::Command;

use crate::support::{Run, root, text};
use pretty_assertions::assert_eq;
use tempfile::TempDir;

/// A run on a notebook, with a cache folder of its own.
pub fn run(notebook: &Path, arguments: &[&str]) -> Run {
    let output = Command::new(env!("CARGO_BIN_EXE_kaoyi"))
        .arg("taste")
        .args(arguments)
        .env_clear()
        .env("XDG_CACHE_HOME", notebook.join(".cache"))
        .env("KAOYI_NOTEBOOK", notebook)
        .output()
        .unwrap();
    Run::from(output)
}

/// The names of the tastings in a folder, sorted.
pub fn names(folder: &Path) -> Vec<String> {
    let entries = fs::read_dir(folder).unwrap();
    let names = entries.map(|entry| entry.unwrap().file_name().into_string().unwrap());
    let mut names: Vec<String> = names.filter(|name| name.ends_with(".yaml")).collect();
    names.sort();
    names
}

pub fn example() -> std::path::PathBuf {
    root().join("docs/examples/notebook")
}

/// An invented notebook of one file a text.
pub fn notebook(files: &[(&str, &str)]) -> TempDir {
    let folder = tempfile::tempdir().unwrap();
    for (name, text) in files {
        fs::write(folder.path().join(name), text).unwrap();
    }
    folder
}

#[test]
fn toxic_and_restricted_herbs_are_refused_unless_a_reason_is_stated() {
    let folder = notebook(&[]);
    for herb in ["附子", "半夏", "麻黃", "杏仁"] {
        let refused = run(folder.path(), &["add", herb, "--score", "acrid=2"]);
        assert_eq!(refused.code, 2, "{herb}");
        assert!(
            refused.err.contains("never tasted") && refused.err.contains("licensed"),
            "{}",
            refused.err
        );
    }
    let empty = run(
        folder.path(),
        &["add", "半夏", "--score", "acrid=2", "--despite", " "],
    );
    assert!(empty.code == 2 && empty.err.contains("reason"));
    let of_file = run(folder.path(), &["add", "--file", "/dev/null"]);
    assert_eq!(of_file.code, 2);
    assert_eq!(
        names(folder.path()),
        Vec::<String>::new(),
        "nothing was written"
    );
    let arguments = [
        "add",
        "半夏",
        "--score",
        "acrid=2",
        "--despite",
        "prepared with ginger, by the teacher",
    ];
    let stated = run(folder.path(), &arguments);
    assert_eq!(stated.code, 0, "{}", stated.err);
    assert!(stated.out.contains("in spite of") && stated.err.contains("not tasted to learn it"));
    let name = names(folder.path()).remove(0);
    let written = fs::read_to_string(folder.path().join(name)).unwrap();
    assert!(
        written.contains("override: {reason: \"prepared with ginger, by the teacher\"}"),
        "{written}"
    );
    let refused = run(
        folder.path(),
        &["add", "附子", "--score", "acrid=2", "--json"],
    );
    let error: serde_json::Value = serde_json::from_str(&refused.err).unwrap();
    assert!(
        error["candidates"][0]
            .as_str()
            .unwrap()
            .contains("greatly toxic")
    );
}

/// Notes an invented tasting and gives its id.
fn add(notebook: &Path, herb: &str, date: &str, more: &[&str]) -> String {
    let mut arguments = vec!["add", herb, "--date", date, "--json"];
    arguments.extend(more);
    let added = run(notebook, &arguments);
    assert_eq!(added.code, 0, "{}", added.err);
    added.json()["id"].as_str().unwrap().to_owned()
}

#[test]
fn what_is_added_is_listed_newest_first_and_shown() {
    let folder = notebook(&[]);
    let here = folder.path();
    let scores = ["--score", "辛=6.5", "--score", "aroma=7", "--warmth", "-2"];
    let words = [
        "--taster",
        "A",
        "--amount",
        "3g",
        "--words",
        "cool: at once",
    ];
    let id = add(
        here,
        "薄荷",
        "2026-03-14",
        &[&scores[..], &words[..]].concat(),
    );
    assert!(id.starts_with("2026-03-14-bohe-"));
    let flower = ["--taster", "B", "--score", "sweet=4"];
    add(here, "菊花", "2026-03-01", &flower);
    let list = run(here, &["list", "--json"]).json();
    let first = &list["tastings"][0];
    assert_eq!(
        (&list["total"], &first["id"]),
        (&2.into(), &id.clone().into())
    );
    assert_eq!(first["tasting"]["scores"]["flavours"]["acrid"], 6.5);
    for filter in [
        ["list", "mint", "--json"],
        ["list", "--taster=A", "--json"],
        ["list", "--since=2026-03-02", "--json"],
        ["list", "--until=2026-03-02", "--json"],
    ] {
        assert_eq!(run(here, &filter).json()["matching"], 1, "{filter:?}");
    }
    assert_eq!(run(here, &["list", "--until", "2026-02-01"]).code, 1);
    assert!(
        run(here, &["show", &id[20..]])
            .out
            .contains("cool: at once")
    );
    assert!(run(here, &["show", "2026-03-01"]).out.contains("菊花"));
    assert!(
        run(here, &["show", &id[id.len() - 2..]]).code == 2,
        "too short to be meant"
    );
    assert!(run(here, &["show", "nothing"]).err.contains("no tasting"));
    fs::write(here.join("faulty.yaml"), "herb: bohe\ndate: soon\n").unwrap();
    let faulty = run(here, &["show", "faulty"]);
    assert!(faulty.code == 2 && faulty.err.contains("faulty.yaml:2:7"));
}

#[test]
fn single_fields_are_changed_and_all_else_stays() {
    let folder = notebook(&[]);
    let here = folder.path();
    let told = ["--taster", "A", "--amount", "3", "--score", "acrid=6"];
    let id = add(here, "薄荷", "2026-03-14", &told);
    let path = here.join(format!("{id}.yaml"));
    let text = fs::read_to_string(&path).unwrap();
    let by_hand = "# by hand\ntaster: A # who else";
    fs::write(&path, text.replace("taster: A", by_hand)).unwrap();
    let change = ["--hours", "12", "--score", "acrid=7", "--amount", "-"];
    let edit = [&["edit", &id], &change[..]].concat();
    assert_eq!(run(here, &edit).code, 0);
    let text = fs::read_to_string(&path).unwrap();
    assert!(
        text.contains(by_hand) && text.contains("hours: 12"),
        "{text}"
    );
    assert!(
        text.contains("acrid: 7}") && !text.contains("amount"),
        "{text}"
    );
    assert_eq!(run(here, &edit).code, 1, "nothing to change");
    assert_eq!(run(here, &["edit", "last", "--warmth", "9"]).code, 2);
    assert_eq!(fs::read_to_string(&path).unwrap(), text);
}

#[test]
fn undo_takes_back_what_was_added_last_and_deletes_nothing() {
    let folder = notebook(&[("mint.yaml", "herb: bohe\ndate: 2026-05-01\n")]);
    let here = folder.path();
    add(here, "薄荷", "2026-03-14", &["--score", "acrid=6"]);
    // Added later, of an earlier day.
    add(here, "菊花", "2026-03-01", &["--score", "sweet=4"]);
    assert_eq!(run(here, &["edit", "2026-03-14", "--hours", "12"]).code, 0);
    let undone = run(here, &["undo"]);
    assert!(
        undone.code == 0 && undone.out.contains("菊花"),
        "{}",
        undone.out
    );
    assert_eq!(
        (names(here).len(), names(&here.join("undone")).len()),
        (2, 1)
    );
    assert_eq!(
        (run(here, &["undo"]).code, run(here, &["undo"]).code),
        (0, 1)
    );
    assert_eq!(
        names(here),
        ["mint.yaml"],
        "a person's own file is left alone"
    );
    let back = names(&here.join("undone")).remove(0);
    fs::rename(here.join("undone").join(&back), here.join(&back)).unwrap();
    assert_eq!(run(here, &["list", "--json"]).json()["total"], 2);
}

#[test]
fn what_cannot_be_asked_for_is_told_all_at_once() {
    let folder = notebook(&[]);
    let nothing = run(folder.path(), &["add", "薄荷"]);
    assert!(
        nothing.code == 2 && nothing.err.contains("--score") && nothing.err.contains("no terminal")
    );
    let faults = run(
        folder.path(),
        &[
            "add",
            "薄荷",
            "--score",
            "acrd=3",
            "--score",
            "sweet",
            "--warmth",
            "9",
            "--cup",
            "0",
            "--fasting",
            "perhaps",
            "--date",
            "14.3.2026",
            "--direction",
            "sideways",
            "--score",
            "aroma=2.3",
        ],
    );
    assert!(
        faults.err.contains("8 faults") && faults.err.contains("near to it: acrid"),
        "{}",
        faults.err
    );
    assert_eq!(names(folder.path()).len(), 0);
}

#[test]
fn a_record_is_added_from_a_file_and_not_a_second_time() {
    let folder = notebook(&[]);
    let record = folder.path().join("one.txt");
    fs::write(
        &record,
        "herb: 薄荷\ndate: 2026-03-14\ntaster: A\nscores: {flavours: {acrid: 6}}\n",
    )
    .unwrap();
    let add = ["add", "--file", text(&record)];
    assert_eq!(run(folder.path(), &add).code, 0);
    let again = run(folder.path(), &add);
    assert!(
        again.code == 2 && again.err.contains("noted already"),
        "{}",
        again.err
    );
    let other = run(folder.path(), &["add", "菊花", "--file", text(&record)]);
    assert!(
        other.code == 2 && other.err.contains("薄荷"),
        "{}",
        other.err
    );
    fs::write(
        &record,
        "herb: 薄荷\ndate: tomorrow\nscores: {flavours: {acrid: 6}}\n",
    )
    .unwrap();
    let faulty = run(folder.path(), &add);
    assert!(
        faulty.code == 2 && faulty.err.contains("one.txt:2:7"),
        "{}",
        faulty.err
    );
}
