//! Keys of content: under the same key lies the same.

use std::fs::{self, DirEntry};
use std::hash::{DefaultHasher, Hash, Hasher};
use std::path::{Path, PathBuf};
use std::thread;
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
    let seen = look_at(&files)?;
    let mut hasher = DefaultHasher::new();
    of_program().hash(&mut hasher);
    (files.len(), seen.hashes).hash(&mut hasher);
    let age = SystemTime::now()
        .duration_since(seen.newest)
        .unwrap_or_default();
    Some(Fingerprint {
        key: hasher.finish(),
        bytes: seen.bytes,
        settled: age > SETTLED,
    })
}

/// What some files look like together.
struct Seen {
    /// The sum of a hash of each file's path, length and times: the order does not matter, since each file has its own path.
    hashes: u64,
    bytes: u64,
    newest: SystemTime,
}

/// So many files are looked at before another thread is worth its start.
const A_THREAD: usize = 1000;

/// Looks at files, on several threads where there are many: nearly all of the time is spent in calls of the system.
fn look_at(files: &[DirEntry]) -> Option<Seen> {
    let threads = thread::available_parallelism().map_or(1, usize::from);
    let share = files.len().div_ceil(threads).max(A_THREAD);
    let parts: Vec<Option<Seen>> = thread::scope(|scope| {
        let mut parts = files.chunks(share);
        let first = parts.next().unwrap_or_default();
        let others: Vec<_> = parts
            .map(|part| scope.spawn(|| look_at_part(part)))
            .collect();
        let mut seen = vec![look_at_part(first)];
        seen.extend(others.into_iter().map(|one| one.join().ok().flatten()));
        seen
    });
    let mut all = Seen::nothing();
    for part in parts {
        all.add(&part?);
    }
    Some(all)
}

fn look_at_part(files: &[DirEntry]) -> Option<Seen> {
    let mut all = Seen::nothing();
    for file in files {
        // A link's own times do not tell when the file behind it was written.
        let linked = file.file_type().is_ok_and(|kind| kind.is_symlink());
        let path = file.path();
        let about = if linked {
            fs::metadata(&path).ok()?
        } else {
            file.metadata().ok()?
        };
        let written = about.modified().ok()?;
        let mut hasher = DefaultHasher::new();
        // Paths are hashed part by part, plain strings at once.
        path.as_os_str().hash(&mut hasher);
        (about.len(), written, changed(&about)).hash(&mut hasher);
        all.add(&Seen {
            hashes: hasher.finish(),
            bytes: about.len(),
            newest: written,
        });
    }
    Some(all)
}

impl Seen {
    const fn nothing() -> Self {
        Self {
            hashes: 0,
            bytes: 0,
            newest: SystemTime::UNIX_EPOCH,
        }
    }

    fn add(&mut self, other: &Self) {
        self.hashes = self.hashes.wrapping_add(other.hashes);
        self.bytes += other.bytes;
        self.newest = self.newest.max(other.newest);
    }
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
fn collect(folder: &Path, files: &mut Vec<DirEntry>) -> Option<()> {
    for entry in fs::read_dir(folder).ok()? {
        let entry = entry.ok()?;
        if entry.file_type().ok()?.is_dir() {
            collect(&entry.path(), files)?;
        } else {
            files.push(entry);
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
