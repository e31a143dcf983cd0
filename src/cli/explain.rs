//! `kaoyi explain`: what the doctrine leads one to expect of an herb, beside what the books say it does.

use super::common;
use super::outcome::{Attempt, Outcome};
use super::output::Output;
use super::pair_args::ExplainArguments;
use crate::report::text;
use crate::report::view::{ExplainView, Labels};

pub(super) fn run(arguments: &ExplainArguments, output: &Output) -> Attempt<Outcome> {
    let library = common::library(arguments.scope.corpus.as_deref())?;
    let corpus = &library.corpus;
    let herb = common::herb(corpus, &arguments.herb, output)?;
    let selection = common::selection(corpus, &arguments.scope)?;
    let script = common::converter(&arguments.scope)?;
    let view = ExplainView::new(&Labels::new(corpus, &script), herb, &selection);
    if output.json() {
        output.document(&view)?;
    } else {
        output.text(&text::explain(output.page(), &view))?;
    }
    Ok(if view.expectations.is_empty() {
        Outcome::Otherwise
    } else {
        Outcome::Answered
    })
}
