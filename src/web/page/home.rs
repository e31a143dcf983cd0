//! `/`: where a search begins.

use maud::html;

use crate::report::view::SuggestView;
use crate::web::layout::{Leaf, text};
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
        Ok(SuggestView::new(
            &visit.labels(),
            visit.shelf().words()?,
            typed,
        )?)
    }

    fn page(visit: &Visit<'_>, view: &Self::View) -> Answer<Leaf> {
        let main = html! {
            h1 { (visit.say(Word::Motto)) }
            p { (visit.say(Word::SearchHint)) }
            ul { @for one in &view.herbs {
                li { a href=(visit.herb_href(&one.herb.id)) { (text(visit, &one.herb.name)) " " (one.herb.pinyin) }
                    @if let Some(english) = &one.english { " · " (english) } }
            } }
        };
        Ok(Leaf {
            title: visit.say(Word::Herbs).into_owned(),
            section: "/",
            main,
        })
    }
}
