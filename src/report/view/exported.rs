//! What an export has written.

use schemars::JsonSchema;
use serde::Serialize;

/// What `kaoyi export … -o … --json` writes.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct ExportedView {
    /// Name and version of this format.
    pub format: &'static str,
    /// The files, in the order in which they were written.
    pub files: Vec<ExportedFile>,
    /// What the program does not do.
    pub notice: &'static str,
}

/// A file that was written.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct ExportedFile {
    /// Its path.
    pub path: String,
    /// Its size in bytes.
    pub bytes: u64,
}

impl ExportedView {
    /// The format's name and version.
    pub const FORMAT: &'static str = "kaoyi.export/1";
}
