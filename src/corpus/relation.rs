//! What an article says of its drug beside other drugs.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// How a drug stands to another, in the words of the books.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "kebab-case")]
pub enum RelationKind {
    /// 反, 相反: the two are opposed and not to be used together.
    Opposes,
    /// 惡: it is averse to the other, which weakens it.
    AverseTo,
    /// 畏: it fears the other, which restrains it.
    Fears,
    /// 使: the other is its envoy, which serves it.
    Envoy,
    /// 為…之使: it is the envoy of the other.
    EnvoyOf,
    /// 得…良: it does well with the other.
    WellWith,
    /// 殺…毒: it kills the poison of the other.
    KillsPoison,
}

impl RelationKind {
    /// All kinds, in the order in which they are shown.
    pub const ALL: [Self; 7] = [
        Self::Opposes,
        Self::AverseTo,
        Self::Fears,
        Self::Envoy,
        Self::EnvoyOf,
        Self::WellWith,
        Self::KillsPoison,
    ];

    /// The word that records have for it.
    ///
    /// ```
    /// use kaoyi::corpus::RelationKind;
    /// assert_eq!(RelationKind::AverseTo.id(), "averse-to");
    /// ```
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::Opposes => "opposes",
            Self::AverseTo => "averse-to",
            Self::Fears => "fears",
            Self::Envoy => "envoy",
            Self::EnvoyOf => "envoy-of",
            Self::WellWith => "well-with",
            Self::KillsPoison => "kills-poison",
        }
    }

    /// What the herb is said to do.
    #[must_use]
    pub const fn english(self) -> &'static str {
        match self {
            Self::Opposes => "opposes",
            Self::AverseTo => "averse to",
            Self::Fears => "fears",
            Self::Envoy => "has for envoy",
            Self::EnvoyOf => "is envoy of",
            Self::WellWith => "does well with",
            Self::KillsPoison => "kills poison of",
        }
    }

    /// Whether it speaks against using the two together.
    #[must_use]
    pub const fn warns(self) -> bool {
        matches!(self, Self::Opposes | Self::AverseTo | Self::Fears)
    }

    /// The word of the books.
    #[must_use]
    pub const fn hant(self) -> &'static str {
        match self {
            Self::Opposes => "反",
            Self::AverseTo => "惡",
            Self::Fears => "畏",
            Self::Envoy => "使",
            Self::EnvoyOf => "為之使",
            Self::WellWith => "得之良",
            Self::KillsPoison => "殺毒",
        }
    }
}

/// A drug's relation to another.
#[derive(Debug, Clone, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Relation {
    /// How the drug of the article stands to the other.
    pub kind: RelationKind,
    /// The other drug, as the text names it; which herbs bear the name is looked up when it is asked for.
    #[schemars(length(min = 1))]
    pub drug: String,
}
