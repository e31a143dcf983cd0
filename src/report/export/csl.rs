//! Works as CSL-JSON, the format of citation processors.
//!
//! Years before the common era are negative, as in the records: there is no year 0. A date of which only "not later than" is
//! known stands in words beside its year.

use std::io::Write;

use serde_json::{Value, json};

use super::{Export, ExportError};
use crate::report::view::WorkEntry;

pub(super) fn works(export: &Export<'_, '_>, to: &mut dyn Write) -> Result<(), ExportError> {
    let items: Vec<Value> = export.works()?.iter().map(item).collect();
    serde_json::to_writer_pretty(&mut *to, &items)?;
    Ok(to.write_all(b"\n")?)
}

/// A work as an item.
pub(super) fn item(work: &WorkEntry) -> Value {
    let mut item = json!({
        "id": work.id,
        "type": "book",
        "title": work.full_title(),
        "title-short": work.title,
        "language": "zh",
        "issued": date(work),
    });
    let mut authors: Vec<Value> = work
        .authors()
        .iter()
        .map(|name| json!({"literal": name}))
        .collect();
    if work.and_others() {
        authors.push(json!({"literal": "others"}));
    }
    if !authors.is_empty() {
        item["author"] = Value::Array(authors);
    }
    if let Some(juan) = work.juan {
        item["number-of-volumes"] = json!(juan);
    }
    let state = work.state().map(str::to_owned);
    let note: Vec<String> = state.into_iter().chain(work.note.clone()).collect();
    if !note.is_empty() {
        item["note"] = json!(note.join(". "));
    }
    item
}

/// A date as citation processors read it.
pub(super) fn date(work: &WorkEntry) -> Value {
    let date = &work.date;
    let mut parts = vec![json!([date.to])];
    if let Some(from) = date.from.filter(|from| *from != date.to) {
        parts.insert(0, json!([from]));
    }
    let mut issued = json!({"date-parts": parts});
    if date.about {
        issued["circa"] = json!(true);
    }
    if date.from.is_none() {
        issued["literal"] = json!(date.words);
    }
    issued
}
