//! What must be heeded: it stands under every answer about an herb.

use schemars::JsonSchema;
use serde::Serialize;

use super::labels::{CautionView, Labels, NOTICE};
use super::profile::SeverestView;
use super::state::HerbRef;
use crate::claim::Severity;
use crate::corpus::{AssembleError, Herb, HerbId};

/// Warnings of the books, cautions of today, and what the program does not do.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct HeedView {
    /// The most severe toxicity that any book states of the herb, whatever was asked for; empty when none
    /// calls it toxic.
    pub warnings: Vec<SeverestView>,
    /// The herb's cautions, grave ones first.
    pub cautions: Vec<CautionView>,
    /// What the program does not do.
    pub notice: &'static str,
}

impl HeedView {
    /// What must be heeded of `herb`.
    #[must_use]
    pub fn new(labels: &Labels<'_>, herb: &Herb) -> Self {
        Self {
            warnings: SeverestView::warnings(labels, herb),
            cautions: labels.cautions(herb),
            notice: NOTICE,
        }
    }
}

/// The grave cautions of an herb that a list names.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct ListedCautions {
    /// The herb.
    pub herb: HerbRef,
    /// Its grave cautions.
    pub cautions: Vec<CautionView>,
}

impl ListedCautions {
    /// The grave cautions of the herb at `id`; `None` where there is none on record.
    ///
    /// # Errors
    /// When its embedded record is faulty.
    pub fn new(labels: &Labels<'_>, id: HerbId) -> Result<Option<Self>, AssembleError> {
        let mut cautions = labels.cautions(labels.corpus.herb(id)?);
        cautions.retain(|caution| caution.severity == Severity::Grave);
        let listed = Self {
            herb: HerbRef::new(labels, id),
            cautions,
        };
        Ok(Some(listed).filter(|listed| !listed.cautions.is_empty()))
    }
}
