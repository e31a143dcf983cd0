//! Keys of content: under the same key lies the same.

use std::ffi::OsString;
use std::fs;
use std::hash::{DefaultHasher, Hash, Hasher};
use std::path::{Path, PathBuf};
use std::time::{Duration, SystemTime};

use crate::corpus;

/// What a folder's files look like from outside.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Fingerprint {
    /// Changes when a file is added, removed, renamed or written, or the program is another.
    pub key: u64,
    /// How many bytes the files have.
    pub bytes: u64,
    /// Whether the newest file is old enough: one written a moment ago may be written again without its time telling.
    pub settled: bool,
}

/// The key of the corpus that the program carries.
pub(super) fn of_program() -> u64 {
    let mut hasher = DefaultHasher::new();
    env!("CARGO_PKG_VERSION").hash(&mut hasher);
    corpus::embedded_content().hash(&mut hasher);
    hasher.finish()
}

/// A file younger than this may still be being written.
pub(super) const SETTLED: Duration = Duration::from_secs(2);

/// The fingerprint of the records below `root`; `None` where they cannot be looked at, and then nothing is kept.
pub(super) fn of_folder(root: &Path) -> Option<Fingerprint> {
    of_folders(&["herbs", "works", "vocabulary"].map(|folder| root.join(folder)))
}

/// The fingerprint of all files below some folders; one that is not there holds none.
fn of_folders(folders: &[PathBuf]) -> Option<Fingerprint> {
    let mut files = Vec::new();
    for folder in folders.iter().filter(|folder| folder.is_dir()) {
        collect(folder, &mut files)?;
    }
    files.sort_unstable();
    let mut hasher = DefaultHasher::new();
    of_program().hash(&mut hasher);
    let mut newest = SystemTime::UNIX_EPOCH;
    let mut bytes = 0;
    for file in &files {
        let about = fs::metadata(file).ok()?;
        let written = about.modified().ok()?;
        file.hash(&mut hasher);
        about.len().hash(&mut hasher);
        written.hash(&mut hasher);
        changed(&about).hash(&mut hasher);
        newest = newest.max(written);
        bytes += about.len();
    }
    let age = SystemTime::now().duration_since(newest).unwrap_or_default();
    Some(Fingerprint {
        key: hasher.finish(),
        bytes,
        settled: age > SETTLED,
    })
}

/// The time of the last change of a file's place, rights or content, where the system keeps it: a file put in another's
/// place with its old date is told by it.
#[cfg(unix)]
pub(super) fn changed(about: &fs::Metadata) -> (i64, i64) {
    use std::os::unix::fs::MetadataExt;
    (about.ctime(), about.ctime_nsec())
}

#[cfg(not(unix))]
pub(super) fn changed(_: &fs::Metadata) -> (i64, i64) {
    (0, 0)
}

/// Every file below a folder, whatever it is called: a stray one is a fault that the check must see.
fn collect(folder: &Path, files: &mut Vec<OsString>) -> Option<()> {
    for entry in fs::read_dir(folder).ok()? {
        let entry = entry.ok()?;
        if entry.file_type().ok()?.is_dir() {
            collect(&entry.path(), files)?;
        } else {
            // Paths are compared part by part, plain strings at once.
            files.push(entry.path().into_os_string());
        }
    }
    Some(())
}

/// A short name for a folder.
pub(crate) fn name_of(root: &Path) -> String {
    let whole = root.canonicalize().unwrap_or_else(|_| root.to_owned());
    let mut hasher = DefaultHasher::new();
    whole.hash(&mut hasher);
    format!("folder-{:016x}", hasher.finish())
}

/// What the record files below `root` look like from outside, in a number that changes when one of them is added, removed,
/// renamed or written; `None` where they cannot be looked at.
#[must_use]
pub fn stamp_of_folder(root: &Path) -> Option<u64> {
    of_folder(root).map(|found| found.key)
}

/// The same of all files below a folder; `None` also where one was written a moment ago, since it may be written again without
/// its time telling.
#[must_use]
pub fn settled_stamp(folder: &Path) -> Option<u64> {
    let found = of_folders(&[folder.to_owned()])?;
    found.settled.then_some(found.key)
}
