//! The stands on all herbs as a file: plain columns, herb by herb, which are read as fast as they are copied.

use std::io::{self, Write};
use std::path::Path;

use serde::{Deserialize, Serialize};

use super::kept;
use crate::claim::{Facet, ValueId};
use crate::compare::{Row, Stands};
use crate::corpus::WorkId;

/// The first bytes of the file; the last of them is the version of its form.
const MAGIC: [u8; 8] = *b"kaoyi\0s\x02";

/// What stands before one facet's columns. These are, one behind the other: the works, two bytes each; the stands, `width`
/// bytes each; where each herb ends, four bytes each. Every number has its lowest byte first.
#[derive(Serialize, Deserialize)]
struct Head {
    facet: Facet,
    kinds: Vec<Vec<ValueId>>,
    rows: usize,
    herbs: usize,
    width: usize,
}

/// Writes columns under the key of their corpus.
pub(super) fn write(stands: &[Stands], key: u64, file: &mut dyn Write) -> io::Result<()> {
    let head = |one: &Stands| Head {
        facet: one.facet,
        kinds: one.kinds.clone(),
        rows: one.rows().len(),
        herbs: one.herbs(),
        // Few stands are different: mostly one byte tells which.
        width: match one.kinds.len() {
            0..=0x100 => 1,
            0x101..=0x1_0000 => 2,
            _ => 4,
        },
    };
    let heads: Vec<Head> = stands.iter().map(head).collect();
    let packed =
        postcard::to_stdvec(&heads).map_err(|error| io::Error::other(error.to_string()))?;
    let mut bytes = (packed.len() as u64).to_le_bytes().to_vec();
    bytes.extend(packed);
    for (one, head) in stands.iter().zip(&heads) {
        let rows = one.rows().iter();
        bytes.extend(rows.clone().flat_map(|row| row.work.0.to_le_bytes()));
        for row in rows {
            bytes.extend_from_slice(&row.kind.to_le_bytes()[..head.width]);
        }
        bytes.extend(one.ends().iter().flat_map(|end| end.to_le_bytes()));
    }
    kept::write_bytes(&bytes, (&MAGIC, key), file)
}

/// Reads columns; `None` where the file is missing, of another key, or damaged.
pub(super) fn read(path: &Path, key: u64) -> Option<Vec<Stands>> {
    let whole = std::fs::read(path).ok()?;
    let mut rest = kept::content(&whole, &MAGIC, key)?;
    let length = take(&mut rest, 8)?.try_into().map_or(0, u64::from_le_bytes);
    let packed = take(&mut rest, usize::try_from(length).ok()?)?;
    let heads: Vec<Head> = postcard::from_bytes(packed).ok()?;
    heads
        .into_iter()
        .map(|head| {
            let works = take(&mut rest, head.rows.checked_mul(2)?)?;
            let kinds = take(&mut rest, head.rows.checked_mul(head.width)?)?;
            let ends = take(&mut rest, head.herbs.checked_mul(4)?)?;
            let ends = ends.chunks_exact(4).map(number);
            let rows = match head.width {
                1 => rows::<1>(works, kinds),
                2 => rows::<2>(works, kinds),
                4 => rows::<4>(works, kinds),
                _ => return None,
            };
            Stands::from_columns(head.facet, head.kinds, rows, ends.collect())
        })
        .collect()
}

/// The next bytes; `None` where there are not so many.
fn take<'b>(rest: &mut &'b [u8], length: usize) -> Option<&'b [u8]> {
    let (taken, left) = rest.split_at_checked(length)?;
    *rest = left;
    Some(taken)
}

fn rows<const WIDTH: usize>(works: &[u8], kinds: &[u8]) -> Vec<Row> {
    let works = works.chunks_exact(2).map(number);
    let kinds = kinds.chunks_exact(WIDTH).map(number);
    let both = works.zip(kinds);
    both.map(|(work, kind)| Row {
        work: WorkId(work as u16),
        kind,
    })
    .collect()
}

/// A number of at most four bytes, the lowest first.
fn number(bytes: &[u8]) -> u32 {
    let high_first = bytes.iter().rev();
    high_first.fold(0, |number, byte| number << 8 | u32::from(*byte))
}
