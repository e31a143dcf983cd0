//! `kaoyi is`: one question, one line, the evidence under it.

use super::args::IsArguments;
use super::common;
use super::outcome::{Attempt, Failure, Outcome};
use super::output::Output;
use crate::compare::{Question, QuestionError, parse_question};
use crate::corpus::Corpus;
use crate::report::text;
use crate::report::view::{AnswerView, Labels};

pub(super) fn run(arguments: &IsArguments, output: &Output) -> Attempt<Outcome> {
    let library = common::library(arguments.scope.corpus.as_deref())?;
    let corpus = &library.corpus;
    let herb = common::herb(corpus, &arguments.herb, output)?;
    let questions: Vec<Question> = arguments
        .values
        .iter()
        .map(|word| question(corpus, word))
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

fn question(corpus: &Corpus, word: &str) -> Attempt<Question> {
    parse_question(&corpus.vocabulary, word).map_err(|error| match error {
        QuestionError::Unknown(near) if near.is_empty() => Failure::new(format!("no facet has a value `{word}`"))
            .with_hint("Ask for a flavour, nature, toxicity, grade, channel or action: acrid, warm, toxic, upper, lung …"),
        QuestionError::Unknown(near) => {
            Failure::new(format!("no facet has a value `{word}`; near to it:")).with_candidates(near)
        }
        QuestionError::Ambiguous(several) => {
            Failure::new(format!("`{word}` belongs to several facets; ask for one of:")).with_candidates(several)
        }
    })
}
