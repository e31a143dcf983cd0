//! `kaoyi taste panel`: many tasters of one herb, and the books beside them.

use super::common;
use super::outcome::{Attempt, Outcome};
use super::output::Output;
use super::taste_class_args::PanelArguments;
use crate::report::ask;
use crate::report::text;
use crate::report::view::Labels;
use crate::tasting;

/// How many faults of the files are shown; `--json` has them all.
const FAULTS_SHOWN: usize = 20;

pub(super) fn run(arguments: &PanelArguments, output: &Output) -> Attempt<Outcome> {
    let library = common::library(arguments.scope.corpus.as_deref())?;
    let corpus = &library.corpus;
    let selection = common::selection(corpus, &arguments.scope)?;
    let script = common::converter(&arguments.scope)?;
    let gathered = tasting::gather(corpus, &arguments.files, common::cache().as_deref());
    let asked = match &arguments.herb {
        Some(name) => {
            let herb = common::herb(corpus, name, output)?;
            Some(corpus.place_of(herb))
        }
        None => None,
    };
    let labels = Labels::new(corpus, &script);
    let view = ask::panel(&labels, &selection, &gathered, asked)?;
    if output.json() {
        output.document(&view)?;
    } else {
        if !gathered.findings.is_empty() {
            let faults = text::faults(output.page(), &gathered.findings, FAULTS_SHOWN);
            output.beside(&format!("{faults}What is not at fault was used.\n\n"));
        }
        output.text(&text::panel(output.page(), &view))?;
    }
    Ok(if view.tasters == 0 || !view.findings.is_empty() {
        Outcome::Otherwise
    } else {
        Outcome::Answered
    })
}
