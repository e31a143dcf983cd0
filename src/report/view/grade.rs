//! The grade of an herb and what it is held to imply for the amount.

use schemars::JsonSchema;
use serde::Serialize;

use super::labels::{Labels, ValueRef};
use crate::claim::Facet;
use crate::compare::oldest_grade;
use crate::corpus::Herb;

/// The grade of an herb by the oldest work that states one.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct GradeView {
    /// The work's id.
    pub work: String,
    /// The grade.
    pub grade: ValueRef,
    /// What it is held to imply for the amount, with the source.
    pub implies: Option<String>,
}

impl GradeView {
    /// The grades of `herb` by the oldest work that states one; empty where none does.
    pub(super) fn oldest(labels: &Labels<'_>, herb: &Herb) -> Vec<Self> {
        let Some(oldest) = oldest_grade(labels.corpus, herb) else {
            return Vec::new();
        };
        let scheme = labels.corpus.vocabulary.scheme(Facet::Grade);
        let view = |grade| Self {
            work: labels.work(oldest.work),
            grade: labels.value(Facet::Grade, grade),
            implies: scheme.value(grade).does.clone(),
        };
        oldest.grades.iter().map(|grade| view(*grade)).collect()
    }
}
