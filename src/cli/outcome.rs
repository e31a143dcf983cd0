//! How a run ends: the exit codes, and what is said when a command cannot run.

use std::process::ExitCode;

use crate::corpus::AssembleError;
use crate::index::WordsError;
use crate::report::export::ExportError;
use crate::report::view::FindingsView;
use crate::text::ScriptError;

/// The three exit codes, the same for every command.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Outcome {
    /// 0: answered; for `is` yes or mostly yes, for `check` clean.
    Answered,
    /// 1: ran well, but the answer is any other, or there are findings.
    Otherwise,
    /// 2: could not run.
    Failed,
}

impl From<Outcome> for ExitCode {
    fn from(outcome: Outcome) -> Self {
        match outcome {
            Outcome::Answered => Self::SUCCESS,
            Outcome::Otherwise => Self::from(1),
            Outcome::Failed => Self::from(2),
        }
    }
}

/// How many faults of a corpus are shown where something else was asked for.
const FINDINGS_SHOWN: usize = 10;

/// Why a command could not run.
#[derive(Debug)]
pub(super) struct Failure {
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
pub(super) type Attempt<T> = Result<T, Box<Failure>>;

impl Failure {
    pub fn new(message: impl Into<String>) -> Box<Self> {
        Box::new(Self {
            message: message.into(),
            candidates: Vec::new(),
            hint: None,
            findings: None,
            findings_shown: FINDINGS_SHOWN,
        })
    }

    pub fn with_candidates(mut self: Box<Self>, candidates: Vec<String>) -> Box<Self> {
        self.candidates = candidates;
        self
    }

    pub fn with_hint(mut self: Box<Self>, hint: impl Into<String>) -> Box<Self> {
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
