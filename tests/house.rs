//! House rules that a machine can hold.

use std::fs;

use crate::support::{files_below, root};
use pretty_assertions::assert_eq;

/// The longest that a source file may be, tests included.
const LONGEST: usize = 400;

/// Files that are longer, for a reason. The list may only shrink: one that is no longer too long
/// fails as well.
const LONGER: [&str; 0] = [];

/// The floors from the ground up; none imports from one after it.
const FLOORS: [&str; 13] = [
    "stats", "text", "claim", "corpus", "reader", "compare", "measure", "index", "pairing",
    "tasting", "report", "web", "cli",
];

fn sources() -> Vec<(String, String)> {
    let folders = ["src", "tests"].map(|folder| files_below(&root().join(folder)));
    let files = folders
        .into_iter()
        .flatten()
        .filter(|file| file.extension().is_some_and(|ending| ending == "rs"));
    files
        .map(|file| {
            let name = file
                .strip_prefix(root())
                .unwrap()
                .to_str()
                .unwrap()
                .replace('\\', "/");
            (name, fs::read_to_string(file).unwrap())
        })
        .collect()
}

#[test]
fn no_file_is_too_long_but_those_that_are_listed() {
    let long: Vec<String> = sources()
        .into_iter()
        .filter(|(_, text)| text.lines().count() > LONGEST)
        .map(|(name, _)| name)
        .collect();
    assert_eq!(long, LONGER);
}

#[test]
fn nothing_imports_upward() {
    for (name, text) in sources() {
        let Some(floor) = name
            .strip_prefix("src/")
            .and_then(|rest| rest.split('/').next())
        else {
            continue;
        };
        let Some(place) = FLOORS.iter().position(|one| *one == floor) else {
            continue;
        };
        for above in &FLOORS[place + 1..] {
            for (number, line) in text.lines().enumerate() {
                let comment = line.trim_start().starts_with("//");
                let import = format!("crate::{above}");
                assert!(
                    !line.contains("use crate::{"),
                    "{name}:{}: one `use` a floor, so that this test sees it",
                    number + 1
                );
                assert!(
                    comment || !line.contains(&import),
                    "{name}:{}: {floor} imports {above}",
                    number + 1
                );
            }
        }
    }
}

#[test]
fn every_folder_of_the_source_is_a_floor() {
    for entry in fs::read_dir(root().join("src")).unwrap() {
        let entry = entry.unwrap();
        let name = entry.file_name().into_string().unwrap();
        assert!(
            !entry.path().is_dir() || FLOORS.contains(&name.as_str()),
            "{name}"
        );
    }
}

#[test]
fn every_test_file_is_run() {
    let main = fs::read_to_string(root().join("tests/main.rs")).unwrap();
    for entry in fs::read_dir(root().join("tests")).unwrap() {
        let path = entry.unwrap().path();
        let name = path.file_stem().unwrap().to_str().unwrap();
        if path.extension().is_some_and(|ending| ending == "rs") && name != "main" {
            assert!(
                main.lines().any(|line| line == format!("mod {name};")),
                "{name} is not listed in tests/main.rs"
            );
        }
    }
}

#[test]
fn only_the_output_layer_writes_to_the_terminal() {
    for (name, text) in sources() {
        let allowed = name == "src/cli/output.rs" || name.starts_with("tests/");
        for word in ["io::stdout", "io::stderr", "println!", "eprintln!"] {
            assert!(allowed || !text.contains(word), "{name}: {word}");
        }
    }
}

#[test]
fn the_library_below_the_command_asks_nothing_of_the_environment() {
    for (name, text) in sources() {
        let below =
            name.starts_with("src/") && !name.starts_with("src/cli/") && name != "src/main.rs";
        for word in ["env::var", "current_dir", "SystemTime", "Instant::now"] {
            // Whether a cache is outdated is told by the age of files; no answer depends on it.
            let age = name.starts_with("src/index/") && word == "SystemTime";
            assert!(!below || age || !text.contains(word), "{name}: {word}");
        }
    }
}

#[test]
fn the_top_level_holds_what_was_agreed() {
    let agreed = [
        "Cargo.toml",
        "Cargo.lock",
        "README.md",
        "DEVELOPERS.md",
        "LICENSE-MIT",
        "LICENSE-APACHE",
        "build.rs",
        "clippy.toml",
        "rustfmt.toml",
        "deny.toml",
        "src",
        "corpus",
        "schema",
        "tests",
        "docs",
        "target",
    ];
    for entry in fs::read_dir(root()).unwrap() {
        let name = entry.unwrap().file_name().into_string().unwrap();
        assert!(
            name.starts_with('.') || agreed.contains(&name.as_str()),
            "{name}"
        );
    }
}

#[test]
fn every_dependency_gives_its_reason() {
    let manifest = fs::read_to_string(root().join("Cargo.toml")).unwrap();
    let lines: Vec<&str> = manifest.lines().collect();
    let mut section = "";
    for (number, line) in lines.iter().enumerate() {
        if line.starts_with('[') {
            section = line;
        }
        let dependency = section.contains("dependencies") && line.contains(" = ");
        let reason = number > 0 && lines[number - 1].starts_with('#');
        assert!(!dependency || reason, "line {}: {line}", number + 1);
    }
}
