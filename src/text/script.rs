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

impl ScriptError {
    pub(super) fn new(reason: &str) -> Self {
        Self(reason.to_owned())
    }
}

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

/// Characters that the tables turn into another word than the old books mean: 云 is "says" unless it is
/// mica, 脏 is a viscus.
const IN_OLD_BOOKS: [(&str, &str); 3] = [("雲", "云"), ("云母", "雲母"), ("髒", "臟")];

/// Converts Han text for display, phrase by phrase, by the tables of Open Chinese Convert.
///
/// ```
/// use kaoyi::text::{Converter, Script};
/// let hans = Converter::new(Script::Hans).unwrap();
/// assert_eq!(hans.convert("本草綱目"), "本草纲目");
/// let hant = Converter::new(Script::Hant).unwrap();
/// assert_eq!(hant.convert("发汗"), "發汗");
/// assert_eq!(hant.convert("东垣云∶补五脏"), "東垣云∶補五臟");
/// ```
#[derive(Default)]
pub struct Converter {
    script: Script,
    tables: Option<OpenCC>,
}

impl Converter {
    /// A converter to `script`; loading its tables takes a few milliseconds.
    ///
    /// # Errors
    /// When the tables are damaged.
    pub fn new(script: Script) -> Result<Self, ScriptError> {
        let config = match script {
            Script::Recorded => return Ok(Self::default()),
            Script::Hant => BuiltinConfig::S2t,
            Script::Hans => BuiltinConfig::T2s,
        };
        let tables = OpenCC::from_config(config).map_err(|error| ScriptError(error.to_string()))?;
        Ok(Self {
            script,
            tables: Some(tables),
        })
    }

    /// The script in which it writes.
    #[must_use]
    pub const fn script(&self) -> Script {
        self.script
    }

    /// `text`, recorded in simplified characters as the plain texts are, in the chosen script.
    #[must_use]
    pub fn convert<'t>(&self, text: &'t str) -> Cow<'t, str> {
        let Some(tables) = self.tables.as_ref().filter(|_| !text.is_ascii()) else {
            return Cow::Borrowed(text);
        };
        let mut converted = tables.convert(text);
        if self.script == Script::Hant {
            for (wrong, right) in IN_OLD_BOOKS {
                converted = converted.replace(wrong, right);
            }
        }
        Cow::Owned(converted)
    }

    /// `text`, recorded in traditional characters as names and labels are, in the chosen script.
    #[must_use]
    pub fn convert_label<'t>(&self, text: &'t str) -> Cow<'t, str> {
        match self.script {
            Script::Hans => self.convert(text),
            Script::Hant | Script::Recorded => Cow::Borrowed(text),
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

    #[test]
    fn labels_recorded_in_traditional_characters_stay_as_they_are() {
        let hant = Converter::new(Script::Hant).unwrap();
        assert_eq!(hant.convert_label("本草經集注"), "本草經集注");
    }
}
