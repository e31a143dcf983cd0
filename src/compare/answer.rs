//! One question, one answer: does the record call this herb sweet, warm, toxic?

use schemars::JsonSchema;
use serde::Serialize;

use super::lines::{lines, lines_of_support};
use super::question::Question;
use super::witness::{FacetView, Witness};
use super::{Selection, view};
use crate::claim::{Facet, ValueId, Vocabulary};
use crate::corpus::{Corpus, Herb, WorkId};

/// An answer in one word; the thresholds stand in `corpus/vocabulary/thresholds.yaml`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Verdict {
    /// Every witness says so.
    Yes,
    /// Two thirds or more say so.
    MostlyYes,
    /// Between one third and two thirds say so.
    Disputed,
    /// One third or fewer say so.
    MostlyNo,
    /// Some say so; the list is open, so those that leave it out do not deny it.
    Partly,
    /// No witness says so, and the list is one in which leaving out denies.
    No,
    /// No witness says so, but none denies it either.
    Silent,
}

impl Verdict {
    /// The words for it.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Yes => "yes",
            Self::MostlyYes => "mostly yes",
            Self::Disputed => "disputed",
            Self::MostlyNo => "mostly no",
            Self::Partly => "by some",
            Self::No => "no",
            Self::Silent => "silent",
        }
    }

    /// Whether a script may take it for yes.
    #[must_use]
    pub const fn holds(self) -> bool {
        matches!(self, Self::Yes | Self::MostlyYes)
    }
}

/// The verdict for `k` of `n` on a facet (rule 18). Leaving a value out of an open list denies
/// nothing, so of channels it is never "no", "mostly no" or "disputed". Of actions the others among
/// the `n` state the contrary.
pub(super) fn verdict(vocabulary: &Vocabulary, facet: Facet, k: usize, n: usize) -> Verdict {
    let thresholds = &vocabulary.thresholds;
    let denies = vocabulary.scheme(facet).closed() || facet == Facet::Action;
    match k {
        _ if n == 0 => Verdict::Silent,
        0 if denies => Verdict::No,
        0 => Verdict::Silent,
        _ if k == n => Verdict::Yes,
        _ if thresholds.mostly.reached_by(k, n) => Verdict::MostlyYes,
        _ if !denies => Verdict::Partly,
        _ if thresholds.mostly_not.not_exceeded_by(k, n) => Verdict::MostlyNo,
        _ => Verdict::Disputed,
    }
}

/// A witness's reply: the values of its stand.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Reply {
    /// The witness.
    pub work: WorkId,
    /// Its stand; for an action only the action that it states, asked for or opposed.
    pub values: Vec<ValueId>,
}

/// The answer to a question, with the evidence.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Answer {
    /// What was asked.
    pub question: Question,
    /// The verdict by witnesses.
    pub verdict: Verdict,
    /// Witnesses that say so, oldest first.
    pub yes: Vec<Reply>,
    /// Witnesses that say otherwise: that state another value or, of an action, the contrary.
    pub no: Vec<Reply>,
    /// Lines that say so.
    pub j: usize,
    /// Lines that say so or otherwise.
    pub m: usize,
    /// Works with an article that are silent.
    pub silent: Vec<WorkId>,
    /// The facet's witnesses and their statements.
    pub view: FacetView,
}

/// Asks the record of `herb` a question (rules 20 and 21 of the methods).
#[must_use]
pub fn ask(corpus: &Corpus, herb: &Herb, question: Question, selection: &Selection) -> Answer {
    let scheme = corpus.vocabulary.scheme(question.facet);
    let view = view(corpus, herb, question.facet, selection);
    let answers = |value: &ValueId| scheme.answers(*value, question.value);
    let contrary = |value: &ValueId| scheme.opposed(*value, question.value);
    let reply = |witness: &Witness, keep: &dyn Fn(&ValueId) -> bool| Reply {
        work: witness.work,
        values: witness.values.iter().copied().filter(keep).collect(),
    };
    let (mut yes, mut no) = (Vec::new(), Vec::new());
    for witness in &view.witnesses {
        let says_so = witness.values.iter().any(answers);
        if question.facet == Facet::Action {
            if says_so {
                yes.push(reply(witness, &answers));
            }
            if witness.values.iter().any(contrary) {
                no.push(reply(witness, &contrary));
            }
        } else if says_so {
            yes.push(reply(witness, &|_| true));
        } else {
            no.push(reply(witness, &|_| true));
        }
    }
    let (j, m) = support_in_lines(corpus, &view, question, &yes, &no);
    let verdict = verdict(
        &corpus.vocabulary,
        question.facet,
        yes.len(),
        yes.len() + no.len(),
    );
    let silent = view.silent.clone();
    Answer {
        question,
        verdict,
        yes,
        no,
        j,
        m,
        silent,
        view,
    }
}

fn support_in_lines(
    corpus: &Corpus,
    view: &FacetView,
    question: Question,
    yes: &[Reply],
    no: &[Reply],
) -> (usize, usize) {
    let works = |replies: &[Reply]| replies.iter().map(|reply| reply.work).collect::<Vec<_>>();
    if question.facet != Facet::Action {
        let lines = lines(corpus, &view.witnesses);
        let yes = works(yes);
        let of = view
            .witnesses
            .iter()
            .zip(&lines.line_of)
            .filter(|(witness, _)| yes.contains(&witness.work));
        let j = of
            .map(|(_, line)| line)
            .collect::<std::collections::BTreeSet<_>>()
            .len();
        return (j, lines.count);
    }
    let j = lines_of_support(corpus, works(yes).into_iter());
    (j, j + lines_of_support(corpus, works(no).into_iter()))
}
