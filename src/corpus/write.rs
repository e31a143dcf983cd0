//! Records as YAML, in the one style that the corpus is written in: an entry a block, a saying a line.

use std::fmt::Write as _;

use super::model::Status;
use super::record::{EntryRecord, FlavourRecord, PlaceRecord, SayingRecord, ScopeRecord};
use super::relation::Relation;

/// An entry as an item of the list `entries`, indented by `indent` blanks.
///
/// ```
/// use kaoyi::corpus::{EntryRecord, Status, entry_yaml};
/// let entry = EntryRecord { work: "garden-lessons".into(), at: None, status: Status::Read, note: None, sayings: vec![] };
/// assert_eq!(entry_yaml(&entry, 2), "  - work: garden-lessons\n    status: read\n    sayings:\n");
/// ```
#[must_use]
pub fn entry_yaml(entry: &EntryRecord, indent: usize) -> String {
    let pad = " ".repeat(indent);
    let mut text = format!("{pad}- work: {}\n", entry.work);
    let mut line = |words: String| {
        text.push_str(&pad);
        text.push_str("  ");
        text.push_str(&words);
        text.push('\n');
    };
    if let Some(at) = &entry.at {
        line(format!("at: {}", place(at)));
    }
    line(format!("status: {}", status(entry.status)));
    if let Some(note) = &entry.note {
        line(format!("note: {}", scalar(note)));
    }
    line("sayings:".to_owned());
    for saying in &entry.sayings {
        line(format!("  - {}", self::saying(saying)));
    }
    text
}

const fn status(status: Status) -> &'static str {
    match status {
        Status::Read => "read",
        Status::Reviewed => "reviewed",
        Status::Memory => "memory",
    }
}

fn place(at: &PlaceRecord) -> String {
    let mut map = Map::default();
    map.put("ordinal", at.ordinal.map(|ordinal| ordinal.to_string()));
    map.put("section", at.section.as_deref().map(scalar));
    map.put("heading", Some(scalar(&at.heading)));
    map.finish()
}

fn saying(saying: &SayingRecord) -> String {
    let mut map = Map::default();
    map.put("by", saying.by.clone());
    map.put("through", list(saying.through.iter().cloned()));
    map.put("flavour", list(saying.flavour.iter().map(flavour)));
    map.put("nature", saying.nature.clone());
    map.put("toxicity", saying.toxicity.clone());
    map.put("grade", saying.grade.clone());
    map.put("channel", list(saying.channel.iter().cloned()));
    map.put("action", list(saying.action.iter().cloned()));
    map.put("relations", list(saying.relations.iter().map(relation)));
    map.put("scope", saying.scope.as_ref().map(scope));
    map.put("doubt", saying.doubt.as_deref().map(scalar));
    map.put("status", saying.status.map(|one| status(one).to_owned()));
    map.put("wording", saying.wording.as_deref().map(scalar));
    map.finish()
}

fn flavour(flavour: &FlavourRecord) -> String {
    match flavour.parts() {
        (flavour, Some(degree)) => format!("{{{flavour}: {degree}}}"),
        (flavour, None) => flavour.to_owned(),
    }
}

fn relation(relation: &Relation) -> String {
    let mut map = Map::default();
    map.put("kind", Some(relation.kind.id().to_owned()));
    map.put("drug", Some(scalar(&relation.drug)));
    map.finish()
}

fn scope(scope: &ScopeRecord) -> String {
    let mut map = Map::default();
    map.put("part", scope.part.clone());
    map.put("preparation", scope.preparation.clone());
    map.put("kind", scope.kind.as_deref().map(scalar));
    map.finish()
}

fn list(items: impl Iterator<Item = String>) -> Option<String> {
    let items: Vec<String> = items.collect();
    (!items.is_empty()).then(|| format!("[{}]", items.join(", ")))
}

/// A map on one line.
#[derive(Default)]
struct Map(String);

impl Map {
    fn put(&mut self, key: &str, value: Option<String>) {
        if let Some(value) = value {
            let comma = if self.0.is_empty() { "" } else { ", " };
            // Writing to a string cannot fail.
            let _ = write!(self.0, "{comma}{key}: {value}");
        }
    }

    fn finish(self) -> String {
        format!("{{{}}}", self.0)
    }
}

/// A text as YAML, quoted where it has to be.
pub(crate) fn scalar(text: &str) -> String {
    let special = |c: char| c.is_control() || ",[]{}:#&*!|>'\"%@`".contains(c);
    let plain = !text.is_empty()
        && !text.contains(special)
        && !text.starts_with(['-', '?', ' ', '='])
        && !text.ends_with(' ')
        && !looks_like_another_type(text);
    if plain {
        return text.to_owned();
    }
    let mut quoted = String::from('"');
    for c in text.chars() {
        match c {
            '"' => quoted.push_str("\\\""),
            '\\' => quoted.push_str("\\\\"),
            c if c.is_control() => {
                let _ = write!(quoted, "\\u{:04x}", u32::from(c));
            }
            c => quoted.push(c),
        }
    }
    quoted.push('"');
    quoted
}

/// Words that YAML takes for a number, a date, a truth value or nothing.
fn looks_like_another_type(text: &str) -> bool {
    text.starts_with(|c: char| c.is_ascii_digit() || "+.~".contains(c))
        || ["true", "false", "null", "yes", "no", "on", "off", "y", "n"]
            .contains(&text.to_ascii_lowercase().as_str())
}

#[cfg(test)]
mod tests {
    use super::scalar;
    use crate::corpus::yaml;
    use pretty_assertions::assert_eq;
    use proptest::prelude::*;

    #[test]
    fn han_text_stands_plain_and_signs_of_yaml_are_quoted() {
        assert_eq!(scalar("味辛、苦，温"), "味辛、苦，温");
        assert_eq!(scalar("卷第十八\\【菜中】"), "卷第十八\\【菜中】");
        assert_eq!(scalar("a: b"), "\"a: b\"");
        assert_eq!(scalar("no"), "\"no\"");
    }

    proptest! {
        #[test]
        fn what_is_written_is_read_again(text in "\\PC{1,24}") {
            let tree = yaml::parse(&format!("{{key: {}}}\n", scalar(&text)));
            let tree = tree.map_err(|fault| TestCaseError::fail(fault.message))?;
            prop_assert_eq!(tree.at_pointer("/key").text(), Some(text.as_str()));
        }
    }
}
