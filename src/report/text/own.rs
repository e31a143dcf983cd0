//! Own tastings beside the books, as text.

use super::page::{Page, count};
use super::panel::points;
use crate::report::view::{OwnFigures, OwnView};

/// `acrid 6 (5–7), sweet 1.5`: the flavours with their medians and, where they differ, lowest and highest.
pub(super) fn flavours(own: &OwnView) -> String {
    let of = |one: &crate::report::view::OwnFlavour| {
        format!("{} {}", one.value.english, figures(&one.figures))
    };
    own.flavours.iter().map(of).collect::<Vec<_>>().join(", ")
}

/// `warmth -1 (-2–0)`, or nothing.
pub(super) fn warmth(own: &OwnView) -> String {
    let warmth = own.other("warmth");
    warmth.map_or_else(String::new, |one| format!("warmth {}", figures(one)))
}

/// Median, and lowest and highest where they differ.
pub(super) fn figures(one: &OwnFigures) -> String {
    if one.lowest == one.highest {
        points(one.median)
    } else {
        format!(
            "{} ({} to {})",
            points(one.median),
            points(one.lowest),
            points(one.highest)
        )
    }
}

/// `5 own tastings by A and B, 2026-03-07 to 2026-04-04`
pub(in crate::report) fn whose_tastings(own: &OwnView) -> String {
    let by = match own.tasters.as_slice() {
        [] => String::new(),
        tasters => format!(" by {}", tasters.join(", ")),
    };
    let days = if own.first == own.last {
        own.first.clone()
    } else {
        format!("{} to {}", own.first, own.last)
    };
    format!("{}{by}, {days}", count(own.tastings, "own tasting"))
}

/// The own tongue under the profile of the books.
pub(super) fn row(page: &mut Page, own: Option<&OwnView>) {
    let Some(own) = own else { return };
    page.heading("YOUR OWN TONGUE, NOT COUNTED");
    let mut words = vec![flavours(own), warmth(own)];
    words.retain(|one| !one.is_empty());
    if words.is_empty() {
        words.push("nothing scored".to_owned());
    }
    page.paragraph(&format!("{}: {}", whose_tastings(own), words.join("; ")));
}
