//! `/explain/{id}`: what the doctrine leads one to expect of an herb, beside what the books say it does.

use maud::{Markup, html};

use super::parts;
use crate::claim::Facet;
use crate::report::view::{ExpectationView, ExplainView, ShownView};
use crate::web::layout::{Leaf, text};
use crate::web::pieces::{self, Books};
use crate::web::reply::Answer;
use crate::web::route::{AS, Page, Parameter, SCOPE};
use crate::web::visit::Visit;
use crate::web::words::Word;

/// Expectation and record of an herb.
pub(crate) struct Explain;

impl Page for Explain {
    type View = ExplainView;
    const PATH: &'static str = "/explain/{id}";
    const SUMMARY: &'static str = "What the doctrine of flavours leads one to expect of an herb, beside what the books say it does";
    const PARAMETERS: &'static [Parameter] = &[AS, SCOPE[0], SCOPE[1], SCOPE[2]];

    fn view(visit: &Visit<'_>) -> Answer<Self::View> {
        let herb = visit.herb("id")?;
        Ok(ExplainView::new(&visit.labels(), herb, &visit.selection()?))
    }

    fn page(visit: &Visit<'_>, view: &Self::View) -> Answer<Leaf> {
        let books = Books(&view.works);
        let about = visit.either("doctrine and record", "理論與書證");
        let main = html! {
            (pieces::herb_heading(visit, &view.herb, &about))
            (pieces::heed(visit, &books, &view.heed))
            (pieces::filter(visit, &books, view.filter.as_ref()))
            @if view.expectations.is_empty() {
                p role="status" { (visit.either("No work states a flavour or a nature of which a doctrine speaks.", "諸書未言理論所及之味或性。")) }
            }
            @for one in &view.expectations { (expectation(visit, &books, one)) }
            p.note { (visit.either(
                "Behind an action: the works that state it, of those that state it or its contrary. Which actions show a doctrine is our own reading, no source. That a book is silent on an action is no denial.",
                "功用之後：言此之書數，與言此或言其反之書數。何種功用合於何理，為本程式之見，無出處。書中不言，非謂無此。")) }
            (pieces::herb_downloads(visit, &view.herb.id))
            (parts::strip(visit, &[("cautions", &view.herb.name, &view.heed)]))
        };
        Ok(Leaf {
            title: format!("{} {}: {about}", view.herb.name, view.herb.pinyin),
            section: "/",
            main,
        })
    }
}

fn expectation(visit: &Visit<'_>, books: &Books<'_>, one: &ExpectationView) -> Markup {
    html! {
        section {
            h2 { (pieces::value(visit, &one.value))
                @if one.facet == Facet::Nature { " " (visit.either("side", "之屬")) }
                " · " (one.k) "/" (one.n) " " (visit.say(Word::WitnessesShort)) }
            p { (text(visit, &one.han)) ": " span lang="en" { (one.holds) " (" (text(visit, &one.source)) ")" } }
            h3 { (visit.either("So the books", "書中有證")) }
            @if one.borne_out.is_empty() { p { (visit.either("no action that shows it", "無相應之功用")) } }
            (actions(visit, books, &one.borne_out))
            @if !one.against.is_empty() {
                h3 { (visit.either("Against it", "與之相反")) }
                (actions(visit, books, &one.against))
            }
        }
    }
}

fn actions(visit: &Visit<'_>, books: &Books<'_>, all: &[ShownView]) -> Markup {
    html! { @if !all.is_empty() { ul { @for one in all { li {
        details {
            summary { (pieces::value(visit, &one.value)) " " (one.by.len()) "/" (one.of)
                @if !one.of_scope_only.is_empty() { "; " (visit.either("of a part or preparation", "專言部位或炮製者")) " " (one.of_scope_only.len()) } }
            p { (books.list(visit, &one.by))
                @if !one.of_scope_only.is_empty() { "; " (visit.either("of a part or preparation", "專言部位或炮製者")) ": " (books.list(visit, &one.of_scope_only)) } }
        }
    } } } } }
}
