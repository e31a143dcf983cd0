//! `check`: a folder of samples for every code, and input that must not hurt.
//!
//! `tests/data/check/<code>/<case>/` is a corpus folder with that one kind of fault; the first line of
//! each faulty file says where: `expect 7:10` (line and column), `expect 7` (line) or `expect file`.
//! `valid/<case>/` has none. Adding a folder adds a test; a code without a folder fails.

use std::fs;
use std::path::Path;

use crate::support::{data, files_below, kaoyi, root, text};
use insta::assert_snapshot;
use kaoyi::corpus::{Code, FILE_LIMIT, load_folder};
use pretty_assertions::assert_eq;

/// Codes that no file in a repository can show, which the tests below make, and that of formulas, which lie in no corpus
/// (see `weighing`).
const MADE_HERE: [Code; 5] = [
    Code::Unreadable,
    Code::Empty,
    Code::TooLarge,
    Code::NotUtf8,
    Code::BadAmount,
];

fn expected(case: &Path, code: &str) -> Vec<String> {
    let mut all: Vec<String> = files_below(case)
        .iter()
        .flat_map(|file| {
            let head = fs::read_to_string(file).unwrap();
            let head = head.lines().next().unwrap_or_default().to_owned();
            head.split(" expect ")
                .skip(1)
                .map(|place| format!("{code} {place}"))
                .collect::<Vec<_>>()
        })
        .collect();
    all.sort();
    all
}

fn found(case: &Path, expected: &[String]) -> Vec<String> {
    let loaded = load_folder(case).unwrap();
    let by_line_only = expected.iter().all(|place| !place.contains(':'));
    let mut all: Vec<String> = loaded
        .findings
        .iter()
        .map(|one| match (one.line, one.column) {
            (Some(line), Some(column)) if !by_line_only => {
                format!("{} {line}:{column}", one.code.name())
            }
            (Some(line), _) => format!("{} {line}", one.code.name()),
            _ => format!("{} file", one.code.name()),
        })
        .collect();
    all.sort();
    all
}

#[test]
fn every_sample_has_exactly_the_fault_it_is_named_for() {
    for code in fs::read_dir(data("check")).unwrap() {
        let code = code.unwrap().path();
        for case in fs::read_dir(&code).unwrap() {
            let case = case.unwrap().path();
            let expected = expected(&case, code.file_name().unwrap().to_str().unwrap());
            assert_eq!(found(&case, &expected), expected, "{}", case.display());
            assert_eq!(
                expected.is_empty(),
                code.ends_with("valid"),
                "{}",
                case.display()
            );
        }
    }
}

#[test]
fn every_code_has_samples() {
    for code in Code::ALL {
        let folder = data("check").join(code.name());
        assert_eq!(
            folder.is_dir(),
            !MADE_HERE.contains(code),
            "{}",
            code.name()
        );
    }
}

/// A corpus folder with one herb file of the given bytes.
fn folder_with(bytes: &[u8]) -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    fs::create_dir(folder.path().join("herbs")).unwrap();
    fs::write(folder.path().join("herbs/bohe.yaml"), bytes).unwrap();
    folder
}

fn codes(folder: &Path) -> Vec<&'static str> {
    load_folder(folder)
        .unwrap()
        .findings
        .iter()
        .map(|one| one.code.name())
        .collect()
}

