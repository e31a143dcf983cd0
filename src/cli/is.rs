//! `kaoyi is`: one question, one line, the evidence under it.

use super::args::IsArguments;
use super::common;
use super::outcome::{Attempt, Outcome};
use super::output::Output;
use crate::compare::Question;
use crate::report::text;
use crate::report::view::{AnswerView, Labels};

pub(super) fn run(arguments: &IsArguments, output: &Output) -> Attempt<Outcome> {
    let library = common::library(arguments.scope.corpus.as_deref())?;
    let corpus = &library.corpus;
    let herb = common::herb(corpus, &arguments.herb, output)?;
    let questions: Vec<Question> = arguments
        .values
        .iter()
        .map(|word| common::question(corpus, word))
        .collect::<Result<_, _>>()?;
    let selection = common::selection(corpus, &arguments.scope)?;
    let script = common::converter(&arguments.scope)?;
    let view = AnswerView::new(&Labels::new(corpus, &script), herb, &questions, &selection);
    if output.json() {
        output.document(&view)?;
    } else {
        output.text(&text::answer(output.page(), &view, arguments.evidence))?;
    }
    Ok(if view.holds() {
        Outcome::Answered
    } else {
        Outcome::Otherwise
    })
}
