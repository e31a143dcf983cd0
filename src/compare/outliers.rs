//! Witnesses that stand alone against many: candidates for a misreading (rule 25).

use super::selection::Selection;
use super::witness::{FacetView, Witness, view};
use crate::claim::{Facet, Scheme, ValueId};
use crate::corpus::{AssembleError, Corpus, HerbId, WorkId};

/// So many witnesses must agree against the one.
pub const AGAINST: usize = 10;

/// What a lone witness does.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Alone {
    /// It states a flavour that all others leave out.
    States(ValueId),
    /// It leaves out a flavour that all others state.
    LeavesOut(ValueId),
    /// It stands on a side of the scale on which no other stands.
    Side(String),
}

/// A witness that stands alone.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Outlier {
    /// The herb.
    pub herb: HerbId,
    /// The facet.
    pub facet: Facet,
    /// The witness.
    pub work: WorkId,
    /// What it does.
    pub alone: Alone,
    /// How many witnesses stand against it.
    pub against: usize,
    /// Where it says so: the place of the entry in the herb and of the saying in the entry.
    pub evidence: (usize, usize),
}

/// All witnesses on flavour, nature and toxicity that stand alone against at least [`AGAINST`].
///
/// ```
/// let corpus = kaoyi::corpus::embedded().unwrap();
/// let outliers = kaoyi::compare::outliers(&corpus).unwrap();
/// assert!(outliers.iter().all(|one| one.against >= kaoyi::compare::AGAINST));
/// ```
///
/// # Errors
/// When an embedded record is faulty.
pub fn outliers(corpus: &Corpus) -> Result<Vec<Outlier>, AssembleError> {
    let mut found = Vec::new();
    for (place, herb) in corpus.herbs()?.into_iter().enumerate() {
        for facet in [Facet::Flavour, Facet::Nature, Facet::Toxicity] {
            let view = view(corpus, herb, facet, &Selection::default());
            if view.witnesses.len() > AGAINST {
                let scheme = corpus.vocabulary.scheme(facet);
                of_facet(HerbId(place as u32), scheme, &view, &mut found);
            }
        }
    }
    Ok(found)
}

fn of_facet(herb: HerbId, scheme: &Scheme, view: &FacetView, found: &mut Vec<Outlier>) {
    let mut put = |witness: &Witness, alone: Alone| {
        if let Some(statement) = witness.counted().next() {
            found.push(Outlier {
                herb,
                facet: view.facet,
                work: witness.work,
                alone,
                against: view.witnesses.len() - 1,
                evidence: statement.evidence,
            });
        }
    };
    if view.facet == Facet::Flavour {
        for place in 0..scheme.values().len() {
            let value = ValueId(place as u16);
            let states = |one: &&Witness| one.values.contains(&value);
            if let Some(one) = only(&view.witnesses, states) {
                put(one, Alone::States(value));
            }
            if let Some(one) = only(&view.witnesses, |one| !states(one)) {
                put(one, Alone::LeavesOut(value));
            }
        }
        return;
    }
    let mut sides: Vec<&str> = scheme
        .values()
        .iter()
        .filter_map(|value| value.side.as_deref())
        .collect();
    sides.dedup();
    for side in sides {
        let stands = |one: &&Witness| {
            let mut values = one.values.iter();
            values.any(|value| scheme.value(*value).side.as_deref() == Some(side))
        };
        if let Some(one) = only(&view.witnesses, stands) {
            put(one, Alone::Side(side.to_owned()));
        }
    }
}

/// The only witness for which `holds` is true.
fn only(witnesses: &[Witness], holds: impl Fn(&&Witness) -> bool) -> Option<&Witness> {
    let mut all = witnesses.iter().filter(holds);
    all.next().filter(|_| all.next().is_none())
}
