//! A record that stands by itself, outside a corpus folder: read with the same care, every fault with its place.

use std::path::Path;

use schemars::JsonSchema;
use serde::de::DeserializeOwned;

use super::code::Code;
use super::finding::Finding;
use super::load::tree;
use super::shape::{Shape, finding};
use super::source::{self, Folder, Source};
use super::yaml::Node;

/// Reads records of one kind.
pub(crate) struct Single {
    shape: Shape,
}

/// A record with its text and the places of its keys.
pub(crate) struct Reading<T> {
    /// The record.
    pub record: T,
    source: Source,
    node: Node,
}

impl Single {
    /// A reader of records of the type `T`.
    pub fn of<T: JsonSchema>() -> Self {
        Self {
            shape: Shape::of::<T>(),
        }
    }

    /// The record in `text`, which is the content of the file called `name`; `None` with all that is wrong in `findings`.
    pub fn read<T: DeserializeOwned>(
        &self,
        name: &str,
        text: String,
        findings: &mut Vec<Finding>,
    ) -> Option<Reading<T>> {
        let source = Source::new(name.to_owned(), Folder::Alone, String::new(), text);
        let before = findings.len();
        let node = tree(&source, findings)?;
        let record = self.shape.read(&source, &node, findings);
        (findings.len() == before).then_some(())?;
        Some(Reading {
            record: record?,
            source,
            node,
        })
    }
}

impl<T> Reading<T> {
    /// A fault of the key `name` in the map at a JSON pointer.
    pub fn key_fault(
        &self,
        code: Code,
        pointer: &str,
        name: &str,
        expected: &str,
        nearest: Vec<String>,
    ) -> Finding {
        let at = self.node.key_at(pointer, name).at;
        let mut one = finding(&self.source, code, at, format!("`{name}`"), expected);
        one.nearest = nearest;
        one
    }

    /// A fault of the value at a JSON pointer.
    pub fn fault(
        &self,
        code: Code,
        pointer: &str,
        found: String,
        expected: &str,
        nearest: Vec<String>,
    ) -> Finding {
        let at = self.node.at_pointer(pointer).at;
        let mut one = finding(&self.source, code, at, found, expected);
        one.nearest = nearest;
        one
    }

    /// The keys of the record with the lines on which they begin, where each begins a line of its own; `None` where
    /// the record is not laid out so.
    pub fn key_lines(&self) -> Option<Vec<(String, usize)>> {
        let keys = self.node.keys();
        let lines: Option<Vec<_>> = keys
            .map(|key| (key.at.column == 1).then(|| Some((key.text()?.to_owned(), key.at.line)))?)
            .collect();
        lines.filter(|lines| lines.windows(2).all(|pair| pair[0].1 < pair[1].1))
    }

    /// The text that it was read from, without a byte-order mark.
    pub fn text(&self) -> &str {
        &self.source.text
    }
}

/// The text of a file, read within the limits of corpus files.
pub(crate) fn read_text(path: &Path) -> Result<String, Box<Finding>> {
    source::read(path)
}
