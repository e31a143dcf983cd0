//! A YAML document as a tree in which every node knows its place, so that any fault can be shown
//! where it stands. Places come from the parser; nothing is counted here.

use std::collections::HashSet;
use std::fmt;

use serde::de::{Deserialize, Deserializer, MapAccess, SeqAccess, Visitor};
use serde_yaml::budget::BudgetBreach;
use serde_yaml::{Error, Options, Spanned};

/// The deepest nesting that a record may have; ours need eight levels.
const DEPTH_LIMIT: usize = 32;

/// Where a node stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct At {
    /// Line, from 1.
    pub line: usize,
    /// Column in Unicode scalars, from 1.
    pub column: usize,
    /// Length in Unicode scalars.
    pub width: usize,
}

/// A node of the tree.
#[derive(Debug)]
pub(super) struct Node {
    pub at: At,
    pub kind: Kind,
}

/// What a node holds.
#[derive(Debug)]
pub(super) enum Kind {
    Null,
    Bool(bool),
    Number(serde_json::Number),
    Text(String),
    List(Vec<Node>),
    Map(Vec<(Node, Node)>),
}

/// Why a document could not be read.
#[derive(Debug)]
pub(super) struct Fault {
    pub at: Option<At>,
    pub beyond_limits: bool,
    pub message: String,
}

/// The limits under which every document is read.
fn options() -> Options {
    serde_yaml::options! {
        budget: serde_yaml::budget! {
            max_depth: DEPTH_LIMIT,
            max_aliases: 0,
            max_anchors: 0,
        },
        duplicate_keys: serde_yaml::DuplicateKeyPolicy::PassThrough,
        merge_keys: serde_yaml::MergeKeyPolicy::AsOrdinary,
        strict_booleans: true,
        with_snippet: false,
    }
}

/// Reads `text` as one YAML document.
pub(super) fn parse(text: &str) -> Result<Node, Fault> {
    serde_yaml::from_str_with_options(text, options()).map_err(|error| {
        let error = error.without_snippet();
        let at = error.location().map(|place| At {
            line: to_usize(place.line()),
            column: to_usize(place.column()),
            width: 1,
        });
        let message =
            first_line(&error.render_with_formatter(&serde_yaml::DefaultMessageFormatter));
        // The scanner has a limit of its own for nested brackets, which comes as a plain message.
        let too_deep = serde_yaml::granit_parser::ErrorKind::RecursionLimitExceeded.to_string();
        let beyond = match error {
            Error::Budget { breach, .. } => Some(limit(breach)),
            _ if message == too_deep => Some(TOO_DEEP),
            _ => None,
        };
        let message = match error {
            Error::MultipleDocuments { .. } => "a second document".to_owned(),
            _ => message,
        };
        Fault {
            at,
            beyond_limits: beyond.is_some(),
            message: beyond.map_or(message, str::to_owned),
        }
    })
}

const TOO_DEEP: &str = "nesting deeper than any record needs";

/// Which limit was met, in words.
fn limit(breach: &BudgetBreach) -> &'static str {
    match breach {
        BudgetBreach::Anchors { .. } | BudgetBreach::Aliases { .. } => "an anchor or an alias",
        BudgetBreach::Depth { .. } => TOO_DEEP,
        _ => "more than any record holds",
    }
}

/// The message without the place, which is shown apart.
fn first_line(message: &str) -> String {
    let line = message.lines().next().unwrap_or_default();
    line.split(" at line ").next().unwrap_or(line).to_owned()
}

fn to_usize(number: u64) -> usize {
    usize::try_from(number).unwrap_or(usize::MAX)
}

impl Node {
    /// The node at a JSON pointer, or the nearest one above it.
    pub fn at_pointer(&self, pointer: &str) -> &Self {
        let mut node = self;
        for step in pointer.split('/').skip(1) {
            let step = step.replace("~1", "/").replace("~0", "~");
            let next = match &node.kind {
                Kind::List(items) => step
                    .parse::<usize>()
                    .ok()
                    .and_then(|place| items.get(place)),
                Kind::Map(entries) => entries
                    .iter()
                    .find(|(key, _)| key.text() == Some(&step))
                    .map(|(_, value)| value),
                _ => None,
            };
            match next {
                Some(next) => node = next,
                None => break,
            }
        }
        node
    }

    /// The node of a key of the map at a JSON pointer.
    pub fn key_at(&self, pointer: &str, name: &str) -> &Self {
        let node = self.at_pointer(pointer);
        match &node.kind {
            Kind::Map(entries) => entries
                .iter()
                .map(|(key, _)| key)
                .find(|key| key.text() == Some(name))
                .unwrap_or(node),
            _ => node,
        }
    }

    /// The keys of a map; of any other node none.
    pub fn keys(&self) -> impl Iterator<Item = &Self> {
        let entries = match &self.kind {
            Kind::Map(entries) => entries.as_slice(),
            _ => &[],
        };
        entries.iter().map(|(key, _)| key)
    }

    /// The text of a text node.
    pub fn text(&self) -> Option<&str> {
        match &self.kind {
            Kind::Text(text) => Some(text),
            _ => None,
        }
    }

    /// Calls `found` with every key that a map below this node writes a second time.
    pub fn duplicate_keys<'n>(&'n self, found: &mut impl FnMut(&'n Self)) {
        match &self.kind {
            Kind::List(items) => items.iter().for_each(|item| item.duplicate_keys(found)),
            Kind::Map(entries) => {
                let mut seen = HashSet::new();
                for (key, value) in entries {
                    if key.text().is_some_and(|text| !seen.insert(text)) {
                        found(key);
                    }
                    value.duplicate_keys(found);
                }
            }
            _ => {}
        }
    }

