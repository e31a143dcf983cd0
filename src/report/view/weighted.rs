//! The estimate that weighs books by their reliability, beside the profile and never in its place.

use std::borrow::Cow;

use schemars::JsonSchema;
use serde::Serialize;

use super::labels::{Labels, ValueRef};
use crate::claim::Facet;
use crate::compare::{Reliabilities, Stands};
use crate::corpus::HerbId;

/// The estimate on one facet.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct WeightedView {
    /// The facet.
    pub facet: Facet,
    /// The values of a list, or the sides of a scale; those left out whose probability is below 0.005.
    pub values: Vec<WeightedValueView>,
    /// The witnesses, oldest first.
    pub witnesses: Vec<ReliabilityView>,
}

/// A value or side with its probability.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct WeightedValueView {
    /// The value, of a list.
    pub value: Option<ValueRef>,
    /// The side, of a scale.
    pub side: Option<String>,
    /// The probability, 0 to 1.
    pub probability: f64,
}

/// How reliable a witness was found.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct ReliabilityView {
    /// The work.
    pub work: String,
    /// The share of its statements on all herbs that the estimate bears out, 0 to 1.
    pub share: f64,
}

/// What is less likely is left out.
const LEAST: f64 = 0.005;

impl WeightedView {
    /// The estimates of an herb, facet by facet, those left out on which nobody speaks.
    #[must_use]
    pub fn all(labels: &Labels<'_>, herb: HerbId, stands: &[Cow<'_, Stands>]) -> Vec<Self> {
        let of_facet = |stands: &Cow<'_, Stands>| Self::new(labels, herb, stands);
        stands.iter().filter_map(of_facet).collect()
    }

    fn new(labels: &Labels<'_>, herb: HerbId, stands: &Stands) -> Option<Self> {
        let weighted = Reliabilities::new(labels.corpus, stands).of(herb)?;
        let told = weighted
            .values
            .into_iter()
            .filter(|one| one.probability >= LEAST);
        let values = told.map(|one| WeightedValueView {
            value: one.value.map(|value| labels.value(stands.facet, value)),
            side: one.side,
            probability: one.probability,
        });
        let witnesses = weighted
            .witnesses
            .iter()
            .map(|(work, share)| ReliabilityView {
                work: labels.work(*work),
                share: *share,
            });
        Some(Self {
            facet: stands.facet,
            values: values.collect(),
            witnesses: witnesses.collect(),
        })
    }
}
