//! A statement as evidence.

use schemars::JsonSchema;
use serde::Serialize;

use super::labels::{Labels, Tongue};
use crate::claim::{Facet, ValueId};
use crate::compare::Statement;
use crate::corpus::{Herb, Origin, PlaceRecord, Status};

/// A value as stated.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct StatedValue {
    /// The value's id.
    pub value: String,
    /// The degree's id.
    pub degree: Option<String>,
}

/// One statement, as evidence.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct StatementView {
    /// Its values, in the order stated.
    pub values: Vec<StatedValue>,
    /// The same in words.
    pub text: String,
    /// What it is limited to.
    pub scope: Option<String>,
    /// The works that carry it, oldest first.
    pub through: Vec<String>,
    /// The phrase it was read from.
    pub wording: Option<String>,
    /// Where the article stands.
    pub at: Option<PlaceRecord>,
    /// Why the reading is doubtful.
    pub doubt: Option<String>,
    /// How far the reading has been checked.
    pub status: Status,
    /// Whose record it is.
    pub origin: Origin,
    /// Whether it counts for the stand.
    pub counted: bool,
}

impl StatementView {
    /// A statement with its evidence.
    #[must_use]
    pub fn new(labels: &Labels<'_>, herb: &Herb, facet: Facet, statement: &Statement) -> Self {
        let entry = &herb.entries[statement.evidence.0];
        let saying = &entry.sayings[statement.evidence.1];
        let stated = statement
            .values
            .iter()
            .map(|(value, degree)| in_words(labels, facet, *value, *degree));
        let vocabulary = &labels.corpus.vocabulary;
        let id = |value: ValueId| vocabulary.scheme(facet).value(value).id.clone();
        let degree = |degree: ValueId| vocabulary.degrees.value(degree).id.clone();
        let values = statement.values.iter().map(|(value, how)| StatedValue {
            value: id(*value),
            degree: how.map(degree),
        });
        Self {
            values: values.collect(),
            text: labels.row(&stated.collect::<Vec<_>>()),
            scope: labels.scope(&statement.scope),
            through: labels.works(&statement.carriers),
            wording: saying
                .wording
                .as_ref()
                .map(|wording| labels.quoted(wording)),
            at: entry.at.as_ref().map(|at| labels.place(at)),
            doubt: saying.doubt.clone(),
            status: saying.status_in(entry),
            origin: entry.origin,
            counted: statement.counted,
        }
    }
}

/// A value with its degree: `slightly bitter`.
pub(super) fn in_words(
    labels: &Labels<'_>,
    facet: Facet,
    value: ValueId,
    degree: Option<ValueId>,
) -> String {
    let word = labels.word(facet, value);
    let degrees = &labels.corpus.vocabulary.degrees;
    match (degree, labels.tongue()) {
        (None, _) => word,
        (Some(degree), Tongue::Chinese) => format!("{}{word}", labels.word_of(degrees, degree)),
        (Some(degree), Tongue::English) if degrees.value(degree).id == "slight" => {
            format!("slightly {word}")
        }
        (Some(_), Tongue::English) => format!("very {word}"),
    }
}
