//! `/name`: who bears a name.

use maud::{Markup, html};

use super::parts;
use crate::report::ask;
use crate::report::text::Titles;
use crate::report::view::{BearerView, NameView, NearView};
use crate::web::layout::{Leaf, text};
use crate::web::reply::Answer;
use crate::web::route::{Page, Parameter, Takes};
use crate::web::visit::Visit;
use crate::web::words::Word;

/// The page of a name.
pub(crate) struct Name;

impl Page for Name {
    type View = NameView;
    const PATH: &'static str = "/name";
    const SUMMARY: &'static str = "Which herbs bear a name, and which books use it";
    const PARAMETERS: &'static [Parameter] = &[Parameter::one(
        "name",
        Takes::Text,
        "The name, in any script or spelling",
    )];

    fn view(visit: &Visit<'_>) -> Answer<Self::View> {
        let words = visit.shelf().words()?;
        let name = visit
            .asked
            .one("name")
            .unwrap_or_default()
            .trim()
            .to_owned();
        ask::findable(words, std::slice::from_ref(&name))?;
        Ok(NameView::new(&visit.labels(), words, &name)?)
    }

    fn blank(visit: &Visit<'_>) -> Option<Leaf> {
        visit.asked.one("name").is_none().then(|| Leaf {
            title: visit.say(Word::Names).into_owned(),
            section: "/name",
            main: html! { h1 { (visit.say(Word::NamesHead)) } (form(visit)) },
        })
    }

    fn form(visit: &Visit<'_>) -> Option<Markup> {
        Some(form(visit))
    }

    fn page(visit: &Visit<'_>, view: &Self::View) -> Answer<Leaf> {
        let titles = Titles::new(&view.works);
        let main = html! {
            h1 { (visit.say(Word::NamesHead)) }
            (form(visit))
            section aria-labelledby="bearers" {
                h2 #bearers { q { (text(visit, &view.name)) } ": " (visit.fill(Word::HerbsFound, &[&view.bearers.len().to_string()])) }
                @if view.bearers.is_empty() { p { (visit.say(Word::NobodyBears)) } }
                ul.plain { @for one in &view.bearers { (bearer(visit, one)) } }
            }
            @if !view.headings.is_empty() {
                section aria-labelledby="headings" {
                    h2 #headings { (visit.say(Word::Headings)) }
                    ul.plain { @for one in &view.headings { li { (parts::herb(visit, &one.herb)) ": " (parts::works(visit, &titles, &one.works)) } } }
                }
            }
            @if !view.near.is_empty() {
                section aria-labelledby="near" {
                    h2 #near { (visit.say(Word::NearNames)) }
                    ul.plain { @for one in &view.near { (near(visit, one)) } }
                    @if view.near_more > 0 { p { a href=(visit.href("/find", &[("q", &view.name)])) { (visit.fill(Word::NMore, &[&view.near_more.to_string()])) } } }
                }
            }
            (parts::listed(visit, &view.cautions))
        };
        Ok(Leaf {
            title: format!("{}: {}", visit.say(Word::Names), view.name),
            section: "/name",
            main,
        })
    }
}

fn form(visit: &Visit<'_>) -> Markup {
    let name = visit.asked.one("name").unwrap_or_default();
    html! {
        form.search action="/name" method="get" {
            (visit.kept_fields())
            label for="name" { (visit.say(Word::NameLabel)) }
            div.row { input #name type="search" name="name" value=(name) maxlength="120" autocomplete="off" required; button type="submit" { (visit.say(Word::Search)) } }
        }
    }
}

fn bearer(visit: &Visit<'_>, one: &BearerView) -> Markup {
    html! {
        li {
            strong { (parts::herb(visit, &one.herb)) } @if let Some(english) = &one.english { " · " (english) }
            " – " @for (place, what) in one.borne_as.iter().enumerate() { @if place > 0 { ", " } (visit.say(borne(what))) }
            @for note in &one.notes { p.note { (visit.say(Word::AnotherDrug)) " " span lang="en" { (text(visit, note)) } } }
            @if !one.also.is_empty() { p.hint { (visit.say(Word::AlsoCalled)) ": " (text(visit, &one.also.join(" · "))) } }
        }
    }
}

fn borne(what: &str) -> Word {
    match what {
        "name" => Word::AsName,
        "pinyin" => Word::Pinyin,
        "latin" => Word::Latin,
        "english" => Word::AsEnglish,
        "species" => Word::Species,
        "id" => Word::AsId,
        _ => Word::AsAnother,
    }
}

fn near(visit: &Visit<'_>, one: &NearView) -> Markup {
    html! {
        li { (parts::herb(visit, &one.herb)) @if let Some(english) = &one.english { " · " (english) } ": " (text(visit, &one.names.join(" · ")))
            @match one.how { "sounds" => { " " small { (visit.say(Word::NameSounds)) } } "near" => { " " small { (visit.say(Word::NameNear)) } } _ => {} } }
    }
}
