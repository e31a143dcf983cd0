//! Actions by concept, and the opposed ones side by side.

use super::lines::lines_of_support;
use super::witness::{FacetView, Witness};
use crate::claim::{Facet, ValueId};
use crate::corpus::{Corpus, WorkId};

/// One action with the witnesses that state it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Concept {
    /// The action.
    pub value: ValueId,
    /// The works that state it of the herb as such, oldest first.
    pub witnesses: Vec<WorkId>,
    /// The works that state it of a part, preparation or kind only, oldest first.
    pub of_scope_only: Vec<WorkId>,
    /// In how many independent lines it is stated.
    pub lines: usize,
}

/// Two actions that say the contrary of each other, each with its witnesses.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OpposedPair {
    /// The one that more works state.
    pub stronger: Concept,
    /// The one that fewer works state.
    pub weaker: Concept,
    /// Works that state both.
    pub both: Vec<WorkId>,
}

/// The actions that witnesses state, the best supported first, then in the vocabulary's order.
/// Silence on an action means nothing, so there is no share and no interval (rule 5).
///
/// ```
/// use kaoyi::{claim::Facet, compare, corpus};
/// let corpus = corpus::embedded().unwrap();
/// let corpus::Lookup::One(mint) = corpus.find_herb("bohe") else { panic!() };
/// let actions = compare::view(&corpus, corpus.herb(mint), Facet::Action, &Default::default());
/// let best = &compare::concepts(&corpus, &actions)[0];
/// assert!(best.all().count() >= best.lines);
/// ```
#[must_use]
pub fn concepts(corpus: &Corpus, view: &FacetView) -> Vec<Concept> {
    let scheme = corpus.vocabulary.scheme(Facet::Action);
    let mut found: Vec<Concept> = (0..scheme.values().len())
        .map(|place| ValueId(place as u16))
        .filter_map(|value| concept(corpus, view, value))
        .collect();
    found.sort_by_key(|one| {
        std::cmp::Reverse((one.witnesses.len() + one.of_scope_only.len(), one.lines))
    });
    found
}

fn concept(corpus: &Corpus, view: &FacetView, value: ValueId) -> Option<Concept> {
    let states = |witness: &Witness, whole: bool| {
        witness.statements.iter().any(|statement| {
            statement.scope.is_whole() == whole
                && statement.values.iter().any(|(stated, _)| *stated == value)
        })
    };
    let whole: Vec<WorkId> = view
        .all()
        .filter(|one| states(one, true))
        .map(|one| one.work)
        .collect();
    let scoped = view
        .all()
        .filter(|one| states(one, false) && !states(one, true));
    let mut of_scope_only: Vec<WorkId> = scoped.map(|one| one.work).collect();
    of_scope_only.sort_unstable();
    if whole.is_empty() && of_scope_only.is_empty() {
        return None;
    }
    let lines = lines_of_support(corpus, whole.iter().chain(&of_scope_only).copied());
    Some(Concept {
        value,
        witnesses: whole,
        of_scope_only,
        lines,
    })
}

/// The pairs of opposed actions that are both stated (rule 14).
///
/// ```
/// use kaoyi::{claim::Facet, compare, corpus};
/// let corpus = corpus::embedded().unwrap();
/// let corpus::Lookup::One(herb) = corpus.find_herb("麻黃") else { panic!() };
/// let actions = compare::view(&corpus, corpus.herb(herb), Facet::Action, &Default::default());
/// let concepts = compare::concepts(&corpus, &actions);
/// // The stem promotes sweating, the root stops it.
/// assert!(!compare::opposed_pairs(&corpus, &concepts).is_empty());
/// ```
#[must_use]
pub fn opposed_pairs(corpus: &Corpus, concepts: &[Concept]) -> Vec<OpposedPair> {
    let scheme = corpus.vocabulary.scheme(Facet::Action);
    let mut pairs = Vec::new();
    // `concepts` is sorted by support, so of each pair the stronger comes first.
    for (place, stronger) in concepts.iter().enumerate() {
        for weaker in concepts[place + 1..]
            .iter()
            .filter(|weaker| scheme.opposed(stronger.value, weaker.value))
        {
            let both = stronger
                .all()
                .filter(|work| weaker.all().any(|other| other == *work))
                .collect();
            pairs.push(OpposedPair {
                stronger: stronger.clone(),
                weaker: weaker.clone(),
                both,
            });
        }
    }
    pairs
}

impl Concept {
    /// All works that state it, of the herb as such or of a scope.
    pub fn all(&self) -> impl Iterator<Item = WorkId> + '_ {
        self.witnesses.iter().chain(&self.of_scope_only).copied()
    }
}
