//! What holds between herbs: pairs that the trade forbids, what flavours and natures are held to do, and amounts from which
//! on a warning grows louder.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::Facet;

/// `corpus/vocabulary/pairing.yaml`.
#[derive(Debug, Clone, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PairingFile {
    /// The rules of pairs that are forbidden.
    pub incompatible: Vec<IncompatibleRule>,
    /// Amounts from which on a warning grows louder.
    pub amounts: LoudAmounts,
    /// What a flavour or a nature is held to do.
    pub doctrine: Vec<Doctrine>,
    /// What may stand before a drug's name and tells how it was prepared.
    pub prefixes: Vec<String>,
}

/// A rule of the trade that forbids pairs.
#[derive(Debug, Clone, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct IncompatibleRule {
    /// Short name.
    #[schemars(regex(pattern = "^[a-z]+(-[a-z]+)*$"))]
    pub id: String,
    /// How the rule is called, in traditional characters.
    pub hant: String,
    /// In pinyin with tone marks.
    pub pinyin: String,
    /// In English.
    pub english: String,
    /// Where it is published.
    pub source: String,
    /// The drugs of one side with those of the other.
    pub groups: Vec<IncompatibleGroup>,
}

/// A drug and those that it must not meet.
#[derive(Debug, Clone, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct IncompatibleGroup {
    /// How the rule calls the drug.
    pub name: String,
    /// The ids of the herbs that are that drug or a form of it.
    pub herbs: Vec<String>,
    /// What it must not meet.
    pub against: Vec<IncompatibleSide>,
}

/// A drug on the other side.
#[derive(Debug, Clone, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct IncompatibleSide {
    /// How the rule calls the drug.
    pub name: String,
    /// The ids of the herbs that are that drug or a form of it.
    pub herbs: Vec<String>,
}

/// Grams for one day from which on a warning grows louder.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct LoudAmounts {
    /// Of an herb with a grave caution for which it is never tasted.
    pub grave: f64,
    /// Of any herb.
    pub any: f64,
}

/// What a flavour or a nature is held to do.
#[derive(Debug, Clone, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Doctrine {
    /// `flavour` or `nature`.
    pub facet: Facet,
    /// The flavour; of the nature a value whose whole side of the scale is meant.
    pub value: String,
    /// The doctrine in the words of its source.
    pub hant: String,
    /// What is held, in one line.
    pub holds: String,
    /// Where it is published.
    pub source: String,
    /// The actions in which it shows.
    pub shows_in: Vec<String>,
}
