//! The scales on which stands are drawn, and what a study circle tasted itself.

use schemars::JsonSchema;
use serde::Serialize;

use super::labels::{Labels, ValueRef};
use crate::claim::{Facet, Scheme, ValueId};
use crate::text::Script;

/// One step of an ordered scale.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct RungView {
    /// The value.
    pub value: ValueRef,
    /// The side of the scale on which it lies.
    pub side: Option<String>,
}

/// The scales and the script of a drawing.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct ScalesView {
    /// The natures, coldest first.
    pub natures: Vec<RungView>,
    /// The flavours, in the order of the vocabulary.
    pub flavours: Vec<ValueRef>,
    /// The language of names and labels: `zh-Hant` or `zh-Hans`.
    pub names: &'static str,
    /// The language of wordings, which the plain texts give in simplified characters.
    pub wordings: &'static str,
}

impl ScalesView {
    /// The scales of the corpus behind `labels`, in its script.
    #[must_use]
    pub fn new(labels: &Labels<'_>) -> Self {
        let vocabulary = &labels.corpus.vocabulary;
        let natures = vocabulary.scheme(Facet::Nature);
        let rung = |id: ValueId| RungView {
            value: labels.value(Facet::Nature, id),
            side: natures.value(id).side.clone(),
        };
        let flavours = ids(vocabulary.scheme(Facet::Flavour));
        let (names, wordings) = match labels.script() {
            Script::Hans => ("zh-Hans", "zh-Hans"),
            Script::Hant => ("zh-Hant", "zh-Hant"),
            Script::Recorded => ("zh-Hant", "zh-Hans"),
        };
        Self {
            natures: ids(natures).map(rung).collect(),
            flavours: flavours
                .map(|id| labels.value(Facet::Flavour, id))
                .collect(),
            names,
            wordings,
        }
    }
}

/// The places of a scheme's values, in order.
fn ids(scheme: &Scheme) -> impl Iterator<Item = ValueId> {
    (0_u16..).map(ValueId).take(scheme.values().len())
}
