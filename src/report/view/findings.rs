//! What a check found.

use schemars::JsonSchema;
use serde::Serialize;

use crate::corpus::{AssembleError, Corpus, Finding, Loaded};

/// What `kaoyi check --json` writes.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct FindingsView {
    /// Name and version of this format.
    pub format: &'static str,
    /// How many files were read.
    pub files: usize,
    /// How many entries the corpus holds; `null` when there are findings.
    pub entries: Option<usize>,
    /// How many claims the corpus holds; `null` when there are findings.
    pub claims: Option<usize>,
    /// All findings, in the order of file and place.
    pub findings: Vec<Finding>,
}

impl FindingsView {
    /// The findings of a loaded folder.
    ///
    /// # Errors
    /// When an embedded record is faulty.
    pub fn new(loaded: &Loaded) -> Result<Self, AssembleError> {
        let size = loaded.corpus.as_ref().map(Corpus::size).transpose()?;
        Ok(Self {
            format: "kaoyi.check/1",
            files: loaded.files,
            entries: size.map(|(entries, _)| entries),
            claims: size.map(|(_, claims)| claims),
            findings: loaded.findings.clone(),
        })
    }

    /// The findings of one file that lies in no corpus.
    #[must_use]
    pub fn of_file(findings: Vec<Finding>) -> Self {
        Self {
            format: "kaoyi.check/1",
            files: 1,
            entries: None,
            claims: None,
            findings,
        }
    }
}
