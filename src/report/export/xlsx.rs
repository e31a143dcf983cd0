//! A workbook for teaching: the herbs, their claims, flavours by witness, differences.
//!
//! Every text is written as a text, never as a formula or a link, whatever it begins with.

use std::collections::BTreeMap;
use std::io::Write;

use rust_xlsxwriter::{Format, Workbook, Worksheet};

use super::claim_columns::CLAIMS;
use super::columns::{Column, HERBS, HerbCells, Type};
use super::{Export, ExportError};
use crate::claim::Facet;
use crate::compare::{self, FacetView};
use crate::corpus::{HerbId, WorkId};
use crate::report::view::{DifferenceView, HeedView, HerbView, NOTICE, WorkEntry};

/// The longest text that a cell can hold.
const CELL: usize = 32_767;

pub(super) fn write(export: &Export<'_, '_>, to: &mut dyn Write) -> Result<(), ExportError> {
    let mut book = Workbook::new();
    about(
        export,
        &mut Rows::new(&mut book, "about", &["what", "text"])?,
    )?;
    let mut sheet = Rows::of_table(&mut book, "herbs", &HERBS)?;
    for id in &export.herbs {
        let herb = export.labels.corpus.herb(*id)?;
        let heed = HeedView::new(export.labels, herb);
        sheet.table_row(
            &HERBS,
            &HerbCells::new(HerbView::new(export.labels, herb), &heed),
        )?;
    }
    let mut sheet = Rows::of_table(&mut book, "claims", &CLAIMS)?;
    export.each(|claims, _| {
        for claim in claims.all(&export.selection) {
            sheet.table_row(&CLAIMS, &claim)?;
        }
        Ok(())
    })?;
    matrix(export, &mut book)?;
    differences(export, &mut book)?;
    Ok(to.write_all(&book.save_to_buffer()?)?)
}

fn about(export: &Export<'_, '_>, sheet: &mut Rows<'_>) -> Result<(), ExportError> {
    let about = export.about;
    let rows = [
        ("corpus", about.citation.as_str()),
        ("notice", NOTICE),
        ("herbs", "The herbs exported, with their cautions."),
        (
            "claims",
            "One row a claim: which work states which value, and through whom it is known.",
        ),
        (
            "flavours",
            "One row a flavour of an herb, one column a work that takes a stand on its flavour.",
        ),
        (
            "differences",
            "Where the works agree and differ, one row a side.",
        ),
    ];
    for (what, text) in rows {
        sheet.texts(&[what, text])?;
    }
    Ok(())
}

/// Flavours by witness: × where the work states the flavour, with its degree; nothing where it states others only.
fn matrix(export: &Export<'_, '_>, book: &mut Workbook) -> Result<(), ExportError> {
    let view = |id: HerbId| -> Result<FacetView, ExportError> {
        let herb = export.labels.corpus.herb(id)?;
        Ok(compare::view(
            export.labels.corpus,
            herb,
            Facet::Flavour,
            &export.selection,
        ))
    };
    let mut places: BTreeMap<WorkId, usize> = BTreeMap::new();
    for id in &export.herbs {
        places.extend(view(*id)?.witnesses.iter().map(|witness| (witness.work, 0)));
    }
    let mut header = vec![
        "herb".to_owned(),
        "name".to_owned(),
        "flavour".to_owned(),
        "味".to_owned(),
    ];
    for (work, place) in &mut places {
        *place = header.len();
        let work = WorkEntry::new(export.labels, *work);
        header.push(format!("{} {}", work.title, work.date.words));
    }
    let header: Vec<&str> = header.iter().map(String::as_str).collect();
    let mut sheet = Rows::new(book, "flavours", &header)?;
    let vocabulary = &export.labels.corpus.vocabulary;
    for id in &export.herbs {
        let view = view(*id)?;
        let named = export.labels.corpus.named(*id);
        for (flavour, _) in (0_u16..).zip(vocabulary.scheme(Facet::Flavour).values()) {
            let flavour = crate::claim::ValueId(flavour);
            let states = |one: &&compare::Witness| one.values.contains(&flavour);
            let mut cells = vec![String::new(); header.len()];
            for witness in view.witnesses.iter().filter(states) {
                let degree = witness.degree(flavour);
                let degree =
                    degree.map(|one| format!(" {}", vocabulary.degrees.value(one).english));
                cells[places[&witness.work]] = format!("×{}", degree.unwrap_or_default());
            }
            if cells.iter().all(String::is_empty) {
                continue;
            }
            let value = export.labels.value(Facet::Flavour, flavour);
            let lead = [
                named.id.clone(),
                export.labels.han(&named.names.hant),
                value.english,
                value.han,
            ];
            for (cell, text) in cells.iter_mut().zip(lead) {
                *cell = text;
            }
            sheet.texts(&cells)?;
        }
    }
    Ok(())
}

