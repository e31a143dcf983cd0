//! What was read of a notebook, kept in the cache folder: ten thousand small files are looked at in a moment and read in a
//! second. Everything here is derived from the files, and safe to delete.

use std::collections::HashMap;
use std::fs;
use std::io;
use std::path::Path;

use serde::{Deserialize, Serialize};

use super::record::Tasting;
use crate::index::{Shelf, Stamp, name_of, read_kept, write_kept};

const FILE: &str = "tastings";
/// The first bytes of the file; the last of them is the version of its form.
const MAGIC: [u8; 8] = *b"kaoyi\0n\x01";

/// One file without faults, as it was read.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub(super) struct Row {
    /// The file's name.
    pub name: String,
    /// What it looked like.
    pub stamp: Stamp,
    /// The sum of its content.
    pub sum: u64,
    /// The tasting, as JSON: postcard cannot leave keys out.
    pub record: String,
}

/// What is kept of one notebook.
pub(super) struct Kept {
    shelf: Shelf,
    written: Option<Stamp>,
    rows: HashMap<String, Row>,
}

impl Kept {
    /// What is kept of the notebook `folder` in the cache folder `cache`; nothing where it is missing or damaged.
    pub fn open(folder: &Path, cache: &Path) -> Self {
        let shelf = Shelf::new(cache, &name_of(folder), 0);
        let mut kept = Self {
            written: None,
            rows: HashMap::new(),
            shelf,
        };
        let path = kept.shelf.path(FILE);
        // Looked at before it is read: what is written in between is read again the next time.
        if let Ok(about) = fs::metadata(&path) {
            kept.written = Stamp::of(&about);
            let rows: Vec<Row> = read_kept(&path, &MAGIC, 0).unwrap_or_default();
            kept.rows = rows
                .into_iter()
                .map(|row| (row.name.clone(), row))
                .collect();
        }
        kept
    }

    /// The row of a file that was not written since, and its tasting.
    pub fn take(&mut self, name: &str, stamp: Option<Stamp>) -> Option<(Row, Tasting)> {
        let written = self.written?;
        let row = self.rows.remove(name)?;
        let same = stamp == Some(row.stamp) && row.stamp.settled_before(&written);
        let tasting = same.then(|| serde_json::from_str(&row.record).ok())??;
        Some((row, tasting))
    }

    /// Whether rows of files are left that were not asked for: they were removed, or written again.
    pub fn is_outdated(&self) -> bool {
        !self.rows.is_empty()
    }

    /// Keeps `rows` for the next time.
    ///
    /// # Errors
    /// When the cache folder cannot be written to; then all is read again.
    pub fn put(&self, rows: &[Row]) -> io::Result<()> {
        self.shelf
            .put(FILE, |file| write_kept(&rows, (&MAGIC, 0), file))
    }
}
