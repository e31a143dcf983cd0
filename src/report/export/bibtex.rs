//! Works for BibLaTeX: UTF-8, dates by ISO 8601-2, in which 1 BC is the year 0 and `~` means about.

use std::io::Write;

use super::{Export, ExportError};
use crate::corpus::Kind;
use crate::report::view::{ClaimDate, WorkEntry};

pub(super) fn works(export: &Export<'_, '_>, to: &mut dyn Write) -> Result<(), ExportError> {
    for work in export.works()? {
        to.write_all(entry(&work).as_bytes())?;
    }
    Ok(())
}

/// A work as an entry.
pub(super) fn entry(work: &WorkEntry) -> String {
    let kind = if work.kind == Kind::Authority {
        "misc"
    } else {
        "book"
    };
    let note: Vec<&str> = work
        .state()
        .into_iter()
        .chain(work.note.as_deref())
        .collect();
    let fields = [
        ("author", authors(work)),
        ("title", format!("{{{}}}", escaped(&work.full_title()))),
        ("shorttitle", format!("{{{}}}", escaped(&work.title))),
        ("date", iso(&work.date)),
        ("langid", "chinese".to_owned()),
        ("note", escaped(&note.join(". "))),
    ];
    record(kind, &work.id, &fields)
}

/// An entry; fields without content are left out.
pub(super) fn record(kind: &str, key: &str, fields: &[(&str, String)]) -> String {
    let mut text = format!("@{kind}{{{key},\n");
    for (name, content) in fields
        .iter()
        .filter(|(_, content)| !content.is_empty() && content != "{}")
    {
        text.push_str(&format!("  {name} = {{{content}}},\n"));
    }
    text.push_str("}\n\n");
    text
}

/// The authors, each name whole.
pub(super) fn authors(work: &WorkEntry) -> String {
    let named = work.authors();
    let mut names: Vec<String> = named
        .iter()
        .map(|name| format!("{{{}}}", escaped(name)))
        .collect();
    if work.and_others() {
        names.push("others".to_owned());
    }
    names.join(" and ")
}

/// A date by ISO 8601-2.
pub(super) fn iso(date: &ClaimDate) -> String {
    let about = if date.about { "~" } else { "" };
    let year = |year: i32| {
        // The records have no year 0: 1 BC is -1 there and 0 here.
        let year = if year < 0 { year + 1 } else { year };
        let sign = if year < 0 { "-" } else { "" };
        format!("{sign}{:04}{about}", year.unsigned_abs())
    };
    match date.from {
        Some(from) if from == date.to => year(from),
        Some(from) => format!("{}/{}", year(from), year(date.to)),
        None => format!("../{}", year(date.to)),
    }
}

/// A text in which nothing is a command: signs that mean something to TeX as commands for the signs, control characters as
/// blanks. Braces never stand alone, since BibTeX counts them even behind a backslash.
///
/// ```
/// use kaoyi::report::export::escaped_for_bibtex;
/// assert_eq!(escaped_for_bibtex("50 % {"), r"50 \% \textbraceleft{}");
/// ```
#[must_use]
pub fn escaped(text: &str) -> String {
    let mut escaped = String::with_capacity(text.len());
    for sign in text.chars() {
        match sign {
            '\\' => escaped.push_str("\\textbackslash{}"),
            '{' => escaped.push_str("\\textbraceleft{}"),
            '}' => escaped.push_str("\\textbraceright{}"),
            '~' => escaped.push_str("\\textasciitilde{}"),
            '^' => escaped.push_str("\\textasciicircum{}"),
            '"' => escaped.push_str("\\textquotedbl{}"),
            '$' | '&' | '#' | '_' | '%' => escaped.extend(['\\', sign]),
            control if control.is_control() => escaped.push(' '),
            other => escaped.push(other),
        }
    }
    escaped
}
