//! Completions and man pages.

use std::process::Command;

use crate::support::{Run, cache, kaoyi, text};
use pretty_assertions::assert_eq;

/// What a shell is offered after these words, the last of which has been begun.
fn offered(words: &[&str]) -> String {
    let mut command = Command::new(env!("CARGO_BIN_EXE_kaoyi"));
    command
        .arg("--")
        .arg("kaoyi")
        .args(words)
        .env_clear()
        .env("COMPLETE", "fish")
        .env("XDG_CACHE_HOME", cache());
    Run::from(command.output().unwrap()).out
}

#[test]
fn herbs_are_completed_from_han_characters_pinyin_and_english() {
    for begun in ["薄", "boh", "min"] {
        let offered = offered(&["compare", begun]);
        assert!(offered.contains("薄荷 bòhe"), "{begun}: {offered}");
    }
    assert_eq!(offered(&["compare", "xqzw"]), "");
}

#[test]
fn works_and_commands_are_completed() {
    assert!(offered(&["works", "bencao-g"]).contains("bencao-gangmu"));
    assert!(offered(&["works", "本草綱"]).contains("本草綱目"));
    assert!(offered(&["disp"]).contains("disputes"));
}

#[test]
fn each_of_the_common_shells_gets_a_script() {
    for shell in ["bash", "zsh", "fish", "elvish", "powershell"] {
        let mut command = Command::new(env!("CARGO_BIN_EXE_kaoyi"));
        let run = Run::from(command.env_clear().env("COMPLETE", shell).output().unwrap());
        assert!(
            run.code == 0 && run.out.contains("kaoyi"),
            "{shell} {}",
            run.whole()
        );
    }
}

#[test]
fn every_command_has_a_man_page() {
    let folder = tempfile::tempdir().unwrap();
    let place = folder.path().join("man1");
    let run = kaoyi(&["manual", text(&place)]);
    assert_eq!(run.code, 0, "{}", run.err);
    for name in [
        "kaoyi",
        "kaoyi-compare",
        "kaoyi-find",
        "kaoyi-disputes",
        "kaoyi-check",
    ] {
        let page = std::fs::read_to_string(place.join(format!("{name}.1"))).unwrap();
        assert!(
            page.contains(".SH NAME") && page.contains("kaoyi"),
            "{name}"
        );
    }
}
