//! `/`: where a search begins.

use maud::{Markup, html};

use crate::report::view::SuggestView;
use crate::web::layout::{Leaf, plain, text};
use crate::web::page::parts;
use crate::web::reply::Answer;
use crate::web::route::{Page, Parameter, Takes};
use crate::web::visit::Visit;
use crate::web::words::Word;

/// The front page.
pub(crate) struct Home;

impl Page for Home {
    type View = SuggestView;
    const PATH: &'static str = "/";
    const TWIN: Option<&'static str> = Some("/api/suggest");
    const SUMMARY: &'static str =
        "Herbs, works and properties that answer to what has been typed so far";
    const PARAMETERS: &'static [Parameter] = &[Parameter::one(
        "q",
        Takes::Text,
        "What has been typed, in any script",
    )];

    fn view(visit: &Visit<'_>) -> Answer<Self::View> {
        let typed = visit.asked.one("q").unwrap_or_default();
        let words = match typed {
            "" => None,
            _ => Some(visit.shelf().words()?),
        };
        Ok(SuggestView::new(&visit.labels(), words, typed)?)
    }

    fn page(visit: &Visit<'_>, view: &Self::View) -> Answer<Leaf> {
        let (herbs, works) = (view.herbs_in_all.to_string(), view.works_in_all.to_string());
        let main = html! {
            div.front {
                h1 { (visit.say(Word::Motto)) }
                p.lead { (visit.fill(Word::InAll, &[&herbs, &works])) }
                form.ask role="search" action="/find" method="get" {
                    (visit.kept_fields())
                    label for="ask" { (visit.say(Word::SearchLabel)) }
                    div.row {
                        (parts::seek_field(visit, "ask", &view.typed))
                        button type="submit" { (visit.say(Word::Search)) }
                    }
                    p.hint { (text(visit, &visit.say(Word::SearchHint))) }
                }
                @if view.typed.is_empty() { (begin(visit)) } @else { (answers(visit, view)) }
            }
        };
        Ok(Leaf {
            title: visit.say(Word::Herbs).into_owned(),
            section: "/",
            main,
        })
    }
}

/// Ways in for whoever has no question yet.
fn begin(visit: &Visit<'_>) -> Markup {
    let herbs = ["bohe", "juhua"];
    let herbs = herbs.into_iter().filter_map(|id| visit.named(id));
    let nature = visit.href(
        "/find",
        &[("flavour", "sweet"), ("nature", "warm"), ("never", "toxic")],
    );
    html! {
        section {
            h2 { (visit.say(Word::BeginWith)) }
            ul.cards {
                @for herb in herbs {
                    li { a href=(visit.herb_href(&herb.id)) {
                        span.big { (plain(visit, &visit.han(&herb.names.hant))) }
                        span { (herb.names.pinyin) @if let Some(english) = &herb.names.english { " · " (english) } }
                    } }
                }
                li { a href=(visit.href("/herb/bohe/against/juhua", &[])) { span.big lang="zh-Hant" { "對" } span { (visit.say(Word::TwoHerbs)) } } }
                li { a href=(nature) { span.big lang="zh-Hant" { "尋" } span { (visit.say(Word::SweetWarm)) } } }
            }
        }
    }
}

fn answers(visit: &Visit<'_>, view: &SuggestView) -> Markup {
    let nothing = view.herbs.is_empty() && view.works.is_empty() && view.values.is_empty();
    html! {
        section {
            h2 { (visit.say(Word::Answers)) }
            @if nothing { p { (visit.say(Word::NothingFound)) } }
            ul.plain {
                @for one in &view.herbs {
                    li { a href=(visit.herb_href(&one.herb.id)) { (plain(visit, &one.herb.name)) " " (one.herb.pinyin) }
                        @if let Some(english) = &one.english { " · " (english) } }
                }
                @for one in &view.works {
                    li { a href=(visit.work_href(&one.id)) { (text(visit, &one.title)) } " · " (one.english) }
                }
                @for one in &view.values {
                    li { a href=(visit.href("/find", &[(one.facet.name(), &one.value.id)])) {
                        (parts::facet(visit, one.facet)) ": " (parts::value(visit, &one.value)) } }
                }
            }
            p { a href=(visit.href("/find", &[("q", &view.typed)])) { (visit.say(Word::InWordings)) } }
        }
    }
}
