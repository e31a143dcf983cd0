//! The shape of a work file and of an herb file, as written. The JSON Schemas in `schema/` are
//! generated from these types; what the words refer to is checked in [`crate::corpus::check`].

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::model::{Basis, Kind, Status, Substance};
use super::relation::Relation;

/// The longest wording that a record may quote, in characters.
pub const WORDING_LIMIT: usize = 24;

/// `corpus/works/<id>.yaml`: a book, or a lost book or authority known through others.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct WorkRecord {
    /// Short name, equal to the file's name.
    #[schemars(regex(pattern = "^[a-z]+(-[a-z]+)*$"))]
    pub id: String,
    /// How the work is called.
    pub title: TitleRecord,
    /// Author or authors in pinyin, or "unknown", "legendary", "attributed".
    pub author: String,
    /// How the work has come down.
    pub kind: Kind,
    /// When it was made.
    pub date: DateRecord,
    /// How many juan (卷, books or scrolls) it had, where that is known.
    #[serde(default)]
    #[schemars(with = "u32", range(min = 1))]
    pub juan: Option<u32>,
    /// What was found in its plain text, where it was read as a whole.
    #[serde(default)]
    #[schemars(with = "TextRecord")]
    pub text: Option<TextRecord>,
    /// The works that it takes its statements from, with the reason for saying so.
    #[serde(default)]
    pub draws_on: Vec<DrawsOnRecord>,
    /// What a reader of its statements must know.
    #[serde(default)]
    #[schemars(with = "String")]
    pub note: Option<String>,
}

/// The titles of a work.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct TitleRecord {
    /// In traditional characters.
    pub hant: String,
    /// In pinyin with tone marks.
    pub pinyin: String,
    /// In English.
    pub english: String,
    /// Short forms under which other books quote it.
    #[serde(default)]
    pub cited_as: Vec<String>,
}

/// When a work was made: a span of years; a lone `to` means "not later than".
#[derive(Debug, Clone, Copy, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct DateRecord {
    /// The earliest year, negative before our era.
    #[serde(default)]
    #[schemars(with = "i32", range(min = -3000, max = 3000))]
    pub from: Option<i32>,
    /// The latest year, negative before our era.
    #[schemars(range(min = -3000, max = 3000))]
    pub to: i32,
    /// Whether the years are rough.
    #[serde(default)]
    pub about: bool,
}

/// What the program counted in a work's plain text, as `kaoyi read` reports it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct TextRecord {
    /// Headings with text under them, prefaces and lists included.
    #[schemars(range(min = 1))]
    pub articles: u32,
    /// Articles in which statements were found.
    pub with_statements: u32,
    /// Clauses that look like a statement of properties and were not understood.
    pub unread_clauses: u32,
}

/// A work's debt to an older one.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct DrawsOnRecord {
    /// The id of the older work.
    pub work: String,
    /// Why it is said to draw on it.
    pub why: String,
}

/// `corpus/herbs/<id>.yaml`: what the books say of one herb.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct HerbRecord {
    /// Short name, equal to the file's name.
    #[schemars(regex(pattern = "^[a-z]+(-[a-z]+)*$"))]
    pub id: String,
    /// How the herb is called; left out only where the file adds to an herb of the shipped corpus.
    #[serde(default)]
    #[schemars(with = "NamesRecord")]
    pub names: Option<NamesRecord>,
    /// Botanical or zoological names.
    #[serde(default)]
    pub species: Vec<String>,
    /// How the Latin name and the species are known; `memory` where it is not told.
    #[serde(default)]
    #[schemars(with = "Basis")]
    pub identity: Option<Basis>,
    /// The part used as the drug; left out where it is not known.
    #[serde(default)]
    #[schemars(with = "String")]
    pub part: Option<String>,
    /// What it is made of; left out where it is not known.
    #[serde(default)]
    #[schemars(with = "Substance")]
    pub substance: Option<Substance>,
    /// Ids of the cautions that it bears.
    #[serde(default)]
    pub cautions: Vec<String>,
    /// What a reader must know of its identity.
    #[serde(default)]
    #[schemars(with = "String")]
    pub note: Option<String>,
    /// The works' articles on it, oldest first.
    pub entries: Vec<EntryRecord>,
}

/// The names of an herb.
#[derive(Debug, Clone, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct NamesRecord {
    /// In traditional characters.
    pub hant: String,
    /// In simplified characters.
    pub hans: String,
    /// In pinyin with tone marks.
    pub pinyin: String,
    /// The pharmaceutical Latin name, where it is known.
    #[serde(default)]
    #[schemars(with = "String")]
    pub latin: Option<String>,
    /// In English, where it has a name.
    #[serde(default)]
    #[schemars(with = "String")]
    pub english: Option<String>,
    /// Other names that no other herb bears.
    #[serde(default)]
    pub also: Vec<String>,
    /// Other names that another drug bears too.
    #[serde(default)]
    pub shared: Vec<SharedNameRecord>,
}

