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

/// What is stated of each herb as such: the actions with their works.
fn concepts(corpus: &Corpus, herbs: &[&Herb], selection: &Selection) -> Vec<Vec<Concept>> {
    let of_herb = |herb: &&Herb| {
        let view = compare::view(corpus, herb, Facet::Action, selection);
        let mut concepts = compare::concepts(corpus, &view);
        concepts.retain(|concept| !concept.witnesses.is_empty());
        concepts
    };
    herbs.iter().map(of_herb).collect()
}

/// The actions that two or more of the herbs have, those of most herbs first, then those with most works behind each.
///
/// ```
/// use kaoyi::{corpus, pairing};
/// let corpus = corpus::embedded().unwrap();
/// let herb = |name| match corpus.find_herb(name) {
///     corpus::Lookup::One(id) => corpus.herb(id).unwrap(),
///     _ => panic!(),
/// };
/// let both = pairing::reinforced(&corpus, &[herb("麻黃"), herb("桂枝")], &Default::default());
/// assert!(both.iter().all(|one| one.herbs.len() == 2));
/// ```
#[must_use]
pub fn reinforced(corpus: &Corpus, herbs: &[&Herb], selection: &Selection) -> Vec<Shared> {
    let concepts = concepts(corpus, herbs, selection);
    let values = corpus.vocabulary.scheme(Facet::Action).values().len();
    let of_value = |value: ValueId| Shared {
        value,
        herbs: joints(&concepts, value),
    };
    let values = (0..values).map(|place| ValueId(place as u16));
    let mut shared: Vec<Shared> = values.map(of_value).collect();
    shared.retain(|one| one.herbs.len() > 1);
    shared.sort_by_key(|one| Reverse((one.herbs.len(), one.least())));
    shared
}

fn joints(concepts: &[Vec<Concept>], value: ValueId) -> Vec<Joint> {
    let of_herb = |(herb, concepts): (usize, &Vec<Concept>)| {
        let found = concepts.iter().find(|concept| concept.value == value)?;
        Some(Joint {
            herb,
            works: found.witnesses.len(),
        })
    };
    concepts.iter().enumerate().filter_map(of_herb).collect()
}

/// The actions of one herb that are contrary to one of another, those first behind which most works stand on the side that
/// has fewer.
#[must_use]
pub fn opposed(corpus: &Corpus, herbs: &[&Herb], selection: &Selection) -> Vec<Opposition> {
    let scheme = corpus.vocabulary.scheme(Facet::Action);
    let concepts = concepts(corpus, herbs, selection);
    let mut found = Vec::new();
    let values = || (0..scheme.values().len()).map(|place| ValueId(place as u16));
    for value in values() {
        // Each pair of contraries once.
        for contrary in values().filter(|other| *other > value && scheme.opposed(value, *other)) {
            for one in joints(&concepts, value) {
                for other in joints(&concepts, contrary) {
                    if one.herb != other.herb {
                        found.push(Opposition {
                            value,
                            one,
                            contrary,
                            other,
                        });
                    }
                }
            }
        }
    }
    found.sort_by_key(|pair| Reverse(pair.one.works.min(pair.other.works)));
    found
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
