//! The kinds of difference, each with a definition that can be applied on paper, and the sides.

mod ordered;
mod scope;
mod sets;
mod time;

use schemars::JsonSchema;
use serde::Serialize;

use super::witness::{FacetView, Witness};
use crate::claim::{Facet, ValueId};
use crate::corpus::{Corpus, Scope, WorkId};

/// The kinds of difference; more than one may hold.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum DifferenceKind {
    /// All say the same.
    Unanimous,
    /// There is one witness.
    Single,
    /// One statement is contained in all others: the same core, some books add.
    Nested,
    /// The same side of neutral, another strength.
    Graded,
    /// Opposite sides.
    Crossing,
    /// Partly overlapping or separate lists.
    Mixed,
    /// The difference follows part, preparation or kind.
    ByScope,
    /// Earlier books one way, later books another.
    OverTime,
}

impl DifferenceKind {
    /// All kinds.
    pub const ALL: [Self; 8] = [
        Self::Unanimous,
        Self::Single,
        Self::Nested,
        Self::Graded,
        Self::Crossing,
        Self::Mixed,
        Self::ByScope,
        Self::OverTime,
    ];

    /// The name by which it is asked for, also in JSON.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Unanimous => "unanimous",
            Self::Single => "single",
            Self::Nested => "nested",
            Self::Graded => "graded",
            Self::Crossing => "crossing",
            Self::Mixed => "mixed",
            Self::ByScope => "by-scope",
            Self::OverTime => "over-time",
        }
    }

    /// The word for it.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Unanimous => "unanimous",
            Self::Single => "single witness",
            Self::Nested => "nested",
            Self::Graded => "graded",
            Self::Crossing => "crossing",
            Self::Mixed => "mixed",
            Self::ByScope => "by scope",
            Self::OverTime => "over time",
        }
    }
}

/// What the witnesses of a side have in common.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum SideLabel {
    /// They state exactly these values.
    Values(Vec<ValueId>),
    /// They stand on this side of the scale.
    OfScale(String),
    /// They state this value.
    With(ValueId),
    /// They do not state this value.
    Without(ValueId),
    /// They state this value in this degree, or in none.
    Degree(ValueId, Option<ValueId>),
    /// They speak of this part, preparation or kind, and state these values of it.
    Of(Scope, Vec<ValueId>),
}

/// The witnesses on one side of a difference.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Side {
    /// What they have in common.
    pub label: SideLabel,
    /// The witnesses, oldest first.
    pub witnesses: Vec<WorkId>,
}

/// Where the books turn.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Turning {
    /// The oldest work of the later side.
    pub first_of_later: WorkId,
    /// Witnesses that stand against the turn: early ones on the later side or late ones not.
    pub against: Vec<WorkId>,
}

/// A difference with its sides.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Difference {
    /// Its kind.
    pub kind: DifferenceKind,
    /// Its sides, the one with most witnesses first unless the scale gives an order.
    pub sides: Vec<Side>,
    /// For `over time`, where the books turn.
    pub turning: Option<Turning>,
}

impl Difference {
    const fn new(kind: DifferenceKind, sides: Vec<Side>) -> Self {
        Self {
            kind,
            sides,
            turning: None,
        }
    }
}

/// The differences among the witnesses of a facet (rules 7 to 13 of the methods). Empty when there
/// is no witness, and for actions, whose lists are open: see [`super::opposed_pairs`].
///
/// ```
/// use kaoyi::{claim::Facet, compare, corpus};
/// let corpus = corpus::embedded().unwrap();
/// let corpus::Lookup::One(mint) = corpus.find_herb("bohe") else { panic!() };
/// let nature = compare::view(&corpus, corpus.herb(mint).unwrap(), Facet::Nature, &Default::default());
/// let kinds = compare::differences(&corpus, &nature);
/// assert_eq!(kinds[0].kind, compare::DifferenceKind::Crossing, "warm to some, cool to others");
/// ```
#[must_use]
pub fn differences(corpus: &Corpus, view: &FacetView) -> Vec<Difference> {
    if view.facet == Facet::Action {
        return Vec::new();
    }
    if view.witnesses.is_empty() {
        return scope::by_scope(view).into_iter().collect();
    }
    let scheme = corpus.vocabulary.scheme(view.facet);
    let groups = by_stand(&view.witnesses);
    if view.witnesses.len() == 1 {
        let mut found = vec![Difference::new(DifferenceKind::Single, groups)];
        found.extend(scope::by_scope(view));
        return found;
    }
    let mut found = match view.facet {
        Facet::Flavour | Facet::Channel => sets::kinds(scheme, view, groups),
        _ => ordered::kinds(scheme, view, groups),
    };
    found.extend(scope::by_scope(view));
    found.extend(time::over_time(corpus, view));
    found
}

/// The witnesses grouped by equal stand, the largest group first, then the oldest.
///
/// ```
/// use kaoyi::{claim::Facet, compare, corpus};
/// let corpus = corpus::embedded().unwrap();
/// let corpus::Lookup::One(mint) = corpus.find_herb("bohe") else { panic!() };
/// let nature = compare::view(&corpus, corpus.herb(mint).unwrap(), Facet::Nature, &Default::default());
/// assert!(compare::by_stand(&nature.witnesses).len() > 1);
/// ```
#[must_use]
pub fn by_stand(witnesses: &[Witness]) -> Vec<Side> {
    let mut sides: Vec<Side> = Vec::new();
    for witness in witnesses {
        let label = SideLabel::Values(witness.stand());
        match sides.iter_mut().find(|side| side.label == label) {
            Some(side) => side.witnesses.push(witness.work),
            None => sides.push(Side {
                label,
                witnesses: vec![witness.work],
            }),
        }
    }
    sides.sort_by_key(|side| std::cmp::Reverse(side.witnesses.len()));
    sides
}
