//! The evidence behind a stand: wording and place of each statement.

use std::collections::BTreeMap;

use super::page::{Page, Titles};
use crate::claim::Facet;
use crate::corpus::{Origin, PlaceRecord, Status};
use crate::report::view::{ActionStatement, RelationEvidence, StatementView, WitnessRow};

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

/// A statement on another drug, under the drug.
pub(super) fn relation(page: &mut Page, titles: &Titles<'_>, one: &RelationEvidence) {
    let words = Grounds {
        scope: one.scope.as_deref(),
        wording: one.wording.as_deref(),
        at: one.at.as_ref(),
        through: &one.through,
        doubt: one.doubt.as_deref(),
        status: one.status,
        origin: one.origin,
        counted: true,
    };
    page.hanging(
        &format!("    {}", titles.title(&one.work)),
        22,
        words.phrase(titles).trim_start(),
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

fn phrase(titles: &Titles<'_>, statement: &StatementView) -> String {
    let grounds = Grounds {
        scope: statement.scope.as_deref(),
        wording: statement.wording.as_deref(),
        at: statement.at.as_ref(),
        through: &statement.through,
        doubt: statement.doubt.as_deref(),
        status: statement.status,
        origin: statement.origin,
        counted: statement.counted,
    };
    grounds.phrase(titles)
}

/// What a statement rests on.
struct Grounds<'v> {
    scope: Option<&'v str>,
    wording: Option<&'v str>,
    at: Option<&'v PlaceRecord>,
    through: &'v [String],
    doubt: Option<&'v str>,
    status: Status,
    origin: Origin,
    counted: bool,
}

impl Grounds<'_> {
    /// Scope, wording, place, carriers, doubts.
    fn phrase(&self, titles: &Titles<'_>) -> String {
        let mut words = String::new();
        if let Some(scope) = self.scope {
            words.push_str(&format!(" ({scope})"));
        }
        if let Some(wording) = self.wording {
            words.push_str(&format!("  「{wording}」"));
        }
        if let Some(at) = self.at {
            let section = at.section.as_deref().filter(|section| !section.is_empty());
            let place: Vec<&str> = section.into_iter().chain([at.heading.as_str()]).collect();
            // The plain texts divide chapter and section by a backslash.
            words.push_str(&format!("  {}", place.join(" · ").replace('\\', " / ")));
        }
        if !self.through.is_empty() {
            words.push_str(&format!("; through {}", titles.list(self.through)));
        }
        for mark in self.marks() {
            words.push_str(&format!("; {mark}"));
        }
        words
    }

    fn marks(&self) -> Vec<String> {
        let mut marks = Vec::new();
        if let Some(doubt) = self.doubt {
            marks.push(format!("doubtful: {doubt}"));
        }
        match self.status {
            Status::Memory => marks.push("from memory".to_owned()),
            Status::Read => marks.push("read once".to_owned()),
            Status::Reviewed => {}
        }
        if self.origin == Origin::User {
            marks.push("from your own folder".to_owned());
        }
        if !self.counted {
            marks.push("not counted".to_owned());
        }
        marks
    }
}
