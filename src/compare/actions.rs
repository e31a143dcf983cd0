//! Actions by concept, and the opposed ones side by side.

use super::lines::lines_of_support;
use super::witness::{FacetView, Statement, Witness};
use crate::claim::{Facet, ValueId};
use crate::corpus::{Corpus, WorkId};

/// One action with the works that state it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Concept {
    /// The action.
    pub value: ValueId,
    /// The works that state it of the herb as such, oldest first.
    pub witnesses: Vec<WorkId>,
    /// In how many lines these stand.
    pub lines: usize,
    /// The works that state it of a part, preparation or kind only, oldest first; they are not counted.
    pub of_scope_only: Vec<WorkId>,
    /// The statements behind it, oldest work first.
    pub statements: Vec<(WorkId, Statement)>,
}

/// Two actions that say the contrary of each other, each with its witnesses.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OpposedPair {
    /// The one that more works state.
    pub stronger: Concept,
    /// The one that fewer works state.
    pub weaker: Concept,
    /// Works that state both of the herb as such.
    pub both: Vec<WorkId>,
    /// Works that state both, but one of them of a part, preparation or kind only.
    pub both_by_scope: Vec<WorkId>,
}

/// The actions that witnesses state, the best supported first, then in the vocabulary's order.
/// Silence on an action means nothing, so there is no share and no interval (rule 5).
///
/// ```
/// use kaoyi::{claim::Facet, compare, corpus};
/// let corpus = corpus::embedded().unwrap();
/// let corpus::Lookup::One(mint) = corpus.find_herb("bohe") else { panic!() };
/// let actions = compare::view(&corpus, corpus.herb(mint).unwrap(), Facet::Action, &Default::default());
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
        std::cmp::Reverse((one.witnesses.len(), one.lines, one.of_scope_only.len()))
    });
    found
}

fn concept(corpus: &Corpus, view: &FacetView, value: ValueId) -> Option<Concept> {
    let mut statements: Vec<(WorkId, Statement)> = view
        .all()
        .flat_map(|witness| witness.statements.iter().map(|one| (witness.work, one)))
        .filter(|(_, statement)| statement.values.iter().any(|(stated, _)| *stated == value))
        .map(|(work, statement)| (work, statement.clone()))
        .collect();
    if statements.is_empty() {
        return None;
    }
    statements.sort_by_key(|(work, _)| *work);
    let whole = |witness: &Witness| witness.values.contains(&value);
    let witnesses: Vec<WorkId> = view
        .witnesses
        .iter()
        .filter(|one| whole(one))
        .map(|one| one.work)
        .collect();
    let mut of_scope_only: Vec<WorkId> = statements.iter().map(|(work, _)| *work).collect();
    of_scope_only.retain(|work| !witnesses.contains(work));
    of_scope_only.dedup();
    Some(Concept {
        value,
        lines: lines_of_support(corpus, view, whole),
        witnesses,
        of_scope_only,
        statements,
    })
}

/// The pairs of opposed actions that are both stated (rule 14).
///
/// ```
/// use kaoyi::{claim::Facet, compare, corpus};
/// let corpus = corpus::embedded().unwrap();
/// let corpus::Lookup::One(herb) = corpus.find_herb("麻黃") else { panic!() };
/// let actions = compare::view(&corpus, corpus.herb(herb).unwrap(), Facet::Action, &Default::default());
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
            let states = |concept: &Concept, work: &WorkId| concept.all().any(|one| one == *work);
            let whole = |work: &WorkId| {
                weaker.witnesses.contains(work) && stronger.witnesses.contains(work)
            };
            let mut works: Vec<WorkId> =
                stronger.all().filter(|work| states(weaker, work)).collect();
            works.sort_unstable();
            let (both, both_by_scope) = works.into_iter().partition(whole);
            pairs.push(OpposedPair {
                stronger: stronger.clone(),
                weaker: weaker.clone(),
                both,
                both_by_scope,
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
