//! The drawings.

use maud::{Markup, PreEscaped, html};

use crate::claim::Facet;
use crate::report::chart::{ChartKind, Dress, Sheet, draw};
use crate::report::view::{ComparisonView, ScalesView};
use crate::web::visit::Visit;
use crate::web::words::Word;

/// A drawing: its kind, what it is called, what is said under it.
type Figure = (ChartKind, Word, Word);

/// The drawings of a page, the first one open.
const FIGURES: [Figure; 4] = [
    (ChartKind::Timeline, Word::Timeline, Word::TimelineHint),
    (ChartKind::Nature, Word::NatureChart, Word::NatureHint),
    (ChartKind::Flavours, Word::FlavourChart, Word::FlavourHint),
    (ChartKind::Lines, Word::LinesChart, Word::LinesHint),
];

pub(super) fn figures(visit: &Visit<'_>, view: &ComparisonView) -> Markup {
    let scales = ScalesView::new(&visit.labels());
    let stands = |facet: Facet| {
        view.witnesses
            .iter()
            .any(|row| row.stands.contains_key(&facet))
    };
    let there = |kind: ChartKind| match kind {
        ChartKind::Nature | ChartKind::Lines => stands(Facet::Nature),
        ChartKind::Flavours => stands(Facet::Flavour),
        _ => true,
    };
    let opposed = (ChartKind::Actions, Word::OpposedChart, Word::OpposedHint);
    let opposed = (!view.opposed.is_empty()).then_some(opposed);
    let all = FIGURES
        .into_iter()
        .filter(|(kind, ..)| there(*kind))
        .chain(opposed);
    html! { @for (kind, word, hint) in all { (figure(visit, view, &scales, (kind, word, hint))) } }
}

fn figure(
    visit: &Visit<'_>,
    view: &ComparisonView,
    scales: &ScalesView,
    (kind, word, hint): Figure,
) -> Markup {
    let sheet = Sheet {
        comparison: view,
        scales,
        facet: Facet::Nature,
        own: view.own.as_ref(),
    };
    let svg = draw(kind, &sheet).to_svg(&format!("chart-{}", kind.name()), Dress::Inline);
    let open = kind == ChartKind::Timeline || kind == ChartKind::Nature;
    html! {
        details.figure open[open] {
            summary { h3 { (visit.say(word)) } }
            figure {
                div.scroll role="group" tabindex="0" aria-label=(visit.say(word)) { (PreEscaped(svg)) }
                figcaption { (visit.say(hint)) }
            }
        }
    }
}
