//! Display in traditional or simplified script.

use std::borrow::Cow;
use std::fmt;

use ferrous_opencc::{OpenCC, config::BuiltinConfig};

/// The script in which Han text is shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Script {
    /// As the record has it: names in traditional script, wordings as in the plain text read.
    #[default]
    Recorded,
    /// Traditional, 繁體.
    Hant,
    /// Simplified, 简体.
    Hans,
}

/// The conversion tables could not be loaded.
#[derive(Debug)]
pub struct ScriptError(String);

impl fmt::Display for ScriptError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "the tables for traditional and simplified script could not be loaded: {}",
            self.0
        )
    }
}

impl std::error::Error for ScriptError {}

/// Converts Han text for display, phrase by phrase, by the tables of Open Chinese Convert.
///
/// ```
/// use kaoyi::text::{Converter, Script};
/// let hans = Converter::new(Script::Hans).unwrap();
/// assert_eq!(hans.convert("本草綱目"), "本草纲目");
/// let hant = Converter::new(Script::Hant).unwrap();
/// assert_eq!(hant.convert("发汗"), "發汗");
/// ```
#[derive(Default)]
pub struct Converter(Option<OpenCC>);

impl Converter {
    /// A converter to `script`; loading its tables takes a few milliseconds.
    ///
    /// # Errors
    /// When the tables are damaged.
    pub fn new(script: Script) -> Result<Self, ScriptError> {
        let tables = match script {
            Script::Recorded => return Ok(Self(None)),
            Script::Hant => BuiltinConfig::S2t,
            Script::Hans => BuiltinConfig::T2s,
        };
        OpenCC::from_config(tables)
            .map(|tables| Self(Some(tables)))
            .map_err(|error| ScriptError(error.to_string()))
    }

    /// `text` in the chosen script.
    #[must_use]
    pub fn convert<'t>(&self, text: &'t str) -> Cow<'t, str> {
        match &self.0 {
            Some(tables) if !text.is_ascii() => Cow::Owned(tables.convert(text)),
            _ => Cow::Borrowed(text),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::{Converter, Script};
    use pretty_assertions::assert_eq;

    #[test]
    fn the_recorded_script_changes_nothing() {
        let same = Converter::new(Script::Recorded).unwrap();
        assert_eq!(same.convert("味辛、苦，温，无毒"), "味辛、苦，温，无毒");
    }
}
