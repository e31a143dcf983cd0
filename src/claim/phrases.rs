//! The phrases by which books state actions, for reading them from a text.

use std::collections::BTreeMap;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// The file of phrases.
#[derive(Debug, Clone, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PhraseFile {
    /// Phrases in simplified characters by the id of the action that they state.
    pub phrases: BTreeMap<String, Vec<String>>,
    /// Phrases that contain others and state nothing: names of formulas, illnesses of another kind.
    #[serde(default)]
    pub nothing: Vec<String>,
}
