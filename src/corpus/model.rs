//! What the corpus holds: works, herbs, entries, sayings and claims, with compact ids in place of words.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::record::{NamesRecord, PlaceRecord, TextRecord};
use super::relation::Relation;
use crate::claim::{Facet, ValueId};

/// A work's place in the corpus; works stand in order of time, so a smaller id is an older work.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
pub struct WorkId(pub u16);

/// An herb's place in the corpus.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
pub struct HerbId(pub u32);

/// How a work has come down to us.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Kind {
    /// It is there.
    Extant,
    /// It was lost and put together again from quotations.
    Reconstructed,
    /// It is known through quotations only.
    Lost,
    /// A person, often legendary, whose sayings are quoted.
    Authority,
}

/// How far a reading has been checked.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Status {
    /// Read once from the text.
    Read,
    /// Compared with the text a second time by another reader.
    Reviewed,
    /// Not located in a text.
    Memory,
}

/// How an identity is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Basis {
    /// Compared with a published source.
    Checked,
    /// From memory.
    Memory,
}

/// What a drug is made of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Substance {
    /// A plant or part of one.
    Plant,
    /// A fungus.
    Fungus,
    /// A resin.
    Resin,
    /// A stone, a salt, a fossil.
    Mineral,
    /// An animal or part of one.
    Animal,
}

impl Substance {
    /// The word that records have for it.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::Plant => "plant",
            Self::Fungus => "fungus",
            Self::Resin => "resin",
            Self::Mineral => "mineral",
            Self::Animal => "animal",
        }
    }
}

/// Where a record comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Origin {
    /// The corpus that the program carries.
    Shipped,
    /// A folder of the user's.
    User,
}

/// A span of years.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub struct Date {
    /// The latest year, negative before our era: works are ordered by it, since by then the work stood.
    pub to: i32,
    /// The earliest year; `None` where only "not later than" is known.
    pub from: Option<i32>,
    /// Whether the years are rough.
    pub about: bool,
}

impl Date {
    /// The date in a few characters: `659`, `c. 208–239`, `by 239`, `c. 100 BC–200`.
    ///
    /// ```
    /// let date = kaoyi::corpus::Date { from: Some(208), to: 239, about: true };
    /// assert_eq!(date.short(), "c. 208–239");
    /// ```
    #[must_use]
    pub fn short(&self) -> String {
        let year = |year: i32| match year {
            ..0 => format!("{} BC", year.unsigned_abs()),
            _ => year.to_string(),
        };
        let about = if self.about { "c. " } else { "" };
        match self.from {
            None => format!("by {}", year(self.to)),
            Some(from) if from == self.to => format!("{about}{}", year(from)),
            Some(from) => format!("{about}{}–{}", year(from), year(self.to)),
        }
    }
}

/// A work's debt to an older one.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct Debt {
    /// The older work.
    pub work: WorkId,
    /// Why it is said to draw on it.
    pub why: String,
}

/// A book, or a lost book or authority known through others.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct Work {
    /// Short name.
    pub id: String,
    /// Where the record comes from.
    pub origin: Origin,
    /// Title in traditional characters.
    pub hant: String,
    /// Title in pinyin.
    pub pinyin: String,
    /// Title in English.
    pub english: String,
    /// Short forms under which other books quote it.
    pub cited_as: Vec<String>,
    /// Author or authors.
    pub author: String,
    /// How it has come down.
    pub kind: Kind,
    /// When it was made.
    pub date: Date,
    /// How many juan it had.
    pub juan: Option<u32>,
    /// What was counted in its plain text.
    pub text: Option<TextRecord>,
    /// The works that it draws on.
    pub draws_on: Vec<Debt>,
    /// What a reader must know.
    pub note: Option<String>,
}

/// What a saying is limited to.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Default, Serialize, Deserialize)]
pub struct Scope {
    /// A part, by its place in the vocabulary.
    pub part: Option<ValueId>,
    /// A preparation, by its place in the vocabulary.
    pub preparation: Option<ValueId>,
    /// A kind, by its short Chinese name.
    pub kind: Option<String>,
}

impl Scope {
    /// Whether the saying is about the herb as such.
    #[must_use]
    pub const fn is_whole(&self) -> bool {
        self.part.is_none() && self.preparation.is_none() && self.kind.is_none()
    }
}

/// One value of one facet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
pub struct Claim {
    /// The facet.
    pub facet: Facet,
    /// The value.
    pub value: ValueId,
    /// The degree of a flavour.
    pub degree: Option<ValueId>,
}

/// One attributed statement.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct Saying {
    /// The work that asserts.
    pub by: WorkId,
    /// The works that carry the saying, oldest first; empty when the asserting work was read itself.
    pub carriers: Vec<WorkId>,
    /// Its claims, in the order of the statement.
    pub claims: Vec<Claim>,
    /// How the drug stands to other drugs, in the order of the statement.
    pub relations: Vec<Relation>,
    /// What it is limited to.
    pub scope: Scope,
    /// Why the reading is doubtful.
    pub doubt: Option<String>,
    /// How far it has been checked, where that differs from its entry's status.
    pub status: Option<Status>,
    /// The phrase it was read from.
    pub wording: Option<String>,
}

impl Saying {
    /// How far the reading has been checked, in an entry of status `entry`.
    #[must_use]
    pub fn status_in(&self, entry: &Entry) -> Status {
        self.status.unwrap_or(entry.status)
    }
}

/// A work's article on an herb.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct Entry {
    /// The work.
    pub work: WorkId,
    /// Where the article stands.
    #[serde(with = "whole_place")]
    pub at: Option<PlaceRecord>,
    /// How far the reading has been checked.
    pub status: Status,
    /// Where the record comes from.
    pub origin: Origin,
    /// What a reader must know of the article.
    pub note: Option<String>,
    /// Its statements.
    pub sayings: Vec<Saying>,
}

/// An herb with all that the corpus holds of it.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct Herb {
    /// Short name.
    pub id: String,
    /// Its names.
    pub names: NamesRecord,
    /// Botanical or zoological names.
    pub species: Vec<String>,
    /// How the Latin name and the species are known.
    pub identity: Basis,
    /// The part used as the drug, where it is known.
    pub part: Option<ValueId>,
    /// What it is made of, where it is known.
    pub substance: Option<Substance>,
    /// Places of its cautions in the vocabulary.
    pub cautions: Vec<usize>,
    /// What a reader must know of its identity.
    pub note: Option<String>,
    /// The works' articles on it.
    pub entries: Vec<Entry>,
}

/// A place with all its fields: in records those that are not known are left out, which only a form that names its fields
/// can bear.
mod whole_place {
    use serde::{Deserialize, Deserializer, Serialize, Serializer};

    use super::PlaceRecord;

    type Fields = Option<(Option<u32>, Option<String>, String)>;

    pub fn serialize<S: Serializer>(
        at: &Option<PlaceRecord>,
        serializer: S,
    ) -> Result<S::Ok, S::Error> {
        let fields = at.clone().map(|at| (at.ordinal, at.section, at.heading));
        Fields::serialize(&fields, serializer)
    }

    pub fn deserialize<'d, D: Deserializer<'d>>(
        deserializer: D,
    ) -> Result<Option<PlaceRecord>, D::Error> {
        let fields = Fields::deserialize(deserializer)?;
        Ok(fields.map(|(ordinal, section, heading)| PlaceRecord {
            ordinal,
            section,
            heading,
        }))
    }
}
