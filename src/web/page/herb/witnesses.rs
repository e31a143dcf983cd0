//! What each book says, and by which lines it has come.

use maud::{Markup, html};

use crate::claim::Facet;
use crate::report::chart::Said;
use crate::report::text::{Titles, short_year};
use crate::report::view::{ComparisonView, ScalesView, StandView, StatementView, WitnessRow};
use crate::web::layout::{plain, text};
use crate::web::page::parts;
use crate::web::visit::Visit;
use crate::web::words::{Lang, Word};

/// The facets that stand in words.
const IN_WORDS: [Facet; 4] = [Facet::Nature, Facet::Toxicity, Facet::Channel, Facet::Grade];

pub(super) fn side_by_side(
    visit: &Visit<'_>,
    titles: &Titles<'_>,
    view: &ComparisonView,
) -> Markup {
    let scales = ScalesView::new(&visit.labels());
    let named = |said: Said| !matches!(said, Said::Denied | Said::Silent | Said::Unquoted);
    let stated = |id: &str| view.witnesses.iter().any(|row| named(Said::of(row, id)));
    let flavours: Vec<_> = scales
        .flavours
        .iter()
        .filter(|one| stated(&one.id))
        .collect();
    let stands = |facet: &Facet| {
        view.witnesses
            .iter()
            .any(|row| row.stands.contains_key(facet))
    };
    let others: Vec<Facet> = IN_WORDS.into_iter().filter(stands).collect();
    let table = html! {
        table.matrix {
            thead { tr {
                th scope="col" { (visit.say(Word::Work)) } th scope="col" { (visit.say(Word::Year)) }
                @for flavour in &flavours { th.sign scope="col" { (plain(visit, &flavour.han)) @if visit.lang == Lang::En { br; small { (flavour.english) } } } }
                @for facet in &others { th scope="col" { (parts::facet(visit, *facet)) } }
            } }
            tbody { @for row in &view.witnesses {
                tr {
                    th scope="row" { (parts::work(visit, titles, &row.work)) }
                    td.year { (titles.work(&row.work).map_or_else(String::new, short_year)) }
                    @for flavour in &flavours { td.sign { (sign(visit, Said::of(row, &flavour.id))) } }
                    @for facet in &others { td { (stand(visit, row, *facet)) } }
                }
            } }
        }
    };
    html! {
        (parts::scroll(&visit.say(Word::SideBySide), &table))
        p.hint { (key(visit)) }
        @if !view.on_actions_only.is_empty() {
            p { (visit.say(Word::OnActionsOnly)) " " (parts::works(visit, titles, &view.on_actions_only)) }
        }
        details.wordings {
            summary { (visit.say(Word::Wordings)) }
            @for row in &view.witnesses { (wordings(visit, titles, row)) }
        }
    }
}

/// A sign is read out by its word.
fn sign(visit: &Visit<'_>, said: Said) -> Markup {
    html! { span aria-hidden="true" { (said.sign()) } span.read { (said_word(visit, said)) } }
}

fn said_word(visit: &Visit<'_>, said: Said) -> String {
    let word = match said {
        Said::Plainly => Word::Said,
        Said::Slightly => Word::Slightly,
        Said::Greatly => Word::Greatly,
        Said::OfScope => Word::OfScopeOnly,
        Said::Denied => Word::Denied,
        Said::Silent => Word::Silent,
        Said::Unquoted => Word::Unquoted,
    };
    visit.say(word).into_owned()
}

fn key(visit: &Visit<'_>) -> Markup {
    html! {
        @for said in Said::ALL { span.nobr { (said.sign()) " " (said_word(visit, said)) } "; " }
        (visit.say(Word::OtherSigns))
    }
}

fn stand(visit: &Visit<'_>, row: &WitnessRow, facet: Facet) -> Markup {
    let Some(stand) = row.stands.get(&facet) else {
        return html! { @if row.silent.contains(&facet) { (sign(visit, Said::Silent)) } };
    };
    let doubtful = stand
        .statements
        .iter()
        .any(|one| one.counted && one.doubt.is_some());
    html! {
        (text(visit, &stand.text))
        @if stand.carriers_differ { " " span title=(visit.say(Word::CarriersDiffer)) { "≠" } }
        @if doubtful { " " span title=(visit.say(Word::Doubtful)) { "?" } }
    }
}

