//! How alike two works are on the herbs that both treat, and whether one follows the other (rules 30 and 31).

use std::borrow::Borrow;
use std::collections::BTreeMap;

use super::distance::SetDistance;
use super::stands::Stands;
use crate::claim::{Facet, ValueId};
use crate::corpus::{Corpus, HerbId, WorkId};

/// A stand that two works take, or not, on one facet of one herb.
#[derive(Debug, Clone, PartialEq)]
pub struct Shared {
    /// The herb.
    pub herb: HerbId,
    /// The facet.
    pub facet: Facet,
    /// The distance of the two stands, 0 to 1.
    pub distance: f64,
    /// The stand of the older work, sorted.
    pub stand: Vec<ValueId>,
    /// How common that stand is among the other witnesses: the chance that a work that does not follow the older one takes it.
    pub chance: f64,
}

impl Shared {
    /// Whether both take the same stand.
    #[must_use]
    pub fn same(&self) -> bool {
        self.distance == 0.0
    }
}

/// Two works with all that both speak of.
#[derive(Debug, Clone, PartialEq)]
pub struct Pair {
    /// The older work.
    pub older: WorkId,
    /// The younger work.
    pub younger: WorkId,
    /// The stands, by herb.
    pub shared: Vec<Shared>,
}

impl Pair {
    /// The mean agreement, 1 the same throughout.
    #[must_use]
    pub fn agreement(&self) -> f64 {
        let sum: f64 = self.shared.iter().map(|one| 1.0 - one.distance).sum();
        sum / self.shared.len().max(1) as f64
    }

    /// How many stands are the same.
    #[must_use]
    pub fn same(&self) -> usize {
        self.shared.iter().filter(|one| one.same()).count()
    }
}

/// All pairs of works that share at least `least` stands on the facets of `stands`, by the older and then the younger work.
///
/// ```
/// use kaoyi::compare::{COMPARABLE, SetDistance, pairs, stands};
/// let corpus = kaoyi::corpus::embedded().unwrap();
/// let stands = stands(&corpus, &COMPARABLE).unwrap();
/// assert!(pairs(&corpus, &stands, 30, SetDistance::Masi).iter().all(|pair| pair.older < pair.younger));
/// ```
#[must_use]
pub fn pairs(
    corpus: &Corpus,
    stands: &[impl Borrow<Stands>],
    least: usize,
    sets: SetDistance,
) -> Vec<Pair> {
    let mut pairs: BTreeMap<(WorkId, WorkId), Vec<Shared>> = BTreeMap::new();
    for stands in stands.iter().map(Borrow::borrow) {
        let distances = stands.distances(corpus, sets);
        let common = Common::of(stands);
        for (herb, rows) in (0_u32..).map(HerbId).zip(stands.by_herb()) {
            for (place, older) in rows.iter().enumerate() {
                let takers = rows.iter().filter(|row| row.kind == older.kind).count();
                for younger in &rows[place + 1..] {
                    // Neither of the two is asked how common the stand is.
                    let takers = takers - 1 - usize::from(younger.kind == older.kind);
                    let shared = Shared {
                        herb,
                        facet: stands.facet,
                        distance: distances.between(older.kind, younger.kind),
                        stand: stands.kinds[older.kind as usize].clone(),
                        chance: common.chance(older.kind, takers, rows.len() - 2),
                    };
                    pairs
                        .entry((older.work, younger.work))
                        .or_default()
                        .push(shared);
                }
            }
        }
    }
    let enough = pairs
        .into_iter()
        .filter(|(_, shared)| shared.len() >= least);
    enough
        .map(|((older, younger), shared)| Pair {
            older,
            younger,
            shared,
        })
        .collect()
}

/// How often each stand is taken on all herbs together.
struct Common {
    takers: Vec<usize>,
    all: usize,
}

impl Common {
    fn of(stands: &Stands) -> Self {
        let mut takers = vec![0; stands.kinds.len()];
        for row in stands.rows() {
            takers[row.kind as usize] += 1;
        }
        Self {
            takers,
            all: stands.rows().len(),
        }
    }

    /// The share of the others on this herb who take the stand, its share everywhere counting as one witness more.
    fn chance(&self, kind: u32, takers: usize, others: usize) -> f64 {
        let everywhere = self.takers[kind as usize] as f64 / self.all.max(1) as f64;
        (takers as f64 + everywhere) / (others as f64 + 1.0)
    }
}

/// Whether the younger of two works follows the older.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Dependence {
    /// The share of its stands that the younger takes from the older, by likelihood; 0 to 1.
    pub rate: f64,
    /// The probability that it follows at all.
    pub probability: f64,
}

