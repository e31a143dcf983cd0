//! Why an export failed.

use std::fmt;
use std::io;

use crate::corpus::AssembleError;

/// Why an export failed.
#[derive(Debug)]
pub enum ExportError {
    /// An embedded record is faulty.
    Corpus(AssembleError),
    /// The file could not be written.
    Write(io::Error),
}

impl fmt::Display for ExportError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Corpus(error) => error.fmt(f),
            Self::Write(error) => write!(f, "the export could not be written: {error}"),
        }
    }
}

impl std::error::Error for ExportError {}

impl From<AssembleError> for ExportError {
    fn from(error: AssembleError) -> Self {
        Self::Corpus(error)
    }
}

impl From<io::Error> for ExportError {
    fn from(error: io::Error) -> Self {
        Self::Write(error)
    }
}

impl From<csv::Error> for ExportError {
    fn from(error: csv::Error) -> Self {
        // The kind of the error tells a reader that has gone away from a full disk.
        match error.into_kind() {
            csv::ErrorKind::Io(error) => Self::Write(error),
            other => Self::Write(io::Error::other(format!("{other:?}"))),
        }
    }
}

impl From<serde_json::Error> for ExportError {
    fn from(error: serde_json::Error) -> Self {
        Self::Write(error.into())
    }
}

impl From<rust_xlsxwriter::XlsxError> for ExportError {
    fn from(error: rust_xlsxwriter::XlsxError) -> Self {
        Self::Write(io::Error::other(error))
    }
}
