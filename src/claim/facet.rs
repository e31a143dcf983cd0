//! The facets under which claims are compared.

use std::fmt;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// One side of an herb that a source can speak of.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "lowercase")]
pub enum Facet {
    /// 味: acrid, sweet, sour, bitter, salty, bland, astringent. A statement's list is complete.
    Flavour,
    /// 性: the scale from greatly cold to greatly hot.
    Nature,
    /// 毒: none, slight, toxic, great.
    Toxicity,
    /// 品: upper, middle, lower.
    Grade,
    /// 歸經: the channels that the herb enters.
    Channel,
    /// 功用: what the herb is said to do. Silence means nothing.
    Action,
}

impl Facet {
    /// All facets, in the order in which they are shown.
    pub const ALL: [Self; 6] = [
        Self::Flavour,
        Self::Nature,
        Self::Toxicity,
        Self::Grade,
        Self::Channel,
        Self::Action,
    ];

    /// The name used in records and on the command line.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Flavour => "flavour",
            Self::Nature => "nature",
            Self::Toxicity => "toxicity",
            Self::Grade => "grade",
            Self::Channel => "channel",
            Self::Action => "action",
        }
    }
}

impl fmt::Display for Facet {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(self.name())
    }
}
