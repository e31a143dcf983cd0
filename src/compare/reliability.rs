//! What the books say weighted by how far each agrees with the rest on all herbs, where it is asked for (rule 33).

use super::stands::{Row, Stands};
use crate::claim::{Scale, ValueId};
use crate::corpus::{Corpus, HerbId, WorkId};
use crate::stats::{Errors, Estimate, Vote, estimate};

/// A value with the probability that it is so.
#[derive(Debug, Clone, PartialEq)]
pub struct WeightedValue {
    /// For lists the flavour; on a scale `None`: there the sides are estimated.
    pub value: Option<ValueId>,
    /// On a scale the side.
    pub side: Option<String>,
    /// The probability, 0 to 1.
    pub probability: f64,
}

/// The weighted estimate of one facet of one herb.
#[derive(Debug, Clone, PartialEq)]
pub struct Weighted {
    /// The values or sides with their probabilities.
    pub values: Vec<WeightedValue>,
    /// The witnesses, oldest first, each with the share of its statements on all herbs that the estimate bears out.
    pub witnesses: Vec<(WorkId, f64)>,
}

/// The estimate of one facet over all herbs.
#[derive(Debug)]
pub struct Reliabilities<'s> {
    stands: &'s Stands,
    /// For lists one estimate a flavour, on a scale one of the sides; none where nobody speaks.
    estimates: Vec<Option<Estimate>>,
    /// On a scale the sides, in order.
    sides: Vec<String>,
}

impl<'s> Reliabilities<'s> {
    /// Estimates what holds of every herb on the facet of `stands`, together with how reliable each work is: Dawid and
    /// Skene's estimate with a table of errors for each work. Of a list each flavour is a question by itself, stated or left
    /// out; on a scale the question is the side, and a witness on two sides has no voice.
    ///
    /// ```
    /// use kaoyi::{claim::Facet, compare, corpus};
    /// let corpus = corpus::embedded().unwrap();
    /// let stands = compare::stands(&corpus, &[Facet::Nature]).unwrap();
    /// let corpus::Lookup::One(ginger) = corpus.find_herb("ganjiang") else { panic!() };
    /// let weighted = compare::Reliabilities::new(&corpus, &stands[0]).of(ginger).unwrap();
    /// assert!(weighted.values.iter().any(|one| one.side.as_deref() == Some("warm") && one.probability > 0.99));
    /// ```
    #[must_use]
    pub fn new(corpus: &Corpus, stands: &'s Stands) -> Self {
        let scheme = corpus.vocabulary.scheme(stands.facet);
        let works = corpus.works().len();
        let mut this = Self {
            stands,
            estimates: Vec::new(),
            sides: Vec::new(),
        };
        if scheme.scale() == Scale::Ordinal {
            let sides = scheme
                .values()
                .iter()
                .filter_map(|value| value.side.clone());
            for side in sides {
                if !this.sides.contains(&side) {
                    this.sides.push(side);
                }
            }
            let class = |row: &Row| this.side_of(corpus, row);
            let sides = this.estimate(class, works, this.sides.len());
            this.estimates.push(sides);
            return this;
        }
        for value in (0..scheme.values().len()).map(|place| ValueId(place as u16)) {
            let class = |row: &Row| {
                let stand = &stands.kinds[row.kind as usize];
                Some(usize::from(stand.contains(&value)))
            };
            let stated = this.estimate(class, works, 2);
            this.estimates.push(stated);
        }
        this
    }

    /// The side on which a witness stands; `None` for one on two sides.
    fn side_of(&self, corpus: &Corpus, row: &Row) -> Option<usize> {
        let scheme = corpus.vocabulary.scheme(self.stands.facet);
        let mut sides = self.stands.kinds[row.kind as usize].iter().map(|value| {
            let side = scheme.value(*value).side.as_ref();
            self.sides.iter().position(|one| Some(one) == side)
        });
        let first = sides.next()??;
        sides.all(|side| side == Some(first)).then_some(first)
    }

    fn estimate(
        &self,
        class: impl Fn(&Row) -> Option<usize>,
        works: usize,
        classes: usize,
    ) -> Option<Estimate> {
        let mut votes = Vec::with_capacity(self.stands.rows().len());
        for (item, rows) in self.stands.by_herb().enumerate() {
            for row in rows {
                if let Some(class) = class(row) {
                    votes.push(Vote {
                        item,
                        source: usize::from(row.work.0),
                        class,
                    });
                }
            }
        }
        estimate(&votes, self.stands.herbs(), works, classes, Errors::Table)
    }

    /// What is estimated of one herb; `None` where nobody speaks of the facet.
    #[must_use]
    pub fn of(&self, herb: HerbId) -> Option<Weighted> {
        let rows = self.stands.of(herb);
        if rows.is_empty() {
            return None;
        }
        let item = herb.0 as usize;
        let probability = |question: usize, class: usize| {
            let estimate = self.estimates[question].as_ref();
            estimate.map_or(0.0, |one| one.posterior[item][class])
        };
        let mut values = Vec::new();
        if self.sides.is_empty() {
            for place in 0..self.estimates.len() {
                values.push(WeightedValue {
                    value: Some(ValueId(place as u16)),
                    side: None,
                    probability: probability(place, 1),
                });
            }
        } else {
            for (class, side) in self.sides.iter().enumerate() {
                values.push(WeightedValue {
                    value: None,
                    side: Some(side.clone()),
                    probability: probability(0, class),
                });
            }
        }
        let reliability = |row: &Row| (row.work, self.reliability(row.work));
        Some(Weighted {
            values,
            witnesses: rows.iter().map(reliability).collect(),
        })
    }

    /// The share of a work's statements that the estimate bears out, on average over its questions.
    fn reliability(&self, work: WorkId) -> f64 {
        let of_question = |one: &Estimate| -> f64 {
            let table = &one.rates[usize::from(work.0)];
            let prevalence = one.prevalence.iter().enumerate();
            prevalence
                .map(|(class, share)| share * table[class][class])
                .sum()
        };
        let questions: Vec<f64> = self.estimates.iter().flatten().map(of_question).collect();
        questions.iter().sum::<f64>() / questions.len().max(1) as f64
    }
}
