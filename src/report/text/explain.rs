//! Expectation and record as text.

use super::identity;
use super::page::{Page, Titles, count};
use crate::claim::Facet;
use crate::report::view::{ExpectationView, ExplainView, ShownView};

/// So many actions are shown of each kind.
const ACTIONS: usize = 10;

/// What the doctrine leads one to expect of an herb, and what the books say it does.
#[must_use]
pub fn explain(mut page: Page, view: &ExplainView) -> String {
    let titles = Titles::new(&view.works);
    identity::head(&mut page, &view.herb);
    identity::filter(&mut page, &titles, view.filter.as_ref());
    if view.expectations.is_empty() {
        page.paragraph("No work states a flavour or a nature of which a doctrine speaks.");
    }
    for one in &view.expectations {
        expectation(&mut page, one);
    }
    if !view.expectations.is_empty() {
        page.raw("\n");
        page.quiet(
            "Behind an action: the works that state it, of those that state it or its contrary. Which actions show a doctrine is our own \
             reading, no source. That a book is silent on an action is no denial; one against the expectation may hold of a part, a \
             preparation or another partner: kaoyi compare HERB --evidence shows the places.",
        );
    }
    identity::foot(&mut page, &titles, &view.heed);
    page.into_text()
}

fn expectation(page: &mut Page, one: &ExpectationView) {
    let side = if one.facet == Facet::Nature {
        " side"
    } else {
        ""
    };
    page.heading(&format!(
        "{} {}{side} · {} of {}",
        one.value.han,
        one.value.english,
        one.k,
        count(one.n, "witness")
    ));
    page.paragraph(&format!("{}: {} ({})", one.han, one.holds, one.source));
    list(page, "so the books", &one.borne_out);
    if one.borne_out.is_empty() {
        page.hanging("so the books", 15, "no action that shows it");
    }
    list(page, "against it", &one.against);
}

fn list(page: &mut Page, lead: &str, shown: &[ShownView]) {
    if shown.is_empty() {
        return;
    }
    let action = |one: &ShownView| {
        let scope = match (one.by.len(), one.of_scope_only.len()) {
            (_, 0) => String::new(),
            (0, only) => format!("only of a part or preparation, {only}"),
            (_, more) => format!("; of a part or preparation {more} more"),
        };
        if one.by.is_empty() {
            format!("{} {} ({scope})", one.value.han, one.value.english)
        } else {
            format!(
                "{} {} {} of {}{scope}",
                one.value.han,
                one.value.english,
                one.by.len(),
                one.of
            )
        }
    };
    let mut words: Vec<String> = shown.iter().take(ACTIONS).map(action).collect();
    if shown.len() > ACTIONS {
        words.push(format!("{} more", shown.len() - ACTIONS));
    }
    page.hanging(lead, 15, &words.join(" · "));
}
