//! One question, one answer: does the record call this herb sweet, warm, toxic?

use std::collections::BTreeSet;

use schemars::JsonSchema;
use serde::Serialize;

use super::lines::{lines, lines_of_support};
use super::question::Question;
use super::witness::{FacetView, Statement, Witness};
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
    /// Some say so and none denies it, since leaving it out of an open list denies nothing; or, of an
    /// action, all who say so stand in one line.
    BySome,
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
            Self::BySome => "by some",
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
        _ if !denies => Verdict::BySome,
        _ if thresholds.mostly_not.not_exceeded_by(k, n) => Verdict::MostlyNo,
        _ => Verdict::Disputed,
    }
}

/// A work's reply.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Reply {
    /// The work.
    pub work: WorkId,
    /// Its stand; of an action or a scope only the values that the reply is about.
    pub values: Vec<ValueId>,
    /// The statements that it rests on.
    pub statements: Vec<Statement>,
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
    /// Works that say so of a part, preparation or kind only; they are not counted.
    pub of_scope: Vec<Reply>,
    /// Of an action: works that state an opposed one of a part, preparation or kind only.
    pub opposed_of_scope: Vec<Reply>,
    /// Witnesses with a value on the same side of the scale as the one asked for.
    pub same_side: usize,
    /// Lines that say so.
    pub j: usize,
    /// Lines that say so or otherwise.
    pub m: usize,
    /// Works with an article that are silent on the facet; none for actions, of which silence means
    /// nothing.
    pub silent: Vec<WorkId>,
}

/// Asks the record of `herb` a question (rules 20 and 21 of the methods).
///
/// ```
/// use kaoyi::{compare, corpus};
/// let corpus = corpus::embedded().unwrap();
/// let corpus::Lookup::One(mint) = corpus.find_herb("bohe") else { panic!() };
/// let acrid = compare::parse_question(&corpus.vocabulary, "acrid").unwrap();
/// let answer = compare::ask(&corpus, corpus.herb(mint).unwrap(), acrid, &Default::default());
/// assert_eq!(answer.verdict, compare::Verdict::Yes);
/// ```
#[must_use]
pub fn ask(corpus: &Corpus, herb: &Herb, question: Question, selection: &Selection) -> Answer {
    let scheme = corpus.vocabulary.scheme(question.facet);
    let view = view(corpus, herb, question.facet, selection);
    let answers = |value: &ValueId| scheme.answers(*value, question.value);
    let contrary = |value: &ValueId| scheme.opposed(*value, question.value);
    let (mut yes, mut no) = (Vec::new(), Vec::new());
    for witness in &view.witnesses {
        let says_so = witness.values.iter().any(answers);
        if question.facet == Facet::Action {
            yes.extend(reply(witness, true, answers));
            no.extend(reply(witness, true, contrary));
        } else {
            if says_so { &mut yes } else { &mut no }.extend(reply(witness, true, |_| true));
        }
    }
    let of_scope = scoped_replies(&view, &yes, answers);
    let mut opposed_of_scope = Vec::new();
    if question.facet == Facet::Action {
        opposed_of_scope = scoped_replies(&view, &no, contrary);
    }
    let side = |value: ValueId| scheme.value(value).side.as_deref();
    let on_side = |value: &ValueId| side(*value).is_some() && side(*value) == side(question.value);
    let same_side = view
        .witnesses
        .iter()
        .filter(|one| one.values.iter().any(on_side))
        .count();
    let (j, m) = support_in_lines(corpus, &view, question, &yes);
    let mut verdict = verdict(
        &corpus.vocabulary,
        question.facet,
        yes.len(),
        yes.len() + no.len(),
    );
    let mut silent = view.silent;
    if question.facet == Facet::Action {
        // One line alone is too little for a yes that nobody could deny by silence.
        if verdict == Verdict::Yes && j == 1 {
            verdict = Verdict::BySome;
        }
        silent.clear();
    }
    Answer {
        question,
        verdict,
        yes,
        no,
        of_scope,
        opposed_of_scope,
        same_side,
        j,
        m,
        silent,
    }
}

/// What works say of a scope only, and not of the herb as such.
fn scoped_replies(
    view: &FacetView,
    whole: &[Reply],
    wanted: impl Fn(&ValueId) -> bool,
) -> Vec<Reply> {
    let mut replies: Vec<Reply> = view
        .all()
        .filter_map(|one| reply(one, false, &wanted))
        .filter(|reply| whole.iter().all(|other| other.work != reply.work))
        .collect();
    replies.sort_by_key(|reply| reply.work);
    replies
}

/// What a work says in the statements that count, or in those on a scope, of the values wanted.
fn reply(witness: &Witness, counted: bool, wanted: impl Fn(&ValueId) -> bool) -> Option<Reply> {
    let of = |one: &&Statement| {
        if counted {
            one.counted
        } else {
            !one.scope.is_whole()
        }
    };
    let about = |one: &&Statement| one.values.iter().any(|(value, _)| wanted(value));
    let statements: Vec<Statement> = witness
        .statements
        .iter()
        .filter(of)
        .filter(about)
        .cloned()
        .collect();
    let mut values = Vec::new();
    for (value, _) in statements.iter().flat_map(|one| &one.values) {
        if wanted(value) && !values.contains(value) {
            values.push(*value);
        }
    }
    (!values.is_empty()).then_some(Reply {
        work: witness.work,
        values,
        statements,
    })
}

/// Lines that say so, and lines that say so or otherwise.
fn support_in_lines(
    corpus: &Corpus,
    view: &FacetView,
    question: Question,
    yes: &[Reply],
) -> (usize, usize) {
    let scheme = corpus.vocabulary.scheme(question.facet);
    if question.facet == Facet::Action {
        let states = |wanted: &dyn Fn(ValueId) -> bool| {
            lines_of_support(corpus, view, |witness| {
                witness.values.iter().any(|value| wanted(*value))
            })
        };
        let j = states(&|value| scheme.answers(value, question.value));
        return (
            j,
            j + states(&|value| scheme.opposed(value, question.value)),
        );
    }
    let lines = lines(corpus, view);
    let says_so = |witness: &Witness| yes.iter().any(|reply| reply.work == witness.work);
    let of = view
        .witnesses
        .iter()
        .zip(&lines.line_of)
        .filter(|(witness, _)| says_so(witness));
    (
        of.map(|(_, line)| line).collect::<BTreeSet<_>>().len(),
        lines.count,
    )
}
