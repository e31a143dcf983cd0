//! Channels and actions of herbs that meet: what several share, and what one does against another.

use std::cmp::Reverse;

use crate::claim::{Facet, ValueId};
use crate::compare::{self, Concept, Selection};
use crate::corpus::{Corpus, Herb};

/// An herb's part in something that herbs have in common.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Joint {
    /// The herb, by its place among those asked about.
    pub herb: usize,
    /// The works that say so of the herb as such.
    pub works: usize,
}

/// A channel or an action and the herbs of which it is said.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Shared {
    /// The value.
    pub value: ValueId,
    /// The herbs, in the order in which they are named.
    pub herbs: Vec<Joint>,
}

impl Shared {
    /// The number of works behind the herb that has fewest.
    #[must_use]
    pub fn least(&self) -> usize {
        let works = self.herbs.iter().map(|one| one.works);
        works.min().unwrap_or_default()
    }
}

/// An action of one herb and the contrary action of another.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Opposition {
    /// The action.
    pub value: ValueId,
    /// Who has it.
    pub one: Joint,
    /// The contrary.
    pub contrary: ValueId,
    /// Who has that.
    pub other: Joint,
}

/// What is stated of each of several herbs as such: the actions with their works.
#[derive(Debug, Clone)]
pub struct Actions(Vec<Vec<Concept>>);

impl Actions {
    /// The actions of herbs.
    ///
    /// ```
    /// use kaoyi::{corpus, pairing::Actions};
    /// let corpus = corpus::embedded().unwrap();
    /// let herb = |name| match corpus.find_herb(name) {
    ///     corpus::Lookup::One(id) => corpus.herb(id).unwrap(),
    ///     _ => panic!(),
    /// };
    /// let both = Actions::of(&corpus, &[herb("麻黃"), herb("桂枝")], &Default::default());
    /// assert!(both.reinforced(&corpus).iter().all(|one| one.herbs.len() == 2));
    /// assert!(both.opposed(&corpus).iter().all(|one| one.one.herb != one.other.herb));
    /// ```
    #[must_use]
    pub fn of(corpus: &Corpus, herbs: &[&Herb], selection: &Selection) -> Self {
        let of_herb = |herb: &&Herb| {
            let view = compare::view(corpus, herb, Facet::Action, selection);
            let mut concepts = compare::concepts(corpus, &view);
            concepts.retain(|concept| !concept.witnesses.is_empty());
            concepts
        };
        Self(herbs.iter().map(of_herb).collect())
    }

    /// The herbs that have an action.
    fn joints(&self, value: ValueId) -> Vec<Joint> {
        let of_herb = |(herb, concepts): (usize, &Vec<Concept>)| {
            let found = concepts.iter().find(|concept| concept.value == value)?;
            Some(Joint {
                herb,
                works: found.witnesses.len(),
            })
        };
        self.0.iter().enumerate().filter_map(of_herb).collect()
    }

    /// The actions that two or more of the herbs have, those of most herbs first, then those with most works behind each.
    #[must_use]
    pub fn reinforced(&self, corpus: &Corpus) -> Vec<Shared> {
        let mut shared: Vec<Shared> = values(corpus)
            .map(|value| Shared {
                value,
                herbs: self.joints(value),
            })
            .collect();
        shared.retain(|one| one.herbs.len() > 1);
        shared.sort_by_key(|one| Reverse((one.herbs.len(), one.least())));
        shared
    }

    /// The actions of one herb that are contrary to one of another, those first behind which most works stand on the side
    /// that has fewer.
    #[must_use]
    pub fn opposed(&self, corpus: &Corpus) -> Vec<Opposition> {
        let scheme = corpus.vocabulary.scheme(Facet::Action);
        let mut found = Vec::new();
        for value in values(corpus) {
            let ones = self.joints(value);
            // Each pair of contraries once.
            let contraries =
                values(corpus).filter(|other| *other > value && scheme.opposed(value, *other));
            for contrary in contraries.filter(|_| !ones.is_empty()) {
                let others = self.joints(contrary);
                let both = ones
                    .iter()
                    .flat_map(|one| others.iter().map(move |other| (*one, *other)));
                let apart = both.filter(|(one, other)| one.herb != other.herb);
                found.extend(apart.map(|(one, other)| Opposition {
                    value,
                    one,
                    contrary,
                    other,
                }));
            }
        }
        found.sort_by_key(|pair| Reverse(pair.one.works.min(pair.other.works)));
        found
    }
}

/// All actions of the vocabulary.
fn values(corpus: &Corpus) -> impl Iterator<Item = ValueId> {
    let scheme = corpus.vocabulary.scheme(Facet::Action);
    (0..scheme.values().len()).map(|place| ValueId(place as u16))
}

/// The channels that the herbs are said to enter, those of most herbs first.
#[must_use]
pub fn shared_channels(corpus: &Corpus, herbs: &[&Herb], selection: &Selection) -> Vec<Shared> {
    let scheme = corpus.vocabulary.scheme(Facet::Channel);
    let mut channels: Vec<Shared> = (0..scheme.values().len())
        .map(|place| Shared {
            value: ValueId(place as u16),
            herbs: Vec::new(),
        })
        .collect();
    for (herb, record) in herbs.iter().enumerate() {
        let view = compare::view(corpus, record, Facet::Channel, selection);
        for channel in &mut channels {
            let enters = |witness: &&compare::Witness| {
                let mut values = witness.values.iter();
                values.any(|value| scheme.answers(*value, channel.value))
            };
            let works = view.witnesses.iter().filter(enters).count();
            if works > 0 {
                channel.herbs.push(Joint { herb, works });
            }
        }
    }
    channels.retain(|channel| !channel.herbs.is_empty());
    channels.sort_by_key(|one| Reverse((one.herbs.len(), one.least())));
    channels
}
