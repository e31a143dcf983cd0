//! `kaoyi weigh`: an amount or a formula in grams and millilitres, by every opinion.

use std::path::Path;

use super::common;
use super::outcome::{Attempt, Failure, Outcome};
use super::output::Output;
use super::weigh_args::WeighArguments;
use crate::compare::Relations;
use crate::corpus::{Corpus, Finding, FormulaFile, FormulaHerb, FormulaRecord};
use crate::measure::{
    AmountFault, Formula, FormulaFault, Measures, NotOfPeriod, ScaledFault, Spot,
};
use crate::report::text;
use crate::report::view::{FindingsView, Labels, WeighError, WeighView};
use crate::text::{Converter, Exact, Script, numeral};

pub(super) fn run(arguments: &WeighArguments, output: &Output) -> Attempt<Outcome> {
    let library = common::library(arguments.corpus.as_deref())?;
    let corpus = &library.corpus;
    let measures = Measures::new(&corpus.vocabulary.measures)
        .map_err(|error| Failure::new(error.to_string()))?;
    let script = Converter::new(arguments.script.unwrap_or(Script::Recorded))?;
    let labels = Labels::new(corpus, &script);
    let daily = arguments.daily.as_deref().map(grams).transpose()?;
    let formula = match &arguments.file {
        Some(file) => Some(formula_of_file(corpus, &measures, file, arguments)?),
        None if arguments.words.iter().any(|word| split(word).is_some()) => {
            Some(formula_of_words(corpus, &measures, arguments)?)
        }
        None => None,
    };
    let view = match formula {
        Some(formula) => {
            let relations = Relations::new(corpus, library.ties()?);
            let at = (&measures, &relations);
            let view = WeighView::of_formula(&labels, at, &formula, daily.as_ref());
            view.map_err(|error| failure(&measures, Some(&formula), error))?
        }
        None if daily.is_some() => {
            return Err(
                Failure::new("--daily scales a formula, and one amount is none").with_hint(
                    "Write the herbs with their amounts: kaoyi weigh 芍藥=四兩 甘草=四兩 --daily 9",
                ),
            );
        }
        None => {
            let text = arguments.words.join(" ");
            let amount = measures
                .amount(&text)
                .map_err(|fault| bad_amount(&text, &fault))?;
            let period = arguments.period.as_deref();
            let period = period.map(|name| common::period(&measures, name));
            let period = period.transpose()?;
            let view = WeighView::of_amount(&labels, &measures, &amount, period);
            view.map_err(|error| failure(&measures, None, error))?
        }
    };
    if output.json() {
        output.document(&view)?;
    } else {
        output.text(&text::weigh(output.page(), &view))?;
    }
    Ok(Outcome::Answered)
}

fn grams(text: &str) -> Attempt<Exact> {
    numeral(text).map_err(|fault| {
        Failure::new(format!("--daily `{}`: {fault}", common::shorten(text)))
            .with_hint("Grams as a number, such as 9 or 12.5.")
    })
}

fn bad_amount(text: &str, fault: &AmountFault) -> Box<Failure> {
    Failure::new(format!("`{}`: {fault}", common::shorten(text)))
        .with_candidates(fault.nearest.clone())
        .with_hint("An amount: kaoyi weigh 3 liang; a formula: kaoyi weigh 芍藥=四兩 甘草=四兩.")
}

/// A word of a formula, cut at its first sign of equality.
fn split(word: &str) -> Option<(&str, &str)> {
    word.split_once(['=', '＝'])
}

fn formula_of_words(
    corpus: &Corpus,
    measures: &Measures<'_>,
    arguments: &WeighArguments,
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
        period: arguments.period.clone(),
        herbs: arguments.words.iter().map(herb).collect(),
    };
    Formula::read(corpus, measures, &written).map_err(|faults| {
        let lines = faults.iter().map(|one| line(&arguments.words, one));
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
    let word = word.map_or_else(String::new, |word| format!("`{}`: ", common::shorten(word)));
    let near = match fault.nearest.as_slice() {
        [] => String::new(),
        several => format!("; near: {}", several.join(", ")),
    };
    format!(
        "{word}found {}, expected {}{near}",
        fault.found, fault.expected
    )
}

fn formula_of_file(
    corpus: &Corpus,
    measures: &Measures<'_>,
    path: &Path,
    arguments: &WeighArguments,
) -> Attempt<Formula> {
    let faulty = |findings: Vec<Finding>| {
        let mut failure = Failure::new(format!(
            "the formula in {} has faults; nothing was weighed",
            path.display()
        ));
        failure.findings = Some(FindingsView::of_file(findings));
        failure.findings_shown = usize::MAX;
        failure
    };
    let file = FormulaFile::read(path).map_err(faulty)?;
    let mut written = file.record().clone();
    // What is told on the command line counts before the file, and its faults lie in no file.
    if let Some(name) = &arguments.period {
        common::period(measures, name)?;
        written.period = Some(name.clone());
    }
    Formula::read(corpus, measures, &written).map_err(|faults| {
        let findings = faults.into_iter().map(|fault| {
            let pointer = match fault.spot {
                Spot::Period => "/period".to_owned(),
                Spot::Herbs => "/herbs".to_owned(),
                Spot::Herb(place) => format!("/herbs/{place}/herb"),
                Spot::Amount(place) => format!("/herbs/{place}/amount"),
            };
            let (found, expected) = (fault.found, &fault.expected);
            file.fault(&pointer, fault.code, found, expected, fault.nearest)
        });
        faulty(findings.collect())
    })
}

/// Why nothing was weighed, in words.
fn failure(measures: &Measures<'_>, formula: Option<&Formula>, error: WeighError) -> Box<Failure> {
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
            .with_hint("Without --period every period that knows the unit is shown.")
        }
        WeighError::NoPeriod | WeighError::Scaled(ScaledFault::NoPeriod) => {
            Failure::new("no period on record knows all these units together")
                .with_hint("Units and their periods: docs/values.md.")
        }
        WeighError::Scaled(ScaledFault::Volume(place)) => Failure::new(format!(
            "`{}` is given by volume, and what it weighs is not on record: --daily cannot scale the formula",
            herb(place)
        )),
        WeighError::Scaled(ScaledFault::Differs(place)) => Failure::new(format!(
            "the share of `{}` differs between the periods that know its units: --daily needs --period",
            herb(place)
        )),
    }
}
