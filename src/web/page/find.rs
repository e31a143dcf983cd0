//! `/find`: herbs and sayings by words and properties.

use maud::{Markup, html};

use super::{find_form, parts};
use crate::claim::Facet;
use crate::compare::By;
use crate::report::ask::{self, Sought};
use crate::report::text::Titles;
use crate::report::view::{FacetCountView, FindView, FoundHerb, FoundSaying, Shown};
use crate::web::layout::{Leaf, text};
use crate::web::reply::Answer;
use crate::web::route::{Page, Parameter, SCOPE, Takes};
use crate::web::visit::Visit;
use crate::web::words::{Lang, Word};

/// The page of what was found.
pub(crate) struct Find;

/// The words for how many witnesses must say so.
const BY: &[&str] = &["any", "most", "all"];
/// So many herbs are shown unless told otherwise, and at most.
const TOP: (usize, usize) = (10, 100);
/// So many sayings of each.
const SAYINGS: (usize, usize) = (3, 1000);

impl Page for Find {
    type View = FindView;
    const PATH: &'static str = "/find";
    const SUMMARY: &'static str = "Herbs and sayings by words and properties";
    const PARAMETERS: &'static [Parameter] = &[
        Parameter::many(
            "q",
            Takes::Text,
            "Phrases of the wordings or names of herbs; what stands between quotation marks stays together",
        ),
        Parameter::one("any", Takes::Flag, "One phrase is enough"),
        Parameter::many("flavour", Takes::Text, "Herbs of this flavour"),
        Parameter::many(
            "nature",
            Takes::Text,
            "Herbs of this nature, or of a span: warm..hot",
        ),
        Parameter::many(
            "toxicity",
            Takes::Text,
            "Herbs of this toxicity, or of a span",
        ),
        Parameter::many("grade", Takes::Text, "Herbs of this grade"),
        Parameter::many("channel", Takes::Text, "Herbs that enter this channel"),
        Parameter::many("action", Takes::Text, "Herbs with this action"),
        Parameter::one(
            "by",
            Takes::OneOf(BY),
            "How many of the witnesses must say so; default: most",
        ),
        Parameter::many("never", Takes::Text, "Only herbs of which nobody says this"),
        Parameter::one("herb", Takes::Text, "Only sayings on this herb"),
        Parameter::one("top", Takes::Whole, "Show so many herbs"),
        Parameter::one("skip", Takes::Whole, "Pass over so many herbs first"),
        Parameter::one("sayings", Takes::Whole, "Show so many sayings of a herb"),
        SCOPE[0],
        SCOPE[1],
        SCOPE[2],
    ];

    fn view(visit: &Visit<'_>) -> Answer<Self::View> {
        let corpus = visit.corpus();
        let (search, _) = ask::search(corpus, sought(visit)?)?;
        let mut words = None;
        if !search.words.phrases.is_empty() {
            let index = visit.shelf().words()?;
            ask::findable(index, &search.words.phrases)?;
            words = Some(index);
        }
        let hits = visit.shelf().library.find(&search, words)?;
        let page = Shown {
            skip: visit.whole("skip", 0, usize::from(u16::MAX))?,
            herbs: visit.whole("top", TOP.0, TOP.1)?,
            sayings: visit.whole("sayings", SAYINGS.0, SAYINGS.1)?,
        };
        Ok(FindView::new(&visit.labels(), &search, &hits, words, page)?)
    }

    fn blank(visit: &Visit<'_>) -> Option<Leaf> {
        let kept = ["lang", "script", "pinyin"];
        let asked = visit
            .asked
            .pairs()
            .iter()
            .any(|(name, _)| !kept.contains(&name.as_str()));
        (!asked).then(|| Leaf {
            title: visit.say(Word::Find).into_owned(),
            section: "/find",
            main: html! { h1 { (visit.say(Word::FindHead)) } (find_form::form(visit, true)) },
        })
    }

    fn form(visit: &Visit<'_>) -> Option<Markup> {
        Some(find_form::form(visit, true))
    }

    fn page(visit: &Visit<'_>, view: &Self::View) -> Answer<Leaf> {
        let titles = Titles::new(&view.works);
        let figures = [view.herbs_found.to_string(), view.sayings_found.to_string()];
        let main = html! {
            h1 { (visit.say(Word::FindHead)) }
            (find_form::form(visit, false))
            (parts::filter(visit, &titles, view.filter.as_ref()))
            section aria-labelledby="found" {
                h2 #found {
                    @if view.phrases.is_empty() { (visit.fill(Word::HerbsFound, &[&figures[0]])) }
                    @else { (visit.fill(Word::SayingsFound, &[&figures[1], &figures[0]])) }
                }
                (chosen(visit, view))
                @if view.herbs.is_empty() { p { (visit.say(Word::NothingFound)) } }
                ol.found start=(view.skipped + 1) { @for one in &view.herbs { (found(visit, &titles, view, one)) } }
                (pages(visit, view))
            }
            (counts(visit, &titles, view))
            (parts::listed(visit, &view.cautions))
        };
        let title = match view.phrases.is_empty() {
            true => visit.say(Word::Find).into_owned(),
            false => format!("{}: {}", visit.say(Word::Find), view.phrases.join(" · ")),
        };
        Ok(Leaf {
            title,
            section: "/find",
            main,
        })
    }
}

