//! `/herb/{id}/against/{other}`: two herbs beside each other.

use maud::{Markup, html};

use super::parts;
use crate::report::ask;
use crate::report::text::Titles;
use crate::report::view::{ActionAgainst, AgainstView, SaidView, SupportCell, ValueAgainst};
use crate::web::layout::{Leaf, plain};
use crate::web::reply::{Answer, Halt, Reply};
use crate::web::route::{AS, Page, Parameter, SCOPE, Takes};
use crate::web::visit::Visit;
use crate::web::words::{Lang, Word};

/// The page of two herbs.
pub(crate) struct Against;

impl Page for Against {
    type View = AgainstView;
    const PATH: &'static str = "/herb/{id}/against/{other}";
    const SUMMARY: &'static str = "Two herbs beside each other: what tells them apart, and what must be known of them together";
    const PARAMETERS: &'static [Parameter] = &[AS, SCOPE[0], SCOPE[1], SCOPE[2]];

    fn view(visit: &Visit<'_>) -> Answer<Self::View> {
        let herbs = [visit.herb("id")?, visit.herb("other")?];
        let relations = visit.relations()?;
        Ok(AgainstView::new(
            &visit.labels(),
            &relations,
            herbs,
            &visit.selection()?,
        )?)
    }

    fn page(visit: &Visit<'_>, view: &Self::View) -> Answer<Leaf> {
        let titles = Titles::new(&view.works);
        let [first, second] = &view.herbs;
        let heads = ["cautions-first", "cautions-second"];
        let main = html! {
            article {
                h1 { a href=(visit.herb_href(&first.id)) { (plain(visit, &first.name)) " " (first.pinyin) } " – "
                    a href=(visit.herb_href(&second.id)) { (plain(visit, &second.name)) " " (second.pinyin) } }
                (together(visit, &titles, view))
                div.two { @for ((herb, heed), id) in view.herbs.iter().zip(&view.heed).zip(heads) {
                    @let head = format!("{}: {}", visit.say(Word::Cautions), herb.name);
                    (parts::heed(visit, &titles, id, &head, heed))
                } }
                (parts::filter(visit, &titles, view.filter.as_ref()))
                section aria-labelledby="side" {
                    h2 #side { (visit.say(Word::SideBySide)) }
                    (parts::scroll(&visit.say(Word::SideBySide), &table(visit, view)))
                    p.hint { (visit.say(Word::AgainstHint)) }
                }
                (actions(visit, view))
                (parts::strip(visit, &[(heads[0], &first.name, &view.heed[0]), (heads[1], &second.name, &view.heed[1])]))
            }
        };
        Ok(Leaf {
            title: format!("{} – {}", first.name, second.name),
            section: "/",
            main,
        })
    }
}

/// `/against?one=…&other=…`, where a form leads: a form cannot write into a path.
pub(crate) fn choose(visit: &Visit<'_>) -> Answer<Reply> {
    let id = |name| {
        let word = visit.asked.one(name).unwrap_or_default();
        let named = ask::herb(visit.corpus(), word).map_err(Halt::missing)?;
        Ok::<_, Halt>(named.herb.id.clone())
    };
    let path = format!("/herb/{}/against/{}", id("one")?, id("other")?);
    Ok(Reply::elsewhere(visit.href(&path, &[])))
}

/// The parameters of [`choose`].
pub(crate) const CHOICE: &[Parameter] = &[
    Parameter::one("one", Takes::Text, "The first herb, by any name"),
    Parameter::one("other", Takes::Text, "The second herb, by any name"),
];

