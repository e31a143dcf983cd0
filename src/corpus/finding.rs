//! A finding: one fault of the corpus as data. How it looks is the business of [`crate::report`].

use schemars::JsonSchema;
use serde::Serialize;

use super::code::Code;

/// One fault, with its place.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Finding {
    /// What kind of fault.
    pub code: Code,
    /// The file, as named by the user or within the embedded corpus.
    pub file: String,
    /// Line, from 1; `null` when the fault is in the file as a whole.
    pub line: Option<usize>,
    /// Column in Unicode scalars, from 1.
    pub column: Option<usize>,
    /// How many Unicode scalars the faulty piece covers on that line.
    pub width: usize,
    /// What was found.
    pub found: String,
    /// What was expected.
    pub expected: String,
    /// The nearest valid choices, best first.
    pub nearest: Vec<String>,
    /// The source line.
    pub excerpt: Option<String>,
}