fn sought(visit: &Visit<'_>) -> Answer<Sought> {
    let corpus = visit.corpus();
    let lines = visit.asked.all("q");
    let by = visit
        .asked
        .one("by")
        .and_then(|word| By::WORDS.iter().find(|(one, _)| *one == word));
    Ok(Sought {
        phrases: lines.flat_map(|line| ask::phrases(corpus, line)).collect(),
        any: visit.asked.one("any").is_some(),
        properties: [
            Facet::Flavour,
            Facet::Nature,
            Facet::Toxicity,
            Facet::Grade,
            Facet::Channel,
            Facet::Action,
        ]
        .map(|facet| (facet, visit.asked.list(facet.name())))
        .into(),
        by: by.map_or(By::Most, |(_, by)| *by),
        never: visit.asked.list("never"),
        herb: visit.asked.one("herb").map(str::to_owned),
        selection: visit.selection()?,
    })
}

/// What is looked for, each with the way to leave it out.
fn chosen(visit: &Visit<'_>, view: &FindView) -> Markup {
    let without = |name: &str, value: &str| visit.without(name, value);
    let facets = Facet::ALL.map(Facet::name);
    let chosen: Vec<(&str, &str)> = visit
        .asked
        .pairs()
        .iter()
        .map(|(name, value)| (name.as_str(), value.as_str()))
        .filter(|(name, _)| facets.contains(name) || *name == "never" || *name == "herb")
        .collect();
    html! {
        @if !view.wanted.is_empty() || !chosen.is_empty() {
            p { (visit.say(match view.by { "any" => Word::ByAny, "all" => Word::ByAll, _ => Word::ByMost })) }
            ul.chips { @for (name, value) in chosen {
                li { a.chip href=(without(name, value)) { (chip(visit, name, value)) " " span aria-hidden="true" { "×" } span.read { (visit.say(Word::LeaveOut)) } } }
            } }
        }
    }
}

/// A property by its labels; a span, or what no value is called, as it was asked.
fn chip(visit: &Visit<'_>, name: &str, value: &str) -> Markup {
    let facet = Facet::ALL.into_iter().find(|facet| facet.name() == name);
    let labels = visit.labels();
    let known = facet.and_then(|facet| {
        let place = visit.corpus().vocabulary.scheme(facet).place(value)?;
        Some(labels.value(facet, place))
    });
    let lead = match (facet, name) {
        (Some(facet), _) => parts::facet(visit, facet),
        (None, "never") => visit.say(Word::Never),
        (None, _) => visit.say(Word::OnHerb),
    };
    html! {
        (lead) ": "
        @if let Some(known) = &known { (parts::value(visit, known)) } @else { (text(visit, value)) }
    }
}

fn found(visit: &Visit<'_>, titles: &Titles<'_>, view: &FindView, one: &FoundHerb) -> Markup {
    let why = one.name.map(|how| match how {
        "exact" => Word::NameExact,
        "begins" => Word::NameBegins,
        "sounds" => Word::NameSounds,
        "near" => Word::NameNear,
        _ => Word::NameContains,
    });
    let behind = one.sayings - one.shown.len();
    let all = visit.here(&[
        ("herb", Some(&one.herb.id)),
        ("sayings", Some(&one.sayings.to_string())),
        ("skip", None),
    ]);
    html! {
        li {
            p.name {
                strong { (parts::herb(visit, &one.herb)) }
                @if let Some(english) = &one.english { " · " (english) }
                @if let Some(why) = why { " " small { (visit.say(why)) } }
                @if view.cautions.iter().any(|listed| listed.herb.id == one.herb.id) {
                    " " a.warned href="#cautions-head" { (visit.say(Word::GraveCautions)) }
                }
            }
            @if !one.backing.is_empty() {
                p.backing { @for (place, (wanted, backing)) in view.wanted.iter().zip(&one.backing).enumerate() {
                    @if place > 0 { "; " }
                    (parts::value(visit, &wanted.from)) @if wanted.from != wanted.to { " – " (parts::value(visit, &wanted.to)) }
                    " " (backing.k) "/" (backing.n) " " span.count { (visit.fill(Word::LinesOf, &[&backing.j.to_string(), &backing.m.to_string()])) }
                } }
            }
            @if !one.shown.is_empty() { ul.evidence { @for saying in &one.shown { (self::saying(visit, titles, saying)) } } }
            @if behind > 0 { p { a href=(all) { (visit.fill(Word::MoreSayings, &[&behind.to_string()])) } } }
        }
    }
}

