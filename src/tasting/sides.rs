//! Where the tongue stands among the books: how far each stand is from what was tasted.

use super::panel::{Attribute, AttributeFigures};
use super::panel_books::{TASTED, side_felt};
use crate::claim::{Facet, ValueId};
use crate::compare::{self, Selection};
use crate::corpus::{Corpus, Herb, WorkId};
use crate::stats;

/// A stand of the books beside what was tasted.
#[derive(Debug, Clone, PartialEq)]
pub struct StandOfBooks {
    /// The flavours that it names.
    pub values: Vec<ValueId>,
    /// The works that take it, oldest first.
    pub works: Vec<WorkId>,
    /// Its MASI distance to the flavours that were tasted, 0 (the same) to 1.
    pub distance: f64,
}

/// The works on one side of neutral.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SideOfNature {
    /// `cold`, `neutral` or `warm`.
    pub side: &'static str,
    /// The works with a value on it, oldest first.
    pub works: Vec<WorkId>,
    /// Whether what was felt lies on it.
    pub felt: bool,
}

/// Where the tongue stands among the books.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Sides {
    /// The flavours that count as tasted, in the order of the vocabulary.
    pub tasted: Vec<ValueId>,
    /// The stands on flavour, those nearest to what was tasted first; none where nobody scored a flavour.
    pub flavours: Vec<StandOfBooks>,
    /// The sides of the books on nature, where warmth was scored.
    pub natures: Vec<SideOfNature>,
}

/// Holds figures of tastings on `herb` against every stand of the chosen books: rule 47 of the methods.
#[must_use]
pub fn sides(
    corpus: &Corpus,
    herb: &Herb,
    selection: &Selection,
    attributes: &[AttributeFigures],
) -> Sides {
    let mut sides = Sides::default();
    let scored = attributes
        .iter()
        .filter_map(|one| match (one.attribute, one.figures) {
            (Attribute::Flavour(value), Some(figures)) => Some((value, figures.median)),
            _ => None,
        });
    let scored: Vec<(ValueId, f64)> = scored.collect();
    let tasted = scored.iter().filter(|(_, median)| *median >= TASTED);
    sides.tasted = tasted.map(|(value, _)| *value).collect();
    if !scored.is_empty() {
        let view = compare::view(corpus, herb, Facet::Flavour, selection);
        for witness in &view.witnesses {
            let mut values = witness.values.clone();
            values.sort_unstable();
            match sides.flavours.iter_mut().find(|one| one.values == values) {
                Some(stand) => stand.works.push(witness.work),
                None => sides.flavours.push(StandOfBooks {
                    distance: stats::masi(&sides.tasted, &values),
                    values,
                    works: vec![witness.work],
                }),
            }
        }
        // Stable: of equal distances the stand of the oldest work comes first.
        sides
            .flavours
            .sort_by(|a, b| a.distance.total_cmp(&b.distance));
    }
    let warmth = attributes
        .iter()
        .find(|one| one.attribute == Attribute::Warmth);
    if let Some(figures) = warmth.and_then(|one| one.figures) {
        let felt = side_felt(figures.median);
        let view = compare::view(corpus, herb, Facet::Nature, selection);
        let scheme = corpus.vocabulary.scheme(Facet::Nature);
        for side in ["cold", "neutral", "warm"] {
            let on = |value: &ValueId| scheme.value(*value).side.as_deref() == Some(side);
            let witnesses = view.witnesses.iter();
            let there = witnesses.filter(|one| one.values.iter().any(on));
            sides.natures.push(SideOfNature {
                side,
                works: there.map(|one| one.work).collect(),
                felt: felt == side,
            });
        }
    }
    sides
}
