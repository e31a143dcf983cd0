//! The files of a notebook's folder: which of them are tastings, and why others are passed over.

use std::collections::{HashMap, HashSet};
use std::fs;
use std::io;
use std::path::Path;

use schemars::JsonSchema;
use serde::Serialize;

use super::kept::{Kept, Row};
use super::names;
use super::read::Reader;
use super::record::Tasting;
use crate::corpus::{Code, Finding, read_text, sum};
use crate::index::Stamp;

/// The folder into which `taste undo` moves.
pub const UNDONE: &str = "undone";

/// The beginning of the name of a file that is being written.
pub(super) const UNFINISHED: &str = ".kaoyi-";

/// From so many files on several threads read them.
const MANY: usize = 200;

/// At most so many threads.
const THREADS: usize = 4;

/// A file that is no tasting of the notebook.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct PassedOver {
    /// The file's name.
    pub file: String,
    /// Why it is passed over.
    pub why: Why,
    /// The file that counts in its place, where there is one.
    pub counts: Option<String>,
}

/// Why a file is passed over.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Why {
    /// Its content is that of another file.
    Copy,
    /// Its name is that of another file with something added: both were written, on two computers.
    Conflict,
    /// It is what a run left behind that was ended while it wrote.
    Unfinished,
    /// Its name does not end in `.yaml`.
    Name,
    /// It is a folder.
    Folder,
}

/// What a folder holds.
#[derive(Debug, Default)]
pub(super) struct Found {
    /// The id and content of each file without fault.
    pub tastings: Vec<(String, Tasting)>,
    /// Files that are passed over.
    pub passed_over: Vec<PassedOver>,
    /// How many files of tastings there are.
    pub files: usize,
}

/// A file that should be a tasting.
struct Candidate {
    id: String,
    stamp: Option<Stamp>,
}

/// Reads a folder; faults go to `findings`.
pub(super) fn read(
    folder: &Path,
    reader: &Reader,
    cache: Option<&Path>,
    findings: &mut Vec<Finding>,
) -> Found {
    let mut found = Found::default();
    let mut others = Vec::new();
    let mut candidates = Vec::new();
    if let Err(error) = list(folder, &mut candidates, &mut others, &mut found)
        && error.kind() != io::ErrorKind::NotFound
    {
        findings.push(unreadable(folder, &error));
    }
    candidates.sort_unstable_by(|a, b| a.id.cmp(&b.id));
    conflicts(&mut candidates, &mut found);
    found.files = candidates.len();
    let mut kept = cache.map(|cache| Kept::open(folder, cache));
    let mut rows: Vec<Row> = Vec::with_capacity(candidates.len());
    let mut unread = Vec::new();
    for one in candidates {
        let name = file_name(&one.id);
        match kept.as_mut().and_then(|kept| kept.take(&name, one.stamp)) {
            Some(row) => rows.push(row),
            None => unread.push(one),
        }
    }
    let changed = !unread.is_empty();
    read_all(folder, reader, unread, &mut rows, findings);
    rows.sort_unstable_by(|a, b| a.name.cmp(&b.name));
    if let Some(kept) = kept.filter(|kept| changed || kept.is_outdated()) {
        // Without a cache all is read again; the answer is the same.
        let _ = kept.put(&rows);
    }
    copies(rows, &mut found);
    let photos: HashSet<&str> = found
        .tastings
        .iter()
        .flat_map(|(_, tasting)| tasting.photos.iter().map(String::as_str))
        .collect();
    others.retain(|file| !photos.contains(file.as_str()));
    let others = others.into_iter().map(|file| passed(file, Why::Name, None));
    found.passed_over.extend(others);
    found.passed_over.sort_by(|a, b| a.file.cmp(&b.file));
    found
}

fn file_name(id: &str) -> String {
    format!("{id}.yaml")
}

fn passed(file: String, why: Why, counts: Option<String>) -> PassedOver {
    PassedOver { file, why, counts }
}

