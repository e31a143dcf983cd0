//! What most books say, with the working behind each figure, and the own tongue beside it.

use maud::{Markup, html};

use crate::claim::Facet;
use crate::report::text::{Titles, worked};
use crate::report::view::{
    ComparisonView, FacetProfile, OwnFigures, SupportView, ValueRef, WorkingView,
};
use crate::web::layout::text;
use crate::web::page::parts;
use crate::web::visit::Visit;
use crate::web::words::Word;

pub(super) fn profile(
    visit: &Visit<'_>,
    titles: &Titles<'_>,
    view: &ComparisonView,
    workings: &[WorkingView],
) -> Markup {
    let spoken = view.profile.iter().filter(|one| one.witnesses > 0);
    html! {
        p.hint { (visit.say(Word::ProfileHint)) }
        @for one in spoken { (facet(visit, titles, one, workings)) }
    }
}

fn facet(
    visit: &Visit<'_>,
    titles: &Titles<'_>,
    profile: &FacetProfile,
    workings: &[WorkingView],
) -> Markup {
    let name = parts::facet(visit, profile.facet);
    let figures = [profile.witnesses.to_string(), profile.lines.to_string()];
    let working = workings.iter().find(|one| one.facet == profile.facet);
    let table = html! {
        table.support {
            thead { tr {
                th scope="col" { (visit.say(Word::Value)) }
                th scope="col" { (visit.say(Word::Books)) }
                th scope="col" { (visit.say(Word::LinesShort)) }
                th scope="col" { (visit.say(Word::Interval)) }
                th scope="col" { (visit.say(Word::FirstIn)) }
                th scope="col" { (visit.say(Word::Verdict)) }
            } }
            tbody { @for one in &profile.values { (row(visit, titles, one)) } }
        }
    };
    html! {
        h3 { (name) " " small { (visit.fill(Word::WitnessesInLines, &[&figures[0], &figures[1]])) } }
        (parts::scroll(&name, &table))
        (middle(visit, titles, profile))
        @if !profile.silent.is_empty() { p.hint { (visit.say(Word::SilentWorks)) " " (parts::works(visit, titles, &profile.silent)) } }
        @if let Some(working) = working {
            @let worked = worked(titles, working, Some(profile));
            details.working {
                summary { (visit.say(Word::Working)) ": " (name) }
                p lang="en" { strong { (worked.head) } }
                dl lang="en" { @for (lead, words) in &worked.rows { div { dt { (text(visit, lead)) } dd { (text(visit, words)) } } } }
                p.hint { (visit.say(Word::WorkingHint)) }
            }
        }
    }
}

fn row(visit: &Visit<'_>, titles: &Titles<'_>, one: &SupportView) -> Markup {
    let degree = !one.any_degree && one.verdict.is_none();
    html! {
        tr.degree[degree] {
            th scope="row" { (parts::value(visit, &one.value)) @if one.any_degree { " " small { (visit.say(Word::AnyDegree)) } } }
            td { (one.k) "/" (one.n) (meter(one.k, one.n)) }
            td { (one.j) "/" (one.m) }
            td { @if let (Some(low), Some(high)) = (one.low, one.high) { (format!("{:.0}–{:.0} %", low * 100.0, high * 100.0)) } }
            td { (parts::work(visit, titles, &one.first)) }
            td { @if let Some(verdict) = one.verdict { (parts::verdict(visit, verdict)) } }
        }
    }
}

/// A bar for the eye alone; the figure stands beside it.
fn meter(k: usize, n: usize) -> Markup {
    html! { svg.meter viewBox="0 0 100 8" width="60" height="5" preserveAspectRatio="none" aria-hidden="true" {
        rect.k-wash width="100" height="8" {}
        rect.k-full-bar width=(format!("{:.1}", 100.0 * k as f64 / n.max(1) as f64)) height="8" {}
    } }
}

/// For ordered facets: median, spread, and who states the highest.
fn middle(visit: &Visit<'_>, titles: &Titles<'_>, profile: &FacetProfile) -> Markup {
    let span = |values: &[ValueRef]| {
        let ends = [values.first(), values.last()];
        html! { @if let [Some(low), Some(high)] = ends {
            (parts::value(visit, low)) @if low != high { " – " (parts::value(visit, high)) }
        } }
    };
    let ordered = !profile.range.is_empty() && profile.facet != Facet::Grade;
    html! {
        @if ordered {
            p {
                (visit.say(Word::Median)) " " (span(&profile.median)) "; "
                (visit.say(Word::MiddleHalf)) " " (span(&profile.quartiles)) "; "
                (visit.say(Word::AllFrom)) " " (span(&profile.range))
            }
        }
        @for one in profile.severest.iter().filter(|one| one.harmful) {
            p { (visit.say(Word::MostSevere)) " " (parts::severest(visit, titles, one)) }
        }
    }
}

/// The own tastings, which are never counted among the books.
pub(super) fn own(visit: &Visit<'_>, view: &ComparisonView) -> Markup {
    let Some(own) = &view.own else {
        return html! {};
    };
    let row = |name: Markup, one: &OwnFigures| {
        html! { tr { th scope="row" { (name) } td { (one.n) } td { (one.median) } td { (one.lowest) } td { (one.highest) } } }
    };
    let table = html! {
        table {
            thead { tr {
                th scope="col" { (visit.say(Word::Scored)) } th scope="col" { (visit.say(Word::Taste)) }
                th scope="col" { (visit.say(Word::Median)) } th scope="col" { (visit.say(Word::Lowest)) } th scope="col" { (visit.say(Word::Highest)) }
            } }
            tbody {
                @for one in &own.flavours { (row(parts::value(visit, &one.value), &one.figures)) }
                @for one in &own.others { (row(html! { span lang="en" { (one.name) } }, &one.figures)) }
            }
        }
    };
    let days = [
        own.tastings.to_string(),
        own.first.clone(),
        own.last.clone(),
    ];
    html! {
        p { (visit.fill(Word::OwnDays, &[&days[0], &days[1], &days[2]])) @if !own.tasters.is_empty() { " " (own.tasters.join(", ")) } }
        (parts::scroll(&visit.say(Word::OwnTongue), &table))
        p.hint { (visit.say(Word::OwnHint)) }
    }
}
