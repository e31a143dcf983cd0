//! What must hold within the file of phrases: each phrase once under an action.

use std::collections::HashSet;

use super::Pen;
use crate::claim::PhraseFile;
use crate::corpus::code::Code;
use crate::corpus::finding::Finding;
use crate::corpus::source::Source;
use crate::corpus::yaml::Node;

/// Checks the phrases while the file is read, before the actions are known: phrases under an id that no
/// action has are not reported here and read nothing.
pub(in crate::corpus) fn check(
    source: &Source,
    node: &Node,
    file: &PhraseFile,
    findings: &mut Vec<Finding>,
) {
    let pen = Pen::new(source, node);
    for (action, phrases) in &file.phrases {
        let mut seen = HashSet::new();
        for (n, phrase) in phrases.iter().enumerate() {
            if !seen.insert(phrase) {
                let place = format!("/phrases/{action}/{n}");
                let found = format!("`{phrase}` a second time");
                findings.push(pen.at(&place, Code::DuplicateValue, found, "each phrase once"));
            }
        }
    }
}
