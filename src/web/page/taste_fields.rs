//! What the fields of a tasting are called, and how they are filled in.

use std::borrow::Cow;

use maud::{Markup, html};

use crate::tasting::{Field, Question};
use crate::web::layout::text;
use crate::web::visit::Visit;
use crate::web::words::{Lang, Word};

/// The fields of the cup, in the order in which they are shown.
pub(super) const CUP: &[Field] = &[
    Field::Taster,
    Field::Amount,
    Field::Water,
    Field::Temperature,
    Field::Hours,
    Field::Vessel,
    Field::Part,
    Field::Preparation,
    Field::Lot,
    Field::Supplier,
    Field::Fasting,
    Field::Code,
    Field::Cup,
];

/// What was felt, besides the flavours.
pub(super) const FELT: &[Field] = &[
    Field::Thickness,
    Field::Lingering,
    Field::Aroma,
    Field::Warmth,
    Field::Places,
    Field::Direction,
    Field::Words,
    Field::Photos,
];

/// The unit of a field, with a space before it.
pub(super) const fn unit(field: &Field) -> &'static str {
    match field {
        Field::Amount => " g",
        Field::Water => " ml",
        Field::Temperature => " °C",
        Field::Hours => " h",
        _ => "",
    }
}

/// What a field is called; a flavour by its id.
pub(super) fn name<'f>(visit: &Visit<'_>, field: &'f Field) -> Cow<'f, str> {
    let chinese = match field {
        Field::Part => "部位",
        Field::Preparation => "炮製",
        Field::Lot => "批號",
        Field::Supplier => "來源",
        Field::Amount => "用量（克）",
        Field::Water => "水（毫升）",
        Field::Vessel => "器皿",
        Field::Temperature => "水溫（°C）",
        Field::Hours => "浸泡（小時）",
        Field::Date => "日期",
        Field::Taster => return visit.say(Word::Taster),
        Field::Fasting => "空腹",
        Field::Code => "盲嘗編號",
        Field::Cup => "當日第幾杯",
        Field::Flavour(id) => return Cow::Borrowed(id),
        Field::Thickness => "厚薄",
        Field::Lingering => "餘味",
        Field::Aroma => "香氣",
        Field::Warmth => return visit.say(Word::Warmth),
        Field::Places => "所感之處",
        Field::Direction => "走向",
        Field::Words => "自述",
        Field::Photos => "照片",
    };
    match visit.lang {
        Lang::En => Cow::Borrowed(field.name()),
        Lang::Zh => Cow::Owned(visit.script.convert_label(chinese).into_owned()),
    }
}

/// A question of the protocol as a field of a form, with what is offered or was typed in it.
pub(super) fn asked(visit: &Visit<'_>, question: &Question, value: Option<&str>) -> Markup {
    let field = &question.field;
    let id = format!("field-{}", field.name());
    let label = match (field, visit.lang) {
        (Field::Flavour(_), _) | (_, Lang::En) => text(visit, &question.ask),
        _ => html! { (name(visit, field)) },
    };
    let number = |least: &'static str, most: Option<&'static str>, step: &'static str| {
        html! {
            input id=(id) name=(field.name()) type="number" min=(least) max=[most] step=(step) value=[value]
                data-slider=[most.map(|_| "")];
        }
    };
    html! {
        div.field {
            label for=(id) { (label) }
            @match field {
                Field::Flavour(_) | Field::Thickness | Field::Lingering | Field::Aroma => { (number("0", Some("10"), "0.5")) }
                Field::Warmth => { (number("-5", Some("5"), "0.5")) }
                Field::Amount | Field::Water | Field::Temperature | Field::Hours => { (number("0", None, "any")) }
                Field::Cup => { (number("1", None, "1")) }
                Field::Date => { input id=(id) name=(field.name()) type="date" value=[value]; }
                Field::Fasting => { select id=(id) name=(field.name()) {
                    option value="" selected[value.is_none()] { "–" }
                    option value="yes" selected[value == Some("yes")] { (visit.either("yes", "是")) }
                    option value="no" selected[value == Some("no")] { (visit.either("no", "否")) }
                } }
                Field::Words => { textarea id=(id) name=(field.name()) rows="4" { (value.unwrap_or_default()) } }
                _ => { input id=(id) name=(field.name()) type="text" maxlength="200" value=[value]; }
            }
        }
    }
}
