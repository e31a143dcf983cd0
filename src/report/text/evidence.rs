//! The evidence behind a stand: wording and place of each statement.

use std::collections::BTreeMap;

use super::page::{Page, Titles};
use crate::claim::Facet;
use crate::corpus::{Origin, Status};
use crate::report::view::{ActionStatement, StatementView, WitnessRow};

/// Every row with the statements behind its cells.
pub(super) fn rows(page: &mut Page, titles: &Titles<'_>, rows: &[WitnessRow]) {
    page.heading("EVIDENCE");
    for row in rows {
        page.paragraph(&titles.dated(&row.work));
        for (facet, stand) in &row.stands {
            for one in &stand.statements {
                statement(page, titles, &format!("  {facet:<9}"), one);
            }
        }
    }
}

/// The lines of transmission, facet by facet.
pub(super) fn lines(page: &mut Page, titles: &Titles<'_>, rows: &[WitnessRow]) {
    let mut lines: BTreeMap<(Facet, usize), Vec<String>> = BTreeMap::new();
    for row in rows {
        for (facet, stand) in &row.stands {
            if let Some(line) = stand.line {
                lines
                    .entry((*facet, line))
                    .or_default()
                    .push(row.work.clone());
            }
        }
    }
    if lines.is_empty() {
        return;
    }
    page.heading("LINES OF TRANSMISSION");
    for ((facet, line), works) in &lines {
        page.hanging(&format!("{facet:<10}{line:>2}"), 14, &titles.list(works));
    }
}

/// A statement of an action, under the action.
pub(super) fn action(page: &mut Page, titles: &Titles<'_>, one: &ActionStatement) {
    let words = phrase(titles, &one.statement);
    page.hanging(
        &format!("    {}", titles.title(&one.work)),
        22,
        words.trim_start(),
    );
}

/// One statement: values, wording, place, carriers, doubts.
pub(super) fn statement(
    page: &mut Page,
    titles: &Titles<'_>,
    indent: &str,
    statement: &StatementView,
) {
    let words = format!("{}{}", statement.text, phrase(titles, statement));
    page.hanging(indent, indent.len() + 2, &words);
}

/// What stands after the values: scope, wording, place, carriers, doubts.
fn phrase(titles: &Titles<'_>, statement: &StatementView) -> String {
    let mut words = String::new();
    if let Some(scope) = &statement.scope {
        words.push_str(&format!(" ({scope})"));
    }
    if let Some(wording) = &statement.wording {
        words.push_str(&format!("  「{wording}」"));
    }
    if let Some(at) = &statement.at {
        let section = at.section.as_deref().filter(|section| !section.is_empty());
        let place: Vec<&str> = section.into_iter().chain([at.heading.as_str()]).collect();
        // The plain texts divide chapter and section by a backslash.
        words.push_str(&format!("  {}", place.join(" · ").replace('\\', " / ")));
    }
    if !statement.through.is_empty() {
        words.push_str(&format!("; through {}", titles.list(&statement.through)));
    }
    for mark in marks(statement) {
        words.push_str(&format!("; {mark}"));
    }
    words
}

fn marks(statement: &StatementView) -> Vec<String> {
    let mut marks = Vec::new();
    if let Some(doubt) = &statement.doubt {
        marks.push(format!("doubtful: {doubt}"));
    }
    match statement.status {
        Status::Memory => marks.push("from memory".to_owned()),
        Status::Read => marks.push("read once".to_owned()),
        Status::Reviewed => {}
    }
    if statement.origin == Origin::User {
        marks.push("from your own folder".to_owned());
    }
    if !statement.counted {
        marks.push("not counted".to_owned());
    }
    marks
}
