//! Units of weight and volume, how they were divided in each period, and what each is held to weigh.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// What a unit measures.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Quantity {
    /// Weight, in grams.
    Weight,
    /// Volume, in millilitres.
    Volume,
}

impl Quantity {
    /// The sign of the metric unit: `g` or `ml`.
    #[must_use]
    pub const fn sign(self) -> &'static str {
        match self {
            Self::Weight => "g",
            Self::Volume => "ml",
        }
    }

    /// The word used in records.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Weight => "weight",
            Self::Volume => "volume",
        }
    }
}

/// How a fact of the measures is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Known {
    /// Compared with the source.
    Checked,
    /// From memory of the source.
    Memory,
}

/// A unit.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct UnitRecord {
    /// Short name, the word used in records.
    #[schemars(regex(pattern = "^[a-z]+(-[a-z]+)*$"))]
    pub id: String,
    /// What it measures.
    pub measures: Quantity,
    /// Its name in traditional characters.
    pub hant: String,
    /// Its name in simplified characters.
    pub hans: String,
    /// Its name in pinyin.
    pub pinyin: String,
    /// Its name in English.
    pub english: String,
    /// Other names and forms.
    #[serde(default)]
    pub also: Vec<String>,
}

/// How many of a smaller unit a greater one holds.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RelationRecord {
    /// The greater unit.
    pub one: String,
    /// How many of the smaller one it holds, as decimals or a fraction in quotes: `"16"`.
    pub holds: String,
    /// The smaller unit.
    pub of: String,
    /// Who says so.
    #[schemars(length(min = 1))]
    pub source: String,
    /// How it is known.
    pub known: Known,
}

/// What somebody holds one unit to weigh or to hold.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct OpinionRecord {
    /// The unit.
    pub unit: String,
    /// The figure for one of it in grams or millilitres, as decimals or a fraction in quotes: `"13.92"`, `"125/8"`.
    pub value: String,
    /// The lower end, where the source gives a span.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(with = "String")]
    pub least: Option<String>,
    /// The upper end, where the source gives a span.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(with = "String")]
    pub greatest: Option<String>,
    /// Which of several measures of the period is meant: large, small.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(with = "String")]
    pub measure: Option<String>,
    /// Who says so; `common practice, no source` where nobody is known to have.
    #[schemars(length(min = 1))]
    pub source: String,
    /// When it was published or took effect.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(with = "i32")]
    pub year: Option<i32>,
    /// How it is known; left out where there is no source to know it from.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(with = "Known")]
    pub known: Option<Known>,
    /// Whether it is a practice rather than a finding or a law.
    #[serde(default)]
    pub practice: bool,
    /// Whether it is the commonest practice of those who use the books of the period.
    #[serde(default)]
    pub commonest: bool,
    /// What it rests on.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(with = "String")]
    pub note: Option<String>,
}

/// A period or a place with measures of its own.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PeriodRecord {
    /// Short name, the word used in records and on the command line.
    #[schemars(regex(pattern = "^[a-z]+(-[a-z0-9]+)*$"))]
    pub id: String,
    /// Its name in traditional characters.
    pub hant: String,
    /// Its name in simplified characters.
    pub hans: String,
    /// Its name in pinyin.
    pub pinyin: String,
    /// Its name in English.
    pub english: String,
    /// Other names.
    #[serde(default)]
    pub also: Vec<String>,
    /// The first year of these measures, where it is on record.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(with = "i32")]
    pub from: Option<i32>,
    /// The last year, where they have ended.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(with = "i32")]
    pub to: Option<i32>,
    /// How the units hold each other.
    #[serde(default)]
    pub relations: Vec<RelationRecord>,
    /// What they are held to weigh.
    #[serde(default)]
    pub opinions: Vec<OpinionRecord>,
}

/// `corpus/vocabulary/measures.yaml`.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct MeasureFile {
    /// The units.
    pub units: Vec<UnitRecord>,
    /// The periods, oldest first; those without a year last.
    pub periods: Vec<PeriodRecord>,
}
