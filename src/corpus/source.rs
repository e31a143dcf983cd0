//! The files of a corpus folder, read within limits. Whatever cannot be read becomes a finding; the
//! rest goes on.

use std::fs;
use std::io::Read;
use std::path::{Path, PathBuf};

use super::code::Code;
use super::finding::Finding;
use crate::text::nearest;

/// The largest file that is read, in bytes. The largest shipped record has a fiftieth of it.
pub const FILE_LIMIT: u64 = 2 * 1024 * 1024;

/// The longest part of a line that a finding shows, in characters.
const EXCERPT_LIMIT: usize = 400;

/// The folder in which a record stands tells what it records.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Folder {
    Works,
    Herbs,
    Vocabulary,
    /// In no corpus folder: the record stands by itself.
    Alone,
}

impl Folder {
    const NAMES: [&'static str; 3] = ["herbs", "works", "vocabulary"];

    pub fn named(name: &str) -> Option<Self> {
        match name {
            "works" => Some(Self::Works),
            "herbs" => Some(Self::Herbs),
            "vocabulary" => Some(Self::Vocabulary),
            _ => None,
        }
    }
}

/// One file with its text.
#[derive(Debug)]
pub(super) struct Source {
    /// The path as shown to the user.
    pub name: String,
    pub folder: Folder,
    /// The file's name without `.yaml`.
    pub stem: String,
    pub text: String,
    /// Byte at which each line begins.
    lines: Vec<usize>,
}

impl Source {
    pub fn new(name: String, folder: Folder, stem: String, text: String) -> Self {
        // A byte-order mark is no character of the first line.
        let text = text
            .strip_prefix('\u{feff}')
            .map(str::to_owned)
            .unwrap_or(text);
        let breaks = text
            .bytes()
            .enumerate()
            .filter(|(_, byte)| *byte == b'\n')
            .map(|(at, _)| at + 1);
        let lines = std::iter::once(0).chain(breaks).collect();
        Self {
            name,
            folder,
            stem,
            text,
            lines,
        }
    }

