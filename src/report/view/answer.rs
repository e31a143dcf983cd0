//! The answer to one question in words.

use schemars::JsonSchema;
use serde::Serialize;

use super::comparison::{HerbView, StandView, StatementView};
use super::labels::{CautionView, Labels, NOTICE, ValueRef, WorkRef};
use crate::claim::Facet;
use crate::compare::Question;
use crate::compare::{Answer, Reply, Selection, Verdict, ask};
use crate::corpus::Herb;

/// What `kaoyi is --json` writes.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct AnswerView {
    /// Name and version of this format.
    pub format: &'static str,
    /// The herb.
    pub herb: HerbView,
    /// All works named below, oldest first; elsewhere they are named by id.
    pub works: Vec<WorkRef>,
    /// One answer a value asked for, in the order asked.
    pub answers: Vec<ValueAnswer>,
    /// The herb's cautions, grave ones first.
    pub cautions: Vec<CautionView>,
    /// What the program does not do.
    pub notice: &'static str,
}

/// The answer for one value.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct ValueAnswer {
    /// The facet asked about.
    pub facet: Facet,
    /// The value asked for.
    pub value: ValueRef,
    /// The verdict by witnesses.
    pub verdict: Verdict,
    /// Witnesses that say so.
    pub k: usize,
    /// Witnesses that say so or otherwise.
    pub n: usize,
    /// Lines that say so.
    pub j: usize,
    /// Lines that say so or otherwise.
    pub m: usize,
    /// Witnesses that say so, oldest first.
    pub yes: Vec<ReplyView>,
    /// Witnesses that say otherwise, oldest first.
    pub no: Vec<ReplyView>,
    /// Works with an article that are silent.
    pub silent: Vec<String>,
    /// What it means beside a partner.
    pub pairing: Option<String>,
}

/// A witness's reply with its evidence.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct ReplyView {
    /// The work.
    pub work: String,
    /// What it says, in words.
    pub text: String,
    /// The statements behind it that count.
    pub statements: Vec<StatementView>,
}

impl AnswerView {
    /// Answers `questions` about `herb`.
    #[must_use]
    pub fn new(
        labels: &Labels<'_>,
        herb: &Herb,
        questions: &[Question],
        selection: &Selection,
    ) -> Self {
        let answers = questions.iter().map(|question| {
            value_answer(
                labels,
                herb,
                &ask(labels.corpus, herb, *question, selection),
            )
        });
        let answers = answers.collect();
        Self {
            format: "kaoyi.is/1",
            herb: HerbView::new(labels, herb),
            answers,
            cautions: labels.cautions(herb),
            notice: NOTICE,
            works: labels.named_works(),
        }
    }

    /// Whether every answer is yes or mostly yes.
    #[must_use]
    pub fn holds(&self) -> bool {
        self.answers.iter().all(|answer| answer.verdict.holds())
    }
}

fn value_answer(labels: &Labels<'_>, herb: &Herb, answer: &Answer) -> ValueAnswer {
    let facet = answer.question.facet;
    let value = labels
        .corpus
        .vocabulary
        .scheme(facet)
        .value(answer.question.value);
    let replies = |replies: &[Reply]| {
        replies
            .iter()
            .map(|reply| reply_view(labels, herb, answer, reply))
            .collect()
    };
    ValueAnswer {
        facet,
        value: labels.value(facet, answer.question.value),
        verdict: answer.verdict,
        k: answer.yes.len(),
        n: answer.yes.len() + answer.no.len(),
        j: answer.j,
        m: answer.m,
        yes: replies(&answer.yes),
        no: replies(&answer.no),
        silent: labels.works(&answer.silent),
        pairing: value.pairing.clone(),
    }
}

fn reply_view(labels: &Labels<'_>, herb: &Herb, answer: &Answer, reply: &Reply) -> ReplyView {
    let facet = answer.question.facet;
    let witness = answer
        .view
        .witnesses
        .iter()
        .find(|witness| witness.work == reply.work);
    let stand = witness.map(|witness| StandView::new(labels, herb, facet, witness));
    let text = match (&stand, facet) {
        (
            Some(stand),
            Facet::Flavour | Facet::Nature | Facet::Toxicity | Facet::Grade | Facet::Channel,
        ) => stand.text.clone(),
        _ => reply
            .values
            .iter()
            .map(|value| labels.value(facet, *value).english)
            .collect::<Vec<_>>()
            .join(", "),
    };
    let mut statements = stand.map(|stand| stand.statements).unwrap_or_default();
    if let (Facet::Action, Some(witness)) = (facet, witness) {
        // Of a witness's many actions only those that the reply is about.
        let mut about = witness
            .statements
            .iter()
            .map(|one| one.values.iter().any(|(v, _)| reply.values.contains(v)));
        statements.retain(|_| about.next().unwrap_or(false));
    } else {
        statements.retain(|statement| statement.counted);
    }
    ReplyView {
        work: labels.work(reply.work),
        text,
        statements,
    }
}
