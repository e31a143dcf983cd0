//! Which works a comparison looks at.

use crate::corpus::{Corpus, WorkId};

/// A choice of works, by name and by time; the default takes all.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Selection {
    /// Only these works; empty means all.
    pub works: Vec<WorkId>,
    /// Only works whose latest year is this one or later.
    pub since: Option<i32>,
    /// Only works whose latest year is this one or earlier.
    pub until: Option<i32>,
}

impl Selection {
    /// Whether the selection takes `work`.
    #[must_use]
    pub fn takes(&self, corpus: &Corpus, work: WorkId) -> bool {
        let year = corpus.work(work).date.to;
        (self.works.is_empty() || self.works.contains(&work))
            && self.since.is_none_or(|since| year >= since)
            && self.until.is_none_or(|until| year <= until)
    }
}
