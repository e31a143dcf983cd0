//! A folder that changes while it is read: the page follows, and a fault does not close the room.

use std::fs;
use std::path::Path;
use std::thread;
use std::time::Duration;

use crate::support::text;
use crate::web_support::{Reading, alone};
use pretty_assertions::assert_eq;

/// An invented herb of the circle, which a note calls something.
fn herb(nature: &str) -> String {
    format!(
        "id: circle-leaf\nnames: {{hant: 例葉, hans: 例叶, pinyin: lì yè, latin: Ex, english: example}}\npart: leaf\nsubstance: plant\n\
         entries:\n  - work: circle-notes\n    status: memory\n    sayings:\n      - {{flavour: [sweet], nature: {nature}}}\n"
    )
}

fn write(folder: &Path, name: &str, words: &str) {
    let path = folder.join(name);
    fs::create_dir_all(path.parent().unwrap()).unwrap();
    fs::write(path, words).unwrap();
}

/// The folder is looked at once a second at most.
fn wait() {
    thread::sleep(Duration::from_millis(1200));
}

#[test]
fn changed_files_appear_and_a_faulty_one_is_told_with_its_place() {
    let folder = alone();
    let notes = "id: circle-notes\ntitle: {hant: 園記, pinyin: yuán jì, english: notes}\nauthor: the circle\nkind: extant\ndate: {from: 1900, to: 1900}\n";
    write(folder.path(), "works/circle-notes.yaml", notes);
    write(folder.path(), "herbs/circle-leaf.yaml", &herb("warm"));
    let room = Reading::open(&["--corpus", text(folder.path())]);
    let nature = || {
        room.get("/api/herb/circle-leaf").json()["witnesses"][0]["stands"]["nature"]["text"].clone()
    };
    assert_eq!(nature(), "warm");

    write(folder.path(), "herbs/circle-leaf.yaml", &herb("cool"));
    wait();
    assert_eq!(nature(), "cool");

    write(folder.path(), "herbs/circle-leaf.yaml", &herb("wram"));
    wait();
    let page = room.page("/herb/circle-leaf");
    assert!(page.contains("circle-leaf.yaml:9:"), "{page}");
    assert!(page.contains("wram"));
    assert_eq!(nature(), "cool", "the last good state stays");

    write(folder.path(), "herbs/circle-leaf.yaml", &herb("hot"));
    wait();
    assert_eq!(nature(), "hot");
    assert!(!room.page("/herb/circle-leaf").contains("class=\"fault\""));

    fs::remove_dir_all(folder.path()).unwrap();
    wait();
    assert!(room.page("/herb/circle-leaf").contains("is gone"));
}

#[test]
fn a_folder_that_is_faulty_at_the_beginning_opens_no_room() {
    let folder = tempfile::tempdir().unwrap();
    write(folder.path(), "herbs/circle-leaf.yaml", &herb("wram"));
    let run = crate::support::kaoyi(&["serve", "--port", "0", "--corpus", text(folder.path())]);
    assert_eq!(run.code, 2);
    assert!(run.err.contains("circle-leaf.yaml"), "{}", run.err);
}

#[test]
fn a_tasting_that_is_added_appears_and_a_faulty_one_is_told() {
    let notebook = tempfile::tempdir().unwrap();
    let room = Reading::open(&["--notebook", text(notebook.path())]);
    assert!(!room.page("/herb/bohe").contains("<section id=\"own\""));
    for file in fs::read_dir("docs/examples/notebook").unwrap() {
        let file = file.unwrap().path();
        fs::copy(&file, notebook.path().join(file.file_name().unwrap())).unwrap();
    }
    assert!(room.page("/herb/bohe").contains("<section id=\"own\""));
    write(
        notebook.path(),
        "2026-05-01-bohe-0000000000aa.yaml",
        "herb: bohe\ndate: never\n",
    );
    let page = room.page("/herb/bohe");
    assert!(
        page.contains("2026-05-01-bohe-0000000000aa.yaml:2"),
        "{page}"
    );
    assert!(page.contains("<section id=\"own\""));
}
