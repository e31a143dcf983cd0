//! Differences in words, with their sides.

use schemars::JsonSchema;
use serde::Serialize;

use super::labels::Labels;
use super::statement::in_words;
use crate::claim::{Facet, ValueId};
use crate::compare::{Difference, DifferenceKind, FacetView, Side, SideLabel};

/// A difference among the witnesses of a facet.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct DifferenceView {
    /// The facet.
    pub facet: Facet,
    /// The kind of difference.
    pub kind: DifferenceKind,
    /// Its sides.
    pub sides: Vec<SideView>,
    /// For `over-time`, where the books turn.
    pub turning: Option<TurningView>,
}

/// The witnesses on one side.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct SideView {
    /// What they have in common, in words.
    pub label: String,
    /// For `by-scope`, the part, preparation or kind spoken of; `null` for the herb as such.
    pub scope: Option<String>,
    /// Ids of the works, oldest first.
    pub witnesses: Vec<String>,
}

/// Where the books turn.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct TurningView {
    /// The oldest work of the later side.
    pub first_of_later: String,
    /// Works that stand against the turn.
    pub against: Vec<String>,
}

impl DifferenceView {
    /// The differences of a facet, in words.
    #[must_use]
    pub fn all(labels: &Labels<'_>, view: &FacetView, differences: &[Difference]) -> Vec<Self> {
        let one = |difference: &Difference| Self {
            facet: view.facet,
            kind: difference.kind,
            sides: difference
                .sides
                .iter()
                .map(|side| side_view(labels, view.facet, side))
                .collect(),
            turning: difference.turning.as_ref().map(|turning| TurningView {
                first_of_later: labels.work(turning.first_of_later),
                against: labels.works(&turning.against),
            }),
        };
        differences.iter().map(one).collect()
    }
}

fn side_view(labels: &Labels<'_>, facet: Facet, side: &Side) -> SideView {
    let word = |value: &ValueId| labels.word(facet, *value);
    let list = |values: &[ValueId]| labels.row(&values.iter().map(word).collect::<Vec<_>>());
    let mut scope = None;
    let label = match &side.label {
        SideLabel::Values(values) => list(values),
        SideLabel::OfScale(name) => match name.as_str() {
            "cold" => labels.either("cold side", "寒涼一側"),
            "warm" => labels.either("warm side", "溫熱一側"),
            "neutral" => labels.either("neutral", "平"),
            "harmless" => labels.either("harmless", "無毒"),
            "harmful" => labels.either("harmful", "有毒"),
            other => other.to_owned(),
        },
        SideLabel::With(value) => word(value),
        SideLabel::Degree(value, degree) => in_words(labels, facet, *value, *degree),
        SideLabel::Without(value) => {
            format!("{}{}", labels.either("without ", "不言"), word(value))
        }
        SideLabel::Of(of, values) => {
            scope = labels.scope(of);
            format!(
                "{}: {}",
                scope
                    .clone()
                    .unwrap_or_else(|| labels.either("the herb as such", "本品")),
                list(values)
            )
        }
    };
    SideView {
        label,
        scope,
        witnesses: labels.works(&side.witnesses),
    }
}
