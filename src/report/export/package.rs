//! A Data Package (Frictionless, version 1): the tables of claims, works and herbs with their schemas, and keys between them.

use std::io::Write;

use serde_json::{Value, json};

use super::columns::{Column, HERBS, HerbCells, Type, WORKS};
use super::csv::{self, Table};
use super::{Export, ExportError};
use crate::claim::Facet;
use crate::corpus::WorkId;
use crate::report::view::{HeedView, HerbView, NOTICE, WorkEntry};

/// Writes one file of the package.
pub type WriteFile = fn(&Export<'_, '_>, &mut dyn Write) -> Result<(), ExportError>;

/// The files of the package, the one that describes the others last.
#[must_use]
pub const fn files() -> [(&'static str, WriteFile); 4] {
    [
        ("claims.csv", csv::claims),
        ("works.csv", works),
        ("herbs.csv", herbs),
        ("datapackage.json", description),
    ]
}

/// All works, since a claim may name any.
fn works(export: &Export<'_, '_>, to: &mut dyn Write) -> Result<(), ExportError> {
    let mut table = Table::new(to, &WORKS, export.raw)?;
    for id in (0_u16..).take(export.labels.corpus.works().len()) {
        table.row(&WorkEntry::new(export.labels, WorkId(id)))?;
    }
    table.finish()
}

fn herbs(export: &Export<'_, '_>, to: &mut dyn Write) -> Result<(), ExportError> {
    let mut table = Table::new(to, &HERBS, export.raw)?;
    for id in &export.herbs {
        let herb = export.labels.corpus.herb(*id)?;
        let heed = HeedView::new(export.labels, herb);
        table.row(&HerbCells::new(HerbView::new(export.labels, herb), &heed))?;
    }
    table.finish()
}

fn description(export: &Export<'_, '_>, to: &mut dyn Write) -> Result<(), ExportError> {
    let about = export.about;
    let read = export.works()?;
    let sources = read
        .iter()
        .map(|work| json!({"title": format!("{} ({})", work.full_title(), work.date.words)}));
    let guard = if export.raw {
        "Texts stand as they are; some may begin with a sign that a spreadsheet takes for a formula."
    } else {
        "A text that begins with = + - @, a tab, a carriage return or an apostrophe has an apostrophe put before it, so that \
         no spreadsheet takes it for a formula."
    };
    let mut claims = schema(&super::CLAIMS, "claim");
    claims["foreignKeys"] = json!([
        {"fields": "herb", "reference": {"resource": "herbs", "fields": "id"}},
        {"fields": "work", "reference": {"resource": "works", "fields": "id"}},
        {"fields": "by", "reference": {"resource": "works", "fields": "id"}},
    ]);
    let resource = |name: &str, title: &str, schema: Value| {
        json!({
            "name": name, "path": format!("{name}.csv"), "title": title, "profile": "tabular-data-resource",
            "format": "csv", "mediatype": "text/csv", "encoding": "utf-8",
            "dialect": {"delimiter": ",", "lineTerminator": "\r\n", "quoteChar": "\"", "doubleQuote": true, "header": true},
            "schema": schema,
        })
    };
    let document = json!({
        "profile": "tabular-data-package",
        "name": "kaoyi-claims",
        "id": format!("urn:x-kaoyi:content:{}", about.key),
        "title": about.title,
        "version": about.version,
        "description": format!("{} {NOTICE} {guard}", about.citation),
        "licenses": [
            {"name": "MIT", "title": "MIT License", "path": "https://opensource.org/licenses/MIT"},
            {"name": "Apache-2.0", "title": "Apache License 2.0", "path": "https://www.apache.org/licenses/LICENSE-2.0"},
        ],
        "sources": sources.collect::<Vec<_>>(),
        "resources": [
            resource("claims", "Claims: one value that one work states of one herb", claims),
            resource("works", "Works, and lost works and authorities that they quote", schema(&WORKS, "id")),
            resource("herbs", "Herbs with their names and cautions", schema(&HERBS, "id")),
        ],
    });
    serde_json::to_writer_pretty(&mut *to, &document)?;
    Ok(to.write_all(b"\n")?)
}

/// The table schema of some columns.
fn schema<T>(columns: &[Column<T>], key: &str) -> Value {
    let fields = columns.iter().map(|column| {
        let kind = match column.kind {
            Type::Text => "string",
            Type::Integer => "integer",
            Type::Boolean => "boolean",
        };
        let mut constraints = json!({"required": column.required});
        if column.name == key {
            constraints["unique"] = json!(true);
        }
        if let Some(words) = words(column.name) {
            constraints["enum"] = json!(words);
        }
        json!({"name": column.name, "type": kind, "description": column.about, "constraints": constraints})
    });
    json!({"fields": fields.collect::<Vec<_>>(), "primaryKey": key, "missingValues": [""]})
}

/// The words that a column may hold, where they are few.
fn words(column: &str) -> Option<Vec<&'static str>> {
    match column {
        "facet" => Some(Facet::ALL.map(Facet::name).to_vec()),
        "status" => Some(vec!["read", "reviewed", "memory"]),
        "origin" => Some(vec!["shipped", "user"]),
        "identity" => Some(vec!["checked", "memory"]),
        _ => None,
    }
}
