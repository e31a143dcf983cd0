//! What reading gives: sayings with their speaker, place and doubt, and what stayed unread.

use std::fmt;

use super::clause::Value;
use super::names::Speaker;
use super::words::Degree;
use crate::claim::ValueId;
use crate::corpus::{Relation, Scope};

/// A stretch of the text, in characters from 0, the end not included.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Span {
    /// The first character.
    pub start: usize,
    /// The character behind the last.
    pub end: usize,
}

/// Why a reading is doubtful.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Doubt {
    /// A character that the transcription lacks stands where a value would.
    LostCharacter,
    /// The speaker has said something else of the same facet before.
    TwoStatements,
    /// The statement is reported: 一云.
    Reported,
    /// The value is named only as the reason of an action: 苦燥濕.
    Reason,
    /// A word that can mean something else.
    UnusualWord,
    /// A six-channel name without hand or foot.
    LimbUntold,
    /// 腸 without large or small.
    BowelUntold,
    /// It stands in brackets in the reconstruction of a book by nobody knows whom: it may be a later note.
    Bracketed,
}

impl fmt::Display for Doubt {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::LostCharacter => "lost character",
            Self::TwoStatements => "two statements",
            Self::Reported => "reported with 一云",
            Self::Reason => "named as the reason of an action",
            Self::UnusualWord => "unusual word",
            Self::LimbUntold => "hand or foot not told",
            Self::BowelUntold => "which intestine is not told",
            Self::Bracketed => "in brackets, perhaps a later note",
        })
    }
}

/// One statement, by one speaker, under one limit.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ReadSaying {
    /// Who asserts it.
    pub by: Speaker,
    /// Who carries it between its speaker and the work.
    pub through: Option<Speaker>,
    /// Flavours in the order of the text.
    pub flavour: Vec<(ValueId, Option<Degree>)>,
    /// Natures in the order of the text.
    pub nature: Vec<ValueId>,
    /// The toxicity.
    pub toxicity: Option<ValueId>,
    /// The grade.
    pub grade: Option<ValueId>,
    /// The channels entered.
    pub channel: Vec<ValueId>,
    /// The actions.
    pub action: Vec<ValueId>,
    /// How the drug stands to other drugs.
    pub relations: Vec<Relation>,
    /// What it is limited to.
    pub limit: Scope,
    /// Why it is doubtful.
    pub doubt: Option<Doubt>,
    /// Where it stands.
    pub span: Span,
    /// The phrase it was read from, as written.
    pub phrase: String,
}

impl ReadSaying {
    pub(super) fn put(&mut self, value: Value) {
        match value {
            Value::Flavour(flavour, degree) => self.flavour.push((flavour, degree)),
            Value::Nature(nature) => self.nature.push(nature),
            Value::Toxicity(toxicity) => self.toxicity = Some(toxicity),
        }
    }

    /// Whether it says anything of flavour, nature or toxicity.
    #[must_use]
    pub fn has_property(&self) -> bool {
        !self.flavour.is_empty() || !self.nature.is_empty() || self.toxicity.is_some()
    }
}

/// A clause that looks like a statement and was not understood.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Unread {
    /// The clause, as written.
    pub text: String,
    /// Where it stands.
    pub span: Span,
}

/// What was read from one article.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ArticleReading {
    /// The number of its heading in the text, from 1.
    pub ordinal: u32,
    /// The section that it stands in.
    pub section: String,
    /// Its heading, as written.
    pub heading: String,
    /// The drug that it treats, in simplified characters: the heading, or, where that names a class, the
    /// name that opens the article.
    pub drug: String,
    /// Its statements, in the order of the text.
    pub sayings: Vec<ReadSaying>,
    /// What looks like a statement and was not understood.
    pub unread: Vec<Unread>,
}
