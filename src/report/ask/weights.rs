//! Amounts, formulas and periods in words, as `weigh` and its page take them.

use super::failure::{Attempt, Failure};
use super::named::{period, shorten};
use crate::compare::Relations;
use crate::corpus::{Corpus, FormulaHerb, FormulaRecord};
use crate::index::Library;
use crate::measure::{
    AmountFault, Formula, FormulaFault, Measures, NotOfPeriod, ScaledFault, Spot,
};
use crate::report::view::{Labels, WeighError, WeighView};
use crate::text::{Exact, numeral};

/// What is asked to be weighed.
#[derive(Debug, Clone, Copy)]
pub(crate) struct WeighAsked<'a> {
    /// An amount, as `3 liang`, or a formula as words `芍藥=四兩`.
    pub words: &'a [String],
    /// The period by whose measures alone; all where none is named.
    pub period: Option<&'a str>,
    /// So many grams a day to which a formula is scaled.
    pub daily: Option<&'a str>,
}

/// The words of an amount or a formula that was typed into one field: herbs stand apart by commas, semicolons or lines.
pub(crate) fn words_of(text: &str) -> Vec<String> {
    let apart = |c: char| matches!(c, ',' | ';' | '，' | '、' | '；' | '\n' | '\r');
    let words = text.split(apart).map(str::trim);
    words
        .filter(|word| !word.is_empty())
        .map(str::to_owned)
        .collect()
}

/// What an amount or a formula weighs; `file` is a formula that was read already.
///
/// # Errors
/// When it is no amount and no formula, or cannot be weighed as asked.
pub(crate) fn weigh(
    library: &Library,
    (labels, measures): (&Labels<'_>, &Measures<'_>),
    asked: &WeighAsked<'_>,
    file: Option<Formula>,
) -> Attempt<WeighView> {
    let corpus = &library.corpus;
    let daily = asked.daily.map(grams).transpose()?;
    let formula = match file {
        Some(formula) => Some(formula),
        None if asked.words.iter().any(|word| split(word).is_some()) => {
            Some(written_formula(corpus, measures, asked)?)
        }
        None => None,
    };
    if let Some(formula) = formula {
        let relations = Relations::new(corpus, library.ties()?);
        let view = WeighView::of_formula(labels, (measures, &relations), &formula, daily.as_ref());
        return view.map_err(|error| unweighed(measures, Some(&formula), error));
    }
    if daily.is_some() {
        return Err(
            Failure::new("a daily weight scales a formula, and one amount is none")
                .with_hint("Write the herbs with their amounts: 芍藥=四兩 甘草=四兩."),
        );
    }
    let text = asked.words.join(" ");
    let amount = measures
        .amount(&text)
        .map_err(|fault| bad_amount(&text, &fault))?;
    let period = asked
        .period
        .map(|name| period(measures, name))
        .transpose()?;
    let view = WeighView::of_amount(labels, measures, &amount, period);
    view.map_err(|error| unweighed(measures, None, error))
}

fn grams(text: &str) -> Attempt<Exact> {
    numeral(text).map_err(|fault| {
        Failure::new(format!("daily `{}`: {fault}", shorten(text)))
            .with_hint("Grams as a number, such as 9 or 12.5.")
    })
}

fn bad_amount(text: &str, fault: &AmountFault) -> Box<Failure> {
    Failure::new(format!("`{}`: {fault}", shorten(text)))
        .with_candidates(fault.nearest.clone())
        .with_hint("An amount: 3 liang; a formula: 芍藥=四兩 甘草=四兩.")
}

/// A word of a formula, cut at its first sign of equality.
fn split(word: &str) -> Option<(&str, &str)> {
    word.split_once(['=', '＝'])
}

/// The formula in the words asked.
///
/// # Errors
/// When an herb, an amount or the period is faulty; all that is wrong at once.
fn written_formula(
    corpus: &Corpus,
    measures: &Measures<'_>,
    asked: &WeighAsked<'_>,
) -> Attempt<Formula> {
    let herb = |word: &String| {
        let (herb, amount) = split(word).unwrap_or((word, ""));
        FormulaHerb {
            herb: herb.trim().to_owned(),
            amount: amount.trim().to_owned(),
        }
    };
    let written = FormulaRecord {
        name: None,
        period: asked.period.map(str::to_owned),
        herbs: asked.words.iter().map(herb).collect(),
    };
    Formula::read(corpus, measures, &written).map_err(|faults| {
        let lines = faults.iter().map(|one| line(asked.words, one));
        Failure::new("the formula has faults; nothing was weighed:")
            .with_candidates(lines.collect())
            .with_hint("Each herb as one word: 芍藥=四兩, \"licorice=4 liang\".")
    })
}

/// A fault of a formula in one line.
fn line(words: &[String], fault: &FormulaFault) -> String {
    let word = match fault.spot {
        Spot::Herb(place) | Spot::Amount(place) => words.get(place),
        Spot::Period | Spot::Herbs => None,
    };
    let word = word.map_or_else(String::new, |word| format!("`{}`: ", shorten(word)));
    let near = match fault.nearest.as_slice() {
        [] => String::new(),
        several => format!("; near: {}", several.join(", ")),
    };
    format!(
        "{word}found {}, expected {}{near}",
        fault.found, fault.expected
    )
}

/// Why nothing was weighed, in words.
fn unweighed(
    measures: &Measures<'_>,
    formula: Option<&Formula>,
    error: WeighError,
) -> Box<Failure> {
    let herb = |place: usize| {
        let part = formula.and_then(|formula| formula.herbs.get(place));
        part.map_or("", |part| part.called.as_str())
    };
    match error {
        WeighError::Faulty(error) => error.into(),
        WeighError::NotOfPeriod(NotOfPeriod {
            period,
            unit,
            known,
            ..
        }) => {
            let name = &measures.period_record(period).english;
            let unit = &measures.unit(unit).id;
            Failure::new(format!(
                "{unit} is no unit of {name} on record; expected {}",
                measures.unit_of(period, &known)
            ))
            .with_hint("Where no period is named every one that knows the unit is shown.")
        }
        WeighError::NoPeriod | WeighError::Scaled(ScaledFault::NoPeriod) => {
            Failure::new("no period on record knows all these units together")
                .with_hint("Units and their periods: docs/values.md.")
        }
        WeighError::Scaled(ScaledFault::Volume(place)) => Failure::new(format!(
            "`{}` is given by volume, and what it weighs is not on record: the formula cannot be scaled to a daily weight",
            herb(place)
        )),
        WeighError::Scaled(ScaledFault::Differs(place)) => Failure::new(format!(
            "the share of `{}` differs between the periods that know its units: a daily weight needs a period",
            herb(place)
        )),
    }
}
