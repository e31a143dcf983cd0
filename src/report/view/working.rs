//! The working behind a profile: every figure from the witnesses it was counted from, as one could redo it on paper.

use schemars::JsonSchema;
use serde::Serialize;

use super::labels::{Labels, ValueRef};
use crate::claim::{Facet, Share};
use crate::compare::{self, Descent, FacetView, Selection};
use crate::corpus::{Herb, WorkId};
use crate::stats::{WilsonTerms, wilson_terms};

/// The working of one facet.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct WorkingView {
    /// The facet.
    pub facet: Facet,
    /// The witnesses, oldest first; of actions none, since each action has its own lines.
    pub stands: Vec<WorkedStand>,
    /// Value by value, who states it and in which lines.
    pub values: Vec<WorkedValue>,
    /// On a scale, all values that count, from the lowest to the highest.
    pub scale: Vec<ValueRef>,
    /// From this share of witnesses on the verdict is "mostly yes".
    pub mostly: Share,
    /// Up to this share of witnesses it is "mostly no".
    pub mostly_not: Share,
}

/// A witness's stand with its descent.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct WorkedStand {
    /// The witness.
    pub work: String,
    /// Its stand, sorted in the order of the vocabulary.
    pub values: Vec<ValueRef>,
    /// The number of its line, from 1.
    pub line: usize,
    /// The work with the same stand that it descends from; `null` where it begins the line.
    pub repeats: Option<String>,
}

/// Who states a value.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct WorkedValue {
    /// The value.
    pub value: ValueRef,
    /// Whether its degrees are counted too.
    pub any_degree: bool,
    /// The witnesses that state it, oldest first.
    pub by: Vec<String>,
    /// The numbers of the lines in which these stand.
    pub lines: Vec<usize>,
    /// Witnesses on the facet; of an action those that state it.
    pub n: usize,
    /// Lines on the facet; of an action those that state it.
    pub m: usize,
    /// The terms of the Wilson interval; `null` where none is given.
    pub wilson: Option<WilsonTerms>,
}

impl WorkingView {
    /// The working of `facets` of an herb, those left out on which nobody speaks.
    #[must_use]
    pub fn all(
        labels: &Labels<'_>,
        herb: &Herb,
        facets: &[Facet],
        selection: &Selection,
    ) -> Vec<Self> {
        let corpus = labels.corpus;
        let views = facets
            .iter()
            .map(|facet| compare::view(corpus, herb, *facet, selection));
        let spoken = views.filter(|view| !view.witnesses.is_empty());
        spoken.map(|view| Self::new(labels, &view)).collect()
    }

    fn new(labels: &Labels<'_>, view: &FacetView) -> Self {
        let scheme = labels.corpus.vocabulary.scheme(view.facet);
        let thresholds = &labels.corpus.vocabulary.thresholds;
        let mut this = Self {
            facet: view.facet,
            stands: Vec::new(),
            values: Vec::new(),
            scale: Vec::new(),
            mostly: thresholds.mostly,
            mostly_not: thresholds.mostly_not,
        };
        if view.facet == Facet::Action {
            this.values = actions(labels, view);
            return this;
        }
        let lines = compare::lines(labels.corpus, view);
        let descents = lines.line_of.iter().zip(&lines.repeats);
        for (witness, (line, repeats)) in view.witnesses.iter().zip(descents) {
            let stand = witness.stand();
            this.stands.push(WorkedStand {
                work: labels.work(witness.work),
                values: stand
                    .iter()
                    .map(|value| labels.value(view.facet, *value))
                    .collect(),
                line: line + 1,
                repeats: repeats.map(|work| labels.work(work)),
            });
        }
        let profile = compare::profile(labels.corpus, view);
        for support in &profile.supports {
            let line = |work: &WorkId| {
                let place = view.witnesses.iter().position(|one| one.work == *work)?;
                Some(lines.line_of[place] + 1)
            };
            this.values.push(WorkedValue {
                value: labels.value(view.facet, support.value),
                any_degree: support.any_degree,
                by: labels.works(&support.by),
                lines: distinct(support.by.iter().filter_map(line)),
                n: support.n,
                m: support.m,
                wilson: wilson_terms(support.k, support.n).filter(|_| scheme.closed()),
            });
        }
        if profile.scaled.is_some() {
            let mut all: Vec<_> = view.witnesses.iter().flat_map(|one| &one.values).collect();
            all.sort_unstable();
            let values = all.into_iter();
            this.scale = values
                .map(|value| labels.value(view.facet, *value))
                .collect();
        }
        this
    }
}

/// The actions, each with its own descent.
fn actions(labels: &Labels<'_>, view: &FacetView) -> Vec<WorkedValue> {
    let corpus = labels.corpus;
    let worked = |concept: &compare::Concept| {
        let states = |one: &compare::Witness| one.values.contains(&concept.value);
        let descents = compare::descents_of_support(corpus, view, states);
        let lines = distinct(descents.iter().map(|one: &Descent| one.line + 1));
        WorkedValue {
            value: labels.value(Facet::Action, concept.value),
            any_degree: false,
            by: labels.works(&concept.witnesses),
            n: concept.witnesses.len(),
            m: lines.len(),
            lines,
            wilson: None,
        }
    };
    let concepts = compare::concepts(corpus, view);
    let stated = concepts.iter().filter(|one| !one.witnesses.is_empty());
    stated.map(worked).collect()
}

fn distinct(numbers: impl Iterator<Item = usize>) -> Vec<usize> {
    let mut numbers: Vec<usize> = numbers.collect();
    numbers.sort_unstable();
    numbers.dedup();
    numbers
}
