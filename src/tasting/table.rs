//! The scores of a class as one table, a row for each cup that a taster tasted.

use std::collections::BTreeSet;

use super::cells::{Cell, cells, separator};
use super::table_row::{Column, Reading, read_row};
use super::{Tasting, table_faults};
use crate::claim::{Facet, Scheme};
use crate::corpus::{Code, Corpus, Finding};
use crate::text::nearest;

/// The columns that are no scores, in the order in which a form has them; the first three are needed.
pub const COLUMNS: [&str; 18] = [
    "herb",
    "taster",
    "date",
    "code",
    "cup",
    "part",
    "preparation",
    "lot",
    "supplier",
    "amount",
    "water",
    "vessel",
    "temperature",
    "hours",
    "fasting",
    "places",
    "direction",
    "words",
];

/// How many of [`COLUMNS`] every table must have.
const NEEDED: usize = 3;

/// The columns of scores that are no flavours.
pub const SCORES: [&str; 4] = ["thickness", "lingering", "aroma", "warmth"];

/// What a table holds.
#[derive(Debug, Default)]
pub struct Table {
    /// The tastings of the rows that could be used, in order; herbs are named by their ids.
    pub tastings: Vec<Tasting>,
    /// Everything that is wrong, in order of place.
    pub findings: Vec<Finding>,
    /// Rows below the header, empty ones not counted.
    pub rows: usize,
    /// Rows left out for a fault.
    pub left_out: usize,
    /// Rows in which nothing is scored, as in a form that nobody filled in.
    pub unfilled: usize,
}

/// Reads a table of comma-, semicolon- or tab-separated values: the first row names the columns ([`COLUMNS`], the flavours
/// of the vocabulary and [`SCORES`], in any order), each other row is a tasting. Where the separator is no comma, a comma
/// may stand in numbers for the point. A row whose herb, taster, day, code or cup is faulty is left out; of any other
/// faulty cell nothing is taken, and the rest of its row counts.
///
/// ```
/// use kaoyi::{corpus, tasting};
/// let corpus = corpus::embedded().unwrap();
/// let text = "herb,taster,date,acrid,warmth\n薄荷,A,2026-03-14,6.5,-2\n薄荷,B,2026-03-14,65,\n";
/// let table = tasting::read_table(&corpus, "class.csv", text.as_bytes());
/// assert_eq!(table.tastings.len(), 1, "of B nothing is left that was scored");
/// let fault = &table.findings[0];
/// assert_eq!((fault.line, fault.column, fault.found.as_str()), (Some(3), Some(17), "`65`"));
/// ```
#[must_use]
pub fn read_table(corpus: &Corpus, file: &str, bytes: &[u8]) -> Table {
    let mut table = Table::default();
    let text = match std::str::from_utf8(bytes) {
        Ok(text) => text.strip_prefix('\u{feff}').unwrap_or(text),
        Err(error) => {
            table
                .findings
                .push(table_faults::not_utf8(file, bytes, error.valid_up_to()));
            return table;
        }
    };
    let mut faults = table_faults::Faults::new(file, text);
    let separator = separator(text);
    let cells = cells(text, separator);
    for (cell, fault) in &cells.faults {
        faults.add(Code::WrongForm, cell, fault, "a cell, or \"a cell\"", &[]);
    }
    let mut rows = cells.rows.into_iter();
    let header = rows.next().unwrap_or_default();
    let rows: Vec<Vec<Cell>> = rows.collect();
    table.rows = rows.len();
    let flavours = corpus.vocabulary.scheme(Facet::Flavour);
    if let Some(columns) = columns(flavours, &header, &mut faults) {
        let reading = Reading {
            corpus,
            columns: &columns,
            decimal_comma: separator != ',',
        };
        take_rows(&reading, &rows, &mut faults, &mut table);
    } else {
        table.left_out = table.rows;
    }
    table.findings = faults.in_order();
    table
}

