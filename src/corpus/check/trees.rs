//! The trees of files that are read again when a finding needs a place. Hardly any file has a fault, and the trees of all would
//! take ten times the memory of their texts.

use std::cell::RefCell;

use crate::corpus::source::Source;
use crate::corpus::yaml::{self, At, Node};

/// The tree that was read last: findings come file by file.
#[derive(Default)]
pub(in crate::corpus) struct Trees {
    last: RefCell<Option<(usize, Node)>>,
}

impl Trees {
    /// A place in the tree of a source, of which `number` is the place among all. Its text was read before, so that reading it
    /// again does not fail; if it did, the place would be the file's beginning.
    pub(super) fn place(&self, number: usize, source: &Source, of: impl Fn(&Node) -> At) -> At {
        let mut last = self.last.borrow_mut();
        if last.as_ref().is_none_or(|(one, _)| *one != number) {
            *last = yaml::parse(&source.text).ok().map(|node| (number, node));
        }
        let beginning = At {
            line: 1,
            column: 1,
            width: 1,
        };
        last.as_ref().map_or(beginning, |(_, node)| of(node))
    }
}
