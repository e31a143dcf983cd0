//! README, docs and help: every example runs and prints what it is said to print.

use std::fs;
use std::path::PathBuf;

use crate::support::{files_below, kaoyi, root};
use pretty_assertions::assert_eq;

fn pages() -> Vec<PathBuf> {
    let mut pages = vec![root().join("README.md"), root().join("DEVELOPERS.md")];
    pages.extend(
        files_below(&root().join("docs"))
            .into_iter()
            .filter(|page| page.extension().is_some_and(|e| e == "md")),
    );
    pages
}

#[test]
fn console_blocks_print_what_they_show() {
    let cases = trycmd::TestCases::new();
    cases.env("NO_COLOR", "1");
    cases.env("XDG_CACHE_HOME", crate::support::cache().to_str().unwrap());
    for page in pages() {
        if fs::read_to_string(&page).unwrap().contains("```console") {
            cases.case(page);
        }
    }
    cases.run();
}

#[test]
fn every_example_of_the_help_runs() {
    let reference = fs::read_to_string(root().join("docs/commands.md")).unwrap();
    let examples: Vec<&str> = reference
        .lines()
        .filter_map(|line| line.strip_prefix("  kaoyi "))
        .collect();
    assert!(examples.len() >= 9, "{examples:?}");
    for example in examples
        .iter()
        // Those that write a file are run by the tests of what they write.
        .filter(|example| !example.contains(" my-") && !example.starts_with("manual "))
        .filter(|example| !example.contains(" -o "))
        // A room stays open: its tests open it.
        .filter(|example| !example.starts_with("serve "))
    {
        let arguments: Vec<&str> = example.split_whitespace().collect();
        let run = kaoyi(&arguments);
        assert!(
            run.code < 2 && !run.out.is_empty(),
            "{example}: {}",
            run.err
        );
    }
}

#[test]
fn the_data_guide_shows_a_record_that_passes_the_check() {
    let guide = fs::read_to_string(root().join("docs/data-guide.md")).unwrap();
    let folder = tempfile::tempdir().unwrap();
    let mut written = 0;
    for block in guide.split("```yaml\n").skip(1) {
        let block = block.split("```").next().unwrap();
        let path = block
            .lines()
            .next()
            .and_then(|line| line.strip_prefix("# my-corpus/"));
        if let Some(path) = path {
            let path = folder.path().join(path);
            fs::create_dir_all(path.parent().unwrap()).unwrap();
            fs::write(path, block).unwrap();
            written += 1;
        }
    }
    assert!(written >= 2);
    let loaded = kaoyi::corpus::load_folder(folder.path()).unwrap();
    assert_eq!(loaded.findings, vec![]);
}

#[test]
fn links_between_pages_lead_somewhere() {
    for page in pages() {
        let text = fs::read_to_string(&page).unwrap();
        for target in text
            .split("](")
            .skip(1)
            .filter_map(|rest| rest.split(')').next())
        {
            let file = target.split('#').next().unwrap();
            let outside = target.contains("://") || file.is_empty() || file.contains(' ');
            assert!(
                outside || page.parent().unwrap().join(file).exists(),
                "{}: {target}",
                page.display()
            );
        }
    }
}

#[test]
fn readme_opens_with_the_job_and_shows_the_command_early() {
    let readme = fs::read_to_string(root().join("README.md")).unwrap();
    let head: Vec<&str> = readme.lines().take(30).collect();
    assert!(
        head.iter()
            .any(|line| line.contains("cargo run --release -- compare bohe")),
        "within 30 lines"
    );
}
