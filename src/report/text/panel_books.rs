//! A panel against the books, as text.

use super::page::{Page, WHOLE};
use super::panel::points;
use crate::report::view::{AgainstBooksView, FlavourAgainstView, WarmthAgainstView};

/// Who tasted.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Whose {
    /// A panel.
    Panel,
    /// The user.
    OwnTongue,
}

pub(super) fn against(page: &mut Page, view: &AgainstBooksView, whose: Whose) {
    let (heading, who) = match whose {
        Whose::Panel => ("THE PANEL AND THE BOOKS", "panel"),
        Whose::OwnTongue => ("YOUR TONGUE AND THE BOOKS", "tongue"),
    };
    page.heading(heading);
    let row = |one: &FlavourAgainstView| {
        vec![
            format!("{} {}", one.value.han, one.value.english),
            one.median.map_or("unsaid".to_owned(), points),
            format!("{}/{}", one.k, one.n),
            words(one.standing).to_owned(),
        ]
    };
    let rows = view.flavours.iter().map(row).collect();
    page.table(
        &["flavour", who, "books", ""],
        &[WHOLE, WHOLE, WHOLE, 0],
        rows,
    );
    if view.of > 0 {
        page.paragraph(&format!(
            "The {who} and the books agree on {} of the {} flavours on which the books are not divided.",
            view.agreed, view.of
        ));
    }
    warmth(page, &view.warmth);
    page.quiet(&format!(
        "Column {who}: median; from 1 point on a flavour counts as tasted, and warmth as felt. Books: k of n that state a flavour. The nature of an herb is \
         a judgement on what it does, not only on what is felt in the mouth: where the two differ neither is refuted."
    ));
}

fn words(standing: &str) -> &'static str {
    match standing {
        "agreed" => "both: tasted, and named by most",
        "agreed-absent" => "neither",
        "tasted-some-name" => "tasted; named by some books",
        "tasted-none-name" => "tasted, and no book names it",
        "named-not-tasted" => "named by most, and not tasted",
        "some-name-not-tasted" => "not tasted; named by some books",
        _ => "",
    }
}

fn warmth(page: &mut Page, warmth: &WarmthAgainstView) {
    let felt = match (warmth.median, warmth.side) {
        (Some(median), Some(side)) => format!("felt {side} ({})", points(median)),
        _ => "unsaid".to_owned(),
    };
    let sides = warmth.sides.iter();
    let books: Vec<String> = sides.map(|one| format!("{} {}", one.side, one.k)).collect();
    let middle: Vec<&str> = warmth
        .middle
        .iter()
        .map(|one| one.english.as_str())
        .collect();
    let judged = match warmth.agrees {
        Some(true) => "; most books stand there too",
        Some(false) => "; few books stand there",
        None if warmth.median.is_some() && warmth.n > 0 => "; the books are divided",
        None => "",
    };
    page.hanging(
        "warmth",
        8,
        &format!(
            "{felt}; of {} books on nature: {}{}{judged}",
            warmth.n,
            books.join(", "),
            if middle.is_empty() {
                String::new()
            } else {
                format!(" (median {})", middle.join(" to "))
            }
        ),
    );
}
