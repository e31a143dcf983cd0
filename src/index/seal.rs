//! The list of an index's files with what they looked like when it was made: one that was cut, written to or put in its place
//! since is told by it, without reading them all for every search.

use std::fs::{self, File};
use std::io::{self, Write as _};
use std::path::Path;

use super::stamp::Stamp;

const FILE: &str = "seal";

/// Writes down which files there are in `folder`, and what they look like.
pub(super) fn put(folder: &Path) -> io::Result<()> {
    let mut files: Vec<(String, Stamp)> = Vec::new();
    for file in fs::read_dir(folder)? {
        let file = file?;
        if file.file_name().to_string_lossy().ends_with(".lock") {
            // Readers take it, which is no change.
            continue;
        }
        if let Some(stamp) = Stamp::of(&file.metadata()?) {
            files.push((file.file_name().to_string_lossy().into_owned(), stamp));
        }
    }
    files.sort_by(|a, b| a.0.cmp(&b.0));
    let bytes = serde_json::to_vec(&files)?;
    let mut seal = File::create(folder.join(FILE))?;
    seal.write_all(&bytes)?;
    seal.sync_all()
}

/// Whether the files in `folder` are as they were.
pub(super) fn holds(folder: &Path) -> bool {
    let bytes = fs::read(folder.join(FILE)).unwrap_or_default();
    let Ok(files) = serde_json::from_slice::<Vec<(String, Stamp)>>(&bytes) else {
        return false;
    };
    let same = |(name, stamp): &(String, Stamp)| {
        let about = fs::metadata(folder.join(name)).ok();
        about.as_ref().and_then(Stamp::of) == Some(*stamp)
    };
    !files.is_empty() && files.iter().all(same)
}
