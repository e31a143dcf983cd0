//! `kaoyi pair`: what a pair or formula is together.

use super::outcome::{Attempt, Failure, Outcome};
use super::output::Output;
use super::pair_args::PairArguments;
use super::{common, notebook};
use crate::compare::Relations;
use crate::measure::Measures;
use crate::pairing::Assumptions;
use crate::report::ask::{self, PairAsked};
use crate::report::text;
use crate::report::view::{FormulaView, Labels};
use crate::tasting;

pub(super) fn run(arguments: &PairArguments, output: &Output) -> Attempt<Outcome> {
    let library = common::library(arguments.scope.corpus.as_deref())?;
    let corpus = &library.corpus;
    let measures = Measures::new(&corpus.vocabulary.measures)
        .map_err(|error| Failure::new(error.to_string()))?;
    let opened = match arguments.tasted {
        true => Some(notebook::open(corpus, &arguments.own)?),
        false => None,
    };
    if let Some(opened) = &opened {
        opened.tell_faults(output);
    }
    let asked = PairAsked {
        herbs: &arguments.herbs,
        parts: arguments.parts.as_deref(),
        period: arguments.period.as_deref(),
        with: &arguments.with,
        strength: &arguments.strength,
        assumptions: Assumptions {
            slight: arguments.slight,
            great: arguments.great,
            counting: arguments.count,
        },
        works: &arguments.scope.works,
        since: arguments.scope.since,
        until: arguments.scope.until,
    };
    let (formula, notes) = ask::formula(corpus, &measures, &asked, &|herb| {
        let tastings = opened.as_ref()?.of(herb, arguments.own.taster.as_deref());
        tasting::tasted(corpus, &tastings)
    })?;
    output.notes(&notes);
    let aim = arguments.aim.as_deref();
    let aim = aim.map(|words| ask::balance(corpus, words)).transpose()?;
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
