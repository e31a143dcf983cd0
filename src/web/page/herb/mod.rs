//! `/herb/{id}`: the sources on one herb side by side.

mod actions;
mod differences;
mod figures;
mod profile;
mod relations;
mod witnesses;

use maud::{Markup, html};

use crate::claim::Facet;
use crate::compare::Selection;
use crate::corpus::{Basis, Herb};
use crate::report::text::Titles;
use crate::report::view::{ComparisonView, HerbView, WorkingView};
use crate::tasting::Own;
use crate::web::layout::{Leaf, findings, han, plain, text};
use crate::web::page::parts;
use crate::web::pieces;
use crate::web::reply::Answer;
use crate::web::route::{AS, Page, Parameter, SCOPE, Takes};
use crate::web::visit::Visit;
use crate::web::words::Word;

/// An herb's page.
pub(crate) struct HerbPage;

/// So many faults of the notebook are told here.
const FAULTS: usize = 5;

/// The facets of an address.
const FACETS: &[&str] = &[
    "flavour", "nature", "toxicity", "grade", "channel", "action",
];

impl Page for HerbPage {
    type View = ComparisonView;
    const PATH: &'static str = "/herb/{id}";
    const SUMMARY: &'static str = "The sources on one herb side by side";
    const PARAMETERS: &'static [Parameter] = &[
        Parameter::many("facet", Takes::OneOf(FACETS), "Compare only these facets"),
        Parameter::one(
            "explain",
            Takes::Flag,
            "The working of every figure too; pages always have it",
        ),
        Parameter::one("taster", Takes::Text, "Only own tastings by this taster"),
        AS,
        SCOPE[0],
        SCOPE[1],
        SCOPE[2],
    ];

    fn view(visit: &Visit<'_>) -> Answer<Self::View> {
        let herb = visit.herb("id")?;
        let selection = visit.selection()?;
        let labels = visit.labels();
        let facets = facets(visit);
        let mut view = ComparisonView::new(&labels, herb, &facets, &selection);
        if facets.len() == Facet::ALL.len() {
            view.relate(&labels, &visit.relations()?, herb, &selection)?;
        }
        let tongue = |facet: &Facet| matches!(facet, Facet::Flavour | Facet::Nature);
        if facets.iter().any(tongue)
            && let Some(own) = own(visit, herb)
        {
            view.taste(&labels, &own);
        }
        if visit.asked.one("explain").is_some() {
            view.explain(&labels, herb, &facets, &selection);
        }
        Ok(view)
    }

    fn page(visit: &Visit<'_>, view: &Self::View) -> Answer<Leaf> {
        let herb = &view.herb;
        let workings = workings(visit, visit.herb("id")?, &visit.selection()?);
        let titles = Titles::new(&view.works);
        let nothing = view.witnesses.is_empty() && view.on_actions_only.is_empty();
        let main = html! {
            article.herb {
                (head(visit, herb))
                (parts::heed(visit, &titles, "cautions", &visit.say(Word::Cautions), &view.heed))
                (parts::filter(visit, &titles, view.filter.as_ref()))
                (notebook_faults(visit))
                @if nothing { p { (visit.say(Word::NobodySpeaks)) } }
                @else { (contents(visit, view)) (record(visit, &titles, view, &workings)?) }
                (choices(visit, herb))
                (pieces::herb_downloads(visit, &herb.id))
                (parts::strip(visit, &[("cautions", &herb.name, &view.heed)]))
            }
        };
        Ok(Leaf {
            title: format!("{} {}", herb.name, herb.pinyin),
            section: "/",
            main,
        })
    }
}

/// The facets asked for, in the order in which they are shown; all where none is named.
fn facets(visit: &Visit<'_>) -> Vec<Facet> {
    let asked = visit.asked.list("facet");
    let wanted = |facet: &Facet| asked.is_empty() || asked.iter().any(|name| name == facet.name());
    Facet::ALL.into_iter().filter(wanted).collect()
}

/// The own tastings of an herb.
pub(crate) fn own(visit: &Visit<'_>, herb: &Herb) -> Option<Own> {
    let (notebook, _) = visit.room.notebook(visit.shelf())?;
    let taster = visit.asked.one("taster");
    let tastings = notebook.of(&herb.id).map(|noted| &noted.tasting);
    let by = |name: &str| taster.is_none_or(|taster| taster == name);
    let tastings = tastings.filter(|one| taster.is_none() || one.taster.as_deref().is_some_and(by));
    Own::new(visit.corpus(), &tastings.collect::<Vec<_>>())
}

/// What in the notebook is not used, with its place.
fn notebook_faults(visit: &Visit<'_>) -> Markup {
    let faults = visit
        .room
        .notebook(visit.shelf())
        .map_or_else(Vec::new, |(_, faults)| faults);
    html! {
        @if !faults.is_empty() {
            section.fault role="status" {
                p { strong { (visit.say(Word::FaultyNotebook)) } }
                (findings(visit, faults.iter().take(FAULTS)))
            }
        }
    }
}

