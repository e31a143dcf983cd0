//! What a check found.

use schemars::JsonSchema;
use serde::Serialize;

use crate::corpus::{Finding, Loaded};

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

impl From<&Loaded> for FindingsView {
    fn from(loaded: &Loaded) -> Self {
        let size = loaded.corpus.as_ref().map(crate::corpus::Corpus::size);
        Self {
            format: "kaoyi.check/1",
            files: loaded.files,
            entries: size.map(|(entries, _)| entries),
            claims: size.map(|(_, claims)| claims),
            findings: loaded.findings.clone(),
        }
    }
}
