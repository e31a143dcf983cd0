//! The faults of a table, with their places and lines.

use super::cells::Cell;
use crate::corpus::{Code, Finding};

/// Collects the faults of one file.
pub(super) struct Faults<'t> {
    file: &'t str,
    lines: Vec<&'t str>,
    found: Vec<Finding>,
}

impl<'t> Faults<'t> {
    pub fn new(file: &'t str, text: &'t str) -> Self {
        Self {
            file,
            lines: text.lines().collect(),
            found: Vec::new(),
        }
    }

    /// A fault in a cell.
    pub fn add(
        &mut self,
        code: Code,
        cell: &Cell,
        found: &str,
        expected: &str,
        nearest: &[String],
    ) {
        self.found.push(Finding {
            code,
            file: self.file.to_owned(),
            line: Some(cell.line),
            column: Some(cell.column),
            width: cell.width,
            found: found.to_owned(),
            expected: expected.to_owned(),
            nearest: nearest.to_vec(),
            excerpt: self.lines.get(cell.line - 1).map(|line| (*line).to_owned()),
        });
    }

    /// A fault of the file as a whole.
    pub fn whole(&mut self, code: Code, found: &str, expected: &str) {
        self.found.push(whole(self.file, code, found, expected));
    }

    /// How many there are so far.
    pub fn count(&self) -> usize {
        self.found.len()
    }

    /// The faults in the order of their places.
    pub fn in_order(mut self) -> Vec<Finding> {
        self.found.sort_by_key(|one| (one.line, one.column));
        self.found
    }
}

/// A fault of a file as a whole.
pub(super) fn whole(file: &str, code: Code, found: &str, expected: &str) -> Finding {
    Finding {
        code,
        file: file.to_owned(),
        line: None,
        column: None,
        width: 0,
        found: found.to_owned(),
        expected: expected.to_owned(),
        nearest: Vec::new(),
        excerpt: None,
    }
}

/// The fault of a file that is no UTF-8 from the byte `at` on.
pub(super) fn not_utf8(file: &str, bytes: &[u8], at: usize) -> Finding {
    let before = String::from_utf8_lossy(&bytes[..at]);
    let line = before.matches('\n').count() + 1;
    let column = before
        .rsplit('\n')
        .next()
        .map_or(0, |line| line.chars().count())
        + 1;
    Finding {
        line: Some(line),
        column: Some(column),
        width: 1,
        ..whole(
            file,
            Code::NotUtf8,
            "bytes that are no UTF-8",
            "a table saved as UTF-8; spreadsheets offer it as \"CSV UTF-8\"",
        )
    }
}
