//! `kaoyi pair`: what a pair or formula is together.

use super::outcome::{Attempt, Failure, Outcome};
use super::output::Output;
use super::pair_args::PairArguments;
use super::{common, notebook};
use crate::compare::Relations;
use crate::corpus::Corpus;
use crate::measure::{Measures, PeriodId};
use crate::pairing::{
    self, Aim, AimError, Assumptions, Formula, Given, Member, Unit, parts, prepared,
};
use crate::report::text;
use crate::report::view::{FormulaView, Labels};
use crate::tasting;
use crate::text::HanFolder;

pub(super) fn run(arguments: &PairArguments, output: &Output) -> Attempt<Outcome> {
    let library = common::library(arguments.scope.corpus.as_deref())?;
    let corpus = &library.corpus;
    let measures = Measures::new(&corpus.vocabulary.measures)
        .map_err(|error| Failure::new(error.to_string()))?;
    let formula = formula(arguments, (corpus, &measures), output)?;
    let aim = arguments.aim.as_deref();
    let aim = aim.map(|words| balance(corpus, words)).transpose()?;
    let script = common::converter(&arguments.scope)?;
    let relations = Relations::new(corpus, library.ties()?);
    let labels = Labels::new(corpus, &script);
    let view = FormulaView::new(&labels, (&measures, &relations), &formula, aim.as_ref())?;
    if output.json() {
        output.document(&view)?;
    } else {
        output.text(&text::pair(output.page(), &view))?;
    }
    let reached = view.aim.as_ref().is_none_or(|aim| aim.reached);
    Ok(if reached {
        Outcome::Answered
    } else {
        Outcome::Otherwise
    })
}

/// The formula that the arguments name; all that is wrong with them at once.
fn formula<'c>(
    arguments: &PairArguments,
    (corpus, measures): (&'c Corpus, &Measures<'_>),
    output: &Output,
) -> Attempt<Formula<'c>> {
    let mut faults: Vec<String> = Vec::new();
    let period = arguments.period.as_deref();
    let period = period.map(|name| common::period(measures, name));
    let period = period.transpose()?;
    let given = given(
        arguments,
        period.map(|period| (measures, period)),
        &mut faults,
    );
    let unit = given.first().map_or(Unit::Parts, |one| one.unit);
    if given.iter().any(|one| one.unit != unit) {
        faults.push("some amounts are in grams and some in parts; give all in one unit".to_owned());
    }
    let with = arguments.with.iter().map(|name| Given {
        name: name.clone(),
        amount: 0.0,
        unit,
        written: None,
    });
    let folder = HanFolder::new()?;
    let mut members = Vec::new();
    for one in given.iter().cloned().chain(with) {
        match member(corpus, &folder, &one, output) {
            Ok(member) => members.push(member),
            Err(failure) => faults.push(in_a_line(&failure)),
        }
    }
    if arguments.tasted {
        own_tongue(arguments, corpus, output, &mut members)?;
    }
    strengths(
        arguments,
        (corpus, &folder),
        output,
        &mut members,
        &mut faults,
    );
    if !faults.is_empty() {
        return Err(match faults.as_slice() {
            [one] => Failure::new(one.clone()),
            several => Failure::new(format!("{} faults:", several.len())).with_candidates(faults),
        });
    }
    Ok(Formula {
        members,
        unit,
        period,
        assumptions: Assumptions {
            slight: arguments.slight,
            great: arguments.great,
            counting: arguments.count,
        },
        selection: common::selection(corpus, &arguments.scope)?,
    })
}

