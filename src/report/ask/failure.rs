//! Why something that was asked could not be answered, in words for whoever asked.

use crate::corpus::AssembleError;
use crate::index::WordsError;
use crate::report::export::ExportError;
use crate::report::view::{ErrorView, FindingsView};
use crate::tasting::KeepError;
use crate::text::ScriptError;

/// How many faults of a corpus are shown where something else was asked for.
const FINDINGS_SHOWN: usize = 10;

/// Why what was asked could not be answered.
#[derive(Debug)]
pub(crate) struct Failure {
    /// What happened.
    pub message: String,
    /// What may be meant instead.
    pub candidates: Vec<String>,
    /// What to do next.
    pub hint: Option<String>,
    /// For a faulty corpus or file, the faults.
    pub findings: Option<FindingsView>,
    /// How many of the faults are shown as text.
    pub findings_shown: usize,
}

/// What comes of trying; a failure is boxed, since it is large and rare.
pub(crate) type Attempt<T> = Result<T, Box<Failure>>;

impl Failure {
    pub(crate) fn new(message: impl Into<String>) -> Box<Self> {
        Box::new(Self {
            message: message.into(),
            candidates: Vec::new(),
            hint: None,
            findings: None,
            findings_shown: FINDINGS_SHOWN,
        })
    }

    pub(crate) fn with_candidates(mut self: Box<Self>, candidates: Vec<String>) -> Box<Self> {
        self.candidates = candidates;
        self
    }

    pub(crate) fn with_hint(mut self: Box<Self>, hint: impl Into<String>) -> Box<Self> {
        self.hint = Some(hint.into());
        self
    }
}

impl From<AssembleError> for Box<Failure> {
    fn from(error: AssembleError) -> Self {
        Failure::new(error.to_string())
    }
}

impl From<ExportError> for Box<Failure> {
    fn from(error: ExportError) -> Self {
        Failure::new(error.to_string())
    }
}

impl From<WordsError> for Box<Failure> {
    fn from(error: WordsError) -> Self {
        Failure::new(error.to_string())
    }
}

impl From<ScriptError> for Box<Failure> {
    fn from(error: ScriptError) -> Self {
        Failure::new(error.to_string())
    }
}

impl From<std::io::Error> for Box<Failure> {
    fn from(error: std::io::Error) -> Self {
        Failure::new(format!("the answer could not be written: {error}"))
    }
}

impl From<serde_json::Error> for Box<Failure> {
    fn from(error: serde_json::Error) -> Self {
        Failure::new(format!("the answer could not be written as JSON: {error}"))
    }
}

impl Failure {
    /// The failure as the one JSON document that says so.
    pub(crate) fn view(&self) -> ErrorView {
        let findings = self.findings.as_ref();
        ErrorView {
            format: ErrorView::FORMAT,
            error: self.message.clone(),
            candidates: self.candidates.clone(),
            hint: self.hint.clone(),
            findings: findings.map_or_else(Vec::new, |view| view.findings.clone()),
        }
    }
}

/// A failure and what may be meant instead, where it is one of several.
pub(crate) fn in_a_line(failure: &Failure) -> String {
    let line = format!("{} {}", failure.message, failure.candidates.join(" | "));
    line.trim_end().to_owned()
}

/// One failure for all of `faults`, of which there is at least one.
pub(crate) fn several(faults: Vec<String>) -> Box<Failure> {
    match faults.as_slice() {
        [one] => Failure::new(one.clone()),
        several => Failure::new(format!("{} faults:", several.len())).with_candidates(faults),
    }
}

/// A file that could not be written.
impl From<KeepError> for Box<Failure> {
    fn from(error: KeepError) -> Self {
        Failure::new(error.to_string())
    }
}