    /// The tree as a JSON value; of keys written twice the first counts.
    pub fn to_json(&self) -> serde_json::Value {
        use serde_json::Value;
        match &self.kind {
            Kind::Null => Value::Null,
            Kind::Bool(value) => Value::Bool(*value),
            Kind::Number(value) => Value::Number(value.clone()),
            Kind::Text(value) => Value::String(value.clone()),
            Kind::List(items) => items.iter().map(Self::to_json).collect(),
            Kind::Map(entries) => {
                let mut map = serde_json::Map::new();
                for (key, value) in entries {
                    let key = match &key.kind {
                        Kind::Text(text) => text.clone(),
                        _ => key.to_json().to_string(),
                    };
                    map.entry(key).or_insert_with(|| value.to_json());
                }
                Value::Object(map)
            }
        }
    }
}

impl<'de> Deserialize<'de> for Node {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let spanned = Spanned::<Kind>::deserialize(deserializer)?;
        let place = spanned.referenced;
        let at = At {
            line: to_usize(place.line()),
            column: to_usize(place.column()),
            width: to_usize(place.span().len()).max(1),
        };
        Ok(Self {
            at,
            kind: spanned.value,
        })
    }
}

impl<'de> Deserialize<'de> for Kind {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_any(KindVisitor)
    }
}

struct KindVisitor;

impl<'de> Visitor<'de> for KindVisitor {
    type Value = Kind;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a YAML value")
    }

    fn visit_unit<E>(self) -> Result<Kind, E> {
        Ok(Kind::Null)
    }

    fn visit_none<E>(self) -> Result<Kind, E> {
        Ok(Kind::Null)
    }

    fn visit_some<D: Deserializer<'de>>(self, deserializer: D) -> Result<Kind, D::Error> {
        Kind::deserialize(deserializer)
    }

    fn visit_bool<E>(self, value: bool) -> Result<Kind, E> {
        Ok(Kind::Bool(value))
    }

    fn visit_i64<E>(self, value: i64) -> Result<Kind, E> {
        Ok(Kind::Number(value.into()))
    }

    fn visit_u64<E>(self, value: u64) -> Result<Kind, E> {
        Ok(Kind::Number(value.into()))
    }

    fn visit_f64<E>(self, value: f64) -> Result<Kind, E> {
        // Infinity and not-a-number are no JSON numbers: kept as text, they fail the shape check.
        let number = serde_json::Number::from_f64(value);
        Ok(number.map_or_else(|| Kind::Text(value.to_string()), Kind::Number))
    }

    fn visit_str<E>(self, value: &str) -> Result<Kind, E> {
        Ok(Kind::Text(value.to_owned()))
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut items: A) -> Result<Kind, A::Error> {
        let mut list = Vec::new();
        while let Some(item) = items.next_element()? {
            list.push(item);
        }
        Ok(Kind::List(list))
    }

    fn visit_map<A: MapAccess<'de>>(self, mut entries: A) -> Result<Kind, A::Error> {
        let mut map = Vec::new();
        while let Some(entry) = entries.next_entry()? {
            map.push(entry);
        }
        Ok(Kind::Map(map))
    }
}

#[cfg(test)]
mod tests {
    use super::{Kind, parse};
    use pretty_assertions::assert_eq;
    use proptest::prelude::*;

    #[test]
    fn every_node_knows_its_line_and_column_in_characters() {
        let tree = parse("薄荷: {wording: 味辛, flavour: [acrid, bittr]}\n甲: 1\n").unwrap();
        let wrong = tree.at_pointer("/薄荷/flavour/1");
        assert_eq!((wrong.at.line, wrong.at.column, wrong.at.width), (1, 36, 5));
        assert_eq!(tree.at_pointer("/甲").at.line, 2);
        assert_eq!(tree.key_at("/薄荷", "flavour").at.column, 19);
    }

    #[test]
    fn keys_written_twice_are_all_found() {
        let tree = parse("a: 1\nb: {c: 1, c: 2}\na: 2\n").unwrap();
        let mut lines = Vec::new();
        tree.duplicate_keys(&mut |key| lines.push((key.at.line, key.at.column)));
        lines.sort_unstable();
        assert_eq!(lines, [(2, 11), (3, 1)]);
    }

    #[test]
    fn aliases_and_deep_nesting_are_refused_with_a_place() {
        let bomb = "a: &a [x, x]\nb: &b [*a, *a]\nc: [*b, *b]\n";
        let fault = parse(bomb).unwrap_err();
        assert!(fault.beyond_limits, "{}", fault.message);
        let deep = format!("{}{}", "[".repeat(5_000), "]".repeat(5_000));
        let fault = parse(&deep).unwrap_err();
        assert!(fault.beyond_limits, "{}", fault.message);
    }

    #[test]
    fn an_empty_document_is_null() {
        assert!(matches!(parse("").unwrap().kind, Kind::Null));
    }

    proptest! {
        #[test]
        fn no_text_makes_the_parser_panic(text in "\\PC{0,60}(\n *[-:\\[\\]{},&*!|>'\"%@`a-z]{0,12}){0,6}") {
            let _ = parse(&text);
        }
    }
}
