//! A panel against the books.

use schemars::JsonSchema;
use serde::Serialize;

use super::labels::{Labels, ValueRef};
use crate::claim::Facet;
use crate::tasting::{AgainstBooks, FlavourAgainst, Standing, WarmthAgainst};

/// The panel against the books.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct AgainstBooksView {
    /// The flavours, in the order of the vocabulary.
    pub flavours: Vec<FlavourAgainstView>,
    /// Flavours on which panel and books agree.
    pub agreed: usize,
    /// Flavours on which they agree or contradict each other; the others are unsaid, or the books are divided.
    pub of: usize,
    /// Warmth beside nature.
    pub warmth: WarmthAgainstView,
}

/// A flavour as the panel tastes it and as the books name it.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct FlavourAgainstView {
    /// The flavour.
    pub value: ValueRef,
    /// Tasters who scored it.
    pub tasters: usize,
    /// The median of their scores, in points.
    pub median: Option<f64>,
    /// Books that name it.
    pub k: usize,
    /// Books that state a flavour.
    pub n: usize,
    /// `agreed`, `agreed-absent`, `tasted-some-name`, `tasted-none-name`, `named-not-tasted`, `some-name-not-tasted` or `unsaid`.
    pub standing: &'static str,
    /// Whether panel and books agree; `null` where the books are divided or something is unsaid.
    pub agrees: Option<bool>,
}

/// Warmth as the panel feels it, beside the nature that the books state.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct WarmthAgainstView {
    /// Tasters who scored warmth.
    pub tasters: usize,
    /// The median of their scores, -5 (cold) to 5 (hot).
    pub median: Option<f64>,
    /// The side on which that is: `cold`, `neutral`, `warm`.
    pub side: Option<&'static str>,
    /// Books that state a nature.
    pub n: usize,
    /// The sides of the books.
    pub sides: Vec<SideOfBooks>,
    /// The books' nature in the middle: one value, or the two middle ones.
    pub middle: Vec<ValueRef>,
    /// Whether most books stand on the panel's side (true) or few (false); `null` between.
    pub agrees: Option<bool>,
}

/// How many books stand on a side.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct SideOfBooks {
    /// `cold`, `neutral` or `warm`.
    pub side: &'static str,
    /// Books with a value on it.
    pub k: usize,
}

impl AgainstBooksView {
    /// The comparison in words.
    #[must_use]
    pub fn new(labels: &Labels<'_>, against: &AgainstBooks) -> Self {
        let flavours = against.flavours.iter();
        Self {
            flavours: flavours
                .map(|one| FlavourAgainstView::new(labels, one))
                .collect(),
            agreed: against.agreed,
            of: against.judged,
            warmth: WarmthAgainstView::new(labels, &against.warmth),
        }
    }
}

impl FlavourAgainstView {
    fn new(labels: &Labels<'_>, one: &FlavourAgainst) -> Self {
        Self {
            value: labels.value(Facet::Flavour, one.value),
            tasters: one.tasters,
            median: one.median,
            k: one.k,
            n: one.n,
            standing: match one.standing {
                Standing::Agreed => "agreed",
                Standing::AgreedAbsent => "agreed-absent",
                Standing::TastedSomeName => "tasted-some-name",
                Standing::TastedNoneName => "tasted-none-name",
                Standing::NamedNotTasted => "named-not-tasted",
                Standing::SomeNameNotTasted => "some-name-not-tasted",
                Standing::Unsaid => "unsaid",
            },
            agrees: one.standing.agrees(),
        }
    }
}

impl WarmthAgainstView {
    fn new(labels: &Labels<'_>, warmth: &WarmthAgainst) -> Self {
        let sides = warmth.sides.iter();
        let middle = warmth.middle.iter();
        Self {
            tasters: warmth.tasters,
            median: warmth.median,
            side: warmth.side,
            n: warmth.n,
            sides: sides.map(|(side, k)| SideOfBooks { side, k: *k }).collect(),
            middle: middle
                .map(|value| labels.value(Facet::Nature, *value))
                .collect(),
            agrees: warmth.agrees,
        }
    }
}
