//! How a run ends: the exit codes. What is said when a command cannot run: [`Failure`].

use std::process::ExitCode;

pub(super) use crate::report::ask::{Attempt, Failure};

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
