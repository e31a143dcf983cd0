//! `/pair`: what a pair or formula is together.

use maud::html;

use super::{pair_card, pair_form};
use crate::measure::Measures;
use crate::pairing::{Assumptions, Counting};
use crate::report::ask::{self, Failure, PairAsked};
use crate::report::view::FormulaView;
use crate::tasting;
use crate::web::form_page::{FormPage, failed};
use crate::web::layout::{Leaf, text};
use crate::web::reply::Answer;
use crate::web::route::{Page, Parameter, SCOPE, Takes};
use crate::web::visit::Visit;

/// A pair or formula.
pub(crate) struct Pair;

/// What has one voice.
const VOICES: &[&str] = &["works", "lines"];

impl Page for Pair {
    type View = FormulaView;
    const PATH: &'static str = "/pair";
    const SUMMARY: &'static str =
        "What a pair or formula is together: flavours, nature, movement, what it must not meet";
    const PARAMETERS: &'static [Parameter] = &[
        Parameter::many(
            "herb",
            Takes::Text,
            "An herb, followed by its amount; or both as `HERB=3g`",
        ),
        Parameter::many("amount", Takes::Text, "The amount of the herb before it"),
        Parameter::one(
            "unit",
            Takes::Text,
            "g (default), parts, or with a period a unit of old such as liang",
        ),
        Parameter::one(
            "period",
            Takes::Text,
            "The period by whose measures units of old are understood",
        ),
        Parameter::one(
            "aim",
            Takes::Text,
            "A balance that is sought: sweet>acrid, bitter-under-30%",
        ),
        Parameter::many(
            "with",
            Takes::Text,
            "An herb that may be added to reach the balance",
        ),
        Parameter::many(
            "strength",
            Takes::Text,
            "Take an herb to taste so many times as strong: `HERB=2`",
        ),
        Parameter::one(
            "slight",
            Takes::Decimal,
            "How much of a flavour \"slightly\" is; default: 0.5",
        ),
        Parameter::one(
            "great",
            Takes::Decimal,
            "How much of a flavour \"greatly\" is; default: 1.5",
        ),
        Parameter::one(
            "count",
            Takes::OneOf(VOICES),
            "What has one voice; default: works",
        ),
        Parameter::one(
            "tasted",
            Takes::Flag,
            "Put your own tastings in place of the books",
        ),
        Parameter::one("taster", Takes::Text, "Only tastings by this taster"),
        SCOPE[0],
        SCOPE[1],
        SCOPE[2],
    ];

    fn view(visit: &Visit<'_>) -> Answer<Self::View> {
        let corpus = visit.corpus();
        let measures = Measures::new(&corpus.vocabulary.measures)
            .map_err(|error| Failure::new(error.to_string()))?;
        let herbs = words(visit);
        if herbs.is_empty() {
            let nothing = Failure::new("no herb is named");
            return Err(nothing
                .with_hint("Such as herb=薄荷&amount=3&herb=菊花&amount=6.")
                .into());
        }
        let (with, strength) = (visit.asked.list("with"), visit.asked.list("strength"));
        let works = visit.asked.list("works");
        let year = |name| visit.asked.one(name).and_then(|year| year.parse().ok());
        let asked = PairAsked {
            herbs: &herbs,
            parts: None,
            period: visit.asked.one("period"),
            with: &with,
            strength: &strength,
            assumptions: assumptions(visit)?,
            works: &works,
            since: year("since"),
            until: year("until"),
        };
        let notebook = match visit.asked.one("tasted") {
            Some(_) => visit.room.notebook(visit.shelf()),
            None => None,
        };
        let taster = visit.asked.one("taster");
        let (formula, _) = ask::formula(corpus, &measures, &asked, &|herb| {
            let (notebook, _) = notebook.as_ref()?;
            tasting::tasted(corpus, &ask::of_herb(notebook, herb, taster))
        })?;
        let aim = visit.asked.one("aim");
        let aim = aim.map(|words| ask::balance(corpus, words)).transpose()?;
        let relations = visit.relations()?;
        let labels = visit.labels();
        Ok(FormulaView::new(
            &labels,
            (&measures, &relations),
            &formula,
            aim.as_ref(),
        )?)
    }

    fn page(visit: &Visit<'_>, view: &Self::View) -> Answer<Leaf> {
        Self::leaf(visit, Some(view), None)
    }
}

impl FormPage for Pair {
    fn is_asked(visit: &Visit<'_>) -> bool {
        visit.asked.one("herb").is_some() || visit.asked.one("amount").is_some()
    }

    fn leaf(
        visit: &Visit<'_>,
        view: Option<&FormulaView>,
        failure: Option<&Failure>,
    ) -> Answer<Leaf> {
        let title = visit.either("What herbs are together", "配伍");
        let main = html! {
            h1 { (title) }
            (failed(visit, failure))
            @if let Some(view) = view { (pair_card::cautions(visit, view)) }
            @for note in notes(visit) { p.note role="status" { (text(visit, &note)) } }
            (pair_form::form(visit)?)
            @if let Some(view) = view { (pair_card::card(visit, view)) }
        };
        Ok(Leaf {
            title: title.into_owned(),
            section: "/pair",
            main,
        })
    }
}

/// The herbs with their amounts as they stand in the address: each amount belongs to the herb before it.
pub(super) fn rows(visit: &Visit<'_>) -> Vec<(String, Option<String>)> {
    let mut rows: Vec<(String, Option<String>)> = Vec::new();
    for (name, value) in visit.asked.pairs() {
        match (name.as_str(), rows.last_mut()) {
            ("herb", _) => rows.push((value.clone(), None)),
            ("amount", Some((_, amount @ None))) => *amount = Some(value.clone()),
            // An amount without an herb is told as such.
            ("amount", _) => rows.push((String::new(), Some(value.clone()))),
            _ => {}
        }
    }
    rows
}

/// The herbs with their amounts as the command line has them.
fn words(visit: &Visit<'_>) -> Vec<String> {
    let unit = match visit.asked.one("unit") {
        None | Some("g") => "g".to_owned(),
        Some("parts") => String::new(),
        Some(old) => format!(" {old}"),
    };
    let word = |(name, amount): (String, Option<String>)| match amount {
        Some(amount) => format!("{name}={}{unit}", amount.trim()),
        None => name,
    };
    rows(visit).into_iter().map(word).collect()
}

/// What else the names may mean.
fn notes(visit: &Visit<'_>) -> Vec<String> {
    let named = rows(visit).into_iter().map(|(name, _)| name);
    let found = named.filter_map(|name| ask::herb(visit.corpus(), &name).ok());
    found.flat_map(|found| found.notes).collect()
}

fn assumptions(visit: &Visit<'_>) -> Answer<Assumptions> {
    let usual = Assumptions::default();
    let factor = |name: &str, usual: f64| match visit.asked.one(name) {
        None => Ok(usual),
        Some(word) => {
            let number = word.parse::<f64>().ok();
            number
                .filter(|number| *number > 0.0 && *number <= 100.0)
                .ok_or_else(|| {
                    Failure::new(format!(
                        "`{name}` is `{word}`; expected a number above 0, at most 100"
                    ))
                })
        }
    };
    Ok(Assumptions {
        slight: factor("slight", usual.slight)?,
        great: factor("great", usual.great)?,
        counting: match visit.asked.one("count") {
            Some("lines") => Counting::Lines,
            _ => Counting::Works,
        },
    })
}
