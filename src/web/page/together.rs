//! What must be known of herbs that are named together.

use maud::{Markup, html};

use super::parts;
use crate::report::view::{SaidView, TogetherView};
use crate::web::layout::text;
use crate::web::pieces::{self, Books};
use crate::web::visit::Visit;
use crate::web::words::{Lang, Word};

/// Forbidden pairs and what the books say against two of the herbs, as items of the list of cautions.
pub(super) fn warnings(visit: &Visit<'_>, books: &Books<'_>, view: &TogetherView) -> Markup {
    let english = visit.lang == Lang::En;
    html! {
        @for pair in &view.forbidden {
            li.grave { strong { (visit.say(Word::Grave)) " " (text(visit, &pair.han)) @if english { " " (pair.english) } } ": "
                (pieces::herb(visit, &pair.one)) " – " (pieces::herb(visit, &pair.other))
                ": " (text(visit, &pair.one_as)) " " (visit.either("must not meet", "忌")) " " (text(visit, &pair.other_as))
                " (" (text(visit, &parts::source(visit, &pair.source))) ")" }
        }
        @for one in view.said.iter().filter(|one| one.warns) { li.grave { (said(visit, books, one)) } }
        @if view.forbidden.is_empty() {
            li { (visit.either(
                "No pair here stands in the eighteen opposites or the nineteen fears; that is no proof of harmlessness.",
                "此中無十八反、十九畏之配對；此非無害之證。")) }
        }
    }
}

/// What the books say for two of the herbs.
pub(super) fn partners(visit: &Visit<'_>, books: &Books<'_>, view: &TogetherView) -> Markup {
    html! { @if view.said.iter().any(|one| !one.warns) {
        h2 { (visit.either("What the books say for them together", "書中言其相合者")) }
        ul { @for one in view.said.iter().filter(|one| !one.warns) { li { (said(visit, books, one)) } } }
    } }
}

fn said(visit: &Visit<'_>, books: &Books<'_>, one: &SaidView) -> Markup {
    let english = visit.lang == Lang::En;
    html! {
        (pieces::herb(visit, &one.one)) " " (text(visit, &one.han)) @if english { " " (one.english) } " " (pieces::herb(visit, &one.other))
        ": " (one.said.works.len()) " " (visit.say(Word::WorksShort))
        @if let Some(first) = &one.said.first { ", " (visit.either("first", "首見")) " " (books.dated(visit, first)) }
        @if one.said.doubtful { "; " (visit.either("all doubtful", "皆存疑")) }
        @if one.said.of_scope_only { "; " (visit.either("of a part or preparation only", "專言部位或炮製者")) }
        @if one.ambiguous { "; " (visit.either("by a name that other herbs bear too", "其名他藥亦有")) }
    }
}