/// Before anything is read, one pair in ten is taken to be dependent.
const PRIOR: f64 = 0.1;
/// The rates that are tried: hundredths.
const STEPS: u32 = 99;

/// Whether the younger work follows the older one (rule 31). If it copies the share r of its stands and takes the others as
/// anybody would, it has the same stand with probability r + (1 − r)·c and another with (1 − r)(1 − c), c the chance of that
/// stand: what two works share where nobody else says so weighs most. The rate of greatest likelihood is taken, and the
/// probability by the mean likelihood over all rates against none.
///
/// After X. L. Dong, L. Berti-Equille and D. Srivastava, "Integrating conflicting data: the role of source dependence",
/// *VLDB* 2009, where the true values are estimated too; here the other works stand for them.
#[must_use]
pub fn dependence(pair: &Pair) -> Dependence {
    let gain = |rate: f64| -> f64 {
        let of = |one: &Shared| {
            if one.same() {
                ((rate + (1.0 - rate) * one.chance) / one.chance).ln()
            } else {
                (1.0 - rate).ln()
            }
        };
        pair.shared.iter().map(of).sum()
    };
    let rates = (1..=STEPS).map(|step| f64::from(step) / f64::from(STEPS + 1));
    let gains: Vec<(f64, f64)> = rates.map(|rate| (rate, gain(rate))).collect();
    let best = gains.iter().copied().fold(
        (0.0, 0.0),
        |best, one| if one.1 > best.1 { one } else { best },
    );
    let largest = best.1.max(0.0);
    let mean = gains
        .iter()
        .map(|(_, gain)| (gain - largest).exp())
        .sum::<f64>()
        / gains.len() as f64;
    // In favour: PRIOR · mean · e^largest; against: 1 − PRIOR.
    let against = (1.0 - PRIOR) / PRIOR * (-largest).exp();
    Dependence {
        rate: best.0,
        probability: mean / (mean + against),
    }
}

/// So many stands in common are enough to tell two works' relation from.
pub const ENOUGH: usize = 30;

/// From this rate of copying on a debt counts as found.
pub const FOUND: f64 = 0.2;

/// For each work the older work that it follows at the highest rate, from [`FOUND`] on, where dates tell which is older: the
/// younger work and the older (rule 32).
#[must_use]
pub fn found_debts(corpus: &Corpus, pairs: &[Pair]) -> Vec<(WorkId, WorkId)> {
    let mut best: BTreeMap<WorkId, (f64, WorkId)> = BTreeMap::new();
    for pair in pairs {
        let date = |work| corpus.work(work).date;
        let told = date(pair.younger).from > Some(date(pair.older).to);
        let rate = dependence(pair).rate;
        if told && rate >= FOUND && best.get(&pair.younger).is_none_or(|one| one.0 < rate) {
            best.insert(pair.younger, (rate, pair.older));
        }
    }
    let found = best.into_iter();
    found
        .map(|(younger, (_, older))| (younger, older))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::{Pair, Shared, dependence};
    use crate::claim::{Facet, ValueId};
    use crate::corpus::{HerbId, WorkId};

    fn pair(shared: impl IntoIterator<Item = (bool, f64)>) -> Pair {
        let one = |(same, chance): (bool, f64)| Shared {
            herb: HerbId(0),
            facet: Facet::Nature,
            distance: if same { 0.0 } else { 0.5 },
            stand: vec![ValueId(0)],
            chance,
        };
        Pair {
            older: WorkId(0),
            younger: WorkId(1),
            shared: shared.into_iter().map(one).collect(),
        }
    }

    #[test]
    fn rare_values_in_common_tell_more_than_common_ones() {
        let rare = dependence(&pair([(true, 0.05); 6]));
        let common = dependence(&pair([(true, 0.9); 6]));
        assert!(
            rare.probability > 0.99 && common.probability < 0.2,
            "{rare:?} {common:?}"
        );
    }

    #[test]
    fn a_work_that_agrees_as_often_as_anybody_follows_nobody() {
        let shared = (0..200).map(|n| (n % 2 == 0, 0.5));
        let found = dependence(&pair(shared));
        assert!(found.probability < 0.1 && found.rate < 0.15, "{found:?}");
    }

    #[test]
    fn the_rate_of_copying_is_found_again() {
        // Of a hundred stands sixty are copied; of the others a quarter agree by chance.
        let shared = (0..400).map(|n| (n % 100 < 70, 0.25));
        let found = dependence(&pair(shared));
        assert!(
            (found.rate - 0.6).abs() < 0.02 && found.probability > 0.999,
            "{found:?}"
        );
    }
}
