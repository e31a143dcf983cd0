//! A folder of the user's own: added to the shipped corpus, or alone.

use std::fs;
use std::path::Path;

use crate::support::{files_below, kaoyi, root, text};
use pretty_assertions::assert_eq;

fn write(folder: &Path, name: &str, text: &str) {
    let path = folder.join(name);
    fs::create_dir_all(path.parent().unwrap()).unwrap();
    fs::write(path, text).unwrap();
}

const NOTES: &str = "id: circle-notes\ntitle: {hant: 園課, pinyin: Yuánkè, english: Garden Lessons}\n\
                     author: the study circle\nkind: extant\ndate: {to: 1901}\n";

#[test]
fn own_claims_are_added_and_marked_as_the_users() {
    let folder = tempfile::tempdir().unwrap();
    write(folder.path(), "works/circle-notes.yaml", NOTES);
    write(
        folder.path(),
        "herbs/bohe.yaml",
        "id: bohe\nentries:\n  - work: circle-notes\n    status: memory\n    sayings: [{flavour: [acrid], nature: great-hot}]\n",
    );
    let run = kaoyi(&[
        "compare",
        "bohe",
        "--corpus",
        text(folder.path()),
        "--facet",
        "nature",
    ]);
    assert!(
        run.out
            .lines()
            .any(|line| line.starts_with("by 1901") && line.contains("園課 *")),
        "{}",
        run.out
    );
    let json = kaoyi(&[
        "compare",
        "bohe",
        "--corpus",
        text(folder.path()),
        "--facet",
        "nature",
        "--json",
    ])
    .json();
    let rows = json["witnesses"].as_array().unwrap();
    let users: Vec<&str> = rows
        .iter()
        .filter(|row| row["user"] == true)
        .map(|row| row["work"].as_str().unwrap())
        .collect();
    assert_eq!(users, ["circle-notes"]);
    let shipped = kaoyi(&["compare", "bohe", "--facet", "nature", "--json"]).json();
    assert_eq!(
        rows.len(),
        shipped["witnesses"].as_array().unwrap().len() + 1
    );
}

#[test]
fn an_own_reading_of_an_article_takes_the_place_of_the_shipped_one() {
    let folder = tempfile::tempdir().unwrap();
    let shipped = kaoyi(&[
        "is",
        "bohe",
        "neutral",
        "--json",
        "--works",
        "shiliao-bencao",
    ])
    .json();
    let at = shipped["answers"][0]["yes"][0]["statements"][0]["at"].clone();
    let entry = format!(
        "id: bohe\nentries:\n  - {{work: shiliao-bencao, at: {at}, status: memory, sayings: [{{nature: hot}}]}}\n"
    );
    write(folder.path(), "herbs/bohe.yaml", &entry);
    let args = [
        "is",
        "bohe",
        "hot",
        "--works",
        "shiliao-bencao",
        "--json",
        "--corpus",
        text(folder.path()),
    ];
    let answer = &kaoyi(&args).json()["answers"][0];
    assert_eq!(
        (answer["k"].as_u64(), answer["n"].as_u64()),
        (Some(1), Some(1))
    );
    assert_eq!(
        answer["yes"][0]["text"], "hot",
        "the shipped neutral is gone"
    );
}

#[test]
fn a_new_herb_can_be_added() {
    let folder = tempfile::tempdir().unwrap();
    write(folder.path(), "works/circle-notes.yaml", NOTES);
    write(
        folder.path(),
        "herbs/circle-leaf.yaml",
        "id: circle-leaf\nnames: {hant: 園葉, hans: 园叶, pinyin: yuányè, latin: Horti Folium, english: garden leaf}\n\
         part: leaf\nsubstance: plant\nentries: [{work: circle-notes, status: memory, sayings: [{flavour: [sweet]}]}]\n",
    );
    let run = kaoyi(&["is", "园叶", "sweet", "--corpus", text(folder.path())]);
    assert_eq!(run.code, 0, "{}", run.whole());
}

