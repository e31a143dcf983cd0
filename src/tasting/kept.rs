//! What was read of a notebook, kept in the cache folder: ten thousand small files are looked at in a moment and read in a
//! second. Everything here is derived from the files, and safe to delete.

use std::collections::HashMap;
use std::fs;
use std::io;
use std::path::Path;

use serde::{Deserialize, Serialize};

use super::record::Tasting;
use crate::corpus::sum;
use crate::index::{Shelf, Stamp, name_of};

/// The file's name, and with it the version of its form.
const FILE: &str = "tastings-1";

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
        let about = fs::metadata(&path).ok();
        if let (Some(about), Ok(bytes)) = (about, fs::read(&path)) {
            kept.written = Stamp::of(&about);
            let rows = rows_of(&bytes).unwrap_or_default();
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
        let bytes = postcard::to_stdvec(rows).map_err(io::Error::other)?;
        self.shelf.put(FILE, |file| {
            file.write_all(&sum(&bytes).to_le_bytes())?;
            file.write_all(&bytes)
        })
    }
}

fn rows_of(bytes: &[u8]) -> Option<Vec<Row>> {
    let (head, rows) = bytes.split_first_chunk::<8>()?;
    let whole = u64::from_le_bytes(*head) == sum(rows);
    whole.then(|| postcard::from_bytes(rows).ok())?
}
