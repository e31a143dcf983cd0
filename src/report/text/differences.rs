//! Differences as text.

use super::page::{Page, Titles, count};
use crate::claim::Facet;
use crate::compare::DifferenceKind;
use crate::report::view::{DifferenceView, SideView};

/// Column at which the words of a side begin.
const INDENT: usize = 26;

pub(super) fn differences(page: &mut Page, titles: &Titles<'_>, differences: &[DifferenceView]) {
    let mut facet: Option<Facet> = None;
    for difference in differences {
        let name = if facet == Some(difference.facet) {
            ""
        } else {
            difference.facet.name()
        };
        facet = Some(difference.facet);
        let gist = gist(titles, difference);
        page.hanging(
            &format!("{name:<10}{:<15}", difference.kind.word()),
            INDENT,
            &gist,
        );
        // One side needs no list of its own: it is all of them, and the table above names them.
        if difference.sides.len() > 1 {
            for side in difference
                .sides
                .iter()
                .filter(|side| told_here(difference, side))
            {
                page.hanging(
                    &format!("  {} ", side.label),
                    INDENT,
                    &witnesses(titles, side),
                );
            }
        }
    }
}

/// What is said of the herb as such stands above under another kind already.
pub(crate) fn told_here(difference: &DifferenceView, side: &SideView) -> bool {
    difference.kind != DifferenceKind::ByScope || side.scope.is_some()
}

fn witnesses(titles: &Titles<'_>, side: &SideView) -> String {
    format!("{}: {}", side.witnesses.len(), titles.list(&side.witnesses))
}

/// What a difference comes to, in words.
pub(in crate::report) fn gist(titles: &Titles<'_>, difference: &DifferenceView) -> String {
    let first = difference.sides.first();
    match difference.kind {
        DifferenceKind::Unanimous => {
            let all = first.map_or(0, |side| side.witnesses.len());
            format!(
                "{}: {}",
                count(all, "witness"),
                first.map_or("", |side| side.label.as_str())
            )
        }
        DifferenceKind::Single => {
            let work = first
                .and_then(|side| side.witnesses.first())
                .map_or_else(String::new, |id| titles.dated(id));
            format!(
                "only {work}: {}",
                first.map_or("", |side| side.label.as_str())
            )
        }
        DifferenceKind::Nested => "the shortest list stands in all the others".to_owned(),
        DifferenceKind::Graded => graded(difference.facet).to_owned(),
        DifferenceKind::Crossing => "opposite sides".to_owned(),
        DifferenceKind::Mixed => "lists overlap in part or not at all".to_owned(),
        DifferenceKind::ByScope => {
            "of a part, preparation or kind otherwise than of the herb as such".to_owned()
        }
        DifferenceKind::OverTime => over_time(titles, difference),
    }
}

fn graded(facet: Facet) -> &'static str {
    match facet {
        Facet::Flavour => "the same flavours in another degree",
        Facet::Toxicity => "toxic in all, in another degree",
        Facet::Nature => "same side of neutral, other strength",
        Facet::Grade | Facet::Channel | Facet::Action => "of another rank",
    }
}

fn over_time(titles: &Titles<'_>, difference: &DifferenceView) -> String {
    let label = |place: usize| {
        difference
            .sides
            .get(place)
            .map_or("", |side| side.label.as_str())
    };
    let Some(turning) = &difference.turning else {
        return String::new();
    };
    let mut words = format!(
        "first {}, then {} from {} on",
        label(0),
        label(1),
        titles.dated(&turning.first_of_later)
    );
    if !turning.against.is_empty() {
        words.push_str(&format!("; against it: {}", titles.list(&turning.against)));
    }
    words
}
