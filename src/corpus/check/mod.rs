//! What must hold between records, beyond the shape of each: one kind of check a file.

mod cycles;
mod dates;
mod identity;
pub(super) mod measures;
pub(super) mod pairing;
pub(super) mod phrases;
mod references;
mod sayings;
pub(super) mod trees;
pub(super) mod vocabulary;

use std::collections::HashMap;

use super::assemble::Records;
use super::code::Code;
use super::embedded;
use super::finding::Finding;
use super::model::Origin;
use super::record::{EntryRecord, HerbRecord, WorkRecord};
use super::shape::{Placed, finding};
use super::source::Source;
use super::store::HerbNames;
use super::yaml::{At, Node};
use crate::claim::Vocabulary;
use trees::Trees;

/// What a check may look at. Records of the shipped corpus have no tree: nothing is reported of
/// them when a user's folder is checked on top of it.
pub(super) struct Context<'c> {
    pub sources: &'c [Source],
    pub vocabulary: &'c Vocabulary,
    pub works: &'c [(Placed<WorkRecord>, Origin)],
    pub herbs: &'c [(Placed<HerbRecord>, Origin)],
    /// Names of the shipped herbs on top of which a folder is checked.
    pub packed: &'c [HerbNames],
    works_by_id: HashMap<&'c str, &'c WorkRecord>,
    trees: &'c Trees,
}

impl<'c> Context<'c> {
    /// A context over `records` whose vocabulary has been taken out.
    pub fn new(
        sources: &'c [Source],
        vocabulary: &'c Vocabulary,
        records: &'c Records,
        trees: &'c Trees,
    ) -> Self {
        Self {
            sources,
            trees,
            vocabulary,
            works: &records.works,
            herbs: &records.herbs,
            packed: &records.packed,
            works_by_id: records
                .works
                .iter()
                .map(|(placed, _)| (placed.record.id.as_str(), &placed.record))
                .collect(),
        }
    }

    fn work(&self, id: &str) -> Option<&'c WorkRecord> {
        self.works_by_id.get(id).copied()
    }

    /// The entries of a shipped herb. One that cannot be opened is reported when the records are put together.
    fn shipped_entries(&self, id: &str) -> Vec<EntryRecord> {
        let place = self.packed.iter().position(|herb| herb.id == id);
        let record = place.and_then(|place| embedded::herb(place).ok());
        record.map(|record| record.entries).unwrap_or_default()
    }

    /// The works that were read for this check, with their places.
    fn own_works(&self) -> impl Iterator<Item = (&'c WorkRecord, Pen<'c>)> {
        self.works
            .iter()
            .filter_map(|(placed, _)| Some((&placed.record, self.pen(placed)?)))
    }

    /// The herbs that were read for this check, with their places.
    fn own_herbs(&self) -> impl Iterator<Item = (&'c HerbRecord, Pen<'c>)> {
        self.herbs
            .iter()
            .filter_map(|(placed, _)| Some((&placed.record, self.pen(placed)?)))
    }

    fn pen<T>(&self, placed: &'c Placed<T>) -> Option<Pen<'c>> {
        let place = placed.origin?;
        Some(Pen {
            source: &self.sources[place],
            tree: Tree::Again(self.trees, place),
        })
    }
}

/// The tree of a file.
#[derive(Clone, Copy)]
enum Tree<'c> {
    /// It was just read.
    There(&'c Node),
    /// It is read again from the source at this place.
    Again(&'c Trees, usize),
}

/// Writes findings about one file.
#[derive(Clone, Copy)]
struct Pen<'c> {
    source: &'c Source,
    tree: Tree<'c>,
}

impl<'c> Pen<'c> {
    /// A pen for a file whose tree is there.
    const fn new(source: &'c Source, node: &'c Node) -> Self {
        Self {
            source,
            tree: Tree::There(node),
        }
    }

    fn place(self, of: impl Fn(&Node) -> At) -> At {
        match self.tree {
            Tree::There(node) => of(node),
            Tree::Again(trees, place) => trees.place(place, self.source, of),
        }
    }

    /// A finding at the value that a JSON pointer names.
    fn at(self, pointer: &str, code: Code, found: String, expected: &str) -> Finding {
        let at = self.place(|node| node.at_pointer(pointer).at);
        finding(self.source, code, at, found, expected)
    }

    /// A finding at the key `name` of the map that a JSON pointer names.
    fn at_key(
        self,
        pointer: &str,
        name: &str,
        code: Code,
        found: String,
        expected: &str,
    ) -> Finding {
        let at = self.place(|node| node.key_at(pointer, name).at);
        finding(self.source, code, at, found, expected)
    }
}

/// Runs every check.
pub(super) fn run(context: &Context<'_>, findings: &mut Vec<Finding>) {
    references::check(context, findings);
    identity::check(context, findings);
    sayings::check(context, findings);
    cycles::check(context, findings);
    dates::check(context, findings);
}
