//! What is offered beside the profile where it is asked for: lines along found debts, and the weighted estimate.

use super::page::{Page, Titles};
use crate::report::view::{ProfileView, WeightedView};

/// What the column of found lines rests on.
pub(super) fn found_debts(page: &mut Page, titles: &Titles<'_>, view: &ProfileView) {
    if view.profile.iter().all(|one| one.found_lines.is_none()) {
        return;
    }
    let debts: Vec<String> = view
        .found_debts
        .iter()
        .map(|one| {
            let (younger, older) = (titles.title(&one.younger), titles.title(&one.older));
            format!("{younger} on {older}")
        })
        .collect();
    let words = if debts.is_empty() {
        "no debt was found that is not recorded, directly or through others".to_owned()
    } else {
        format!("{}. A hint, not a fact: rule 32", debts.join(", "))
    };
    page.hanging("found", 10, &words);
}

/// The weighted estimate, facet by facet.
pub(super) fn weighted(page: &mut Page, titles: &Titles<'_>, views: &[WeightedView]) {
    if views.is_empty() {
        return;
    }
    page.heading("WEIGHTED BY RELIABILITY, AS ASKED");
    let mut rows = Vec::new();
    for view in views {
        for (place, one) in view.values.iter().enumerate() {
            let facet = if place == 0 { view.facet.name() } else { "" };
            let value = match (&one.value, &one.side) {
                (Some(value), _) => value.english.clone(),
                (None, Some(side)) => format!("{side} side"),
                (None, None) => String::new(),
            };
            rows.push(vec![
                facet.to_owned(),
                value,
                format!("{:.2}", one.probability),
            ]);
        }
    }
    page.table(&["facet", "value", "probability"], &[0; 3], rows);
    for view in views {
        let shares: Vec<String> = view
            .witnesses
            .iter()
            .map(|one| format!("{} {:.2}", titles.title(&one.work), one.share))
            .collect();
        page.hanging(view.facet.name(), 10, &shares.join(", "));
    }
    page.quiet(
        "The probability that it is so, every book weighing as much as it proves right on all herbs (rule 33); and \
         under the table each witness with the share of its statements that it bears out. Books are taken as independent, \
         which they are not: the more they copy, the more it is too sure.",
    );
}
