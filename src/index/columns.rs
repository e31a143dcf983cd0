//! The stands on all herbs as a file.

use std::io::{self, Write};
use std::path::Path;

use serde::{Deserialize, Serialize};

use super::kept;
use crate::claim::{Facet, ValueId};
use crate::compare::{Row, Stands};
use crate::corpus::WorkId;

/// The first bytes of the file; the last of them is the version of its form.
const MAGIC: [u8; 8] = *b"kaoyi\0s\x01";

/// One facet's columns.
#[derive(Serialize, Deserialize)]
struct Columns {
    facet: Facet,
    kinds: Vec<Vec<ValueId>>,
    works: Vec<WorkId>,
    stands: Vec<u32>,
    ends: Vec<u32>,
}

/// Writes columns under the key of their corpus.
pub(super) fn write(stands: &[Stands], key: u64, file: &mut dyn Write) -> io::Result<()> {
    let columns = |one: &Stands| Columns {
        facet: one.facet,
        kinds: one.kinds.clone(),
        works: one.rows().iter().map(|row| row.work).collect(),
        stands: one.rows().iter().map(|row| row.kind).collect(),
        ends: one.ends().to_vec(),
    };
    let columns: Vec<Columns> = stands.iter().map(columns).collect();
    kept::write(&columns, (&MAGIC, key), file)
}

/// Reads columns; `None` where the file is missing, of another key, or damaged.
pub(super) fn read(path: &Path, key: u64) -> Option<Vec<Stands>> {
    let columns: Vec<Columns> = kept::read(path, &MAGIC, key)?;
    columns
        .into_iter()
        .map(|one| {
            let rows = one.works.into_iter().zip(one.stands);
            let rows = rows.map(|(work, kind)| Row { work, kind });
            Stands::from_columns(one.facet, one.kinds, rows.collect(), one.ends)
        })
        .collect()
}
