//! Lines of transmission: a witness that repeats what a work it draws on says is no independent
//! support.

use std::collections::{HashSet, VecDeque};

use super::witness::{FacetView, Witness};
use crate::corpus::{Corpus, Work, WorkId};

/// Which witness stands in which line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Lines {
    /// For each witness of the view, in order, the number of its line, from 0.
    pub line_of: Vec<usize>,
    /// For each witness of the view the ancestor that it repeats; `None` for one that begins a line.
    pub repeats: Vec<Option<WorkId>>,
    /// How many lines there are.
    pub count: usize,
}

/// Which works draw on which: the recorded debts, or these and others.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Debts {
    of: Vec<Vec<WorkId>>,
}

impl Debts {
    /// The debts that the corpus records.
    #[must_use]
    pub fn recorded(corpus: &Corpus) -> Self {
        let of = |work: &Work| work.draws_on.iter().map(|debt| debt.work).collect();
        Self {
            of: corpus.works().iter().map(of).collect(),
        }
    }

    /// These and others, each the younger work and the older.
    #[must_use]
    pub fn and(mut self, others: impl IntoIterator<Item = (WorkId, WorkId)>) -> Self {
        for (younger, older) in others {
            let debts = &mut self.of[usize::from(younger.0)];
            if !debts.contains(&older) {
                debts.push(older);
            }
        }
        self
    }

    fn of(&self, work: WorkId) -> &[WorkId] {
        &self.of[usize::from(work.0)]
    }
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
    lines_along(&Debts::recorded(corpus), view)
}

/// Puts the witnesses of a view into lines along the debts given.
#[must_use]
pub fn lines_along(debts: &Debts, view: &FacetView) -> Lines {
    let all: Vec<&Witness> = in_order(view).collect();
    let stands: Vec<_> = all.iter().map(|witness| witness.stand()).collect();
    let works: Vec<WorkId> = all.iter().map(|witness| witness.work).collect();
    let descents = descend(debts, &works, |a, b| stands[a] == stands[b]);
    // Lines are numbered anew, since those without a chosen witness are not shown.
    let mut numbers: Vec<usize> = Vec::new();
    let mut line_of = Vec::with_capacity(view.witnesses.len());
    let mut repeats = Vec::with_capacity(view.witnesses.len());
    let chosen = |work: WorkId| view.witnesses.iter().any(|witness| witness.work == work);
    for descent in descents.into_iter().filter(|one| chosen(one.work)) {
        let line = descent.line;
        repeats.push(descent.repeats);
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
        repeats,
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
    let of_chosen = descents_of_support(corpus, view, states);
    let lines: HashSet<usize> = of_chosen.iter().map(|one| one.line).collect();
    lines.len()
}

/// The chosen witnesses for which `states` holds, oldest first, with their descent among all for which it holds.
#[must_use]
pub fn descents_of_support(
    corpus: &Corpus,
    view: &FacetView,
    states: impl Fn(&Witness) -> bool,
) -> Vec<Descent> {
    let supporters: Vec<WorkId> = in_order(view)
        .filter(|one| states(one))
        .map(|one| one.work)
        .collect();
    let mut descents = descend(&Debts::recorded(corpus), &supporters, |_, _| true);
    let chosen = |work: WorkId| view.witnesses.iter().any(|witness| witness.work == work);
    descents.retain(|one| chosen(one.work));
    descents
}

/// A work's place in a line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Descent {
    /// The work.
    pub work: WorkId,
    /// The number of its line.
    pub line: usize,
    /// The ancestor that it repeats; `None` where it begins the line.
    pub repeats: Option<WorkId>,
}

/// The witnesses, chosen or not, oldest first.
fn in_order(view: &FacetView) -> impl Iterator<Item = &Witness> {
    let mut all: Vec<&Witness> = view.witnesses.iter().chain(&view.outside).collect();
    all.sort_by_key(|witness| witness.work);
    all.into_iter()
}

/// The descent of each of `works`, which stand oldest first; `same` compares two of them by place.
pub(super) fn descend(
    debts: &Debts,
    works: &[WorkId],
    same: impl Fn(usize, usize) -> bool,
) -> Vec<Descent> {
    let mut descents: Vec<Descent> = Vec::with_capacity(works.len());
    let mut count = 0;
    for (place, work) in works.iter().enumerate() {
        let as_ancestor = |ancestor: WorkId| {
            let other = works.iter().position(|one| *one == ancestor)?;
            (other < place && same(other, place)).then(|| descents[other])
        };
        let descent = match nearest_ancestor(debts, *work, as_ancestor) {
            Some(ancestor) => Descent {
                work: *work,
                line: ancestor.line,
                repeats: Some(ancestor.work),
            },
            None => {
                count += 1;
                Descent {
                    work: *work,
                    line: count - 1,
                    repeats: None,
                }
            }
        };
        descents.push(descent);
    }
    descents
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

/// Walks debts breadth first, oldest first within a step, to the first ancestor that `wanted`
/// answers for.
fn nearest_ancestor<T>(
    debts: &Debts,
    work: WorkId,
    wanted: impl Fn(WorkId) -> Option<T>,
) -> Option<T> {
    let mut seen = HashSet::from([work]);
    let mut open = VecDeque::from([vec![work]]);
    while let Some(step) = open.pop_front() {
        let of_step = step.iter().flat_map(|work| debts.of(*work)).copied();
        let mut next: Vec<WorkId> = of_step.filter(|work| seen.insert(*work)).collect();
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
