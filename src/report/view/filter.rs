//! Which works an answer counted, when not all.

use schemars::JsonSchema;
use serde::Serialize;

use super::labels::Labels;
use crate::compare::Selection;

/// The choice of works.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct FilterView {
    /// Only these works; empty means all.
    pub works: Vec<String>,
    /// Only works whose latest year is this one or later.
    pub since: Option<i32>,
    /// Only works whose latest year is this one or earlier.
    pub until: Option<i32>,
}

impl FilterView {
    /// The choice in `selection`; `None` when it takes all works.
    #[must_use]
    pub fn new(labels: &Labels<'_>, selection: &Selection) -> Option<Self> {
        let Selection {
            works,
            since,
            until,
        } = selection;
        (*selection != Selection::default()).then(|| Self {
            works: labels.works(works),
            since: *since,
            until: *until,
        })
    }
}
