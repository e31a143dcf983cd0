//! The form of a search.

use maud::{Markup, html};

use super::parts;
use crate::claim::{Facet, ValueId};
use crate::report::view::ValueRef;
use crate::web::visit::Visit;
use crate::web::words::Word;

/// The form; its properties are open where nothing was asked yet or one of them is asked.
pub(super) fn form(visit: &Visit<'_>, open: bool) -> Markup {
    let q: Vec<&str> = visit.asked.all("q").collect();
    let open = open && q.is_empty();
    html! {
        form.search action="/find" method="get" role="search" {
            (visit.kept_fields())
            label for="q" { (visit.say(Word::SearchLabel)) }
            div.row { (parts::seek_field(visit, "q", &q.join(" "))) button type="submit" { (visit.say(Word::Search)) } }
            details open[open] {
                summary { (visit.say(Word::ByProperty)) }
                (checks(visit, Facet::Flavour))
                div.fields { @for facet in [Facet::Nature, Facet::Toxicity, Facet::Grade] { (choice(visit, facet)) } }
                (checks(visit, Facet::Channel))
                div.fields {
                    label { (parts::facet(visit, Facet::Action)) " " input type="text" name="action" value=(joined(visit, "action")) maxlength="200"; }
                    label { (visit.say(Word::Never)) " " input type="text" name="never" value=(joined(visit, "never")) maxlength="200"; }
                    label { (visit.say(Word::OnHerb)) " " input type="text" name="herb" value=(joined(visit, "herb")) maxlength="60"; }
                }
                (by(visit))
                (parts::scope_fields(visit))
            }
        }
    }
}

fn joined(visit: &Visit<'_>, name: &str) -> String {
    visit.asked.list(name).join(",")
}

/// All values of a facet in their order.
fn values(visit: &Visit<'_>, facet: Facet) -> Vec<ValueRef> {
    let scheme = visit.corpus().vocabulary.scheme(facet);
    let labels = visit.labels();
    let places = (0..scheme.values().len()).map(|place| ValueId(place as u16));
    places.map(|place| labels.value(facet, place)).collect()
}

fn checks(visit: &Visit<'_>, facet: Facet) -> Markup {
    let asked = visit.asked.list(facet.name());
    html! {
        fieldset.checks {
            legend { (parts::facet(visit, facet)) }
            @for one in values(visit, facet) {
                label { input type="checkbox" name=(facet.name()) value=(one.id) checked[asked.contains(&one.id)]; " " (parts::value(visit, &one)) }
            }
        }
    }
}

/// One value of a scale, or a span that the address asks for.
fn choice(visit: &Visit<'_>, facet: Facet) -> Markup {
    let asked = joined(visit, facet.name());
    let all = values(visit, facet);
    let other = !asked.is_empty() && !all.iter().any(|one| one.id == asked);
    html! {
        label { (parts::facet(visit, facet)) " "
            select name=(facet.name()) {
                option value="" { "–" }
                @if other { option value=(asked) selected { (asked) } }
                @for one in &all { option value=(one.id) selected[one.id == asked] { (parts::value(visit, one)) } }
            }
        }
    }
}

/// How many of the witnesses must say so.
fn by(visit: &Visit<'_>) -> Markup {
    let asked = visit.asked.one("by").unwrap_or("most");
    let words = [
        ("any", Word::ByAny),
        ("most", Word::ByMost),
        ("all", Word::ByAll),
    ];
    html! {
        fieldset.checks {
            legend { (visit.say(Word::HowMany)) }
            @for (value, word) in words {
                label { input type="radio" name="by" value=(value) checked[asked == value]; " " (visit.say(word)) }
            }
        }
    }
}