/// A name that another drug bears too.
#[derive(Debug, Clone, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SharedNameRecord {
    /// The name.
    pub name: String,
    /// The id of the other herb, where the corpus holds it.
    #[serde(default)]
    #[schemars(with = "String")]
    pub with: Option<String>,
    /// What the other drug is, and since when.
    pub note: String,
}

/// A work's article on an herb.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct EntryRecord {
    /// The id of the work.
    pub work: String,
    /// Where the article stands.
    #[serde(default)]
    #[schemars(with = "PlaceRecord")]
    pub at: Option<PlaceRecord>,
    /// How far the reading has been checked.
    pub status: Status,
    /// What a reader must know of this article.
    #[serde(default)]
    #[schemars(with = "String")]
    pub note: Option<String>,
    /// Its statements.
    #[schemars(length(min = 1))]
    pub sayings: Vec<SayingRecord>,
}

/// Where an article stands in the plain text.
#[derive(Debug, Clone, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PlaceRecord {
    /// The ordinal of the heading in the text, from 1.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(with = "u32", range(min = 1))]
    pub ordinal: Option<u32>,
    /// The section or chapter.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(with = "String")]
    pub section: Option<String>,
    /// The heading, as the text has it.
    #[schemars(length(min = 1))]
    pub heading: String,
}

/// One attributed statement.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SayingRecord {
    /// The work that asserts, where it is not the entry's own.
    #[serde(default)]
    #[schemars(with = "String")]
    pub by: Option<String>,
    /// Works that carry the statement between `by` and the entry's work, oldest first.
    #[serde(default)]
    #[schemars(length(min = 1))]
    pub through: Vec<String>,
    /// The flavours, complete and in order; `{bitter: slight}` carries a degree.
    #[serde(default)]
    #[schemars(length(min = 1))]
    pub flavour: Vec<FlavourRecord>,
    /// The nature.
    #[serde(default)]
    #[schemars(with = "String")]
    pub nature: Option<String>,
    /// The toxicity.
    #[serde(default)]
    #[schemars(with = "String")]
    pub toxicity: Option<String>,
    /// The grade.
    #[serde(default)]
    #[schemars(with = "String")]
    pub grade: Option<String>,
    /// The channels entered.
    #[serde(default)]
    #[schemars(length(min = 1))]
    pub channel: Vec<String>,
    /// The actions.
    #[serde(default)]
    #[schemars(length(min = 1))]
    pub action: Vec<String>,
    /// How the drug stands to other drugs.
    #[serde(default)]
    #[schemars(length(min = 1))]
    pub relations: Vec<Relation>,
    /// What the statement is limited to.
    #[serde(default)]
    #[schemars(with = "ScopeRecord")]
    pub scope: Option<ScopeRecord>,
    /// Why the reading is doubtful; left out when it is not.
    #[serde(default)]
    #[schemars(with = "String", length(min = 1))]
    pub doubt: Option<String>,
    /// How far this saying has been checked, where that differs from its entry's status.
    #[serde(default)]
    #[schemars(with = "Status")]
    pub status: Option<Status>,
    /// The phrase it was read from, as the plain text has it; □ is a lost character, … a gap.
    #[serde(default)]
    #[schemars(with = "String", length(min = 1))]
    pub wording: Option<String>,
}

/// A flavour, plain or with its degree.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(untagged)]
pub enum FlavourRecord {
    /// A flavour's id.
    Plain(String),
    /// A flavour's id and a degree's id.
    #[schemars(extend("minProperties" = 1, "maxProperties" = 1))]
    WithDegree(std::collections::BTreeMap<String, String>),
}

impl FlavourRecord {
    /// The flavour's id and, where there is one, the degree's.
    #[must_use]
    pub fn parts(&self) -> (&str, Option<&str>) {
        match self {
            Self::Plain(flavour) => (flavour, None),
            Self::WithDegree(map) => map.iter().next().map_or(("", None), |(flavour, degree)| {
                (flavour.as_str(), Some(degree.as_str()))
            }),
        }
    }
}

/// What a statement is limited to.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(extend("minProperties" = 1))]
pub struct ScopeRecord {
    /// A part other than the herb's own.
    #[serde(default)]
    #[schemars(with = "String")]
    pub part: Option<String>,
    /// A preparation.
    #[serde(default)]
    #[schemars(with = "String")]
    pub preparation: Option<String>,
    /// A kind, by its short Chinese name.
    #[serde(default)]
    #[schemars(with = "String")]
    pub kind: Option<String>,
}
