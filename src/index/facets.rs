//! How many of the herbs found most books call sweet, warm, toxic.

use std::cmp::Reverse;

use super::library::Library;
use super::search::HerbFound;
use crate::claim::{Facet, Scheme, ValueId};
use crate::compare::{Backing, By, COMPARABLE, Selection, Stands};
use crate::corpus::{AssembleError, HerbId};

/// How many of the herbs that answer are called so by most.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct FacetCount {
    /// The facet.
    pub facet: Facet,
    /// The value, in any degree.
    pub value: ValueId,
    /// So many herbs.
    pub herbs: usize,
}

impl Library {
    /// What most of the chosen works say of these herbs, facet by facet, the commonest first.
    pub(super) fn facets(
        &self,
        herbs: &[HerbFound],
        selection: &Selection,
    ) -> Result<Vec<FacetCount>, AssembleError> {
        // In the order in which their stands lie in memory, which is twice as fast.
        let mut herbs: Vec<HerbId> = herbs.iter().map(|found| found.herb).collect();
        herbs.sort_unstable();
        let mut counts = Vec::new();
        for stands in self.chosen(&COMPARABLE, selection)? {
            counts.extend(self.facet(&herbs, &stands));
        }
        Ok(counts)
    }

    /// Each herb's witnesses are passed once, and only the values that they state are looked at.
    fn facet(&self, herbs: &[HerbId], stands: &Stands) -> Vec<FacetCount> {
        let vocabulary = &self.corpus.vocabulary;
        let scheme = vocabulary.scheme(stands.facet);
        let answered: Vec<Vec<usize>> = stands
            .kinds
            .iter()
            .map(|stand| answered(scheme, stand))
            .collect();
        let mut counts = vec![0; scheme.values().len()];
        let mut stated = vec![0; counts.len()];
        for herb in herbs {
            let rows = stands.of(*herb);
            let values = || rows.iter().flat_map(|row| &answered[row.kind as usize]);
            for value in values() {
                stated[*value] += 1;
            }
            for value in values() {
                // Counted at the first meeting, nothing is left for the next.
                let k = std::mem::take(&mut stated[*value]);
                let backing = Backing { k, n: rows.len() };
                counts[*value] += usize::from(backing.meets(vocabulary, By::Most));
            }
        }
        let counts = (0..).map(ValueId).zip(counts);
        let mut counts: Vec<FacetCount> = counts
            .filter(|(_, herbs)| *herbs > 0)
            .map(|(value, herbs)| FacetCount {
                facet: stands.facet,
                value,
                herbs,
            })
            .collect();
        counts.sort_by_key(|one| Reverse(one.herbs));
        counts
    }
}

/// The values to which a stand answers, each once; a degree is counted with the value of which it is one.
fn answered(scheme: &Scheme, stand: &[ValueId]) -> Vec<usize> {
    let all = (0..scheme.values().len()).map(|place| ValueId(place as u16));
    let whole = all.filter(|value| scheme.value(*value).degree_of.is_none());
    whole
        .filter(|value| stand.iter().any(|stated| scheme.answers(*stated, *value)))
        .map(|value| value.0 as usize)
        .collect()
}
