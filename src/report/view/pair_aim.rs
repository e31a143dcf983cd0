//! A balance that was sought.

use schemars::JsonSchema;
use serde::Serialize;

use super::labels::{Labels, ValueRef};
use crate::claim::Facet;
use crate::pairing::{Aim, Change, Reach, Side};

/// A balance that was sought.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct AimView {
    /// The flavour.
    pub flavour: ValueRef,
    /// Whether it shall be more than the other side.
    pub more: bool,
    /// The flavour on the other side; `null` where it is a share of the whole.
    pub than: Option<ValueRef>,
    /// So many times the flavour on the other side, or the share, 0 to 1.
    pub times: f64,
    /// Whether it is reached by the means.
    pub reached: bool,
    /// Whether it is reached whatever book is followed.
    pub surely: bool,
    /// For each herb, the others left as they are, what its amount must become.
    pub changes: Vec<ChangeView>,
}

/// What an herb's amount must become.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
pub struct ChangeView {
    /// By the means.
    pub by_means: NeededView,
    /// Whatever book is followed.
    pub surely: NeededView,
}

/// An amount that is needed.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
pub struct NeededView {
    /// `any`, `more` (than the amount), `less`, `never`.
    pub needs: &'static str,
    /// The amount.
    pub amount: Option<f64>,
}

impl AimView {
    pub(super) fn new(labels: &Labels<'_>, aim: &Aim, reach: &Reach) -> Self {
        let (than, times) = match aim.side {
            Side::Flavour(other, times) => (Some(labels.value(Facet::Flavour, other)), times),
            Side::Share(share) => (None, share),
        };
        let changes = reach.changes.iter().map(|(by_means, surely)| ChangeView {
            by_means: (*by_means).into(),
            surely: (*surely).into(),
        });
        Self {
            flavour: labels.value(Facet::Flavour, aim.flavour),
            more: aim.more,
            than,
            times,
            reached: reach.reached,
            surely: reach.surely,
            changes: changes.collect(),
        }
    }
}

impl From<Change> for NeededView {
    fn from(change: Change) -> Self {
        let (needs, amount) = match change {
            Change::Any => ("any", None),
            Change::MoreThan(amount) => ("more", Some(amount)),
            Change::LessThan(amount) => ("less", Some(amount)),
            Change::Never => ("never", None),
        };
        Self { needs, amount }
    }
}
