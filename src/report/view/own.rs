//! Own tastings beside the books.

use schemars::JsonSchema;
use serde::Serialize;

use super::labels::{Labels, ValueRef};
use crate::claim::Facet;
use crate::tasting::{Attribute, AttributeFigures, Own};

/// Own tastings of an herb. They are never counted among the books.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct OwnView {
    /// How many there are.
    pub tastings: usize,
    /// Who tasted; tastings without a name are not in it.
    pub tasters: Vec<String>,
    /// The day of the first.
    pub first: String,
    /// The day of the last.
    pub last: String,
    /// The flavours that were scored.
    pub flavours: Vec<OwnFlavour>,
    /// Thickness, lingering, aroma, warmth, where they were scored.
    pub others: Vec<OwnOther>,
}

/// A flavour as it was tasted.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct OwnFlavour {
    /// The flavour.
    pub value: ValueRef,
    /// Its figures.
    #[serde(flatten)]
    pub figures: OwnFigures,
}

/// Something else that was scored.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct OwnOther {
    /// `thickness`, `lingering`, `aroma` or `warmth`.
    pub name: &'static str,
    /// Its figures.
    #[serde(flatten)]
    pub figures: OwnFigures,
}

/// The figures of scores.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
pub struct OwnFigures {
    /// How many tastings scored it.
    pub n: usize,
    /// The median, in points.
    pub median: f64,
    /// The lowest.
    pub lowest: f64,
    /// The highest.
    pub highest: f64,
}

impl OwnFigures {
    pub(super) fn new(one: &AttributeFigures) -> Option<Self> {
        let figures = one.figures?;
        Some(Self {
            n: one.n,
            median: figures.median,
            lowest: figures.lowest,
            highest: figures.highest,
        })
    }
}

impl OwnView {
    /// Own tastings in words.
    #[must_use]
    pub fn new(labels: &Labels<'_>, own: &Own) -> Self {
        let scored = own.attributes.iter();
        let scored = scored.filter_map(|one| Some((one.attribute, OwnFigures::new(one)?)));
        let (mut flavours, mut others) = (Vec::new(), Vec::new());
        for (attribute, figures) in scored {
            match (attribute, attribute.name()) {
                (Attribute::Flavour(value), _) => flavours.push(OwnFlavour {
                    value: labels.value(Facet::Flavour, value),
                    figures,
                }),
                (_, Some(name)) => others.push(OwnOther { name, figures }),
                _ => {}
            }
        }
        Self {
            tastings: own.tastings,
            tasters: own.tasters.clone(),
            first: own.first.to_string(),
            last: own.last.to_string(),
            flavours,
            others,
        }
    }

    /// What was scored under a name that is no flavour's.
    #[must_use]
    pub fn other(&self, name: &str) -> Option<&OwnFigures> {
        let found = self.others.iter().find(|one| one.name == name);
        found.map(|one| &one.figures)
    }
}
