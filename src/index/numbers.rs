//! The numbers that every document has: its herb, its place there, and who asserts.

use tantivy::collector::{Collector, SegmentCollector};
use tantivy::columnar::Column;
use tantivy::{DocId, Score, SegmentOrdinal, SegmentReader, TantivyError};

use super::words::placed;
use crate::corpus::{HerbId, WorkId};

/// So many numbers are read at once.
const BLOCK: usize = 256;

/// The columns of the index, opened once.
pub(super) struct Numbers {
    herb: Column<u64>,
    place: Column<u64>,
    by: Column<u64>,
    weight: Column<u64>,
}

impl Numbers {
    /// Opens the columns of a segment.
    pub(super) fn of(segment: &SegmentReader) -> Result<Self, TantivyError> {
        let fields = segment.fast_fields();
        Ok(Self {
            herb: fields.u64("herb")?,
            place: fields.u64("place")?,
            by: fields.u64("by")?,
            weight: fields.u64("weight")?,
        })
    }

    /// The herb of a document.
    pub(super) fn herb(&self, document: DocId) -> HerbId {
        HerbId(self.herb.first(document).unwrap_or_default() as u32)
    }

    /// The entry and the saying of a document.
    pub(super) fn place(&self, document: DocId) -> (usize, usize) {
        placed(self.place.first(document).unwrap_or_default())
    }

    /// Who asserts.
    pub(super) fn by(&self, document: DocId) -> WorkId {
        WorkId(self.by.first(document).unwrap_or_default() as u16)
    }

    /// Of a herb's own document, how many articles it has.
    pub(super) fn weight(&self, document: DocId) -> usize {
        self.weight.first(document).unwrap_or_default() as usize
    }

    /// Gives every document that answers with its herb and who asserts, in order. The columns are read by blocks, which
    /// costs a third of reading them one by one.
    pub(super) fn each(&self, scored: &[Scored], mut give: impl FnMut(usize, HerbId, WorkId)) {
        let mut documents = [0; BLOCK];
        let (mut herbs, mut works) = ([None; BLOCK], [None; BLOCK]);
        for (number, block) in scored.chunks(BLOCK).enumerate() {
            for (place, (document, _)) in block.iter().enumerate() {
                documents[place] = *document;
            }
            let length = block.len();
            self.herb
                .first_vals(&documents[..length], &mut herbs[..length]);
            self.by
                .first_vals(&documents[..length], &mut works[..length]);
            for place in 0..length {
                let herb = HerbId(herbs[place].unwrap_or_default() as u32);
                let by = WorkId(works[place].unwrap_or_default() as u16);
                give(number * BLOCK + place, herb, by);
            }
        }
    }
}

/// A document that answers, and how well.
pub(super) type Scored = (DocId, Score);

/// Collects every document that answers, in order.
pub(super) struct Every;

impl Collector for Every {
    type Fruit = Vec<Scored>;
    type Child = EveryOfSegment;

    fn for_segment(
        &self,
        _: SegmentOrdinal,
        _: &SegmentReader,
    ) -> Result<EveryOfSegment, TantivyError> {
        Ok(EveryOfSegment(Vec::new()))
    }

    fn requires_scoring(&self) -> bool {
        true
    }

    fn merge_fruits(&self, fruits: Vec<Vec<Scored>>) -> Result<Vec<Scored>, TantivyError> {
        // The index is in one segment.
        Ok(fruits.into_iter().next().unwrap_or_default())
    }
}

pub(super) struct EveryOfSegment(Vec<Scored>);

impl SegmentCollector for EveryOfSegment {
    type Fruit = Vec<Scored>;

    fn collect(&mut self, document: DocId, score: Score) {
        self.0.push((document, score));
    }

    fn harvest(self) -> Vec<Scored> {
        self.0
    }
}
