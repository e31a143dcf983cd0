//! The tours in `docs/guide`: pictures that the program made, commands that it takes, the line that defers to law. Their console
//! blocks are run with all others, in `documented_examples`.

use std::fs;

use crate::support::{current, files_below, kaoyi, root};
use pretty_assertions::assert_eq;

/// Name and text of each page.
fn pages() -> Vec<(String, String)> {
    let files = files_below(&root().join("docs/guide")).into_iter();
    files
        .filter(|file| file.extension().is_some_and(|ending| ending == "md"))
        .map(|file| {
            let name = file.file_name().unwrap().to_str().unwrap().to_owned();
            (name, fs::read_to_string(file).unwrap())
        })
        .collect()
}

/// A picture of a page: its words for those who do not see it, its file, the command in the comment on the next line.
struct Picture<'a> {
    words: &'a str,
    file: &'a str,
    command: &'a str,
}

fn pictures<'a>(name: &str, page: &'a str) -> Vec<Picture<'a>> {
    let picture = |rest: &'a str| {
        let (words, rest) = rest.split_once("](").unwrap();
        let (file, rest) = rest.split_once(')').unwrap();
        let command = rest
            .strip_prefix("\n<!-- ")
            .and_then(|rest| rest.split_once(" -->"))
            .unwrap_or_else(|| panic!("{name}: no command in a comment below {file}"));
        Picture {
            words,
            file,
            command: command.0,
        }
    };
    page.split("![").skip(1).map(picture).collect()
}

/// The name of this test has "generated" in it, so that it rewrites together with all else that is.
#[test]
fn generated_pictures_are_what_the_commands_beside_them_draw() {
    let mut drawn = Vec::new();
    for (name, page) in pages() {
        for Picture {
            words,
            file,
            command,
        } in pictures(&name, &page)
        {
            assert!(words.chars().count() > 40, "{name}: {file}: {words}");
            let shown = format!("`{command} -o {file}`");
            assert!(page.contains(&shown), "{name} does not show {shown}");
            let words: Vec<&str> = command.split_whitespace().collect();
            assert_eq!(words[..2], ["kaoyi", "chart"], "{name}: {command}");
            let run = kaoyi(&words[1..]);
            assert_eq!(run.code, 0, "{name}: {command}: {}", run.err);
            current(&format!("docs/guide/{file}"), &run.out);
            drawn.push(root().join("docs/guide").join(file));
        }
    }
    drawn.sort();
    let mut there = files_below(&root().join("docs/guide"));
    there.retain(|file| file.extension().is_some_and(|ending| ending == "svg"));
    assert_eq!(there, drawn, "each picture stands on one page");
    assert!(there.len() >= 3);
}

/// Commands within the text are not run, since some write files; that the program takes them is known from the parser.
#[test]
fn the_program_takes_every_command_within_the_text() {
    let mut seen = 0;
    for (name, page) in pages() {
        // Every second part between fences is text, and in the text every second part between marks is code.
        let text = page.split("```").step_by(2);
        let codes = text.flat_map(|part| part.split('`').skip(1).step_by(2));
        for code in codes.filter(|code| code.starts_with("kaoyi ")) {
            let taken = kaoyi::cli::command().try_get_matches_from(code.split_whitespace());
            assert!(taken.is_ok(), "{name}: {code}: {}", taken.unwrap_err());
            seen += 1;
        }
    }
    assert!(seen >= 8, "{seen}");
}

#[test]
fn each_page_prescribes_nothing_and_the_readme_leads_to_it() {
    let readme = fs::read_to_string(root().join("README.md")).unwrap();
    let names: Vec<String> = pages().into_iter().map(|(name, _)| name).collect();
    assert_eq!(names, ["practitioner.md", "scholar.md", "teacher.md"]);
    for (name, page) in pages() {
        let words = page.split_whitespace().collect::<Vec<_>>().join(" ");
        for said in [
            "prescribes nothing",
            "a licensed practitioner before any use",
        ] {
            assert!(words.contains(said), "{name}: {said}");
        }
        assert!(
            readme.contains(&format!("](docs/guide/{name})")),
            "{name}: no link in README"
        );
    }
}
