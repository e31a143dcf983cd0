//! Claims as comma-separated values by RFC 4180: UTF-8, lines ended by CR LF, a header, fields in quotation marks where
//! they need it.
//!
//! A spreadsheet takes a field that begins with `=`, `+`, `-`, `@` (also in full width), a tab or a carriage return for a
//! formula. Such a text gets an apostrophe before it, and so does a text that begins with an apostrophe: then taking away
//! one apostrophe at the beginning gives back every text as it was. Numbers stay as they are.

use std::borrow::Cow;
use std::io::Write;

use super::claim_columns::CLAIMS;
use super::columns::{Column, Type};
use super::{Export, ExportError};

/// What a spreadsheet may take for the beginning of a formula, and the mark that is put before it.
const STARTERS: [char; 11] = ['=', '+', '-', '@', '＝', '＋', '－', '＠', '\t', '\r', '\''];

/// The text with an apostrophe before it where a spreadsheet would take it for a formula.
///
/// ```
/// use kaoyi::report::export::{guarded, unguarded};
/// assert_eq!(guarded("=1+1"), "'=1+1");
/// assert_eq!(unguarded(&guarded("'tis")), "'tis");
/// ```
#[must_use]
pub fn guarded(text: &str) -> Cow<'_, str> {
    if text.starts_with(STARTERS) {
        Cow::Owned(format!("'{text}"))
    } else {
        Cow::Borrowed(text)
    }
}

/// The text that was [`guarded`].
#[must_use]
pub fn unguarded(text: &str) -> &str {
    text.strip_prefix('\'').unwrap_or(text)
}

pub(super) fn claims(export: &Export<'_, '_>, to: &mut dyn Write) -> Result<(), ExportError> {
    let mut table = Table::new(to, &CLAIMS, export.raw)?;
    export.each(|claims, _| {
        for claim in claims.all(&export.selection) {
            table.row(&claim)?;
        }
        Ok(())
    })?;
    table.finish()
}

/// A table that is being written.
pub(super) struct Table<'t, T: 'static> {
    writer: csv::Writer<&'t mut dyn Write>,
    columns: &'static [Column<T>],
    raw: bool,
}

impl<'t, T> Table<'t, T> {
    pub fn new(
        to: &'t mut dyn Write,
        columns: &'static [Column<T>],
        raw: bool,
    ) -> Result<Self, ExportError> {
        let mut settings = csv::WriterBuilder::new();
        let mut writer = settings.terminator(csv::Terminator::CRLF).from_writer(to);
        writer.write_record(columns.iter().map(|column| column.name))?;
        Ok(Self {
            writer,
            columns,
            raw,
        })
    }

    pub fn row(&mut self, row: &T) -> Result<(), ExportError> {
        for column in self.columns {
            let cell = (column.of)(row);
            if self.raw || column.kind != Type::Text {
                self.writer.write_field(cell)?;
            } else {
                self.writer.write_field(&*guarded(&cell))?;
            }
        }
        self.writer.write_record(None::<&[u8]>)?;
        Ok(())
    }

    pub fn finish(mut self) -> Result<(), ExportError> {
        Ok(self.writer.flush()?)
    }
}