/// Lists a folder: files of tastings, other files, and what is passed over for its kind.
fn list(
    folder: &Path,
    candidates: &mut Vec<Candidate>,
    others: &mut Vec<String>,
    found: &mut Found,
) -> io::Result<()> {
    for entry in fs::read_dir(folder)? {
        let entry = entry?;
        let name = entry.file_name().to_string_lossy().into_owned();
        if name.starts_with(UNFINISHED) {
            found.passed_over.push(passed(name, Why::Unfinished, None));
        } else if name.starts_with('.') {
            // Folders of programs that copy files, settings of the desktop: nobody's tasting.
        } else if entry.file_type()?.is_dir() {
            if name != UNDONE {
                found.passed_over.push(passed(name, Why::Folder, None));
            }
        } else if let Some(id) = name.strip_suffix(".yaml") {
            let stamp = entry.metadata().ok().and_then(|about| Stamp::of(&about));
            let id = id.to_owned();
            candidates.push(Candidate { id, stamp });
        } else if !name.to_ascii_lowercase().starts_with("readme") {
            others.push(name);
        }
    }
    Ok(())
}

/// Takes out the files whose name is another's with something added.
fn conflicts(candidates: &mut Vec<Candidate>, found: &mut Found) {
    let mut original: Option<String> = None;
    // In the order of names a variant stands behind its original.
    candidates.retain(|one| {
        if let Some(original) = original
            .as_deref()
            .filter(|it| names::is_variant(&one.id, it))
        {
            let counts = Some(file_name(original));
            let file = file_name(&one.id);
            found.passed_over.push(passed(file, Why::Conflict, counts));
            return false;
        }
        original = Some(one.id.clone());
        true
    });
}

/// Takes out the files whose content is another's.
fn copies(rows: Vec<Row>, found: &mut Found) {
    let mut seen: HashMap<u64, String> = HashMap::with_capacity(rows.len());
    // A name that `taste add` gave counts before any other.
    let (given, other): (Vec<_>, Vec<_>) = rows.into_iter().partition(|row| {
        let id = row.name.trim_end_matches(".yaml");
        names::added(id).is_some()
    });
    for row in given.into_iter().chain(other) {
        if let Some(first) = seen.get(&row.sum) {
            let counts = Some(first.clone());
            found.passed_over.push(passed(row.name, Why::Copy, counts));
            continue;
        }
        let id = row.name.trim_end_matches(".yaml").to_owned();
        seen.insert(row.sum, row.name);
        found.tastings.push((id, row.tasting));
    }
}

/// Reads files, on several threads where they are many.
fn read_all(
    folder: &Path,
    reader: &Reader,
    unread: Vec<Candidate>,
    rows: &mut Vec<Row>,
    findings: &mut Vec<Finding>,
) {
    let threads = std::thread::available_parallelism().map_or(1, usize::from);
    let threads = if unread.len() < MANY {
        1
    } else {
        threads.min(THREADS)
    };
    let share = unread.len().div_ceil(threads).max(1);
    let read_share = |share: &[Candidate]| {
        let mut findings = Vec::new();
        let read = |one: &Candidate| read_one(folder, reader, one, &mut findings);
        let rows: Vec<_> = share.iter().filter_map(read).collect();
        (rows, findings)
    };
    let shares: Vec<_> = std::thread::scope(|scope| {
        let start = |share| scope.spawn(move || read_share(share));
        let running: Vec<_> = unread.chunks(share).map(start).collect();
        let ended = running.into_iter().map(|thread| thread.join());
        // No share of the files may be lost in silence.
        ended
            .map(|share| share.unwrap_or_else(|panic| std::panic::resume_unwind(panic)))
            .collect()
    });
    for (read, faults) in shares {
        rows.extend(read);
        findings.extend(faults);
    }
}

fn read_one(
    folder: &Path,
    reader: &Reader,
    one: &Candidate,
    findings: &mut Vec<Finding>,
) -> Option<Row> {
    let name = file_name(&one.id);
    let path = folder.join(&name);
    let text = match read_text(&path) {
        Ok(text) => text,
        Err(finding) => {
            findings.push(*finding);
            return None;
        }
    };
    let sum = sum(text.as_bytes());
    let reading = reader.read(&path.display().to_string(), text, findings)?;
    // Where the system tells no time, nothing of the file is kept: no stamp equals this one.
    let stamp = one.stamp.unwrap_or_default();
    Some(Row {
        name,
        stamp,
        sum,
        tasting: reading.record,
    })
}

fn unreadable(folder: &Path, error: &io::Error) -> Finding {
    Finding {
        code: Code::Unreadable,
        file: folder.display().to_string(),
        line: None,
        column: None,
        width: 0,
        found: error.to_string(),
        expected: "a folder that can be read".to_owned(),
        nearest: Vec::new(),
        excerpt: None,
    }
}