fn workings(visit: &Visit<'_>, herb: &Herb, selection: &Selection) -> Vec<WorkingView> {
    WorkingView::all(&visit.labels(), herb, &facets(visit), selection)
}

/// Who the herb is.
fn head(visit: &Visit<'_>, herb: &HerbView) -> Markup {
    let memory = herb.identity == Basis::Memory;
    let reviewed = [herb.reviewed.to_string(), herb.entries.to_string()];
    html! {
        header.who {
            div.cartouche lang=(han(visit)) aria-hidden="true" { (herb.name) }
            div {
                h1 { (plain(visit, &herb.name)) " " span.sound lang="zh-Latn-pinyin" { (herb.pinyin) } }
                @if let Some(english) = &herb.english { p.english lang="en" { (english) } }
                dl {
                    @if let Some(latin) = &herb.latin { (pair(visit, Word::Latin, html! { span lang="la" { (latin) } @if memory { " " (visit.say(Word::FromMemory)) } })) }
                    @if !herb.species.is_empty() { (pair(visit, Word::Species, html! { i lang="la" { (herb.species.join(", ")) } @if memory { " " (visit.say(Word::FromMemory)) } })) }
                    @if let Some(part) = &herb.part { (pair(visit, Word::PartUsed, text(visit, part))) }
                    @if !herb.also.is_empty() { (pair(visit, Word::AlsoCalled, text(visit, &herb.also.join(" · ")))) }
                    @if !herb.shared.is_empty() { (pair(visit, Word::SharedNames, html! {
                        @for (place, one) in herb.shared.iter().enumerate() { @if place > 0 { "; " } (text(visit, &one.name)) " (" span lang="en" { (text(visit, &one.note)) } ")" } })) }
                    @if let Some(note) = &herb.note { (pair(visit, Word::Note, html! { span lang="en" { (text(visit, note)) } })) }
                    (pair(visit, Word::Reading, html! { (visit.fill(Word::ReviewedOf, &[&reviewed[0], &reviewed[1]])) }))
                }
            }
        }
    }
}

fn pair(visit: &Visit<'_>, word: Word, what: Markup) -> Markup {
    html! { div { dt { (visit.say(word)) } dd { (what) } } }
}

/// The sections of a page with what they are called, those left out that would be empty.
fn sections(view: &ComparisonView) -> Vec<(&'static str, Word)> {
    let all = [
        (
            "profile",
            Word::Consensus,
            view.profile.iter().any(|one| one.witnesses > 0),
        ),
        (
            "differences",
            Word::Differences,
            !view.differences.is_empty(),
        ),
        ("witnesses", Word::SideBySide, !view.witnesses.is_empty()),
        ("figures", Word::Drawings, true),
        ("lines", Word::Lines, !view.witnesses.is_empty()),
        ("actions", Word::Actions, !view.actions.is_empty()),
        (
            "relations",
            Word::Relations,
            view.relations.as_ref().is_some_and(|one| !one.is_empty()),
        ),
        ("own", Word::OwnTongue, view.own.is_some()),
    ];
    let there = all.into_iter().filter(|(.., there)| *there);
    there.map(|(id, word, _)| (id, word)).collect()
}

fn contents(visit: &Visit<'_>, view: &ComparisonView) -> Markup {
    html! {
        nav.contents aria-label=(visit.say(Word::OnThisPage)) {
            ul { @for (id, word) in sections(view) { li { a href={ "#" (id) } { (visit.say(word)) } } } }
        }
    }
}

fn record(
    visit: &Visit<'_>,
    titles: &Titles<'_>,
    view: &ComparisonView,
    workings: &[WorkingView],
) -> Answer<Markup> {
    let mut whole = Vec::new();
    for (id, word) in sections(view) {
        let inner = match id {
            "profile" => profile::profile(visit, titles, view, workings),
            "differences" => differences::differences(visit, titles, view),
            "witnesses" => witnesses::side_by_side(visit, titles, view),
            "figures" => figures::figures(visit, view),
            "lines" => witnesses::lines(visit, titles, view),
            "actions" => actions::actions(visit, titles, view),
            "relations" => relations::relations(visit, titles, view),
            _ => profile::own(visit, view),
        };
        whole.push(html! { section id=(id) aria-labelledby={ (id) "-head" } { h2 id={ (id) "-head" } { (visit.say(word)) } (inner) } });
    }
    Ok(html! { @for one in &whole { (one) } })
}

/// What else can be asked of the herb: other works, another herb beside it.
fn choices(visit: &Visit<'_>, herb: &HerbView) -> Markup {
    html! {
        section.choices aria-labelledby="choices-head" {
            h2 #choices-head { (visit.say(Word::AskFurther)) }
            form action="/against" method="get" {
                (visit.kept_fields())
                input type="hidden" name="one" value=(herb.id);
                label for="other" { (visit.say(Word::BesideAnother)) }
                div.row { input #other type="text" name="other" required maxlength="60"; button type="submit" { (visit.say(Word::Compare)) } }
            }
            form action=(visit.own_path()) method="get" {
                (visit.kept_fields())
                (parts::scope_fields(visit))
                button type="submit" { (visit.say(Word::Count)) }
            }
        }
    }
}
