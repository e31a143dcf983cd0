//! The shape of a tasting, as written in a notebook: one herb in one cup, and what one taster found. The JSON Schema
//! `schema/tasting.schema.json` is generated from these types. What is left out is unsaid and never zero.

use std::collections::BTreeMap;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::day::Day;
use super::score::{Celsius, Grams, Hours, Millilitres, Score, Warmth};
use crate::claim::Direction;

/// One cup of one herb, and what one taster found in it.
///
/// ```
/// let written = r#"{"herb": "bohe", "date": "2026-03-14", "scores": {"flavours": {"acrid": 6.5}, "warmth": -2}}"#;
/// let tasting: kaoyi::tasting::Tasting = serde_json::from_str(written).unwrap();
/// assert_eq!(tasting.scores.flavours["acrid"].value(), 6.5);
/// assert_eq!(tasting.scores.aroma, None, "unsaid is not zero");
/// ```
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Tasting {
    /// The herb: its id, or the name under which the taster knows it.
    #[schemars(length(min = 1))]
    pub herb: String,
    /// The part that was steeped, where it is not the usual one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(with = "String", length(min = 1))]
    pub part: Option<String>,
    /// How it was prepared before it was steeped: raw, fried, with wine …
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(with = "String", length(min = 1))]
    pub preparation: Option<String>,
    /// The lot: the number on the bag, or the bed and day of the harvest; its look and smell belong to `words`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(with = "String", length(min = 1))]
    pub lot: Option<String>,
    /// Who supplied it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(with = "String", length(min = 1))]
    pub supplier: Option<String>,
    /// How much of the herb, in grams.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(with = "Grams")]
    pub amount: Option<Grams>,
    /// How much water, in millilitres.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(with = "Millilitres")]
    pub water: Option<Millilitres>,
    /// What it was steeped in.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(with = "String", length(min = 1))]
    pub vessel: Option<String>,
    /// How hot the water was when it was poured on, in degrees Celsius.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(with = "Celsius")]
    pub temperature: Option<Celsius>,
    /// How long it steeped, in hours.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(with = "Hours")]
    pub hours: Option<Hours>,
    /// The day of the tasting.
    pub date: Day,
    /// Who tasted: a name, a letter, a number.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(with = "String", length(min = 1))]
    pub taster: Option<String>,
    /// Whether the taster had eaten nothing before.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(with = "bool")]
    pub fasting: Option<bool>,
    /// What stood on the cup in place of the herb's name, where it was tasted blind.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(with = "String", length(min = 1))]
    pub code: Option<String>,
    /// Which cup of the same herb it was on that day, from 1.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(with = "u32", range(min = 1))]
    pub cup: Option<u32>,
    /// What was found, in numbers.
    #[serde(default)]
    pub scores: Scores,
    /// Where it was felt: tip of the tongue, throat, stomach …
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub places: Vec<String>,
    /// Where it moves, as felt; several ways are allowed.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub direction: Vec<Direction>,
    /// In the taster's own words.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(with = "String")]
    pub words: Option<String>,
    /// Names of picture files that lie beside the record.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub photos: Vec<String>,
    /// Why it was tasted at all, where the books or the law are against it.
    #[serde(default, rename = "override", skip_serializing_if = "Option::is_none")]
    #[schemars(with = "Override")]
    pub overridden: Option<Override>,
}

/// What was found, in numbers.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Scores {
    /// Ids of flavours, each with its strength from 0 to 10. A map, so that another scheme of flavours can be had.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub flavours: BTreeMap<String, Score>,
    /// How thick the taste is (味厚), from 0 to 10.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(with = "Score")]
    pub thickness: Option<Score>,
    /// How long it lingers, from 0 to 10.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(with = "Score")]
    pub lingering: Option<Score>,
    /// How strong the aroma is, from 0 to 10.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(with = "Score")]
    pub aroma: Option<Score>,
    /// How warm it feels within, from -5 (cold) to 5 (hot).
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(with = "Warmth")]
    pub warmth: Option<Warmth>,
}

/// Why a toxic or restricted herb was tasted in spite of what is said against it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Override {
    /// The reason, as stated by who tasted it.
    #[schemars(length(min = 1))]
    pub reason: String,
}

impl Scores {
    /// Whether nothing was scored.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }
}

impl Tasting {
    /// A tasting of which only herb and day are told.
    #[must_use]
    pub fn on(herb: String, date: Day) -> Self {
        Self {
            herb,
            part: None,
            preparation: None,
            lot: None,
            supplier: None,
            amount: None,
            water: None,
            vessel: None,
            temperature: None,
            hours: None,
            date,
            taster: None,
            fasting: None,
            code: None,
            cup: None,
            scores: Scores::default(),
            places: Vec::new(),
            direction: Vec::new(),
            words: None,
            photos: Vec::new(),
            overridden: None,
        }
    }
}