#[test]
fn a_folder_with_a_vocabulary_of_its_own_stands_alone() {
    let folder = tempfile::tempdir().unwrap();
    for file in fs::read_dir(root().join("corpus/vocabulary")).unwrap() {
        let file = file.unwrap();
        write(
            folder.path(),
            &format!("vocabulary/{}", file.file_name().to_str().unwrap()),
            &fs::read_to_string(file.path()).unwrap(),
        );
    }
    write(folder.path(), "works/circle-notes.yaml", NOTES);
    let run = kaoyi(&["check", text(folder.path())]);
    assert!(
        run.out.contains("0 entries") && run.code == 0,
        "{}",
        run.whole()
    );
    let run = kaoyi(&["compare", "bohe", "--corpus", text(folder.path())]);
    assert_eq!(
        run.code,
        2,
        "the shipped mint is not in it: {}",
        run.whole()
    );
}

#[test]
fn other_thresholds_change_the_verdict() {
    let folder = tempfile::tempdir().unwrap();
    for file in files_below(&root().join("corpus")) {
        let name = file
            .strip_prefix(root().join("corpus"))
            .unwrap()
            .to_str()
            .unwrap()
            .to_owned();
        write(folder.path(), &name, &fs::read_to_string(&file).unwrap());
    }
    let strict = "mostly: {part: 1, of: 1}\nmostly_not: {part: 0, of: 1}\nturning_misfits: {part: 0, of: 1}\nturning_side: 3\n";
    write(folder.path(), "vocabulary/thresholds.yaml", strict);
    let verdict = |extra: &[&str]| {
        let mut args = vec!["is", "juhua", "neutral", "--json"];
        args.extend(extra);
        kaoyi(&args).json()["answers"][0]["verdict"]
            .as_str()
            .unwrap()
            .to_owned()
    };
    assert_eq!(verdict(&[]), "mostly-yes");
    assert_eq!(verdict(&["--corpus", text(folder.path())]), "disputed");
}

#[test]
fn an_addition_brings_cautions_too_and_nothing_of_identity() {
    let folder = tempfile::tempdir().unwrap();
    let entry = "entries: [{work: bencao-gangmu, status: memory, sayings: [{grade: middle}]}]\n";
    write(
        folder.path(),
        "herbs/bohe.yaml",
        &format!("id: bohe\ncautions: [pregnancy-care]\n{entry}"),
    );
    let run = kaoyi(&["profile", "bohe", "--corpus", text(folder.path())]);
    assert!(
        run.out
            .contains("in pregnancy only under a licensed practitioner"),
        "{}",
        run.whole()
    );
    write(
        folder.path(),
        "herbs/bohe.yaml",
        &format!("id: bohe\npart: leaf\nnote: mine\n{entry}"),
    );
    let run = kaoyi(&["check", text(folder.path()), "--brief"]);
    assert_eq!(run.out.matches("not-added").count(), 2, "{}", run.out);
}

#[test]
fn own_works_bear_their_mark_in_every_answer() {
    let folder = tempfile::tempdir().unwrap();
    write(folder.path(), "works/circle-notes.yaml", NOTES);
    let saying = "{flavour: [acrid], nature: great-hot, action: [ascends]}";
    let text_of = format!(
        "id: bohe\nentries: [{{work: circle-notes, status: memory, sayings: [{saying}]}}]\n"
    );
    write(folder.path(), "herbs/bohe.yaml", &text_of);
    for args in [["compare", "bohe"], ["profile", "bohe"]] {
        let run = kaoyi(&[args[0], args[1], "--corpus", text(folder.path())]);
        assert!(run.out.contains("園課*"), "{}", run.out);
    }
    let run = kaoyi(&["is", "bohe", "hot", "--corpus", text(folder.path())]);
    assert!(run.out.contains("園課* (by 1901)"), "{}", run.out);
}
