//! A formula of the user's: herbs with their amounts, in a small YAML file.

use std::path::Path;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::code::Code;
use super::finding::Finding;
use super::single::{Reading, Single, read_text};

/// No formula that is read has more herbs.
pub const HERBS_LIMIT: usize = 200;

/// One herb of a formula.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct FormulaHerb {
    /// The herb, by any of its names.
    #[schemars(length(min = 1))]
    pub herb: String,
    /// Its amount with units: 三兩, 1/2 jin, 2 liang 3 qian.
    #[schemars(length(min = 1))]
    pub amount: String,
}

/// A formula, as written.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct FormulaRecord {
    /// Its name.
    #[serde(default)]
    #[schemars(with = "String")]
    pub name: Option<String>,
    /// The period whose measures it is written in; every period where it is left out.
    #[serde(default)]
    #[schemars(with = "String")]
    pub period: Option<String>,
    /// Its herbs.
    #[schemars(length(min = 1, max = 200))]
    pub herbs: Vec<FormulaHerb>,
}

/// A formula with the file that it was read from, so that later faults can still point into it.
pub struct FormulaFile(Reading<FormulaRecord>);

impl FormulaFile {
    /// Reads the formula in the file at `path`.
    ///
    /// # Errors
    /// With every fault of its form, in the order of their places.
    ///
    /// ```
    /// let faults = kaoyi::corpus::FormulaFile::read(std::path::Path::new("no such file")).err().unwrap();
    /// assert_eq!(faults[0].code, kaoyi::corpus::Code::Unreadable);
    /// ```
    pub fn read(path: &Path) -> Result<Self, Vec<Finding>> {
        let text = read_text(path).map_err(|fault| vec![*fault])?;
        let name = path.display().to_string();
        let mut findings = Vec::new();
        let reading = Single::of::<FormulaRecord>().read(&name, text, &mut findings);
        findings.sort_by_key(|one| (one.line, one.column));
        reading.map(Self).ok_or(findings)
    }

    /// The formula.
    #[must_use]
    pub const fn record(&self) -> &FormulaRecord {
        &self.0.record
    }

    /// A fault at the value that a JSON pointer names (`/herbs/0/amount`).
    #[must_use]
    pub fn fault(
        &self,
        pointer: &str,
        code: Code,
        found: String,
        expected: &str,
        nearest: Vec<String>,
    ) -> Finding {
        self.0.fault(code, pointer, found, expected, nearest)
    }
}
