//! `kaoyi weigh`: an amount or a formula in grams and millilitres, by every opinion.

use std::path::Path;

use super::common;
use super::outcome::{Attempt, Failure, Outcome};
use super::output::Output;
use super::weigh_args::WeighArguments;
use crate::corpus::{Corpus, Finding, FormulaFile};
use crate::measure::{Formula, Measures, Spot};
use crate::report::ask::{self, WeighAsked};
use crate::report::text;
use crate::report::view::{FindingsView, Labels};
use crate::text::{Converter, Script};

pub(super) fn run(arguments: &WeighArguments, output: &Output) -> Attempt<Outcome> {
    let library = common::library(arguments.corpus.as_deref())?;
    let corpus = &library.corpus;
    let measures = Measures::new(&corpus.vocabulary.measures)
        .map_err(|error| Failure::new(error.to_string()))?;
    let script = Converter::new(arguments.script.unwrap_or(Script::Recorded))?;
    let labels = Labels::new(corpus, &script);
    let asked = WeighAsked {
        words: &arguments.words,
        period: arguments.period.as_deref(),
        daily: arguments.daily.as_deref(),
    };
    let file = arguments.file.as_deref();
    let file = file.map(|path| formula_of_file(corpus, &measures, path, arguments));
    let view = ask::weigh(&library, (&labels, &measures), &asked, file.transpose()?)?;
    if output.json() {
        output.document(&view)?;
    } else {
        output.text(&text::weigh(output.page(), &view))?;
    }
    Ok(Outcome::Answered)
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