/// What must be known of the two together: what the trade forbids first.
fn together(visit: &Visit<'_>, titles: &Titles<'_>, view: &AgainstView) -> Markup {
    let all = &view.together;
    let (warning, other): (Vec<&SaidView>, Vec<&SaidView>) =
        all.said.iter().partition(|one| one.warns);
    html! {
        section.cautions aria-labelledby="together" {
            h2 #together { (visit.say(Word::Together)) }
            ul {
                @for one in &all.forbidden {
                    li.grave {
                        strong { (plain(visit, &one.han)) @if visit.lang == Lang::En { " " (one.english) } ": " } (parts::herb(visit, &one.one)) " "
                        (visit.say(Word::MustNotMeet)) " " (parts::herb(visit, &one.other))
                        " " small { "(" (plain(visit, &one.one_as)) " – " (plain(visit, &one.other_as)) "; " (one.source) ")" }
                    }
                }
                @for one in warning { li.grave { (said(visit, titles, one)) } }
                @if all.forbidden.is_empty() { li { (visit.say(Word::NotForbidden)) } }
                @for one in other { li { (said(visit, titles, one)) } }
            }
        }
    }
}

fn said(visit: &Visit<'_>, titles: &Titles<'_>, one: &SaidView) -> Markup {
    html! {
        (parts::herb(visit, &one.one)) " " strong { (plain(visit, &one.han)) @if visit.lang == Lang::En { " " (one.english) } } " " (parts::herb(visit, &one.other))
        ": " (parts::works(visit, titles, &one.said.works))
        @if one.said.doubtful { " · " (visit.say(Word::AllDoubtful)) }
        @if one.said.of_scope_only { " · " (visit.say(Word::OfScopeOnly)) }
        @if one.ambiguous { " · " (visit.say(Word::AmbiguousName)) }
    }
}

fn table(visit: &Visit<'_>, view: &AgainstView) -> Markup {
    let mut last = None;
    let rows: Vec<(bool, &ValueAgainst)> = view
        .values
        .iter()
        .map(|row| (last.replace(row.facet) != Some(row.facet), row))
        .collect();
    html! {
        table {
            thead { tr {
                th scope="col" { (visit.say(Word::Facet)) } th scope="col" { (visit.say(Word::Value)) }
                @for herb in &view.herbs { th scope="col" { (plain(visit, &herb.name)) " " (herb.pinyin) } }
                th scope="col" { (visit.say(Word::ToldApart)) }
            } }
            tbody { @for (begins, row) in rows {
                tr.begins[begins] {
                    td { @if begins { (parts::facet(visit, row.facet)) } }
                    th scope="row" { (parts::value(visit, &row.value)) }
                    td { (cell(&row.first)) } td { (cell(&row.second)) }
                    td { @if row.distinct { "◆ " (visit.say(Word::Apart)) } }
                }
            } }
        }
    }
}

fn cell(cell: &SupportCell) -> String {
    let interval = match cell.low.zip(cell.high) {
        Some((low, high)) => format!(" ({:.0}–{:.0} %)", low * 100.0, high * 100.0),
        None => String::new(),
    };
    match cell.n {
        0 => "–".to_owned(),
        n => format!("{}/{n}{interval}", cell.k),
    }
}

fn actions(visit: &Visit<'_>, view: &AgainstView) -> Markup {
    let [first, second] = &view.herbs;
    let only = |one: &&ActionAgainst, first: bool| one.distinct && (one.second == 0) == first;
    let all = || view.actions.iter();
    let both = all()
        .filter(|one| one.first > 0 && one.second > 0)
        .collect();
    let lists: [(String, Vec<&ActionAgainst>); 3] = [
        (
            visit.fill(Word::OnlyOf, &[&first.name]),
            all().filter(|one| only(one, true)).collect(),
        ),
        (
            visit.fill(Word::OnlyOf, &[&second.name]),
            all().filter(|one| only(one, false)).collect(),
        ),
        (visit.say(Word::OfBoth).into_owned(), both),
    ];
    html! {
        @if !view.actions.is_empty() {
            section aria-labelledby="does" {
                h2 #does { (visit.say(Word::Actions)) }
                div.three { @for (head, list) in lists.iter().filter(|(_, list)| !list.is_empty()) {
                    div {
                        h3 { (crate::web::layout::text(visit, head)) }
                        ul.plain { @for one in list { li { (parts::value(visit, &one.action)) " " span.count { (one.first) " – " (one.second) } } } }
                    }
                } }
                p.hint { (visit.say(Word::AgainstActions)) }
            }
        }
    }
}
