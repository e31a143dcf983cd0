//! Claims and works in the formats of other programs, one file a format. Nothing is computed here: what is written comes
//! from the views and from [`crate::compare`].
//!
//! Claims are written herb by herb, as they come. Text of the records is escaped by the rules of each format, so that no
//! name or wording can end a field, open a tag or start a formula.

mod bibtex;
mod cited;
mod claim_columns;
mod columns;
mod csl;
mod csv;
mod error;
mod jsonld;
mod ndjson;
mod package;
mod tei;
mod tei_app;
mod xlsx;
mod xml;

use std::collections::BTreeSet;
use std::io::Write;

pub use self::bibtex::escaped as escaped_for_bibtex;
pub use self::cited::{cited_bibtex, cited_csl};
pub use self::claim_columns::CLAIMS;
pub use self::columns::{Column, HERBS, HerbCells, Type, WORKS};
pub use self::csv::{guarded, unguarded};
pub use self::error::ExportError;
pub use self::package::files as package_files;

use super::view::{ClaimsOf, CorpusView, Labels, WorkEntry};
use crate::compare::Selection;
use crate::corpus::{HerbId, WorkId};

/// A format that is one file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Format {
    /// Claims as comma-separated values.
    Csv,
    /// Claims as JSON, one a line.
    Ndjson,
    /// Claims as a critical apparatus in TEI P5.
    Tei,
    /// Works as CSL-JSON.
    Csl,
    /// Works as BibLaTeX.
    Bibtex,
    /// Claims and works as JSON-LD with PROV-O.
    Jsonld,
    /// Herbs, claims, flavours by witness and differences as a workbook.
    Xlsx,
}

/// What is exported.
pub struct Export<'a, 'c> {
    /// The corpus and the script.
    pub labels: &'a Labels<'c>,
    /// What the corpus is.
    pub about: &'a CorpusView,
    /// The herbs, in the order in which they are written.
    pub herbs: Vec<HerbId>,
    /// Whether these are all herbs of the corpus.
    pub whole: bool,
    /// Whose claims.
    pub selection: Selection,
    /// Whether fields of CSV that a spreadsheet would take for a formula are written as they are.
    pub raw: bool,
}

impl Export<'_, '_> {
    /// Writes one file.
    ///
    /// ```
    /// use kaoyi::corpus::{Lookup, embedded};
    /// use kaoyi::report::export::{Export, Format};
    /// use kaoyi::report::view::{CorpusView, Labels};
    /// use kaoyi::text::{Converter, Script};
    /// let corpus = embedded().unwrap();
    /// let script = Converter::new(Script::Recorded).unwrap();
    /// let labels = Labels::new(&corpus, &script);
    /// let Lookup::One(mint) = corpus.find_herb("bohe") else { panic!() };
    /// let about = CorpusView::new(&corpus, None).unwrap();
    /// let (herbs, selection) = (vec![mint], Default::default());
    /// let export = Export { labels: &labels, about: &about, herbs, whole: false, selection, raw: false };
    /// let mut table = Vec::new();
    /// export.write(Format::Csv, &mut table).unwrap();
    /// assert!(table.starts_with(b"claim,herb,"));
    /// ```
    ///
    /// # Errors
    /// When the writer fails or an embedded record is faulty.
    pub fn write(&self, format: Format, to: &mut dyn Write) -> Result<(), ExportError> {
        match format {
            Format::Csv => csv::claims(self, to),
            Format::Ndjson => ndjson::claims(self, to),
            Format::Tei => tei::write(self, to),
            Format::Csl => csl::works(self, to),
            Format::Bibtex => bibtex::works(self, to),
            Format::Jsonld => jsonld::write(self, to),
            Format::Xlsx => xlsx::write(self, to),
        }
    }

    /// The claims of each herb in turn.
    fn each(
        &self,
        mut take: impl FnMut(&ClaimsOf<'_, '_>, HerbId) -> Result<(), ExportError>,
    ) -> Result<(), ExportError> {
        for id in &self.herbs {
            let herb = self.labels.corpus.herb(*id)?;
            take(&ClaimsOf::new(self.labels, herb), *id)?;
        }
        Ok(())
    }

    /// The works that the claims exported name, oldest first; where all herbs are exported, all works.
    fn works(&self) -> Result<Vec<WorkEntry>, ExportError> {
        let all = (0_u16..).take(self.labels.corpus.works().len()).map(WorkId);
        let mut named = BTreeSet::new();
        if self.whole && self.selection == Selection::default() {
            named.extend(all);
        } else {
            for id in &self.herbs {
                for entry in &self.labels.corpus.herb(*id)?.entries {
                    let takes = |by: WorkId| self.selection.takes(self.labels.corpus, by);
                    for saying in entry.sayings.iter().filter(|one| takes(one.by)) {
                        named.extend([saying.by, entry.work]);
                        named.extend(&saying.carriers);
                    }
                }
            }
        }
        let entry = |id: WorkId| WorkEntry::new(self.labels, id);
        Ok(named.into_iter().map(entry).collect())
    }
}

/// A record's word for a value of an enumeration.
fn word(value: &impl serde::Serialize) -> String {
    match serde_json::to_value(value) {
        Ok(serde_json::Value::String(word)) => word,
        _ => String::new(),
    }
}
