//! Witnesses of one facet: the works that take a stand, and those that are silent.

use std::collections::{BTreeMap, BTreeSet};

use super::Selection;
use crate::claim::{Facet, ValueId};
use crate::corpus::{Corpus, Entry, Herb, Saying, Scope, WorkId};

/// What one saying states on one facet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Statement {
    /// The values, in the order of the statement, each with its degree.
    pub values: Vec<(ValueId, Option<ValueId>)>,
    /// What the statement is limited to.
    pub scope: Scope,
    /// The works that carry it, oldest first; empty when the witness itself was read.
    pub carriers: Vec<WorkId>,
    /// Whether the reading is doubtful.
    pub doubtful: bool,
    /// Where it stands: the place of the entry in the herb and of the saying in the entry.
    pub evidence: (usize, usize),
    /// Whether it counts for the witness's stand (rule 3 of the methods).
    pub counted: bool,
}

/// A work that takes a stand on a facet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Witness {
    /// The work.
    pub work: WorkId,
    /// Its stand: the values of its counted statements, each once, in the order stated.
    pub values: Vec<ValueId>,
    /// All its statements on the facet.
    pub statements: Vec<Statement>,
}

impl Witness {
    /// The statements that count for its stand.
    pub fn counted(&self) -> impl Iterator<Item = &Statement> {
        self.statements.iter().filter(|statement| statement.counted)
    }

    /// The stand as a sorted list, to compare stands by.
    #[must_use]
    pub fn stand(&self) -> Vec<ValueId> {
        let mut stand = self.values.clone();
        stand.sort_unstable();
        stand
    }

    /// The degree that the stand gives to a value, where one is stated.
    #[must_use]
    pub fn degree(&self, value: ValueId) -> Option<ValueId> {
        self.counted()
            .flat_map(|statement| &statement.values)
            .find(|(stated, _)| *stated == value)?
            .1
    }

    /// Whether two works that carry its sayings on the herb as such give it different values (rule 4).
    #[must_use]
    pub fn carriers_differ(&self) -> bool {
        let mut carried: BTreeMap<WorkId, BTreeSet<ValueId>> = BTreeMap::new();
        for statement in self.statements.iter().filter(|one| one.scope.is_whole()) {
            if let Some(carrier) = statement.carriers.last() {
                let values = statement.values.iter().map(|(value, _)| *value);
                carried.entry(*carrier).or_default().extend(values);
            }
        }
        let mut given = carried.values();
        let first = given.next();
        given.any(|values| Some(values) != first)
    }
}

/// One facet of one herb.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FacetView {
    /// The facet.
    pub facet: Facet,
    /// The witnesses, oldest first.
    pub witnesses: Vec<Witness>,
    /// Works that speak only of a part, preparation or kind, oldest first: no rivals of the witnesses,
    /// and not counted among them.
    pub of_scope: Vec<Witness>,
    /// Witnesses that the selection leaves out, oldest first; they count nowhere, but lines of
    /// transmission run through them.
    pub outside: Vec<Witness>,
    /// Works whose own voice speaks in their article on the herb, but not of the facet, oldest first.
    pub silent: Vec<WorkId>,
}

impl FacetView {
    /// The witnesses, and after them the works that speak of a scope only.
    pub fn all(&self) -> impl Iterator<Item = &Witness> {
        self.witnesses.iter().chain(&self.of_scope)
    }
}

/// Gathers the witnesses of `facet` for `herb`.
///
/// ```
/// use kaoyi::{claim::Facet, compare, corpus};
/// let corpus = corpus::embedded().unwrap();
/// let corpus::Lookup::One(mint) = corpus.find_herb("bohe") else { panic!() };
/// let herb = corpus.herb(mint).unwrap();
/// let view = compare::view(&corpus, herb, Facet::Nature, &Default::default());
/// assert!(view.witnesses.len() >= 10);
/// ```
#[must_use]
pub fn view(corpus: &Corpus, herb: &Herb, facet: Facet, selection: &Selection) -> FacetView {
    view_of(corpus, &herb.entries, facet, selection)
}

/// Gathers the witnesses of `facet` from entries on one herb.
#[must_use]
pub fn view_of(
    corpus: &Corpus,
    entries: &[Entry],
    facet: Facet,
    selection: &Selection,
) -> FacetView {
    let mut statements: BTreeMap<WorkId, Vec<Statement>> = BTreeMap::new();
    let mut silent: BTreeSet<WorkId> = BTreeSet::new();
    for (place, entry) in entries.iter().enumerate() {
        for (number, saying) in entry.sayings.iter().enumerate() {
            // A book that only reports others in its article is not silent: it has not been asked.
            if saying.by == entry.work
                && !saying.claims.is_empty()
                && selection.takes(corpus, entry.work)
            {
                silent.insert(entry.work);
            }
            if let Some(statement) = statement(saying, facet, (place, number)) {
                statements.entry(saying.by).or_default().push(statement);
            }
        }
    }
    silent.retain(|work| !statements.contains_key(work));
    let (mut witnesses, mut of_scope, mut outside) = (Vec::new(), Vec::new(), Vec::new());
    for (work, statements) in statements {
        let witness = witness(work, facet, statements);
        let counts = witness.counted().next().is_some();
        match (counts, selection.takes(corpus, work)) {
            (true, true) => witnesses.push(witness),
            (true, false) => outside.push(witness),
            (false, true) => of_scope.push(witness),
            (false, false) => {}
        }
    }
    FacetView {
        facet,
        witnesses,
        of_scope,
        outside,
        silent: silent.into_iter().collect(),
    }
}

fn statement(saying: &Saying, facet: Facet, evidence: (usize, usize)) -> Option<Statement> {
    let claims = saying.claims.iter().filter(|claim| claim.facet == facet);
    let values: Vec<_> = claims.map(|claim| (claim.value, claim.degree)).collect();
    if values.is_empty() {
        return None;
    }
    Some(Statement {
        values,
        scope: saying.scope.clone(),
        carriers: saying.carriers.clone(),
        doubtful: saying.doubt.is_some(),
        evidence,
        counted: false,
    })
}

/// Marks the statements that count (rule 3) and gathers the stand from them; where none counts, from
/// all that are limited to a scope.
fn witness(work: WorkId, facet: Facet, mut statements: Vec<Statement>) -> Witness {
    for place in counting(facet, &statements) {
        statements[place].counted = true;
    }
    let any = statements.iter().any(|one| one.counted);
    let mut values = Vec::new();
    for (value, _) in statements
        .iter()
        .filter(|one| one.counted || !any)
        .flat_map(|one| &one.values)
    {
        if !values.contains(value) {
            values.push(*value);
        }
    }
    Witness {
        work,
        values,
        statements,
    }
}

/// The statements on the herb as such; of these the firm ones before doubtful ones, then those with
/// the shortest chain of carriers: what was read in the work itself before what others carry, and what
/// one book carries before what a second book took from it. Of actions all: one action says nothing
/// about another.
fn counting(facet: Facet, statements: &[Statement]) -> Vec<usize> {
    let whole = |place: &usize| statements[*place].scope.is_whole();
    let mut chosen: Vec<usize> = (0..statements.len()).filter(whole).collect();
    if facet == Facet::Action {
        return chosen;
    }
    if chosen.iter().any(|place| !statements[*place].doubtful) {
        chosen.retain(|place| !statements[*place].doubtful);
    }
    let length = |place: &usize| statements[*place].carriers.len();
    let shortest = chosen.iter().map(length).min();
    chosen.retain(|place| Some(length(place)) == shortest);
    chosen
}
