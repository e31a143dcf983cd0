//! What must hold within a vocabulary file: each id once, and relations to values that are there.

use std::collections::HashSet;

use super::Pen;
use crate::claim::{Facet, SchemeFile};
use crate::corpus::code::Code;
use crate::corpus::finding::Finding;
use crate::corpus::source::Source;
use crate::corpus::yaml::Node;
use crate::text::nearest;

/// Checks one scheme. It is called while the file is read, since the other checks need the whole
/// vocabulary in place.
pub(in crate::corpus) fn check(
    source: &Source,
    node: &Node,
    file: &SchemeFile,
    findings: &mut Vec<Finding>,
) {
    let pen = Pen::new(source, node);
    let ids: Vec<&str> = file.values.iter().map(|value| value.id.as_str()).collect();
    let mut look = |pointer: &str, word: &str, known: &[&str], expected: &str| {
        if !known.contains(&word) {
            let mut one = pen.at(pointer, Code::UnknownValue, format!("`{word}`"), expected);
            one.nearest = nearest(word, known.iter().copied())
                .into_iter()
                .map(str::to_owned)
                .collect();
            findings.push(one);
        }
    };
    for (n, value) in file.values.iter().enumerate() {
        if let Some(base) = &value.degree_of {
            look(
                &format!("/values/{n}/degree_of"),
                base,
                &ids,
                "a value of this file",
            );
        }
        for (k, opposite) in value.opposite.iter().enumerate() {
            look(
                &format!("/values/{n}/opposite/{k}"),
                opposite,
                &ids,
                "a value of this file",
            );
        }
        for (k, covered) in value.covers.iter().enumerate() {
            look(
                &format!("/values/{n}/covers/{k}"),
                covered,
                &ids,
                "a value of this file",
            );
        }
        if let (Some(side), Some(sides)) = (&value.side, sides(&file.facet)) {
            look(
                &format!("/values/{n}/side"),
                side,
                sides,
                "a side of the scale",
            );
        }
    }
    let mut seen = HashSet::new();
    for (n, id) in ids.iter().enumerate() {
        if !seen.insert(id) {
            let expected = "an id that no other value of this file has";
            let place = format!("/values/{n}/id");
            findings.push(pen.at(&place, Code::DuplicateId, format!("`{id}`"), expected));
        }
    }
}

/// The sides that the comparison knows.
fn sides(facet: &str) -> Option<&'static [&'static str]> {
    if facet == Facet::Nature.name() {
        Some(&["cold", "neutral", "warm"])
    } else if facet == Facet::Toxicity.name() {
        Some(&["harmless", "harmful"])
    } else {
        None
    }
}
