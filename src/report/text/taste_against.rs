//! Own tastings held against the books, as text.

use super::identity;
use super::own::{figures, whose_tastings};
use super::page::{Page, Titles, WHOLE, count};
use super::panel_books;
use crate::report::view::{
    ChangeOfTaste, GroupView, SidesView, SurprisingView, TasteAgainstView, ValueRef,
};

/// So many stands on flavour are shown.
const STANDS: usize = 6;
/// So many of what was scored have a column beside what was varied.
const COLUMNS: usize = 5;
/// The widest that the column of what was varied may be.
const LOT: u16 = 22;

/// Own tastings against the books.
#[must_use]
pub fn taste_against(mut page: Page, view: &TasteAgainstView) -> String {
    let titles = Titles::new(&view.works);
    identity::head(&mut page, &view.herb);
    identity::filter(&mut page, &titles, view.filter.as_ref());
    page.paragraph(&format!("{}.", whose_tastings(&view.own)));
    let others = view.own.others.iter();
    let others: Vec<String> = others
        .filter(|one| one.name != "warmth")
        .map(|one| format!("{} {}", one.name, figures(&one.figures)))
        .collect();
    if !others.is_empty() {
        page.paragraph(&format!("{}.", others.join(", ")));
    }
    panel_books::against(&mut page, &view.against, panel_books::Whose::OwnTongue);
    surprising(&mut page, &view.surprising);
    sides(&mut page, &titles, &view.sides);
    for change in &view.changes {
        put_change(&mut page, change);
    }
    if !view.changes.is_empty() {
        page.quiet(
            "n: tastings. Cells: median, and lowest to highest where they differ. So few tastings make no curve, and none is drawn; \
             what differs may come from the day, the taster or chance.",
        );
    }
    identity::foot(&mut page, &titles, &view.heed);
    page.into_text()
}

fn english(values: &[ValueRef]) -> String {
    let words = values.iter().map(|one| one.english.as_str());
    words.collect::<Vec<_>>().join(", ")
}

fn surprising(page: &mut Page, view: &SurprisingView) {
    page.heading("WHAT IS SURPRISING");
    let mut said = false;
    for (values, words) in [
        (&view.tasted_unnamed, "tasted, and no book names it"),
        (&view.named_untasted, "named by most books, and not tasted"),
    ] {
        if !values.is_empty() {
            page.hanging("·", 2, &format!("{}: {words}", english(values)));
            said = true;
        }
    }
    if view.warmth {
        page.hanging(
            "·",
            2,
            "what was felt lies on a side on which few books stand",
        );
        said = true;
    }
    if !said {
        page.paragraph("Nothing that the books do not lead one to expect.");
    }
}

fn sides(page: &mut Page, titles: &Titles<'_>, view: &SidesView) {
    if view.flavours.is_empty() && view.natures.is_empty() {
        return;
    }
    page.heading("WHERE THE TONGUE STANDS AMONG THE BOOKS");
    if !view.flavours.is_empty() {
        let tasted = english(&view.tasted);
        page.paragraph(&format!(
            "Tasted: {}. The books' stands, nearest first:",
            if tasted.is_empty() {
                "nothing from 1 point on"
            } else {
                &tasted
            }
        ));
        for one in view.flavours.iter().take(STANDS) {
            page.hanging(
                &format!("{:.2} {}", one.distance, english(&one.values)),
                26,
                &titles.list(&one.works),
            );
        }
        if view.flavours.len() > STANDS {
            page.quiet(&format!(
                "and {} farther ones in --json",
                view.flavours.len() - STANDS
            ));
        }
    }
    for one in view.natures.iter().filter(|one| !one.works.is_empty()) {
        let felt = if one.felt { ", as felt" } else { "" };
        page.hanging(
            &format!("{} side{felt}", one.side),
            26,
            &titles.list(&one.works),
        );
    }
    page.quiet("The figure: MASI distance, from 0 for the same flavours to 1 for none in common.");
}

fn put_change(page: &mut Page, change: &ChangeOfTaste) {
    page.heading(&format!("BY {}", change.varied.to_uppercase()));
    // Flavours and warmth are what the books speak of; the rest is in the JSON.
    let beside = ["thickness", "lingering", "aroma"];
    let of_books = (0..change.attributes.len())
        .filter(|place| !beside.contains(&change.attributes[*place].as_str()));
    let mut shown: Vec<usize> = of_books.collect();
    if shown.len() > COLUMNS {
        // Warmth comes last and stays.
        shown.drain(COLUMNS - 1..shown.len() - 1);
    }
    let mut header = vec![change.varied, "n"];
    header.extend(shown.iter().map(|place| change.attributes[*place].as_str()));
    let row = |group: &GroupView| {
        let mut row = vec![group.value.clone(), group.n.to_string()];
        row.extend(shown.iter().map(|place| {
            group.figures[*place]
                .as_ref()
                .map_or_else(String::new, |one| match one.n == group.n {
                    true => figures(one),
                    false => format!("{} n={}", figures(one), one.n),
                })
        }));
        row
    };
    let mut widths = vec![LOT, WHOLE];
    widths.extend(std::iter::repeat_n(0, shown.len()));
    page.table(&header, &widths, change.groups.iter().map(row).collect());
    let mut words = Vec::new();
    let left = change.attributes.len() - shown.len();
    if left > 0 {
        words.push(format!("{left} more in --json"));
    }
    if change.untold > 0 {
        words.push(format!(
            "{} without {}",
            count(change.untold, "tasting"),
            change.varied
        ));
    }
    if !change.also.is_empty() {
        words.push(format!(
            "{} differ too, so that a difference may come from there",
            change.also.join(" and ")
        ));
    }
    if !words.is_empty() {
        page.quiet(&format!("{}.", words.join("; ")));
    }
}
