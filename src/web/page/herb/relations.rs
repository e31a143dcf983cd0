//! What is said of the herb and other drugs.

use maud::{Markup, html};

use crate::report::text::Titles;
use crate::report::view::{ComparisonView, RelatedDrug, RelationGroup};
use crate::web::layout::{plain, text};
use crate::web::page::parts;
use crate::web::visit::Visit;
use crate::web::words::{Lang, Word};

pub(super) fn relations(visit: &Visit<'_>, titles: &Titles<'_>, view: &ComparisonView) -> Markup {
    let Some(relations) = &view.relations else {
        return html! {};
    };
    html! {
        @for one in &relations.own { (group(visit, titles, one)) }
        @if !relations.of_others.is_empty() {
            h3 { (visit.say(Word::InOtherArticles)) }
            @for one in &relations.of_others { (group(visit, titles, one)) }
        }
        p.hint { (visit.say(Word::RelationsHint)) }
    }
}

fn group(visit: &Visit<'_>, titles: &Titles<'_>, group: &RelationGroup) -> Markup {
    html! {
        div.relation {
            p { strong { (plain(visit, &group.han)) @if visit.lang == Lang::En { " " (group.english) } } }
            div { @for one in &group.drugs { (drug(visit, titles, one)) } }
        }
    }
}

fn drug(visit: &Visit<'_>, titles: &Titles<'_>, one: &RelatedDrug) -> Markup {
    let works = one.said.works.len().to_string();
    html! {
        details.concept {
            summary {
                (text(visit, &one.name)) " "
                span.count {
                    (visit.fill(Word::NBooks, &[&works]))
                    @if one.said.of_scope_only { " °" } @if one.said.doubtful { " ?" }
                }
            }
            @if !one.herbs.is_empty() {
                p { @for (place, id) in one.herbs.iter().enumerate() { @if place > 0 { " · " } a href=(visit.herb_href(id)) { (id) } } }
            }
            ul.evidence { @for said in &one.said.statements {
                li {
                    (parts::work(visit, titles, &said.work))
                    @if let Some(wording) = &said.wording { " " q lang="zh" { (wording) } }
                    @if let Some(scope) = &said.scope { " (" (text(visit, scope)) ")" }
                    @if let Some(at) = &said.at { " " span.place lang="zh" { (at.heading) } }
                    @if !said.through.is_empty() { " " (visit.say(Word::Through)) " " (parts::works(visit, titles, &said.through)) }
                    @if said.doubt.is_some() { " · " (visit.say(Word::Doubtful)) }
                }
            } }
        }
    }
}
