//! Lines of transmission: a witness that repeats what a work it draws on says is no independent
//! support.

use std::collections::{HashSet, VecDeque};

use super::witness::Witness;
use crate::corpus::{Corpus, WorkId};

/// Which witness stands in which line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Lines {
    /// For each witness, in order, the number of its line, from 0.
    pub line_of: Vec<usize>,
    /// How many lines there are.
    pub count: usize,
}

/// Puts witnesses into lines by their whole stand (rule 6 of the methods).
///
/// Witnesses are taken from the oldest on. A witness joins the line of its nearest ancestor, by
/// steps over `draws_on`, that is a witness with the same stand; of ancestors equally near the
/// oldest is taken, so a work with two such descents joins one line and does not weld two
/// independent lines together. A witness without such an ancestor begins a line.
///
/// ```
/// use kaoyi::{claim::Facet, compare, corpus};
/// let corpus = corpus::embedded().unwrap();
/// let corpus::Lookup::One(mint) = corpus.find_herb("bohe") else { panic!() };
/// let nature = compare::view(&corpus, corpus.herb(mint), Facet::Nature, &Default::default());
/// let lines = compare::lines(&corpus, &nature.witnesses);
/// assert_eq!(lines.line_of.len(), nature.witnesses.len());
/// assert_eq!(lines.line_of[0], 0, "the oldest witness begins a line");
/// ```
#[must_use]
pub fn lines(corpus: &Corpus, witnesses: &[Witness]) -> Lines {
    let stands: Vec<_> = witnesses
        .iter()
        .map(|witness| (witness.work, witness.stand()))
        .collect();
    let mut line_of: Vec<usize> = Vec::with_capacity(stands.len());
    let mut count = 0;
    for (work, stand) in &stands {
        let same = |ancestor: WorkId| {
            let place = stands.iter().position(|(other, _)| *other == ancestor)?;
            (stands[place].1 == *stand && place < line_of.len()).then(|| line_of[place])
        };
        let line = nearest_ancestor(corpus, *work, same).unwrap_or_else(|| {
            count += 1;
            count - 1
        });
        line_of.push(line);
    }
    Lines { line_of, count }
}

/// How many of `supporters` have no ancestor among them. Used for actions, where every statement is
/// about one action and a whole stand says nothing about what it leaves out.
///
/// ```
/// let corpus = kaoyi::corpus::embedded().unwrap();
/// let work = |id| corpus.work_place(id).unwrap();
/// // 本草從新 is a revision of 本草備要; 本草蒙筌 is older than both.
/// let supporters = ["bencao-beiyao", "bencao-congxin", "leigong-paozhi-yaoxing-jie"].map(work);
/// assert_eq!(kaoyi::compare::lines_of_support(&corpus, supporters.into_iter()), 2);
/// ```
#[must_use]
pub fn lines_of_support(corpus: &Corpus, supporters: impl Iterator<Item = WorkId>) -> usize {
    let supporters: HashSet<WorkId> = supporters.collect();
    let independent = |work: &&WorkId| {
        nearest_ancestor(corpus, **work, |one| {
            supporters.contains(&one).then_some(())
        })
        .is_none()
    };
    supporters.iter().filter(independent).count()
}

/// Walks `draws_on` breadth first, oldest first within a step, to the first ancestor that `wanted`
/// answers for.
fn nearest_ancestor<T>(
    corpus: &Corpus,
    work: WorkId,
    wanted: impl Fn(WorkId) -> Option<T>,
) -> Option<T> {
    let mut seen = HashSet::from([work]);
    let mut open = VecDeque::from([vec![work]]);
    while let Some(step) = open.pop_front() {
        let debts = step
            .iter()
            .flat_map(|work| &corpus.work(*work).draws_on)
            .map(|debt| debt.work);
        let mut next: Vec<WorkId> = debts.filter(|work| seen.insert(*work)).collect();
        next.sort_unstable();
        if let Some(found) = next.iter().find_map(|work| wanted(*work)) {
            return Some(found);
        }
        if !next.is_empty() {
            open.push_back(next);
        }
    }
    None
}