#[test]
fn a_finding_shows_the_line_and_the_nearest_choice() {
    let folder = folder_with(b"id: bohe\nentries:\n  - work: bencao-gangmo\n    status: memory\n    sayings: [{flavor: [sweet]}]\n");
    let run = kaoyi(&["check", text(folder.path())]);
    let out = run.out.replace(text(folder.path()), "DIR");
    assert_snapshot!(format!("{out}exit {}", run.code), @"
    error[unknown-key]: unknown key: found `flavor`
     --> DIR/herbs/bohe.yaml:5:16
      |
    5 |     sayings: [{flavor: [sweet]}]
      |                ^^^^^^
      |
      = note: expected one of `action`, `by`, `channel`, `doubt`, `flavour`,
              `grade`, `nature`, `relations`, `scope`, `status`, `through`,
              `toxicity`, `wording`
      = help: did you mean `flavour`?

    1 fault in 1 file read
    What a record refers to is checked once its form is mended: more may follow.
    exit 1
    ");
}

#[test]
fn all_faults_of_all_files_come_in_one_run() {
    let folder = folder_with(
        b"id: bohe\nentries:\n  - {work: nobody, status: memory, sayings: [{nature: wram}, {}]}\n",
    );
    fs::create_dir(folder.path().join("works")).unwrap();
    fs::write(folder.path().join("works/a.yaml"), "id: b\n").unwrap();
    fs::write(folder.path().join("works/c.yaml"), "id: [\n").unwrap();
    let codes = codes(folder.path());
    for code in [
        "unknown-work",
        "unknown-value",
        "no-claim",
        "missing-key",
        "yaml-syntax",
    ] {
        assert!(codes.contains(&code), "{code} in {codes:?}");
    }
}

#[test]
fn a_huge_file_is_refused_by_its_size() {
    let folder = folder_with(b"");
    // A hole, not bytes: 100 MB that take no room on the disk.
    let file = fs::OpenOptions::new()
        .write(true)
        .open(folder.path().join("herbs/bohe.yaml"))
        .unwrap();
    file.set_len(100 * 1024 * 1024).unwrap();
    assert!(file.metadata().unwrap().len() > FILE_LIMIT);
    assert_eq!(codes(folder.path()), ["too-large"]);
}

#[test]
fn a_file_just_within_the_limit_is_read() {
    let mut text = String::from(
        "id: bohe\nentries:\n  - {work: bencao-gangmu, status: memory, sayings: [{nature: warm}]}\n#",
    );
    text.push_str(&"x".repeat(FILE_LIMIT as usize - text.len()));
    assert_eq!(
        codes(folder_with(text.as_bytes()).path()),
        Vec::<&str>::new()
    );
}

#[test]
fn bytes_that_are_no_text_are_refused() {
    assert_eq!(codes(folder_with(b"id: \xff\xfe\n").path()), ["not-utf8"]);
    assert_eq!(codes(folder_with(&[0; 64]).path()), ["yaml-syntax"]);
}

#[test]
fn a_byte_order_mark_and_windows_line_ends_are_accepted() {
    let text = "\u{feff}id: bohe\r\nentries:\r\n  - {work: bencao-gangmu, status: memory, sayings: [{nature: warm}]}\r\n";
    assert_eq!(
        codes(folder_with(text.as_bytes()).path()),
        Vec::<&str>::new()
    );
}

#[test]
fn an_empty_or_missing_folder_could_not_be_checked() {
    let folder = tempfile::tempdir().unwrap();
    let run = kaoyi(&["check", text(folder.path()), "--brief"]);
    assert!(
        run.out.contains("empty-folder") && run.code == 2,
        "{}",
        run.whole()
    );
    let run = kaoyi(&["check", text(&folder.path().join("nowhere")), "--brief"]);
    assert!(
        run.out.contains("unreadable") && run.code == 2,
        "{}",
        run.whole()
    );
    let run = kaoyi(&["check", text(&root().join("Cargo.toml")), "--brief"]);
    assert!(
        run.out.contains("unreadable") && run.code == 2,
        "{}",
        run.whole()
    );
}

#[cfg(unix)]
#[test]
fn a_link_in_a_circle_and_a_pipe_do_not_hang() {
    let folder = folder_with(b"");
    std::os::unix::fs::symlink(folder.path(), folder.path().join("herbs/round")).unwrap();
    std::os::unix::fs::symlink("/dev/zero", folder.path().join("herbs/zero.yaml")).unwrap();
    std::os::unix::fs::symlink("nowhere", folder.path().join("herbs/broken.yaml")).unwrap();
    let codes = codes(folder.path());
    assert_eq!(
        codes.iter().filter(|code| **code == "unreadable").count(),
        2,
        "{codes:?}"
    );
}

#[test]
fn a_faulty_folder_answers_nothing_and_says_why() {
    let folder = folder_with(b"id: bohe\nentries: [\n");
    let run = kaoyi(&["is", "bohe", "warm", "--corpus", text(folder.path())]);
    assert_eq!((run.out.as_str(), run.code), ("", 2));
    assert!(
        run.err.contains("yaml-syntax") && run.err.contains("bohe.yaml:2"),
        "{}",
        run.err
    );
}

#[test]
fn every_code_is_explained_offline() {
    for code in Code::ALL {
        let run = kaoyi(&["check", "--explain", code.name()]);
        assert!(
            run.out.contains(code.title()) && run.code == 0,
            "{}",
            run.whole()
        );
    }
    assert_snapshot!(kaoyi(&["check", "--explain", "no-clame"]).whole(), @"
    kaoyi: there is no code `no-clame`
      no-claim
    All codes: kaoyi check --explain
    exit 2
    ");
}

#[test]
fn the_embedded_corpus_is_clean() {
    let run = kaoyi(&["check"]);
    assert!(
        run.out.starts_with("clean: ") && run.code == 0,
        "{}",
        run.whole()
    );
}

#[test]
fn relations_within_a_vocabulary_must_lead_somewhere() {
    let faults = [
        ("toxicity.yaml", "degree_of: toxic}", "degree_of: toxik}"),
        ("toxicity.yaml", "side: harmful}", "side: harmfull}"),
        (
            "flavours.yaml",
            "opposite: [sour, astringent]",
            "opposite: [sour, astringend]",
        ),
    ];
    for (file, right, wrong) in faults {
        let folder = tempfile::tempdir().unwrap();
        fs::create_dir(folder.path().join("vocabulary")).unwrap();
        for path in files_below(&root().join("corpus/vocabulary")) {
            let name = path.file_name().unwrap();
            let mut text = fs::read_to_string(&path).unwrap();
            if name == file {
                assert!(text.contains(right), "{file}: {right}");
                text = text.replacen(right, wrong, 1);
            }
            fs::write(folder.path().join("vocabulary").join(name), text).unwrap();
        }
        let findings = load_folder(folder.path()).unwrap().findings;
        let found: Vec<_> = findings
            .iter()
            .map(|one| (one.code, one.nearest.len()))
            .collect();
        assert_eq!(found, [(Code::UnknownValue, 1)], "{wrong}");
    }
}
