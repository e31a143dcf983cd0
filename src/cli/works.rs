//! `kaoyi works`: the books, and one of them with what the corpus holds of it.

use super::common;
use super::data_args::WorksArguments;
use super::outcome::{Attempt, Outcome};
use super::output::Output;
use crate::compare::coverage;
use crate::report::text;
use crate::report::view::{Labels, WorkView, WorksView};
use crate::text::{Converter, Script};

pub(super) fn run(arguments: &WorksArguments, output: &Output) -> Attempt<Outcome> {
    let corpus = common::library(arguments.corpus.as_deref())?.corpus;
    let script = Converter::new(arguments.script.unwrap_or(Script::Recorded))?;
    let labels = Labels::new(&corpus, &script);
    let Some(name) = &arguments.work else {
        let view = WorksView::new(&labels, &coverage(&corpus)?);
        if output.json() {
            output.document(&view)?;
        } else {
            output.text(&text::works(output.page(), &view))?;
        }
        return Ok(Outcome::Answered);
    };
    let work = common::work(&corpus, name)?;
    let coverage = coverage(&corpus)?;
    let view = WorkView::new(&labels, &coverage.works[usize::from(work.0)]);
    if output.json() {
        output.document(&view)?;
    } else {
        output.text(&text::work(output.page(), &view))?;
    }
    Ok(Outcome::Answered)
}