fn take_rows(
    reading: &Reading<'_>,
    rows: &[Vec<Cell>],
    faults: &mut table_faults::Faults<'_>,
    table: &mut Table,
) {
    let mut seen = BTreeSet::new();
    for row in rows {
        let before = faults.count();
        let Some(tasting) = read_row(reading, row, faults) else {
            table.left_out += 1;
            continue;
        };
        if tasting.scores.is_empty() {
            // Where all that was scored is at fault nobody left it empty.
            let sound = faults.count() == before;
            *(if sound {
                &mut table.unfilled
            } else {
                &mut table.left_out
            }) += 1;
            continue;
        }
        let Tasting {
            herb,
            taster,
            date,
            code,
            cup,
            lot,
            ..
        } = &tasting;
        let cup = (
            herb.clone(),
            taster.clone(),
            *date,
            code.clone(),
            *cup,
            lot.clone(),
        );
        if seen.insert(cup) {
            table.tastings.push(tasting);
        } else {
            table.left_out += 1;
            if let Some(first) = row.first() {
                let found = format!(
                    "a second row of {} on this cup",
                    taster.as_deref().unwrap_or_default()
                );
                faults.add(
                    Code::DuplicateEntry,
                    first,
                    &found,
                    "one row for each taster and cup; replicate cups differ in `code` or `cup`",
                    &[],
                );
            }
        }
    }
}

/// What each column holds; `None` where one that is needed is not there.
fn columns(
    flavours: &Scheme,
    header: &[Cell],
    faults: &mut table_faults::Faults<'_>,
) -> Option<Vec<Option<Column>>> {
    let mut columns: Vec<Option<Column>> = Vec::new();
    for cell in header {
        let column = column(flavours, &cell.text);
        if column.is_none() && !cell.text.is_empty() {
            let known = COLUMNS.into_iter().chain(SCORES).chain(flavours.ids());
            let near: Vec<String> = nearest(&cell.text, known)
                .into_iter()
                .map(str::to_owned)
                .collect();
            let found = format!("`{}`", cell.text);
            faults.add(
                Code::UnknownKey,
                cell,
                &found,
                "a column of a tasting",
                &near,
            );
        }
        if column.is_some() && columns.contains(&column) {
            let found = format!("`{}` a second time", cell.text);
            faults.add(Code::DuplicateKey, cell, &found, "each column once", &[]);
            columns.push(None);
        } else {
            columns.push(column);
        }
    }
    let has = |name: &str| {
        columns
            .iter()
            .flatten()
            .any(|column| *column == Column::Named(place(name)))
    };
    let missing: Vec<&str> = COLUMNS[..NEEDED]
        .iter()
        .copied()
        .filter(|name| !has(name))
        .collect();
    if missing.is_empty() {
        return Some(columns);
    }
    let found = format!("no column {}", missing.join(", "));
    let expected = "a first row that names the columns: herb, taster, date, and what was scored, as `kaoyi taste form HERB --csv` prints it";
    match header.first() {
        Some(cell) => faults.add(Code::MissingKey, cell, &found, expected, &[]),
        None => faults.whole(Code::MissingKey, &found, expected),
    }
    None
}

fn place(name: &str) -> usize {
    COLUMNS
        .iter()
        .position(|one| *one == name)
        .unwrap_or_default()
}

/// What a column of this name holds.
fn column(flavours: &Scheme, name: &str) -> Option<Column> {
    let name = name.to_lowercase();
    let named = COLUMNS.iter().position(|one| *one == name);
    let score = || SCORES.iter().position(|one| *one == name);
    let flavour = || {
        let values = flavours.values().iter();
        let mut called = values.filter(|value| {
            let words = [&value.id, &value.hant, &value.english];
            let more = value.hans.iter().chain(&value.also);
            words.into_iter().chain(more).any(|word| *word == name)
        });
        called.next().map(|value| value.id.clone())
    };
    named
        .map(Column::Named)
        .or_else(|| score().map(Column::Score))
        .or_else(|| flavour().map(Column::Flavour))
}
