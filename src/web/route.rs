//! What a page is, and the row that it has in the table of routes.

use maud::Markup;
use schemars::{JsonSchema, SchemaGenerator};
use serde::Serialize;
use serde_json::Value;

use super::layout::{self, Leaf};
use super::reply::{Answer, HTML, Halt, JSON, Reply};
use super::visit::Visit;
use crate::report::ask::{Failure, shorten};
use crate::text::nearest;

/// What a parameter takes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Takes {
    /// Words.
    Text,
    /// A whole number.
    Whole,
    /// A decimal number.
    Decimal,
    /// `yes`, or nothing.
    Flag,
    /// One of some words.
    OneOf(&'static [&'static str]),
    /// A file, in a form.
    File,
}

/// A parameter of an address.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Parameter {
    /// Its name.
    pub name: &'static str,
    /// What it means.
    pub about: &'static str,
    /// What it takes.
    pub takes: Takes,
    /// Whether it may be given several times.
    pub many: bool,
}

impl Parameter {
    /// A parameter that is given once.
    pub(crate) const fn one(name: &'static str, takes: Takes, about: &'static str) -> Self {
        Self {
            name,
            about,
            takes,
            many: false,
        }
    }

    /// A parameter that may be given several times.
    pub(crate) const fn many(name: &'static str, takes: Takes, about: &'static str) -> Self {
        Self {
            name,
            about,
            takes,
            many: true,
        }
    }
}

/// The scripts of an address.
const SCRIPTS: &[&str] = &["hant", "hans"];
/// The languages of an address.
const LANGUAGES: &[&str] = &["en", "zh"];

/// What every address takes.
pub(crate) const COMMON: &[Parameter] = &[
    Parameter::one(
        "lang",
        Takes::OneOf(LANGUAGES),
        "The language of the interface; default: en",
    ),
    Parameter::one(
        "script",
        Takes::OneOf(SCRIPTS),
        "Han text in traditional (hant) or simplified (hans) script; default: as recorded",
    ),
    Parameter::one("pinyin", Takes::Flag, "Pinyin over names, on pages"),
];

/// The name by which the visitor came, where an address leads on to that with the id.
pub(crate) const AS: Parameter =
    Parameter::one("as", Takes::Text, "By which name the visitor came");

/// Which works count: what most addresses take.
pub(crate) const SCOPE: [Parameter; 3] = [
    Parameter::many(
        "works",
        Takes::Text,
        "Count only these works, by id, title or short form",
    ),
    Parameter::one(
        "since",
        Takes::Whole,
        "Count only works finished in this year or later",
    ),
    Parameter::one(
        "until",
        Takes::Whole,
        "Count only works finished in this year or earlier",
    ),
];

/// A page with its JSON twin: the same view twice.
pub(crate) trait Page {
    /// What it shows, which is also its JSON document.
    type View: Serialize + JsonSchema;
    /// Its address: `/herb/{id}`.
    const PATH: &'static str;
    /// The address of its JSON, where it is not that of the page with `/api` before it.
    const TWIN: Option<&'static str> = None;
    /// What it is for, in a line.
    const SUMMARY: &'static str;
    /// What its query may hold, besides what every address takes.
    const PARAMETERS: &'static [Parameter];