/// What a book says in its words, facet by facet.
fn wordings(visit: &Visit<'_>, titles: &Titles<'_>, row: &WitnessRow) -> Markup {
    html! {
        h3 { (parts::work(visit, titles, &row.work)) " " small { (titles.work(&row.work).map_or("", |work| work.date.as_str())) } }
        ul.evidence { @for (facet, stand) in &row.stands { @for one in &stand.statements { (evidence(visit, titles, *facet, one)) } } }
    }
}

fn evidence(visit: &Visit<'_>, titles: &Titles<'_>, facet: Facet, one: &StatementView) -> Markup {
    html! {
        li.uncounted[!one.counted] {
            (parts::facet(visit, facet)) ": " strong { (text(visit, &one.text)) }
            (source(visit, titles, one))
            @if !one.counted { " · " (visit.say(Word::NotCounted)) }
        }
    }
}

/// Where a statement comes from: scope, wording, place, carriers, doubt.
pub(super) fn source(visit: &Visit<'_>, titles: &Titles<'_>, one: &StatementView) -> Markup {
    html! {
        @if let Some(scope) = &one.scope { " (" (text(visit, scope)) ")" }
        @if let Some(wording) = &one.wording { " " q lang="zh" { (wording) } }
        @if let Some(at) = &one.at {
            " " span.place lang="zh" { @if let Some(section) = &at.section { (section) " · " } (at.heading) }
        }
        @if !one.through.is_empty() { " " (visit.say(Word::Through)) " " (parts::works(visit, titles, &one.through)) }
        @if let Some(doubt) = &one.doubt { " · " (visit.say(Word::Doubtful)) ": " span lang="en" { (text(visit, doubt)) } }
    }
}

/// The lines of transmission, facet by facet: who repeats whom.
pub(super) fn lines(visit: &Visit<'_>, titles: &Titles<'_>, view: &ComparisonView) -> Markup {
    let facets = [
        Facet::Flavour,
        Facet::Nature,
        Facet::Toxicity,
        Facet::Grade,
        Facet::Channel,
    ];
    let counted = |facet: Facet| {
        let rows = view.witnesses.iter();
        rows.filter_map(move |row| {
            row.stands
                .get(&facet)
                .filter(|stand| stand.line.is_some())
                .map(|stand| (row, stand))
        })
        .collect::<Vec<(&WitnessRow, &StandView)>>()
    };
    html! {
        p.hint { (visit.say(Word::LinesText)) }
        @for facet in facets {
            @let rows = counted(facet);
            @if !rows.is_empty() {
                details {
                    summary { (parts::facet(visit, facet)) }
                    (lines_of(visit, titles, facet, rows))
                }
            }
        }
    }
}

fn lines_of(
    visit: &Visit<'_>,
    titles: &Titles<'_>,
    facet: Facet,
    mut rows: Vec<(&WitnessRow, &StandView)>,
) -> Markup {
    // Witnesses come oldest first and stay so within their line.
    rows.sort_by_key(|(_, stand)| stand.line);
    let table = html! {
        table {
            thead { tr {
                th scope="col" { (visit.say(Word::Line)) } th scope="col" { (visit.say(Word::Work)) }
                th scope="col" { (visit.say(Word::Year)) } th scope="col" { (parts::facet(visit, facet)) } th scope="col" { (visit.say(Word::DrawsOn)) }
            } }
            tbody { @for (row, stand) in &rows {
                @let work = titles.work(&row.work);
                @let here: Vec<String> = work.map(|work| work.draws_on.iter().filter(|id| rows.iter().any(|(one, _)| one.work == **id)).cloned().collect()).unwrap_or_default();
                tr {
                    td { (stand.line.unwrap_or_default()) }
                    th scope="row" { (parts::work(visit, titles, &row.work)) }
                    td.year { (work.map_or_else(String::new, short_year)) }
                    td { (text(visit, &stand.text)) }
                    td { (parts::works(visit, titles, &here)) }
                }
            } }
        }
    };
    parts::scroll(&parts::facet(visit, facet), &table)
}