fn given(
    arguments: &PairArguments,
    period: Option<(&Measures<'_>, PeriodId)>,
    faults: &mut Vec<String>,
) -> Vec<Given> {
    let mut given: Vec<Given> = Vec::new();
    let Some(words) = &arguments.parts else {
        for words in &arguments.herbs {
            let unit = given.first().and_then(|first| match first.unit {
                Unit::Old(unit) => Some(unit),
                _ => None,
            });
            let parsed = match period {
                Some(period) => Given::parse_old(words, period, unit),
                None => Given::parse(words),
            };
            match parsed {
                Ok(one) => given.push(one),
                Err(error) => faults.push(error.to_string()),
            }
        }
        return given;
    };
    let parts = match parts(words) {
        Ok(parts) => parts,
        Err(error) => {
            faults.push(format!("--parts {words}: {error}"));
            return given;
        }
    };
    if parts.len() != arguments.herbs.len() {
        faults.push(format!(
            "--parts {words} has {} numbers, and {} herbs are named",
            parts.len(),
            arguments.herbs.len()
        ));
    }
    for (name, amount) in arguments.herbs.iter().zip(parts) {
        if name.contains('=') {
            faults.push(format!(
                "`{name}` has an amount beside --parts; give one of the two"
            ));
        }
        given.push(Given {
            name: name.clone(),
            amount,
            unit: Unit::Parts,
            written: None,
        });
    }
    given
}

fn member<'c>(
    corpus: &'c Corpus,
    folder: &HanFolder,
    given: &Given,
    output: &Output,
) -> Attempt<Member<'c>> {
    let (herb, prefix) = match prepared(corpus, folder, &given.name) {
        Some(found) => (corpus.herb(found.herb)?, Some(found.prefix)),
        None => (common::herb(corpus, &given.name, output)?, None),
    };
    Ok(Member {
        herb,
        prepared: prefix,
        amount: given.amount,
        written: given.written.clone(),
        strength: 1.0,
        tasted: None,
    })
}

/// Puts own tastings in place of the books, herb by herb, where there are any.
fn own_tongue(
    arguments: &PairArguments,
    corpus: &Corpus,
    output: &Output,
    members: &mut [Member<'_>],
) -> Attempt<()> {
    let opened = notebook::open(corpus, &arguments.own)?;
    opened.tell_faults(output);
    for member in members {
        let tastings = opened.of(member.herb, arguments.own.taster.as_deref());
        member.tasted = tasting::tasted(corpus, &tastings);
    }
    Ok(())
}

fn strengths(
    arguments: &PairArguments,
    (corpus, folder): (&Corpus, &HanFolder),
    output: &Output,
    members: &mut [Member<'_>],
    faults: &mut Vec<String>,
) {
    for words in &arguments.strength {
        let given = match Given::parse(words) {
            Ok(given) if given.unit == Unit::Parts => given,
            _ => {
                faults.push(format!("--strength {words}: expected HERB=2"));
                continue;
            }
        };
        let herb = match member(corpus, folder, &given, output) {
            Ok(member) => member.herb,
            Err(failure) => {
                faults.push(in_a_line(&failure));
                continue;
            }
        };
        let mut named = members
            .iter_mut()
            .filter(|one| one.herb.id == herb.id)
            .peekable();
        if named.peek().is_none() {
            faults.push(format!(
                "--strength {words}: {} is not among the herbs",
                given.name
            ));
        }
        named.for_each(|one| one.strength = given.amount);
    }
}

fn in_a_line(failure: &Failure) -> String {
    let near: Vec<&str> = failure.candidates.iter().map(String::as_str).collect();
    let more = if near.is_empty() {
        String::new()
    } else {
        format!(" {}", near.join(" | "))
    };
    format!("{}{more}", failure.message)
}

fn balance(corpus: &Corpus, words: &str) -> Attempt<Aim> {
    pairing::Aim::parse(&corpus.vocabulary, words).map_err(|error| {
        let failure = Failure::new(format!("--aim {words}: {error}"));
        match error {
            AimError::NoFlavour(_, near) if !near.is_empty() => failure.with_candidates(near),
            _ => failure
                .with_hint("Such as 'sweet>acrid' in quotes, sweet-over-acrid, bitter-under-30%."),
        }
    })
}
