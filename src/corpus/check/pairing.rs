//! What must hold within the file of what holds between herbs: values and actions that the vocabulary has.

use super::trees::Trees;
use super::{Pen, Tree};
use crate::claim::{Facet, SchemeFile};
use crate::corpus::assemble::Records;
use crate::corpus::code::Code;
use crate::corpus::finding::Finding;
use crate::corpus::source::Source;
use crate::text::nearest;

/// Checks the doctrine. It is called before the vocabulary is put together, since it needs a file's places.
pub(in crate::corpus) fn check(sources: &[Source], records: &Records, findings: &mut Vec<Finding>) {
    let Some(placed) = &records.pairing else {
        return;
    };
    let Some(place) = placed.origin else {
        return;
    };
    let trees = Trees::default();
    let pen = Pen {
        source: &sources[place],
        tree: Tree::Again(&trees, place),
    };
    let ids = |facet: Facet| -> Vec<&str> {
        let of_facet = |scheme: &&SchemeFile| scheme.facet == facet.name();
        let scheme = records.schemes.iter().find(of_facet);
        let values = scheme.into_iter().flat_map(|scheme| &scheme.values);
        values.map(|value| value.id.as_str()).collect()
    };
    let actions = ids(Facet::Action);
    let mut look = |pointer: String, word: &str, known: &[&str], expected: &str| {
        if !known.contains(&word) {
            let mut one = pen.at(&pointer, Code::UnknownValue, format!("`{word}`"), expected);
            one.nearest = nearest(word, known.iter().copied())
                .into_iter()
                .map(str::to_owned)
                .collect();
            findings.push(one);
        }
    };
    for (n, doctrine) in placed.record.doctrine.iter().enumerate() {
        let pointer = format!("/doctrine/{n}/value");
        let values = ids(doctrine.facet);
        look(pointer, &doctrine.value, &values, "a value of the facet");
        for (k, action) in doctrine.shows_in.iter().enumerate() {
            let pointer = format!("/doctrine/{n}/shows_in/{k}");
            look(pointer, action, &actions, "an action of the vocabulary");
        }
    }
}
