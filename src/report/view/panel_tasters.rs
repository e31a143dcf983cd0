//! The tasters of a panel one by one.

use schemars::JsonSchema;
use serde::Serialize;

use super::labels::Labels;
use super::panel::AttributeRef;
use crate::tasting::{Apart, Repeat, Repeats, TasterFigures};

/// How far a taster stands from the others, in points.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct TasterView {
    /// Who.
    pub taster: String,
    /// Attributes on which the taster could be held against three others or more.
    pub n: usize,
    /// The mean distance to the median of the others; `null` where `n` is 0.
    pub distance: Option<f64>,
    /// The mean of the same differences with their signs: above 0 the taster scores higher.
    pub lean: Option<f64>,
    /// Whether the distance is out of the common run.
    pub outlying: bool,
    /// Where the taster is farthest from the others.
    pub farthest: Vec<ApartView>,
}

/// An attribute on which a taster differs from the others.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct ApartView {
    /// The attribute.
    pub attribute: AttributeRef,
    /// The taster's score, the mean over their own cups.
    pub own: f64,
    /// The median of the others' scores.
    pub others: f64,
}

/// Whether tasters repeat themselves.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct RepeatsView {
    /// The mean of `within` over the tasters, in points.
    pub within: f64,
    /// The mean of `between` over the tasters.
    pub between: Option<f64>,
    /// The tasters who had the same thing twice, in the order of their names.
    pub tasters: Vec<RepeatView>,
}

/// A taster's cups of the same thing.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct RepeatView {
    /// Who.
    pub taster: String,
    /// Cups.
    pub cups: usize,
    /// Differences behind the mean: pairs of own cups times attributes scored in both.
    pub n: usize,
    /// The mean difference between two own cups, in points.
    pub within: f64,
    /// The mean difference between an own cup and one of another taster.
    pub between: Option<f64>,
}

impl TasterView {
    /// A taster in words.
    #[must_use]
    pub fn new(labels: &Labels<'_>, figures: &TasterFigures) -> Self {
        let apart = |one: &Apart| ApartView {
            attribute: AttributeRef::new(labels, one.attribute),
            own: one.own,
            others: one.others,
        };
        Self {
            taster: figures.taster.clone(),
            n: figures.n,
            distance: figures.distance,
            lean: figures.lean,
            outlying: figures.outlying,
            farthest: figures.farthest.iter().map(apart).collect(),
        }
    }
}

impl RepeatsView {
    /// What replicate cups show.
    #[must_use]
    pub fn new(repeats: &Repeats) -> Self {
        let repeat = |one: &Repeat| RepeatView {
            taster: one.taster.clone(),
            cups: one.cups,
            n: one.n,
            within: one.within,
            between: one.between,
        };
        Self {
            within: repeats.within,
            between: repeats.between,
            tasters: repeats.tasters.iter().map(repeat).collect(),
        }
    }
}
