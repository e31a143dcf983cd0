//! One article as read from a text: a line of JSON.

use schemars::JsonSchema;
use serde::Serialize;

use crate::claim::{Facet, Scheme, ValueId, Vocabulary};
use crate::corpus::{Relation, Scope};
use crate::reader::{ArticleReading, Degree, ReadSaying, Span, Speaker, Unread};

/// What was read from one article.
#[derive(Debug, Serialize, JsonSchema)]
pub struct ReadingView {
    /// The number of its heading in the text, from 1.
    pub ordinal: u32,
    /// The section that it stands in.
    pub section: String,
    /// Its heading, as written.
    pub heading: String,
    /// Its statements, in the order of the text.
    pub sayings: Vec<ReadSayingView>,
    /// What looks like a statement and was not understood.
    pub unread: Vec<UnreadView>,
}

/// One statement.
#[derive(Debug, Serialize, JsonSchema)]
pub struct ReadSayingView {
    /// Who asserts it: the id of a work or, where none is known, the name as written; null for the work
    /// that is read.
    pub by: Option<String>,
    /// Who carries it between its speaker and the work.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub through: Option<String>,
    /// The flavours, in the order written.
    pub flavour: Vec<ReadFlavourView>,
    /// The natures, in the order written.
    pub nature: Vec<String>,
    /// The toxicity.
    pub toxicity: Option<String>,
    /// The grade.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub grade: Option<String>,
    /// The channels entered, of the twelve.
    pub channel: Vec<String>,
    /// Vessels and the gate of life, which are none of the twelve.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub vessel: Vec<String>,
    /// The actions.
    pub actions: Vec<String>,
    /// How the drug stands to other drugs.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub relations: Vec<Relation>,
    /// What it is limited to; null where it is about the drug as such.
    pub scope: Option<ReadScopeView>,
    /// Why the reading is doubtful.
    pub doubt: Option<String>,
    /// First character and the one behind the last, in characters of the text from 0.
    pub span: [usize; 2],
    /// The phrase it was read from, as written.
    pub phrase: String,
}

/// A flavour with its degree.
#[derive(Debug, Serialize, JsonSchema)]
pub struct ReadFlavourView {
    /// The flavour.
    pub value: String,
    /// How strongly it is said.
    pub degree: Option<&'static str>,
}

/// What a statement is limited to.
#[derive(Debug, Serialize, JsonSchema)]
pub struct ReadScopeView {
    /// A part.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub part: Option<String>,
    /// A preparation.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub preparation: Option<String>,
    /// A kind, by its short Chinese name.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub kind: Option<String>,
}

/// A clause that was not understood.
#[derive(Debug, Serialize, JsonSchema)]
pub struct UnreadView {
    /// The clause, as written.
    pub text: String,
    /// First character and the one behind the last, in characters of the text from 0.
    pub span: [usize; 2],
}

const fn span(span: Span) -> [usize; 2] {
    [span.start, span.end]
}

fn ids(scheme: &Scheme, values: &[ValueId]) -> Vec<String> {
    values
        .iter()
        .map(|value| scheme.value(*value).id.clone())
        .collect()
}

fn name(speaker: &Speaker) -> Option<String> {
    match speaker {
        Speaker::Work => None,
        Speaker::Other(name) => Some(name.clone()),
    }
}

impl ReadingView {
    /// The view of a reading.
    #[must_use]
    pub fn new(reading: &ArticleReading, vocabulary: &Vocabulary) -> Self {
        Self {
            ordinal: reading.ordinal,
            section: reading.section.clone(),
            heading: reading.heading.clone(),
            sayings: reading
                .sayings
                .iter()
                .map(|saying| saying_view(saying, vocabulary))
                .collect(),
            unread: reading.unread.iter().map(unread_view).collect(),
        }
    }
}

fn unread_view(unread: &Unread) -> UnreadView {
    UnreadView {
        text: unread.text.clone(),
        span: span(unread.span),
    }
}

fn saying_view(saying: &ReadSaying, vocabulary: &Vocabulary) -> ReadSayingView {
    let flavours = vocabulary.scheme(Facet::Flavour);
    let id = |facet: Facet, value: ValueId| vocabulary.scheme(facet).value(value).id.clone();
    let channels = ids(vocabulary.scheme(Facet::Channel), &saying.channel);
    let (channel, vessel) = channels
        .into_iter()
        .partition(|id| !id.ends_with("vessel") && id != "gate-of-life");
    ReadSayingView {
        by: name(&saying.by),
        through: saying.through.as_ref().and_then(name),
        flavour: saying
            .flavour
            .iter()
            .map(|(value, degree)| ReadFlavourView {
                value: flavours.value(*value).id.clone(),
                degree: degree.map(Degree::id),
            })
            .collect(),
        nature: ids(vocabulary.scheme(Facet::Nature), &saying.nature),
        toxicity: saying.toxicity.map(|value| id(Facet::Toxicity, value)),
        grade: saying.grade.map(|value| id(Facet::Grade, value)),
        channel,
        vessel,
        actions: ids(vocabulary.scheme(Facet::Action), &saying.action),
        relations: saying.relations.clone(),
        scope: scope(&saying.limit, vocabulary),
        doubt: saying.doubt.map(|doubt| doubt.to_string()),
        span: span(saying.span),
        phrase: saying.phrase.clone(),
    }
}

fn scope(limit: &Scope, vocabulary: &Vocabulary) -> Option<ReadScopeView> {
    (!limit.is_whole()).then(|| ReadScopeView {
        part: limit
            .part
            .map(|part| vocabulary.parts.value(part).id.clone()),
        preparation: limit
            .preparation
            .map(|value| vocabulary.preparations.value(value).id.clone()),
        kind: limit.kind.clone(),
    })
}
