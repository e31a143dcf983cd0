//! How far two stands on a facet differ (rule 26).

use crate::claim::{Facet, Scale, Scheme, ValueId};
use crate::stats::{jaccard, masi};

/// How the distance of two lists of values is measured.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum SetDistance {
    /// A list contained in the other is nearer than one that overlaps it.
    #[default]
    Masi,
    /// By the share of common values alone.
    Jaccard,
}

/// The place of a stand on an ordered scale, from 0 to 1: the mean of its values, each at equal steps.
#[must_use]
pub fn place_on_scale(scheme: &Scheme, stand: &[ValueId]) -> f64 {
    let steps = scheme.values().len().saturating_sub(1).max(1) as f64;
    let sum: f64 = stand.iter().map(|value| f64::from(value.0)).sum();
    sum / (stand.len().max(1) as f64 * steps)
}

/// The distance of two stands, from 0 (the same) to 1: on an ordered facet that of their places on the scale, otherwise that
/// of their sets of values. Both are sorted, as [`Witness::stand`](super::Witness::stand) gives them.
#[must_use]
pub fn distance(scheme: &Scheme, sets: SetDistance, a: &[ValueId], b: &[ValueId]) -> f64 {
    match (scheme.scale(), sets) {
        (Scale::Ordinal, _) => (place_on_scale(scheme, a) - place_on_scale(scheme, b)).abs(),
        (Scale::Nominal, SetDistance::Masi) => masi(a, b),
        (Scale::Nominal, SetDistance::Jaccard) => jaccard(a, b),
    }
}

/// The facets on which stands can be held against each other: lists that are complete, and scales. Lists of channels are
/// open, those of actions too, and grades come from few books.
pub const COMPARABLE: [Facet; 3] = [Facet::Flavour, Facet::Nature, Facet::Toxicity];
