//! The answer to one question in words.

use schemars::JsonSchema;
use serde::Serialize;

use super::filter::FilterView;
use super::heed::HeedView;
use super::herb::HerbView;
use super::labels::{Labels, ValueRef, WorkRef};
use super::profile::SeverestView;
use super::statement::{StatementView, in_words};
use crate::claim::{Facet, Severity};
use crate::compare::Question;
use crate::compare::{Answer, Reply, Selection, Statement, Verdict, ask};
use crate::corpus::{Herb, Origin};

/// What `kaoyi is --json` writes.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct AnswerView {
    /// Name and version of this format.
    pub format: &'static str,
    /// The herb.
    pub herb: HerbView,
    /// Which works were counted; `null` for all.
    pub filter: Option<FilterView>,
    /// All works named below, oldest first; elsewhere they are named by id.
    pub works: Vec<WorkRef>,
    /// One answer a value asked for, in the order asked.
    pub answers: Vec<ValueAnswer>,
    /// Warnings, cautions and the notice.
    #[serde(flatten)]
    pub heed: HeedView,
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
    /// Of an action: works that state an opposed one of a part, preparation or kind only.
    pub opposed_of_scope: Vec<ReplyView>,
    /// Works with an article that are silent.
    pub silent: Vec<String>,
    /// Of a nature, how many witnesses stand on the same side of neutral.
    pub side: Option<SideCount>,
    /// What it means beside a partner.
    pub pairing: Option<String>,
}

/// How many witnesses stand on one side of the scale.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct SideCount {
    /// The side.
    pub side: String,
    /// Witnesses with a value on it.
    pub k: usize,
}

/// A witness's reply with its evidence.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct ReplyView {
    /// The work.
    pub work: String,
    /// What it says, in words.
    pub text: String,
    /// Whether every reading that it rests on is doubtful.
    pub doubtful: bool,
    /// Whether any of it comes from the user's own folder.
    pub user: bool,
    /// The statements that it rests on.
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
            filter: FilterView::new(labels, selection),
            answers,
            heed: HeedView::new(labels, herb),
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
        opposed_of_scope: replies(&answer.opposed_of_scope),
        silent: labels.works(&answer.silent),
        pairing: pairing(labels, herb, answer),
        side: side(labels, answer),
    }
}

/// The tally of the side on which the value asked for lies; none for neutral and beside nature.
fn side(labels: &Labels<'_>, answer: &Answer) -> Option<SideCount> {
    let scheme = labels.corpus.vocabulary.scheme(answer.question.facet);
    let side = scheme.value(answer.question.value).side.as_ref()?;
    (answer.question.facet == Facet::Nature && side != "neutral").then(|| SideCount {
        side: side.clone(),
        k: answer.same_side,
    })
}

/// What an answer means for pairing: of flavour and nature the vocabulary's own words when it holds;
/// of toxicity no verdict outweighs a warning.
fn pairing(labels: &Labels<'_>, herb: &Herb, answer: &Answer) -> Option<String> {
    let facet = answer.question.facet;
    let value = labels
        .corpus
        .vocabulary
        .scheme(facet)
        .value(answer.question.value);
    let words = match (facet, answer.verdict) {
        (Facet::Grade | Facet::Channel | Facet::Action, _) | (_, Verdict::Silent) => return None,
        (Facet::Toxicity, _) => return Some(toxicity_hint(labels, herb).to_owned()),
        (_, Verdict::Yes | Verdict::MostlyYes) => return value.pairing.clone(),
        (Facet::Nature, Verdict::No | Verdict::MostlyNo)
            if value.side.as_deref() == Some("neutral") =>
        {
            "by most books it is not neutral: see which side they take"
        }
        (_, Verdict::No) => "by the books it does not bring this; a partner would have to",
        (_, Verdict::MostlyNo) => "by most books it does not bring this; a partner would have to",
        (_, Verdict::Disputed | Verdict::BySome) => {
            "the books disagree: look at time, scope and lines before counting on it"
        }
    };
    Some(words.to_owned())
}

/// The books' word on poison is no safety test.
fn toxicity_hint(labels: &Labels<'_>, herb: &Herb) -> &'static str {
    let grave = labels
        .cautions(herb)
        .iter()
        .any(|caution| caution.severity == Severity::Grave);
    match (grave, SeverestView::warnings(labels, herb).is_empty()) {
        (true, _) => {
            "the books' word is no safety test: heed the cautions below before any pairing"
        }
        (false, false) => "some book warns: see the cautions before any pairing",
        (false, true) => "no book here warns, which is no safety test; see the cautions",
    }
}

fn reply_view(labels: &Labels<'_>, herb: &Herb, facet: Facet, reply: &Reply) -> ReplyView {
    let mut words: Vec<String> = Vec::new();
    for value in &reply.values {
        for statement in &reply.statements {
            let stated = statement.values.iter().find(|(other, _)| other == value);
            let Some((_, degree)) = stated else { continue };
            let word = in_words(labels, facet, *value, *degree);
            let scope = labels.scope(&statement.scope);
            let word = scope.map_or_else(|| word.clone(), |scope| format!("{word} ({scope})"));
            if !words.contains(&word) {
                words.push(word);
            }
            // Of the herb as such the first statement settles the degree; scopes are told one by one.
            if statement.scope.is_whole() {
                break;
            }
        }
    }
    let user = |one: &Statement| herb.entries[one.evidence.0].origin == Origin::User;
    ReplyView {
        work: labels.work(reply.work),
        text: words.join(", "),
        doubtful: reply.statements.iter().all(|one| one.doubtful),
        user: reply.statements.iter().any(user),
        statements: reply
            .statements
            .iter()
            .map(|one| StatementView::new(labels, herb, facet, one))
            .collect(),
    }
}