    /// The line of a number from 1, cut where it is longer than anybody reads.
    pub fn excerpt(&self, line: usize) -> Option<String> {
        let start = *self.lines.get(line.checked_sub(1)?)?;
        let text = self.text[start..].lines().next().unwrap_or_default();
        let end = text
            .char_indices()
            .nth(EXCERPT_LIMIT)
            .map_or(text.len(), |(end, _)| end);
        Some(text[..end].to_owned())
    }
}

/// Reads every YAML file below `root`, in the order of their paths.
pub(super) fn read_folder(root: &Path, findings: &mut Vec<Finding>) -> Vec<Source> {
    let mut paths = Vec::new();
    collect(root, &mut paths, findings, &|name| {
        Folder::named(name).is_some()
    });
    paths.sort();
    let mut sources = Vec::new();
    for path in paths {
        let inside = path.strip_prefix(root).unwrap_or(&path);
        let folder = inside
            .parent()
            .and_then(Path::to_str)
            .and_then(Folder::named);
        let Some(folder) = folder else {
            findings.push(whole_file(
                Code::Stray,
                &path,
                "a YAML file here",
                "a file in herbs/, works/ or vocabulary/",
            ));
            continue;
        };
        match read(&path) {
            Ok(text) => {
                let stem = path
                    .file_stem()
                    .unwrap_or_default()
                    .to_string_lossy()
                    .into_owned();
                let name = path.display().to_string();
                sources.push(Source::new(name, folder, stem, text));
            }
            Err(finding) => findings.push(*finding),
        }
    }
    if sources.is_empty() && findings.is_empty() {
        let expected = "YAML files in its folders herbs/, works/ or vocabulary/";
        findings.push(whole_file(Code::Empty, root, "no YAML file", expected));
    }
    sources
}

/// Gathers the YAML files of a folder and of the folders in it that `enter` names. The user's folder is
/// not searched through: it may be a home or a disk.
fn collect(
    folder: &Path,
    paths: &mut Vec<PathBuf>,
    findings: &mut Vec<Finding>,
    enter: &dyn Fn(&str) -> bool,
) {
    let entries = match fs::read_dir(folder) {
        Ok(entries) => entries,
        Err(error) => {
            findings.push(whole_file(
                Code::Unreadable,
                folder,
                &error.to_string(),
                "a folder that can be read",
            ));
            return;
        }
    };
    for entry in entries {
        let entry = match entry {
            Ok(entry) => entry,
            Err(error) => {
                findings.push(whole_file(
                    Code::Unreadable,
                    folder,
                    &error.to_string(),
                    "a folder that can be read",
                ));
                continue;
            }
        };
        let name = entry.file_name().to_string_lossy().into_owned();
        if name.starts_with('.') {
            continue;
        }
        // A link to a folder is not followed: it may lead round in a circle.
        let is_folder = entry.file_type().is_ok_and(|kind| kind.is_dir());
        let path = entry.path();
        let linked = entry.file_type().is_ok_and(|kind| kind.is_symlink()) && path.is_dir();
        if linked {
            findings.push(whole_file(
                Code::Stray,
                &path,
                "a link to a folder",
                "a folder; links are not followed",
            ));
        } else if is_folder {
            if enter(&name) {
                collect(&path, paths, findings, &|_| true);
            } else if holds_records(&path) {
                let mut one = whole_file(
                    Code::Stray,
                    &path,
                    "a folder of YAML files",
                    "herbs/, works/ or vocabulary/",
                );
                one.nearest = nearest(&name, Folder::NAMES)
                    .into_iter()
                    .map(str::to_owned)
                    .collect();
                findings.push(one);
            }
        } else if is_yaml(&path) {
            paths.push(path);
        }
    }
}

fn is_yaml(path: &Path) -> bool {
    let ending = path.extension().unwrap_or_default();
    ending.eq_ignore_ascii_case("yaml") || ending.eq_ignore_ascii_case("yml")
}

/// Whether a folder that is not read holds YAML files itself: then its name is perhaps a slip.
fn holds_records(folder: &Path) -> bool {
    let entries = fs::read_dir(folder).into_iter().flatten().flatten();
    entries.map(|entry| entry.path()).any(|path| is_yaml(&path))
}

pub(super) fn read(path: &Path) -> Result<String, Box<Finding>> {
    let unreadable = |found: &str| {
        Box::new(whole_file(
            Code::Unreadable,
            path,
            found,
            "a plain file that can be read",
        ))
    };
    let size = fs::metadata(path).map_err(|error| unreadable(&error.to_string()))?;
    // A pipe or a device would keep the program waiting for ever.
    if !size.is_file() {
        return Err(unreadable("not a plain file"));
    }
    let too_large = |bytes: u64| {
        let found = format!("{} KiB", bytes.div_ceil(1024));
        Box::new(whole_file(
            Code::TooLarge,
            path,
            &found,
            &format!("at most {} KiB", FILE_LIMIT / 1024),
        ))
    };
    if size.len() > FILE_LIMIT {
        return Err(too_large(size.len()));
    }
    let mut bytes = Vec::new();
    let file = fs::File::open(path).map_err(|error| unreadable(&error.to_string()))?;
    // The file may grow while it is read: never take more than the limit.
    file.take(FILE_LIMIT + 1)
        .read_to_end(&mut bytes)
        .map_err(|error| unreadable(&error.to_string()))?;
    if bytes.len() as u64 > FILE_LIMIT {
        return Err(too_large(bytes.len() as u64));
    }
    String::from_utf8(bytes).map_err(|error| {
        let found = format!(
            "a byte that is not UTF-8 after {} bytes",
            error.utf8_error().valid_up_to()
        );
        Box::new(whole_file(Code::NotUtf8, path, &found, "UTF-8 text"))
    })
}

/// A finding about a file or folder as a whole.
pub(super) fn whole_file(code: Code, path: &Path, found: &str, expected: &str) -> Finding {
    Finding {
        code,
        file: path.display().to_string(),
        line: None,
        column: None,
        width: 0,
        found: found.to_owned(),
        expected: expected.to_owned(),
        nearest: Vec::new(),
        excerpt: None,
    }
}
