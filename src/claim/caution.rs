//! Cautions of today and of the trade, shown beside the herbs that bear them.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// How heavily a caution weighs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Severity {
    /// It can kill or maim, or the law forbids it.
    Grave,
    /// It asks for care.
    Care,
}

/// One caution, in one line.
#[derive(Debug, Clone, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Caution {
    /// Short name, the word used in records.
    #[schemars(regex(pattern = "^[a-z]+(-[a-z]+)*$"))]
    pub id: String,
    /// How heavily it weighs.
    pub severity: Severity,
    /// The caution.
    pub text: String,
    /// The same in Chinese, in traditional characters.
    #[serde(default)]
    pub han: Option<String>,
    /// Who says so.
    pub source: String,
    /// Whether an herb that bears it may be tasted to learn it. Where it is left out, it may unless the caution is grave.
    #[serde(default)]
    #[schemars(with = "bool")]
    pub tasted: Option<bool>,
}

impl Caution {
    /// Whether an herb that bears it may be tasted to learn it.
    #[must_use]
    pub fn tasted(&self) -> bool {
        self.tasted.unwrap_or(self.severity != Severity::Grave)
    }
}

/// The file of cautions.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct CautionFile {
    /// All cautions.
    pub cautions: Vec<Caution>,
}
