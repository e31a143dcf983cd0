//! What the herb is said to do, and the contrary.

use maud::{Markup, html};

use super::witnesses::source;
use crate::report::text::Titles;
use crate::report::view::{ComparisonView, ConceptView, OpposedView, ReconciledView};
use crate::web::layout::text;
use crate::web::page::parts;
use crate::web::visit::Visit;
use crate::web::words::Word;

pub(super) fn actions(visit: &Visit<'_>, titles: &Titles<'_>, view: &ComparisonView) -> Markup {
    let several = |one: &&ConceptView| one.witnesses.len() + one.of_scope_only.len() > 1;
    let (shared, single): (Vec<_>, Vec<_>) = view.actions.iter().partition(several);
    html! {
        p.hint { (visit.say(Word::ActionsHint)) }
        @for one in shared { (concept(visit, titles, one)) }
        @if !single.is_empty() {
            details {
                summary { (visit.fill(Word::OneWorkEach, &[&single.len().to_string()])) }
                @for one in single { (concept(visit, titles, one)) }
            }
        }
        @if !view.opposed.is_empty() {
            h3 { (visit.say(Word::Contrary)) }
            p.hint { (visit.say(Word::OpposedHint)) }
            @for pair in &view.opposed { (opposed(visit, titles, pair)) }
        }
    }
}

/// An action, with the statements behind it one click away.
fn concept(visit: &Visit<'_>, titles: &Titles<'_>, one: &ConceptView) -> Markup {
    let figures = [one.witnesses.len().to_string(), one.lines.to_string()];
    html! {
        details.concept {
            summary {
                (parts::value(visit, &one.action)) " "
                span.count {
                    @if !one.witnesses.is_empty() { (visit.fill(Word::WorksInLines, &[&figures[0], &figures[1]])) }
                    @if !one.of_scope_only.is_empty() { " " (visit.fill(Word::OfScopeN, &[&one.of_scope_only.len().to_string()])) }
                }
            }
            ul.evidence { @for stated in &one.statements {
                li.uncounted[!stated.statement.counted] {
                    (parts::work(visit, titles, &stated.work)) ": " (text(visit, &stated.statement.text))
                    (source(visit, titles, &stated.statement))
                }
            } }
        }
    }
}

fn opposed(visit: &Visit<'_>, titles: &Titles<'_>, pair: &OpposedView) -> Markup {
    html! {
        div.difference {
            div.sides { @for one in [&pair.stronger, &pair.weaker] {
                div.side {
                    p.label { strong { (parts::value(visit, &one.action)) } " " span.count { (visit.fill(Word::WorksInLines, &[&one.witnesses.len().to_string(), &one.lines.to_string()])) } }
                    p { (parts::works(visit, titles, &one.witnesses)) }
                    @if !one.of_scope_only.is_empty() { p { (visit.say(Word::OfScopeOnly)) ": " (parts::works(visit, titles, &one.of_scope_only)) } }
                }
            } }
            @if !pair.both.is_empty() { p { (visit.say(Word::Both)) " " (parts::works(visit, titles, &pair.both)) } }
            @if !pair.both_by_scope.is_empty() { p { (visit.say(Word::BothByScope)) " " (parts::works(visit, titles, &pair.both_by_scope)) } }
            @if !pair.reconciled.is_empty() {
                p { (visit.say(Word::ToldApartBy)) }
                ul { @for one in &pair.reconciled { (reconciled(visit, titles, one)) } }
            }
        }
    }
}

fn reconciled(visit: &Visit<'_>, titles: &Titles<'_>, one: &ReconciledView) -> Markup {
    html! {
        li {
            (parts::value(visit, &one.action))
            @if let Some(scope) = &one.scope { " (" (text(visit, scope)) ")" }
            @if let Some(partner) = &one.partner { " " q lang="zh" { (partner) } }
            ": " (parts::works(visit, titles, &one.works))
        }
    }
}
