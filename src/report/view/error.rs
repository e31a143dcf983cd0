//! Why a command could not run.

use schemars::JsonSchema;
use serde::Serialize;

use crate::corpus::Finding;

/// What any command with `--json` writes to standard error when it cannot run.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct ErrorView {
    /// Name and version of this format.
    pub format: &'static str,
    /// What happened.
    pub error: String,
    /// What may be meant instead.
    pub candidates: Vec<String>,
    /// What to do next.
    pub hint: Option<String>,
    /// For a faulty corpus, the faults.
    pub findings: Vec<Finding>,
}

impl ErrorView {
    /// The format's name and version.
    pub const FORMAT: &'static str = "kaoyi.error/1";
}
