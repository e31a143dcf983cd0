//! The fields of forms that are read by their address.

use std::borrow::Cow;

use maud::{Markup, html};

use super::pieces::{SCALED, facet};
use super::visit::Visit;
use super::words::Word;
use crate::claim::Facet;

pub(crate) use super::page::parts::scope_fields;

/// A field of words.
pub(crate) fn field(visit: &Visit<'_>, name: &str, label: &str, attributes: Input<'_>) -> Markup {
    let value = attributes.value.map(str::to_owned);
    let value = value.or_else(|| visit.asked.one(name).map(str::to_owned));
    html! {
        div.field {
            label for=(name) { (label) }
            input id=(name) name=(name) type=(attributes.kind) value=[value] min=[attributes.least] max=[attributes.most]
                step=[attributes.step] list=[attributes.list] placeholder=[attributes.example] required[attributes.needed];
        }
    }
}

/// How a field is filled in.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct Input<'a> {
    /// The type of the field.
    pub kind: &'static str,
    /// What stands in it; where that is left out, what the address has.
    pub value: Option<&'a str>,
    /// The least number.
    pub least: Option<&'static str>,
    /// The greatest number.
    pub most: Option<&'static str>,
    /// The step between numbers.
    pub step: Option<&'static str>,
    /// The list of proposals.
    pub list: Option<&'static str>,
    /// An example.
    pub example: Option<&'static str>,
    /// Whether it must be filled in.
    pub needed: bool,
}

impl Input<'_> {
    /// A field of words.
    pub(crate) const TEXT: Self = Self {
        kind: "text",
        value: None,
        least: None,
        most: None,
        step: None,
        list: None,
        example: None,
        needed: false,
    };

    /// A field of whole numbers.
    pub(crate) const WHOLE: Self = Self {
        kind: "number",
        step: Some("1"),
        ..Self::TEXT
    };

    /// A field of any number above zero.
    pub(crate) const DECIMAL: Self = Self {
        kind: "number",
        least: Some("0"),
        step: Some("any"),
        ..Self::TEXT
    };
}

/// A choice: values with their words; the first is the default and stands for nothing.
pub(crate) fn choice(
    visit: &Visit<'_>,
    name: &str,
    label: &str,
    options: &[(&str, Cow<'_, str>)],
) -> Markup {
    let asked = visit.asked.one(name).unwrap_or_default();
    html! {
        div.field {
            label for=(name) { (label) }
            select id=(name) name=(name) { @for (value, words) in options {
                option value=(value) selected[*value == asked] { (words) }
            } }
        }
    }
}

/// A box to tick; `value` is what the address then has.
pub(crate) fn tick(visit: &Visit<'_>, name: &str, value: &str, label: &str) -> Markup {
    let ticked = visit.asked.all(name).any(|one| one == value);
    html! {
        label.tick { input type="checkbox" name=(name) value=(value) checked[ticked]; " " (label) }
    }
}

/// The boxes of the facets on which works can be compared.
pub(crate) fn facet_ticks(visit: &Visit<'_>) -> Markup {
    let scaled = Facet::ALL
        .into_iter()
        .filter(|one| SCALED.contains(&one.name()));
    html! {
        fieldset.ticks {
            legend { (visit.say(Word::Facets)) }
            @for one in scaled { (tick(visit, "facet", one.name(), &facet(visit, one))) }
        }
    }
}
