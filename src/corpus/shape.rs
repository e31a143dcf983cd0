//! The shape of a record: its tree against the schema of its type. Every fault is found, not only
//! the first, and each is put where it stands.

use jsonschema::error::{TypeKind, ValidationErrorKind};
use jsonschema::{ValidationError, Validator};
use std::collections::HashSet;

use serde::de::DeserializeOwned;
use serde_json::Value;

use super::code::Code;
use super::finding::Finding;
use super::source::Source;
use super::yaml::{At, Node};
use crate::text::nearest;

/// A record with the place of its file, so that later checks can still point into it.
#[derive(Debug)]
pub(super) struct Placed<T> {
    /// The record.
    pub record: T,
    /// Its file among the sources; `None` for records of the embedded corpus, which are checked by a test.
    pub origin: Option<usize>,
}

/// The schema of one kind of record, ready to check.
pub(super) struct Shape {
    schema: Value,
    validator: Option<Validator>,
}

impl Shape {
    /// The shape of `T`.
    pub fn of<T: schemars::JsonSchema>() -> Self {
        let schema = schemars::schema_for!(T).to_value();
        let options = jsonschema::options().should_validate_formats(true);
        let validator = options.build(&schema).ok();
        Self { schema, validator }
    }

    /// The record in `node`, or `None` with what is wrong in `findings`.
    pub fn read<T: DeserializeOwned>(
        &self,
        source: &Source,
        node: &Node,
        findings: &mut Vec<Finding>,
    ) -> Option<T> {
        let before = findings.len();
        let value = node.to_json();
        if let Some(validator) = &self.validator {
            for error in validator.iter_errors(&value) {
                self.report(source, node, &error, findings);
            }
        }
        match serde_json::from_value(value) {
            Ok(record) if findings.len() == before => Some(record),
            // A fault that the schema cannot express, such as a number beyond its type.
            Err(error) if findings.len() == before => {
                findings.push(finding(
                    source,
                    Code::WrongForm,
                    node.at,
                    error.to_string(),
                    "a record of this kind",
                ));
                None
            }
            _ => None,
        }
    }

    fn report(
        &self,
        source: &Source,
        node: &Node,
        error: &ValidationError<'_>,
        findings: &mut Vec<Finding>,
    ) {
        let pointer = error.instance_path().as_str();
        let here = node.at_pointer(pointer).at;
        match error.kind() {
            ValidationErrorKind::AdditionalProperties { unexpected } => {
                let known = self.keys_beside(error.schema_path().as_str());
                let unexpected: HashSet<&str> = unexpected.iter().map(String::as_str).collect();
                for key in node
                    .at_pointer(pointer)
                    .keys()
                    .filter(|key| key.text().is_some_and(|text| unexpected.contains(text)))
                {
                    let text = key.text().unwrap_or_default();
                    let found = format!("`{}`", shorten(text));
                    let mut one = finding(
                        source,
                        Code::UnknownKey,
                        key.at,
                        found,
                        &format!("one of {}", list(&known)),
                    );
                    one.nearest = nearest(text, known.iter().map(String::as_str))
                        .into_iter()
                        .map(str::to_owned)
                        .collect();
                    findings.push(one);
                }
            }
            ValidationErrorKind::Required { property } => {
                let key = property.as_str().unwrap_or_default();
                findings.push(finding(
                    source,
                    Code::MissingKey,
                    here,
                    "no such key".into(),
                    &format!("`{key}:`"),
                ));
            }
            // Of several shapes the one that fits the value's own type tells best what is wrong in it.
            ValidationErrorKind::AnyOf { context } if inner(error, context).is_some() => {
                for one in inner(error, context).into_iter().flatten() {
                    self.report(source, node, one, findings);
                }
            }
            kind => findings.push(wrong_form(source, here, error, kind)),
        }
    }

    /// The keys that the schema allows where it refused one.
    fn keys_beside(&self, schema_pointer: &str) -> Vec<String> {
        let parent = schema_pointer
            .strip_suffix("/additionalProperties")
            .unwrap_or(schema_pointer);
        let resolved = self.resolve(parent);
        let properties = resolved
            .and_then(|schema| schema.get("properties"))
            .and_then(Value::as_object);
        properties
            .map(|keys| keys.keys().cloned().collect())
            .unwrap_or_default()
    }

    /// Follows a schema path, in which `$ref` stands for the definition referred to.
    fn resolve(&self, path: &str) -> Option<&Value> {
        let mut schema = &self.schema;
        for step in path.split('/').skip(1) {
            schema = match schema {
                Value::Array(items) => items.get(step.parse::<usize>().ok()?)?,
                other => other.get(step)?,
            };
            if let (true, Some(target)) = (step == "$ref", schema.as_str()) {
                schema = self.schema.pointer(target.strip_prefix('#')?)?;
            }
        }
        Some(schema)
    }
}

/// The faults within the one alternative of `anyOf` whose type is that of the value.
fn inner<'e>(
    error: &ValidationError<'_>,
    context: &'e [Vec<ValidationError<'static>>],
) -> Option<&'e [ValidationError<'static>]> {
    let of_other_type = |one: &ValidationError<'static>| {
        matches!(one.kind(), ValidationErrorKind::Type { .. })
            && one.instance_path() == error.instance_path()
    };
    let mut fitting = context
        .iter()
        .filter(|faults| !faults.iter().any(of_other_type));
    let only = fitting.next()?;
    fitting.next().is_none().then_some(only.as_slice())
}

