//! Who bears a name, as text.

use super::identity;
use super::page::{Page, Titles, count};
use crate::report::view::{BearerView, NameView, NearView};

/// The herbs that bear a name, the books that use it, and what is near.
#[must_use]
pub fn name(mut page: Page, view: &NameView) -> String {
    let titles = Titles::new(&view.works);
    if view.bearers.is_empty() {
        page.strong(&format!("No herb here is called 「{}」.", view.name));
    } else {
        page.strong(&format!(
            "「{}」: {}",
            view.name,
            count(view.bearers.len(), "herb")
        ));
    }
    for one in &view.bearers {
        bearer(&mut page, one);
    }
    if !view.headings.is_empty() {
        page.heading("BOOKS THAT HAVE AN ARTICLE UNDER IT");
        for one in &view.headings {
            page.hanging(
                &format!("{} {}", one.herb.name, one.herb.pinyin),
                22,
                &titles.list(&one.works),
            );
        }
    }
    if !view.near.is_empty() {
        page.heading("NAMES THAT HOLD IT OR ARE NEAR TO IT");
        for one in &view.near {
            let english = one
                .english
                .iter()
                .map(|name| format!(" · {name}"))
                .collect::<String>();
            page.hanging(
                &format!("{} {}{english}", one.herb.name, one.herb.pinyin),
                34,
                &near(one),
            );
        }
        if view.near_more > 0 {
            page.quiet(&format!(
                "and {} more: kaoyi find {}",
                count(view.near_more, "herb"),
                view.name
            ));
        }
    }
    if !view.bearers.is_empty() {
        identity::listed_cautions(&mut page, &view.cautions, view.notice);
    }
    page.into_text()
}

/// A herb that bears the name.
fn bearer(page: &mut Page, one: &BearerView) {
    let english = one
        .english
        .iter()
        .map(|name| format!(" · {name}"))
        .collect::<String>();
    let lead = format!("{} {}{english}", one.herb.name, one.herb.pinyin);
    page.raw("\n");
    page.paragraph(&format!("{lead}  {}", one.herb.id));
    page.hanging(
        "  as",
        14,
        &one.borne_as
            .iter()
            .map(|what| word(what))
            .collect::<Vec<_>>()
            .join(", "),
    );
    for note in &one.notes {
        page.hanging("  but", 14, &format!("another drug bears it too: {note}"));
    }
    if !one.also.is_empty() {
        page.hanging("  also called", 14, &one.also.join(", "));
    }
}

fn word(what: &str) -> &str {
    match what {
        "name" => "its name",
        "latin" => "Latin name",
        "english" => "English name",
        "also" => "another name",
        "shared" => "another name",
        "species" => "name of the species",
        other => other,
    }
}

fn near(one: &NearView) -> String {
    let names = one.names.join(", ");
    match one.how {
        "sounds" => format!("{names} sounds so"),
        "near" => format!("{names} or a by-name is a letter away"),
        _ => names,
    }
}
