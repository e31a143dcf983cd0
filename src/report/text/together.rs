//! What must be known of herbs that are named together, as text.

use super::page::{Page, Titles, count};
use crate::report::view::{SaidView, TogetherView};

/// Pairs that the trade forbids, loudly.
pub(super) fn forbidden(page: &mut Page, view: &TogetherView) {
    for pair in &view.forbidden {
        page.alert(&format!(
            "{} {}: {} must not meet {}: {} and {} ({})",
            pair.han,
            pair.english,
            pair.one.name,
            pair.other.name,
            pair.one_as,
            pair.other_as,
            pair.source
        ));
    }
}

/// What the books say against two of the herbs, and that no rule forbids them where none does.
pub(super) fn warnings(page: &mut Page, titles: &Titles<'_>, view: &TogetherView) {
    for one in view.said.iter().filter(|one| one.warns) {
        page.alert(&said(titles, one));
    }
    if view.forbidden.is_empty() {
        page.paragraph(
            "No pair here stands in the eighteen opposites or the nineteen fears; that is no proof of harmlessness.",
        );
    }
}

/// What the books say for two of the herbs.
pub(super) fn partners(page: &mut Page, titles: &Titles<'_>, view: &TogetherView) {
    if view.said.iter().all(|one| one.warns) {
        return;
    }
    page.heading("WHAT THE BOOKS SAY FOR THEM TOGETHER");
    for one in view.said.iter().filter(|one| !one.warns) {
        page.hanging("·", 2, &said(titles, one));
    }
}

/// `甘遂 反 opposes 甘草: 9 works, first 本草經集注 500`
fn said(titles: &Titles<'_>, one: &SaidView) -> String {
    let works = count(one.said.works.len(), "work");
    let first = one.said.first.iter();
    let first: String = first
        .map(|work| format!(", first {}", titles.dated(work)))
        .collect();
    let mut notes = Vec::new();
    if one.said.doubtful {
        notes.push("all doubtful");
    }
    if one.said.of_scope_only {
        notes.push("of a part or preparation only");
    }
    if one.ambiguous {
        notes.push("by a name that other herbs bear too");
    }
    let notes = if notes.is_empty() {
        String::new()
    } else {
        format!("; {}", notes.join(", "))
    };
    format!(
        "{} {} {} {}: {works}{first}{notes}",
        one.one.name, one.han, one.english, one.other.name
    )
}
