//! Where the books agree and differ, with the sides.

use maud::{Markup, html};

use crate::claim::Facet;
use crate::compare::DifferenceKind;
use crate::report::text::{Titles, told_here};
use crate::report::view::{ComparisonView, DifferenceView, SideView};
use crate::web::layout::text;
use crate::web::page::parts;
use crate::web::visit::Visit;
use crate::web::words::Word;

pub(super) fn differences(visit: &Visit<'_>, titles: &Titles<'_>, view: &ComparisonView) -> Markup {
    html! {
        @for facet in Facet::ALL {
            @let of: Vec<&DifferenceView> = view.differences.iter().filter(|one| one.facet == facet).collect();
            @if !of.is_empty() {
                h3 { (parts::facet(visit, facet)) }
                @for one in of { (difference(visit, titles, one)) }
            }
        }
    }
}

fn difference(visit: &Visit<'_>, titles: &Titles<'_>, one: &DifferenceView) -> Markup {
    let sides: Vec<&SideView> = one
        .sides
        .iter()
        .filter(|side| told_here(one, side))
        .collect();
    html! {
        div.difference {
            p { strong.kind { (parts::kind(visit, one.kind)) } " " (gist(visit, titles, one)) }
            @if one.sides.len() > 1 {
                div.sides { @for side in sides {
                    div.side {
                        p.label { strong { (text(visit, &side.label)) } " " span.count { (visit.fill(Word::NBooks, &[&side.witnesses.len().to_string()])) } }
                        p { (parts::works(visit, titles, &side.witnesses)) }
                    }
                } }
            }
        }
    }
}

/// What a difference comes to.
fn gist(visit: &Visit<'_>, titles: &Titles<'_>, one: &DifferenceView) -> Markup {
    let first = one.sides.first();
    let label = |place: usize| one.sides.get(place).map_or("", |side| side.label.as_str());
    let word = match one.kind {
        DifferenceKind::Nested => Word::NestedGist,
        DifferenceKind::Crossing => Word::CrossingGist,
        DifferenceKind::Mixed => Word::MixedGist,
        DifferenceKind::ByScope => Word::ByScopeGist,
        DifferenceKind::Graded => match one.facet {
            Facet::Flavour => Word::GradedFlavour,
            Facet::Toxicity => Word::GradedToxicity,
            Facet::Nature => Word::GradedNature,
            _ => Word::GradedRank,
        },
        DifferenceKind::Unanimous => {
            let all = first.map_or(0, |side| side.witnesses.len()).to_string();
            return html! { (visit.fill(Word::NBooks, &[&all])) ": " (text(visit, label(0))) };
        }
        DifferenceKind::Single => {
            let only = first.and_then(|side| side.witnesses.first());
            return html! { @if let Some(id) = only { (parts::work(visit, titles, id)) ": " } (text(visit, label(0))) };
        }
        DifferenceKind::OverTime => {
            let Some(turning) = &one.turning else {
                return html! {};
            };
            return html! {
                (text(visit, &visit.fill(Word::TurnGist, &[label(0), label(1), &titles.dated(&turning.first_of_later)])))
                @if !turning.against.is_empty() { "; " (visit.say(Word::AgainstTurn)) " " (parts::works(visit, titles, &turning.against)) }
            };
        }
    };
    html! { (visit.say(word)) }
}