    /// The view that is asked for.
    fn view(visit: &Visit<'_>) -> Answer<Self::View>;

    /// The page where nothing was asked yet: its form alone.
    fn blank(_: &Visit<'_>) -> Option<Leaf> {
        None
    }

    /// The form by which it is asked, shown above the reason too where there is no answer.
    fn form(_: &Visit<'_>) -> Option<Markup> {
        None
    }

    /// The view as a page.
    fn page(visit: &Visit<'_>, view: &Self::View) -> Answer<Leaf>;
}

/// How an address is answered.
type Respond = fn(&Visit<'_>) -> Answer<Reply>;

/// How it is asked.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Method {
    /// To read.
    Get,
    /// To write or to send a file: only with the room's token and from the room's own pages.
    Post,
}

/// A row of the table: from it come the router and the description.
#[derive(Clone)]
pub(crate) struct Route {
    /// Its address.
    pub path: String,
    /// How it is asked.
    pub method: Method,
    /// What it is for.
    pub summary: &'static str,
    /// What its query may hold, besides what every address takes.
    pub parameters: &'static [Parameter],
    /// The fields of the form that is sent to it, besides the token.
    pub fields: &'static [Parameter],
    /// The media type of the answer.
    pub kind: &'static str,
    /// The schema of a JSON answer.
    pub schema: Option<fn(&mut SchemaGenerator) -> Value>,
    /// The answer.
    pub respond: Respond,
    /// The form of a page.
    pub form: fn(&Visit<'_>) -> Option<Markup>,
    /// Whether a post changes something, so that it is refused where the room is read-only.
    pub writes: bool,
    /// Whether the answer follows from the address, the corpus and the notebook alone, so that it may be kept.
    pub keeps: bool,
}

impl Route {
    /// The two rows of a page: HTML and JSON.
    pub(crate) fn page<P: Page>() -> [Self; 2] {
        let html = Self {
            path: P::PATH.to_owned(),
            method: Method::Get,
            summary: P::SUMMARY,
            parameters: P::PARAMETERS,
            fields: &[],
            kind: HTML,
            schema: None,
            respond: html::<P>,
            form: P::form,
            writes: false,
            keeps: true,
        };
        let twin = P::TWIN.map_or_else(|| format!("/api{}", P::PATH), str::to_owned);
        let json = Self {
            path: twin,
            kind: JSON,
            schema: Some(schema::<P::View>),
            respond: json::<P>,
            ..html.clone()
        };
        [html, json]
    }

    /// Something else that is read: a download, a drawing.
    pub(crate) fn file(
        path: &str,
        kind: &'static str,
        summary: &'static str,
        parameters: &'static [Parameter],
        respond: Respond,
    ) -> Self {
        Self {
            path: path.to_owned(),
            method: Method::Get,
            summary,
            parameters,
            fields: &[],
            kind,
            schema: None,
            respond,
            form: |_| None,
            writes: false,
            keeps: false,
        }
    }

    /// The same address for a form that is sent to it; `writes` tells whether it changes something.
    pub(crate) fn posted(self, fields: &'static [Parameter], writes: bool) -> Self {
        Self {
            method: Method::Post,
            fields,
            writes,
            keeps: false,
            ..self
        }
    }

    /// Refuses a query with what this address does not take; all that is wrong at once.
    pub(crate) fn check(&self, visit: &Visit<'_>) -> Result<(), Halt> {
        let known = || COMMON.iter().chain(self.parameters);
        let mut faults = Vec::new();
        for (place, (name, value)) in visit.asked.pairs().iter().enumerate() {
            let Some(parameter) = known().find(|one| one.name == name) else {
                let near = nearest(name, known().map(|one| one.name));
                let near = near.first().map(|near| format!("; did you mean `{near}`?"));
                let shown = shorten(name);
                faults.push(format!(
                    "`{shown}` is no parameter here{}",
                    near.unwrap_or_default()
                ));
                continue;
            };
            let again = visit.asked.pairs()[..place]
                .iter()
                .any(|(one, _)| one == name);
            if again && !parameter.many {
                faults.push(format!("`{name}` is given twice; expected once"));
            }
            faults.extend(parameter.takes.fault(name, value));
        }
        match faults.as_slice() {
            [] => Ok(()),
            [one] => Err(Halt::malformed(Failure::new(one.clone()))),
            several => {
                let all = Failure::new(format!("{} faults:", several.len()));
                Err(Halt::malformed(all.with_candidates(several.to_vec())))
            }
        }
    }
}

impl Takes {
    /// What is wrong with a value.
    fn fault(self, name: &str, value: &str) -> Option<String> {
        let shown = shorten(value);
        match self {
            Self::Text | Self::File => None,
            Self::Whole if value.parse::<i32>().is_ok() => None,
            Self::Whole => Some(format!("`{name}` is `{shown}`; expected a whole number")),
            Self::Decimal if value.parse::<f64>().is_ok_and(f64::is_finite) => None,
            Self::Decimal => Some(format!("`{name}` is `{shown}`; expected a number")),
            Self::Flag if value == "yes" => None,
            Self::Flag => Some(format!("`{name}` is `{shown}`; expected `yes`, or nothing")),
            Self::OneOf(words) if words.contains(&value) => None,
            Self::OneOf(words) => {
                let near = nearest(value, words.iter().copied());
                let near = near.first().map(|near| format!("; did you mean `{near}`?"));
                let (words, near) = (words.join(", "), near.unwrap_or_default());
                Some(format!(
                    "`{name}` is `{shown}`; expected one of {words}{near}"
                ))
            }
        }
    }
}

fn html<P: Page>(visit: &Visit<'_>) -> Answer<Reply> {
    if let Some(leaf) = P::blank(visit) {
        return Ok(Reply::new(HTML, layout::page(visit, &leaf).into_string()));
    }
    let view = P::view(visit)?;
    let leaf = P::page(visit, &view)?;
    let page: Markup = layout::page(visit, &leaf);
    Ok(Reply::new(HTML, page.into_string()))
}

fn json<P: Page>(visit: &Visit<'_>) -> Answer<Reply> {
    document(&P::view(visit)?)
}

/// A JSON document, written as the command line writes it.
pub(crate) fn document(view: &impl Serialize) -> Answer<Reply> {
    let mut text = serde_json::to_string_pretty(view)?;
    text.push('\n');
    Ok(Reply::new(JSON, text))
}

fn schema<T: JsonSchema>(generator: &mut SchemaGenerator) -> Value {
    generator.subschema_for::<T>().to_value()
}
