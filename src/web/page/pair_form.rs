//! The form of a pair or formula.

use std::borrow::Cow;

use maud::{Markup, html};

use super::pair::rows;
use crate::claim::Quantity;
use crate::measure::Measures;
use crate::report::ask::Failure;
use crate::web::fields::{self, Input};
use crate::web::layout::han;
use crate::web::reply::Answer;
use crate::web::visit::Visit;
use crate::web::words::{Lang, Word};

/// So many rows are there at the least, and so many empty ones below those that are filled in.
const ROWS: usize = 3;

/// The form, filled in as it was asked.
pub(super) fn form(visit: &Visit<'_>) -> Answer<Markup> {
    let rows = rows(visit);
    let empty = if rows.len() < 2 { ROWS - rows.len() } else { 1 };
    let blank = std::iter::repeat_n((String::new(), None), empty);
    let all: Vec<(String, Option<String>)> = rows.into_iter().chain(blank).collect();
    Ok(html! {
        form.filters.formula method="get" action="/pair" data-live="" {
            (visit.kept_fields())
            fieldset.rows {
                legend { (visit.either("Herbs with their amounts", "藥物與用量")) }
                @for (place, (name, amount)) in all.iter().enumerate() {
                    (row(visit, place + 1, name, amount.as_deref()))
                }
            }
            (units(visit)?)
            details open[is_special(visit)] {
                summary { (visit.either("Balance, assumptions, works", "平衡、假設、書目")) }
                (special(visit))
            }
            button type="submit" { (visit.say(Word::Show)) }
        }
    })
}

fn row(visit: &Visit<'_>, number: usize, name: &str, amount: Option<&str>) -> Markup {
    let (herb, grams) = (format!("herb-{number}"), format!("amount-{number}"));
    html! {
        div.herb-row {
            label for=(herb) { (visit.say(Word::Herb)) " " (number) }
            input id=(herb) name="herb" type="text" value=(name) lang=(han(visit)) maxlength="60" autocomplete="off";
            label for=(grams) { (visit.say(Word::Amount)) " " (number) }
            input id=(grams) name="amount" type="number" min="0" step="any" value=(amount.unwrap_or_default()) data-slider="30";
        }
    }
}

/// Grams, parts, or the units of old with their period.
fn units(visit: &Visit<'_>) -> Answer<Markup> {
    let measures = Measures::new(&visit.corpus().vocabulary.measures)
        .map_err(|error| Failure::new(error.to_string()))?;
    let old = measures.units().map(|(_, unit)| unit);
    let old = old.filter(|unit| unit.measures == Quantity::Weight);
    let labels = visit.labels();
    let mut options: Vec<(&str, Cow<'_, str>)> = vec![
        ("", visit.either("grams", "克")),
        ("parts", visit.either("parts", "份")),
    ];
    options.extend(old.map(|unit| {
        let words = format!("{} {}", labels.han(&unit.hant), unit.pinyin);
        (unit.id.as_str(), Cow::Owned(words))
    }));
    Ok(html! {
        (fields::choice(visit, "unit", &visit.either("unit", "單位"), &options))
        (periods(visit, &measures, &visit.either("none: grams or parts", "不用：克或份")))
    })
}

/// The choice of a period; `none` says what it means that none is chosen.
pub(super) fn periods(visit: &Visit<'_>, measures: &Measures<'_>, none: &str) -> Markup {
    let labels = visit.labels();
    let mut options: Vec<(&str, Cow<'_, str>)> = vec![("", Cow::Owned(none.to_owned()))];
    options.extend(measures.periods().map(|id| {
        let record = measures.period_record(id);
        let hant = labels.han(&record.hant);
        let words = match visit.lang {
            Lang::En => format!("{hant} {}", record.english),
            Lang::Zh => hant,
        };
        (record.id.as_str(), Cow::Owned(words))
    }));
    fields::choice(visit, "period", &visit.say(Word::Period), &options)
}

/// Whether anything is asked that is folded away at first.
fn is_special(visit: &Visit<'_>) -> bool {
    let special = [
        "aim", "with", "strength", "slight", "great", "count", "tasted", "taster", "works",
        "since", "until",
    ];
    special.iter().any(|name| visit.asked.one(name).is_some())
}

fn special(visit: &Visit<'_>) -> Markup {
    let joined = |name: &str| visit.asked.list(name).join(", ");
    let (with, strength) = (joined("with"), joined("strength"));
    let several = |value| Input {
        value,
        ..Input::TEXT
    };
    let usual = |example| Input {
        example: Some(example),
        ..Input::DECIMAL
    };
    let voices = [
        ("", visit.either("each work", "每書")),
        (
            "lines",
            visit.either("each line of transmission", "每一傳承"),
        ),
    ];
    html! {
        div.fields {
            (fields::field(visit, "aim", &visit.either("a balance that is sought", "所求之平衡"), Input { example: Some("sweet>acrid"), ..Input::TEXT }))
            (fields::field(visit, "with", &visit.either("herbs that may be added", "可加之藥"), several(Some(&with))))
            (fields::field(visit, "strength", &visit.either("tastes so many times as strong", "味之濃淡倍數"), Input { example: Some("薄荷=2"), ..several(Some(&strength)) }))
            (fields::field(visit, "slight", &visit.either("\u{201c}slightly\u{201d} counts as", "「微」作"), usual("0.5")))
            (fields::field(visit, "great", &visit.either("\u{201c}greatly\u{201d} counts as", "「大」作"), usual("1.5")))
            (fields::choice(visit, "count", &visit.either("one voice has", "一票歸"), &voices))
            (fields::tick(visit, "tasted", "yes", &visit.either("my own tastings in place of the books", "以自己品嘗代書中之味")))
            (fields::field(visit, "taster", &visit.either("only tastings by", "只用此人品嘗"), Input::TEXT))
            (fields::scope_fields(visit))
        }
    }
}