fn differences(export: &Export<'_, '_>, book: &mut Workbook) -> Result<(), ExportError> {
    let header = [
        "herb",
        "name",
        "facet",
        "kind",
        "side",
        "scope",
        "works",
        "which works",
    ];
    let mut sheet = Rows::new(book, "differences", &header)?;
    for id in &export.herbs {
        let herb = export.labels.corpus.herb(*id)?;
        for facet in Facet::ALL {
            let view = compare::view(export.labels.corpus, herb, facet, &export.selection);
            let found = compare::differences(export.labels.corpus, &view);
            for one in DifferenceView::all(export.labels, &view, &found) {
                for side in &one.sides {
                    let title = |id: &String| {
                        let place = export.labels.corpus.work_place(id);
                        place.map_or_else(String::new, |place| {
                            WorkEntry::new(export.labels, place).title
                        })
                    };
                    let titles: Vec<String> = side.witnesses.iter().map(title).collect();
                    let name = export.labels.han(&herb.names.hant);
                    let scope = side.scope.clone().unwrap_or_default();
                    let count = side.witnesses.len().to_string();
                    let lead = [&herb.id, &name, one.facet.name(), one.kind.word()];
                    let rest = [&side.label, &scope, &count, &titles.join("、")];
                    let cells: Vec<&str> =
                        lead.into_iter().chain(rest.map(String::as_str)).collect();
                    sheet.texts(&cells)?;
                }
            }
        }
    }
    Ok(())
}

/// A sheet that is written row by row.
struct Rows<'b> {
    sheet: &'b mut Worksheet,
    next: u32,
}

impl<'b> Rows<'b> {
    fn new(book: &'b mut Workbook, name: &str, header: &[&str]) -> Result<Self, ExportError> {
        let sheet = book.add_worksheet_with_constant_memory()?;
        sheet.set_name(name)?;
        sheet.set_freeze_panes(1, 0)?;
        let bold = Format::new().set_bold();
        for (place, title) in (0_u16..).zip(header) {
            sheet.write_string_with_format(0, place, fitting(title), &bold)?;
        }
        Ok(Self { sheet, next: 1 })
    }

    fn of_table<T>(
        book: &'b mut Workbook,
        name: &str,
        columns: &[Column<T>],
    ) -> Result<Self, ExportError> {
        let header: Vec<&str> = columns.iter().map(|column| column.name).collect();
        Self::new(book, name, &header)
    }

    fn texts(&mut self, cells: &[impl AsRef<str>]) -> Result<(), ExportError> {
        for (place, cell) in (0_u16..).zip(cells) {
            self.text(place, cell.as_ref())?;
        }
        self.next += 1;
        Ok(())
    }

    fn table_row<T>(&mut self, columns: &[Column<T>], row: &T) -> Result<(), ExportError> {
        for (place, column) in (0_u16..).zip(columns) {
            let cell = (column.of)(row);
            match (column.kind, cell.parse::<f64>()) {
                (Type::Integer, Ok(number)) => {
                    self.sheet.write_number(self.next, place, number)?;
                }
                (Type::Boolean, _) => {
                    self.sheet.write_boolean(self.next, place, cell == "true")?;
                }
                _ => self.text(place, &cell)?,
            }
        }
        self.next += 1;
        Ok(())
    }

    /// A text, whatever it begins with; no cell where it is empty.
    fn text(&mut self, place: u16, text: &str) -> Result<(), ExportError> {
        if !text.is_empty() {
            self.sheet.write_string(self.next, place, fitting(text))?;
        }
        Ok(())
    }
}

/// As much of a text as a cell can hold.
fn fitting(text: &str) -> String {
    text.chars().take(CELL / 2).collect()
}