fn wrong_form(
    source: &Source,
    at: At,
    error: &ValidationError<'_>,
    kind: &ValidationErrorKind,
) -> Finding {
    let instance = error.instance();
    let mut one = finding(source, Code::WrongForm, at, show(instance), "");
    one.expected = match kind {
        ValidationErrorKind::Type { kind } => {
            // A code of digits is text when it stands in quotes.
            if matches!(kind, TypeKind::Single(json) if json.to_string() == "string")
                && (instance.is_number() || instance.is_boolean())
            {
                one.nearest = vec![format!("\"{instance}\"")];
            }
            expected_type(kind)
        }
        ValidationErrorKind::Enum { .. } | ValidationErrorKind::OneOfNotValid { .. } => {
            let words = words_allowed(kind);
            if let Some(text) = instance.as_str() {
                one.nearest = nearest(text, words.iter().map(String::as_str))
                    .into_iter()
                    .map(str::to_owned)
                    .collect();
            }
            format!("one of {}", list(&words))
        }
        ValidationErrorKind::Pattern { pattern } if pattern.contains("0-9") => {
            "lower-case letters and digits in words joined by hyphens".to_owned()
        }
        ValidationErrorKind::Format { format } if format == "date" => {
            "a day such as 2026-03-14 (year-month-day)".to_owned()
        }
        ValidationErrorKind::MultipleOf { multiple_of } => {
            format!("a number in steps of {multiple_of}")
        }
        ValidationErrorKind::Pattern { .. } => {
            "lower-case letters in words joined by hyphens".to_owned()
        }
        ValidationErrorKind::MaxItems { limit } => format!("a list of at most {limit}"),
        ValidationErrorKind::MinItems { limit } => format!("a list of at least {limit}"),
        ValidationErrorKind::MinLength { .. } => "some text".to_owned(),
        ValidationErrorKind::MaxProperties { limit } => format!("at most {limit} key"),
        ValidationErrorKind::Maximum { limit } => format!("a number of {limit} or less"),
        ValidationErrorKind::Minimum { limit } => format!("a number of {limit} or more"),
        ValidationErrorKind::MinProperties { limit } => format!("at least {limit} key"),
        ValidationErrorKind::AnyOf { .. } => "a flavour, or {flavour: degree}".to_owned(),
        _ => error.to_string(),
    };
    one
}

/// The words of an enumeration, which a schema writes as `enum` or, with a description each, as
/// `oneOf` constants.
fn words_allowed(kind: &ValidationErrorKind) -> Vec<String> {
    let words: Vec<&Value> = match kind {
        ValidationErrorKind::Enum { options } => options.as_array().into_iter().flatten().collect(),
        ValidationErrorKind::OneOfNotValid { context } => {
            let constants = context
                .iter()
                .flatten()
                .filter_map(|error| match error.kind() {
                    ValidationErrorKind::Constant { expected_value } => {
                        Some(expected_value.as_ref())
                    }
                    _ => None,
                });
            constants.collect()
        }
        _ => Vec::new(),
    };
    words
        .into_iter()
        .filter_map(Value::as_str)
        .map(str::to_owned)
        .collect()
}

fn expected_type(kind: &TypeKind) -> String {
    let name = |json: &str| match json {
        "object" => "a map of keys".to_owned(),
        "array" => "a list".to_owned(),
        "string" => "text".to_owned(),
        "integer" => "a whole number".to_owned(),
        "boolean" => "true or false".to_owned(),
        "null" => "nothing".to_owned(),
        other => format!("a {other}"),
    };
    match kind {
        TypeKind::Single(json) => name(&json.to_string()),
        // A key that may be left out takes null too; nobody needs to be told to write that.
        TypeKind::Multiple(set) => {
            let types = set
                .iter()
                .map(|json| json.to_string())
                .filter(|json| json != "null");
            types
                .map(|json| name(&json))
                .collect::<Vec<_>>()
                .join(" or ")
        }
    }
}

/// A value as it is shown in a finding: short, and named by its kind when it is a collection.
fn show(value: &Value) -> String {
    match value {
        Value::Null => "nothing".to_owned(),
        Value::Array(items) => format!("a list of {}", items.len()),
        Value::Object(_) => "a map of keys".to_owned(),
        Value::String(text) => format!("`{}`", shorten(text)),
        other => format!("`{other}`"),
    }
}

/// At most forty characters of a text.
pub(super) fn shorten(text: &str) -> String {
    match text.char_indices().nth(40) {
        Some((end, _)) => format!("{}…", &text[..end]),
        None => text.to_owned(),
    }
}

fn list(words: &[String]) -> String {
    words
        .iter()
        .map(|word| format!("`{word}`"))
        .collect::<Vec<_>>()
        .join(", ")
}

/// A finding at a place of a file.
pub(super) fn finding(
    source: &Source,
    code: Code,
    at: At,
    found: String,
    expected: &str,
) -> Finding {
    Finding {
        code,
        file: source.name.clone(),
        line: Some(at.line),
        column: Some(at.column),
        width: at.width,
        found,
        expected: expected.to_owned(),
        nearest: Vec::new(),
        excerpt: source.excerpt(at.line),
    }
}