/// A wording with what was looked for marked in it.
fn saying(visit: &Visit<'_>, titles: &Titles<'_>, one: &FoundSaying) -> Markup {
    let letters: Vec<char> = one.wording.chars().collect();
    let mut pieces: Vec<(bool, String)> = Vec::new();
    for (place, c) in letters.iter().enumerate() {
        let marked = one
            .marks
            .iter()
            .any(|(from, to)| (*from..*to).contains(&place));
        match pieces.last_mut() {
            Some((same, piece)) if *same == marked => piece.push(*c),
            _ => pieces.push((marked, c.to_string())),
        }
    }
    html! {
        li {
            (parts::work(visit, titles, &one.work)) " "
            q lang="zh" { @for (marked, piece) in &pieces { @if *marked { mark { (piece) } } @else { (piece) } } }
            " " (parts::values(visit, &one.values))
            @for relation in &one.relations { " · " (if visit.lang == Lang::Zh { relation.kind.hant() } else { relation.kind.english() }) " " (text(visit, &relation.drug)) }
            @if let Some(at) = &one.at { " " span.place lang="zh" { @if let Some(section) = &at.section { (section) " · " } (at.heading) } }
            @if !one.through.is_empty() { " " (visit.say(Word::Through)) " " (parts::works(visit, titles, &one.through)) }
            @if one.doubt.is_some() { " · " (visit.say(Word::Doubtful)) }
        }
    }
}

fn pages(visit: &Visit<'_>, view: &FindView) -> Markup {
    let step = visit.whole("top", TOP.0, TOP.1).unwrap_or(TOP.0).max(1);
    let next = view.skipped + view.herbs.len();
    let before = view.skipped.saturating_sub(step);
    let to = |place: usize| {
        let place = place.to_string();
        let skip = (place != "0").then_some(place.as_str());
        visit.here(&[("skip", skip)])
    };
    html! {
        @if view.skipped > 0 || next < view.herbs_found {
            nav.pages aria-label=(visit.say(Word::Pages)) {
                @if view.skipped > 0 { a rel="prev" href=(to(before)) { "← " (visit.say(Word::Before)) } }
                @if next < view.herbs_found { a rel="next" href=(to(next)) { (visit.say(Word::Next)) " →" } }
            }
        }
    }
}

/// Among all that was found: each property narrows the search.
fn counts(visit: &Visit<'_>, titles: &Titles<'_>, view: &FindView) -> Markup {
    let of = |facet: Facet| view.facets.iter().filter(move |one| one.facet == facet);
    let facets = Facet::ALL
        .into_iter()
        .filter(|facet| of(*facet).next().is_some());
    let facets: Vec<Facet> = facets.collect();
    html! {
        @if view.herbs_found > 1 {
            section.counts aria-labelledby="counts" {
                h2 #counts { (visit.say(Word::AmongThem)) }
                p.hint { (visit.say(Word::AmongHint)) }
                @for facet in facets {
                    h3 { (parts::facet(visit, facet)) }
                    ul.chips { @for one in of(facet) { li { (count(visit, one)) } } }
                }
                @if !view.by_work.is_empty() {
                    details { summary { (visit.say(Word::ByWork)) }
                        ul.chips { @for one in &view.by_work { li { (parts::work(visit, titles, &one.work)) " " (one.sayings) } } } }
                }
            }
        }
    }
}

fn count(visit: &Visit<'_>, one: &FacetCountView) -> Markup {
    let href = visit.with(one.facet.name(), &one.value.id);
    html! { a.chip href=(href) { (parts::value(visit, &one.value)) " " (one.herbs) } }
}
