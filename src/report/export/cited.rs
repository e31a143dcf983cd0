//! Citations for bibliographies: the corpus as a data set, each saying as a part of the work in which it stands.

use serde_json::{Value, json};

use super::bibtex::{authors, entry, escaped, iso, record};
use super::csl::{date, item};
use crate::report::view::{CitationView, CiteView, CorpusView, WorkEntry};

/// The citations for BibLaTeX: the corpus, the works named, the sayings.
#[must_use]
pub fn cited_bibtex(view: &CiteView) -> String {
    let about = &view.corpus;
    let fields = [
        ("title", format!("{{{}}}", escaped(about.title))),
        ("version", escaped(about.version)),
        ("date", about.date.clone().unwrap_or_default()),
        ("note", escaped(&key_note(about))),
    ];
    let mut text = record("dataset", "kaoyi", &fields);
    text.extend(view.works.iter().map(entry));
    for citation in &view.citations {
        let claim = &citation.claims[0];
        let by = work(view, &claim.by);
        let read = work(view, &claim.work);
        let title = |work: Option<&WorkEntry>| {
            work.map_or_else(String::new, |one| escaped(&one.full_title()))
        };
        let fields = [
            ("author", by.map_or_else(String::new, authors)),
            ("title", format!("{{{}}}", escaped(&heading(citation)))),
            ("booktitle", format!("{{{}}}", title(read))),
            (
                "chapter",
                escaped(claim.section.as_deref().unwrap_or_default()),
            ),
            ("date", read.map_or_else(String::new, |one| iso(&one.date))),
            ("langid", "chinese".to_owned()),
            ("note", escaped(&note(view, citation))),
        ];
        text.push_str(&record("inbook", key(citation), &fields));
    }
    text
}

/// The citations as items of CSL-JSON, in the same order.
#[must_use]
pub fn cited_csl(view: &CiteView) -> Value {
    let about = &view.corpus;
    let mut corpus = json!({
        "id": "kaoyi", "type": "dataset", "title": about.title, "version": about.version, "note": key_note(about),
    });
    if let Some(date) = &about.date {
        let parts: Vec<i32> = date
            .split('-')
            .filter_map(|part| part.parse().ok())
            .collect();
        corpus["issued"] = json!({"date-parts": [parts]});
    }
    let mut items = vec![corpus];
    items.extend(view.works.iter().map(item));
    for citation in &view.citations {
        let claim = &citation.claims[0];
        let mut one = json!({
            "id": key(citation), "type": "chapter", "title": heading(citation), "language": "zh",
            "note": note(view, citation),
        });
        if let Some(by) = work(view, &claim.by)
            .map(item)
            .and_then(|by| by.get("author").cloned())
        {
            one["author"] = by;
        }
        if let Some(read) = work(view, &claim.work) {
            one["container-title"] = json!(read.full_title());
            one["issued"] = date(read);
        }
        if let Some(section) = &claim.section {
            one["section"] = json!(section);
        }
        items.push(one);
    }
    Value::Array(items)
}

fn key_note(about: &CorpusView) -> String {
    format!("content key {}", about.key)
}

fn work<'v>(view: &'v CiteView, id: &str) -> Option<&'v WorkEntry> {
    view.works.iter().find(|one| one.id == id)
}

/// The id of the claim, or of the saying where several of its claims are cited.
fn key(citation: &CitationView) -> &str {
    let claim = citation.claims[0].claim.as_str();
    match citation.claims.len() {
        1 => claim,
        _ => claim.rsplitn(3, '/').nth(2).unwrap_or(claim),
    }
}

/// The heading of the article, or the herb's name where it was not located.
fn heading(citation: &CitationView) -> String {
    let claim = &citation.claims[0];
    claim.heading.clone().unwrap_or_else(|| claim.hant.clone())
}

/// Who says it, through whom it is known, and which claims were read from it.
fn note(view: &CiteView, citation: &CitationView) -> String {
    let claim = &citation.claims[0];
    let title = |id: &String| work(view, id).map_or_else(|| id.clone(), |one| one.title.clone());
    let mut words = Vec::new();
    if !claim.through.is_empty() {
        let through: Vec<String> = claim.through.iter().map(title).collect();
        words.push(format!(
            "asserted by {}, known through {}",
            title(&claim.by),
            through.join(", ")
        ));
    }
    words.extend(claim.wording.iter().map(|wording| format!("“{wording}”")));
    let claims = citation.claims.iter().map(|one| one.claim.as_str());
    words.push(format!("claims: {}", claims.collect::<Vec<_>>().join(", ")));
    words.join("; ")
}
