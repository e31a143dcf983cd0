//! The evidence behind a stand: wording and place of each statement.

use super::page::{Page, Titles};
use crate::corpus::{Origin, Status};
use crate::report::view::StatementView;

/// One statement: values, wording, place, carriers, doubts.
pub(super) fn statement(
    page: &mut Page,
    titles: &Titles<'_>,
    indent: &str,
    statement: &StatementView,
) {
    let mut words = statement.text.clone();
    if let Some(scope) = &statement.scope {
        words.push_str(&format!(" ({scope})"));
    }
    if let Some(wording) = &statement.wording {
        words.push_str(&format!("  「{wording}」"));
    }
    if let Some(at) = &statement.at {
        let section = at.section.as_deref().filter(|section| !section.is_empty());
        let place: Vec<&str> = section.into_iter().chain([at.heading.as_str()]).collect();
        words.push_str(&format!("  {}", place.join(" · ")));
    }
    if !statement.through.is_empty() {
        words.push_str(&format!("; through {}", titles.list(&statement.through)));
    }
    for mark in marks(statement) {
        words.push_str(&format!("; {mark}"));
    }
    page.hanging(indent, indent.len() + 2, &words);
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
