//! The answer to one question in words.

use schemars::JsonSchema;
use serde::Serialize;

use super::herb::HerbView;
use super::labels::{CautionView, Labels, NOTICE, ValueRef, WorkRef};
use super::statement::{StatementView, in_words};
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
    /// Works that say so of a part, preparation or kind only; they are not counted.
    pub of_scope: Vec<ReplyView>,
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
            .map(|reply| reply_view(labels, herb, facet, reply))
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
        of_scope: replies(&answer.of_scope),
        silent: labels.works(&answer.silent),
        pairing: pairing(facet, answer.verdict, value.pairing.as_deref()),
    }
}

/// What an answer means for pairing: of flavour and nature the vocabulary's own words when it holds;
/// of toxicity no verdict outweighs a warning.
fn pairing(facet: Facet, verdict: Verdict, holds: Option<&str>) -> Option<String> {
    let words = match (facet, verdict) {
        (Facet::Grade | Facet::Channel | Facet::Action, _) | (_, Verdict::Silent) => return None,
        (_, Verdict::Yes) => holds?,
        (Facet::Toxicity, Verdict::No) => "no book here says so; see the cautions all the same",
        (Facet::Toxicity, _) => "the books disagree: see the cautions before any pairing",
        (_, Verdict::MostlyYes) => holds?,
        (_, Verdict::MostlyNo | Verdict::No) => {
            "by most books it does not bring this; a partner would have to"
        }
        (_, Verdict::Disputed | Verdict::Partly) => {
            "the books disagree: look at time and scope, or taste it, before counting on it"
        }
    };
    Some(words.to_owned())
}

fn reply_view(labels: &Labels<'_>, herb: &Herb, facet: Facet, reply: &Reply) -> ReplyView {
    let degree = |value| {
        let stated = reply.statements.iter().flat_map(|one| &one.values);
        stated
            .clone()
            .find(|(other, _)| *other == value)
            .and_then(|(_, degree)| *degree)
    };
    let words = reply
        .values
        .iter()
        .map(|value| in_words(labels, facet, *value, degree(*value)));
    let mut text = words.collect::<Vec<_>>().join(", ");
    let mut scopes: Vec<String> = reply
        .statements
        .iter()
        .filter_map(|one| labels.scope(&one.scope))
        .collect();
    scopes.sort();
    scopes.dedup();
    if !scopes.is_empty() {
        text = format!("{text} ({})", scopes.join("; "));
    }
    let statements = reply.statements.iter();
    ReplyView {
        work: labels.work(reply.work),
        text,
        statements: statements
            .map(|one| StatementView::new(labels, herb, facet, one))
            .collect(),
    }
}
