//! What was read of a notebook, kept in the cache folder: ten thousand small files are looked at in a moment and read in a
//! second. Everything here is derived from the files, and safe to delete.

use std::collections::BTreeMap;
use std::fs;
use std::io;
use std::path::Path;

use serde::{Deserialize, Serialize};

use super::day::Day;
use super::record::{Override, Scores, Tasting};
use super::score::{Celsius, Grams, Hours, Millilitres, Score, Warmth};
use crate::claim::Direction;
use crate::index::{Shelf, Stamp, name_of, read_kept, write_kept};

const FILE: &str = "tastings";
/// The first bytes of the file; the last of them is the version of its form.
const MAGIC: [u8; 8] = *b"kaoyi\0n\x02";

/// One file without faults, as it was read.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub(super) struct Row {
    /// The file's name.
    pub name: String,
    /// What it looked like.
    pub stamp: Stamp,
    /// The sum of its content.
    pub sum: u64,
    /// The tasting.
    #[serde(with = "Compact")]
    pub tasting: Tasting,
}

/// A tasting in a form without names of keys, in which none can be left out.
#[derive(Serialize, Deserialize)]
#[serde(remote = "Tasting")]
struct Compact {
    herb: String,
    part: Option<String>,
    preparation: Option<String>,
    lot: Option<String>,
    supplier: Option<String>,
    amount: Option<Grams>,
    water: Option<Millilitres>,
    vessel: Option<String>,
    temperature: Option<Celsius>,
    hours: Option<Hours>,
    date: Day,
    taster: Option<String>,
    fasting: Option<bool>,
    code: Option<String>,
    cup: Option<u32>,
    #[serde(with = "CompactScores")]
    scores: Scores,
    places: Vec<String>,
    direction: Vec<Direction>,
    words: Option<String>,
    photos: Vec<String>,
    overridden: Option<Override>,
}

/// Its scores in the same form.
#[derive(Serialize, Deserialize)]
#[serde(remote = "Scores")]
struct CompactScores {
    flavours: BTreeMap<String, Score>,
    thickness: Option<Score>,
    lingering: Option<Score>,
    aroma: Option<Score>,
    warmth: Option<Warmth>,
}

/// What is kept of one notebook.
pub(super) struct Kept {
    shelf: Shelf,
    written: Option<Stamp>,
    /// By name; those that were taken are gone.
    rows: Vec<Option<Row>>,
    names: Vec<String>,
}

impl Kept {
    /// What is kept of the notebook `folder` in the cache folder `cache`; nothing where it is missing or damaged.
    pub fn open(folder: &Path, cache: &Path) -> Self {
        let shelf = Shelf::new(cache, &name_of(folder), 0);
        let path = shelf.path(FILE);
        // Looked at before it is read: what is written in between is read again the next time.
        let about = fs::metadata(&path).ok();
        let mut rows: Vec<Row> = read_kept(&path, &MAGIC, 0).unwrap_or_default();
        rows.sort_by(|a, b| a.name.cmp(&b.name));
        Self {
            written: about.as_ref().and_then(Stamp::of),
            names: rows.iter().map(|row| row.name.clone()).collect(),
            rows: rows.into_iter().map(Some).collect(),
            shelf,
        }
    }

    /// The row of a file that was not written since.
    pub fn take(&mut self, name: &str, stamp: Option<Stamp>) -> Option<Row> {
        let written = self.written?;
        let place = self.names.binary_search_by(|one| one.as_str().cmp(name));
        let row = self.rows.get_mut(place.ok()?)?.take()?;
        let same = stamp == Some(row.stamp) && row.stamp.settled_before(&written);
        same.then_some(row)
    }

    /// Whether rows of files are left that were not asked for: they were removed.
    pub fn is_outdated(&self) -> bool {
        self.rows.iter().any(Option::is_some)
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
