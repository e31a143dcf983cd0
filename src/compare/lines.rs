//! Lines of transmission: a witness that repeats what a work it draws on says is no independent
//! support.

use std::collections::{HashSet, VecDeque};

use super::witness::{FacetView, Witness};
use crate::corpus::{Corpus, WorkId};

/// Which witness stands in which line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Lines {
    /// For each witness of the view, in order, the number of its line, from 0.
    pub line_of: Vec<usize>,
    /// How many lines there are.
    pub count: usize,
}

/// Puts the witnesses of a view into lines by their whole stand (rule 6 of the methods).
///
/// Witnesses are taken from the oldest on. A witness joins the line of its nearest ancestor, by
/// steps over `draws_on`, that is a witness with the same stand; of ancestors equally near the
/// oldest is taken, so a work with two such descents joins one line and does not weld two
/// independent lines together. A witness without such an ancestor begins a line. Witnesses that the
/// selection leaves out still link others, so that choosing works makes none independent.
///
/// ```
/// use kaoyi::{claim::Facet, compare, corpus};
/// let corpus = corpus::embedded().unwrap();
/// let corpus::Lookup::One(mint) = corpus.find_herb("bohe") else { panic!() };
/// let nature = compare::view(&corpus, corpus.herb(mint).unwrap(), Facet::Nature, &Default::default());
/// let lines = compare::lines(&corpus, &nature);
/// assert_eq!(lines.line_of.len(), nature.witnesses.len());
/// assert_eq!(lines.line_of[0], 0, "the oldest witness begins a line");
/// ```
#[must_use]
pub fn lines(corpus: &Corpus, view: &FacetView) -> Lines {
    let all: Vec<&Witness> = in_order(view).collect();
    let stands: Vec<_> = all.iter().map(|witness| witness.stand()).collect();
    let works: Vec<WorkId> = all.iter().map(|witness| witness.work).collect();
    let line_of_all = descend(corpus, &works, |a, b| stands[a] == stands[b]);
    // Lines are numbered anew, since those without a chosen witness are not shown.
    let mut numbers: Vec<usize> = Vec::new();
    let mut line_of = Vec::with_capacity(view.witnesses.len());
    for witness in &view.witnesses {
        let place = works.iter().position(|work| *work == witness.work);
        let line = place.map_or(usize::MAX, |place| line_of_all[place]);
        let number = numbers
            .iter()
            .position(|one| *one == line)
            .unwrap_or_else(|| {
                numbers.push(line);
                numbers.len() - 1
            });
        line_of.push(number);
    }
    Lines {
        line_of,
        count: numbers.len(),
    }
}

/// In how many lines the chosen witnesses stand for which `states` holds, descent being reckoned among
/// all for which it holds. Used for actions, where every statement is about one action and a whole
/// stand says nothing about what it leaves out.
///
/// ```
/// use kaoyi::{claim::Facet, compare, corpus};
/// let corpus = corpus::embedded().unwrap();
/// let corpus::Lookup::One(mint) = corpus.find_herb("bohe") else { panic!() };
/// let actions = compare::view(&corpus, corpus.herb(mint).unwrap(), Facet::Action, &Default::default());
/// let sweating = corpus.vocabulary.scheme(Facet::Action).place("promotes-sweating").unwrap();
/// let states = |witness: &compare::Witness| witness.values.contains(&sweating);
/// let works = actions.witnesses.iter().filter(|witness| states(witness)).count();
/// assert!(compare::lines_of_support(&corpus, &actions, states) < works);
/// ```
#[must_use]
pub fn lines_of_support(
    corpus: &Corpus,
    view: &FacetView,
    states: impl Fn(&Witness) -> bool,
) -> usize {
    let supporters: Vec<WorkId> = in_order(view)
        .filter(|one| states(one))
        .map(|one| one.work)
        .collect();
    let line_of = descend(corpus, &supporters, |_, _| true);
    let chosen = |work: &WorkId| view.witnesses.iter().any(|witness| witness.work == *work);
    let of_chosen = supporters
        .iter()
        .zip(line_of)
        .filter(|(work, _)| chosen(work));
    of_chosen
        .map(|(_, line)| line)
        .collect::<HashSet<_>>()
        .len()
}

/// The witnesses, chosen or not, oldest first.
fn in_order(view: &FacetView) -> impl Iterator<Item = &Witness> {
    let mut all: Vec<&Witness> = view.witnesses.iter().chain(&view.outside).collect();
    all.sort_by_key(|witness| witness.work);
    all.into_iter()
}

/// The line of each of `works`, which stand oldest first; `same` compares two of them by place.
fn descend(corpus: &Corpus, works: &[WorkId], same: impl Fn(usize, usize) -> bool) -> Vec<usize> {
    let mut line_of: Vec<usize> = Vec::with_capacity(works.len());
    let mut count = 0;
    for (place, work) in works.iter().enumerate() {
        let line_of_ancestor = |ancestor: WorkId| {
            let other = works.iter().position(|one| *one == ancestor)?;
            (other < place && same(other, place)).then(|| line_of[other])
        };
        let line = nearest_ancestor(corpus, *work, line_of_ancestor).unwrap_or_else(|| {
            count += 1;
            count - 1
        });
        line_of.push(line);
    }
    line_of
}

/// By how many steps over `draws_on` the work `younger` descends from `older`; `None` where it does not.
///
/// ```
/// let corpus = kaoyi::corpus::embedded().unwrap();
/// let work = |id| corpus.work_place(id).unwrap();
/// let steps = kaoyi::compare::steps_to(&corpus, work("bencao-congxin"), work("bencao-beiyao"));
/// assert_eq!(steps, Some(1), "the one revises the other");
/// ```
#[must_use]
pub fn steps_to(corpus: &Corpus, younger: WorkId, older: WorkId) -> Option<usize> {
    let mut seen = HashSet::from([younger]);
    let mut step = vec![younger];
    let mut steps = 0;
    while !step.is_empty() {
        if step.contains(&older) && steps > 0 {
            return Some(steps);
        }
        let debts = step.iter().flat_map(|work| &corpus.work(*work).draws_on);
        step = debts
            .map(|debt| debt.work)
            .filter(|work| seen.insert(*work))
            .collect();
        steps += 1;
    }
    None
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
