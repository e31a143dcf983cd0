//! How alike the works are, and who follows whom.

use std::borrow::Cow;

use schemars::JsonSchema;
use serde::Serialize;

use super::filter::FilterView;
use super::labels::{Labels, ValueRef, WorkRef};
use super::state::HerbRef;
use crate::claim::Facet;
use crate::compare::{self, Dependence, Pair, Selection, SetDistance, Shared, Stands};
use crate::corpus::WorkId;
use crate::stats;

/// Two works on what both speak of.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct PairView {
    /// The older work.
    pub older: String,
    /// The younger work.
    pub younger: String,
    /// How many stands both take.
    pub shared: usize,
    /// How many of them are the same.
    pub same: usize,
    /// The mean agreement, 0 to 1.
    pub agreement: f64,
    /// The share of its stands that the younger seems to take from the older.
    pub rate: f64,
    /// The probability that it follows it at all.
    pub probability: f64,
    /// Whether the younger is recorded as drawing on the older, itself or through others.
    pub recorded: RecordedDebt,
    /// Whether the dates tell which is older; where they overlap, or only "not later than" is known, it may be either.
    pub order_known: bool,
    /// What both say and hardly another: the rarest first.
    pub examples: Vec<ExampleView>,
}

/// What is on record of two works.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum RecordedDebt {
    /// The younger draws on the older.
    Direct,
    /// It draws on works that draw on it.
    ThroughOthers,
    /// Nothing.
    None,
}

/// A stand that two works share.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct ExampleView {
    /// The herb.
    pub herb: HerbRef,
    /// The facet.
    pub facet: Facet,
    /// The stand.
    pub values: Vec<ValueRef>,
    /// The chance that a work that follows neither takes it.
    pub chance: f64,
}

/// A step of the clustering.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct MergeView {
    /// The two clusters: a number below that of the works is a work, by its place in `matrix_works`; others are the steps before.
    pub clusters: (usize, usize),
    /// The mean distance between their members.
    pub height: f64,
}

/// What `kaoyi affinity --json` writes.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct AffinityView {
    /// Name and version of this format.
    pub format: &'static str,
    /// The work asked for; `null` for all.
    pub work: Option<String>,
    /// Which works were counted; `null` for all.
    pub filter: Option<FilterView>,
    /// The facets counted.
    pub facets: Vec<Facet>,
    /// The fewest stands that a pair must share.
    pub least_shared: usize,
    /// The works of the matrix, oldest first.
    pub matrix_works: Vec<String>,
    /// The mean agreement of each with each, in the order of `matrix_works`.
    pub matrix: Vec<Vec<f64>>,
    /// Average-linkage clustering of these works by one minus the agreement.
    pub clustering: Vec<MergeView>,
    /// All pairs, the highest rate of copying first.
    pub pairs: Vec<PairView>,
    /// The works named here.
    pub works: Vec<WorkRef>,
}

/// What is asked of the works.
#[derive(Debug, Clone)]
pub struct AskedOfWorks {
    /// The facets.
    pub facets: Vec<Facet>,
    /// The fewest stands that a pair must share.
    pub shared: usize,
    /// The work; all where it is left out.
    pub work: Option<WorkId>,
    /// How lists of values are compared.
    pub sets: SetDistance,
}

/// So many works the matrix shows.
const MATRIX: usize = 16;
/// So many examples a pair shows.
const EXAMPLES: usize = 5;
/// A stand is an example where its chance is below this.
const RARE: f64 = 0.25;

impl AffinityView {
    /// The works of a corpus beside each other, by their stands on the facets asked for.
    #[must_use]
    pub fn new(
        labels: &Labels<'_>,
        stands: &[&Stands],
        selection: &Selection,
        asked: &AskedOfWorks,
    ) -> Self {
        let stands: Vec<Cow<'_, Stands>> = stands
            .iter()
            .map(|one| one.chosen(labels.corpus, selection))
            .collect();
        let pairs = compare::pairs(labels.corpus, &stands, asked.shared, asked.sets);
        let chosen = matrix_works(&pairs);
        let agreement = |a: usize, b: usize| between(&pairs, chosen[a], chosen[b]).unwrap_or(1.0);
        let places = 0..chosen.len();
        let matrix = places
            .clone()
            .map(|a| places.clone().map(|b| agreement(a, b)).collect());
        let merges = stats::average_linkage(chosen.len(), |a, b| 1.0 - agreement(a, b));
        let of_work = |pair: &&Pair| {
            asked
                .work
                .is_none_or(|work| pair.older == work || pair.younger == work)
        };
        let mut views: Vec<PairView> = pairs
            .iter()
            .filter(of_work)
            .map(|pair| PairView::new(labels, pair, compare::dependence(pair)))
            .collect();
        views.sort_by(|a, b| b.rate.total_cmp(&a.rate));
        Self {
            format: "kaoyi.affinity/1",
            work: asked.work.map(|work| labels.work(work)),
            filter: FilterView::new(labels, selection),
            facets: asked.facets.clone(),
            least_shared: asked.shared,
            matrix: matrix.collect(),
            matrix_works: labels.works(&chosen),
            clustering: merges
                .iter()
                .map(|merge| MergeView {
                    clusters: merge.clusters,
                    height: merge.height,
                })
                .collect(),
            pairs: views,
            works: labels.named_works(),
        }
    }
}

/// The works that share stands enough with each other: taken one by one, those with most stands first.
fn matrix_works(pairs: &[Pair]) -> Vec<WorkId> {
    let mut stands: Vec<(usize, WorkId)> = Vec::new();
    for pair in pairs {
        for work in [pair.older, pair.younger] {
            match stands.iter_mut().find(|(_, one)| *one == work) {
                Some((count, _)) => *count += pair.shared.len(),
                None => stands.push((pair.shared.len(), work)),
            }
        }
    }
    stands.sort_by_key(|(count, work)| (std::cmp::Reverse(*count), *work));
    let mut chosen: Vec<WorkId> = Vec::new();
    for (_, work) in stands {
        let mut others = chosen.iter();
        if chosen.len() < MATRIX && others.all(|other| between(pairs, *other, work).is_some()) {
            chosen.push(work);
        }
    }
    chosen.sort_unstable();
    chosen
}

/// The agreement of two works, where they share stands enough.
fn between(pairs: &[Pair], a: WorkId, b: WorkId) -> Option<f64> {
    let (older, younger) = (a.min(b), a.max(b));
    let place = pairs.binary_search_by_key(&(older, younger), |pair| (pair.older, pair.younger));
    place.ok().map(|place| pairs[place].agreement())
}

impl PairView {
    fn new(labels: &Labels<'_>, pair: &Pair, dependence: Dependence) -> Self {
        let mut rare: Vec<&Shared> = pair
            .shared
            .iter()
            .filter(|one| one.same() && one.chance < RARE)
            .collect();
        rare.sort_by(|a, b| a.chance.total_cmp(&b.chance));
        let example = |one: &&Shared| ExampleView {
            herb: HerbRef::new(labels, one.herb),
            facet: one.facet,
            values: one
                .stand
                .iter()
                .map(|value| labels.value(one.facet, *value))
                .collect(),
            chance: one.chance,
        };
        Self {
            older: labels.work(pair.older),
            younger: labels.work(pair.younger),
            shared: pair.shared.len(),
            same: pair.same(),
            agreement: pair.agreement(),
            rate: dependence.rate,
            probability: dependence.probability,
            recorded: recorded(labels, pair),
            order_known: {
                let date = |work| labels.corpus.work(work).date;
                date(pair.younger).from > Some(date(pair.older).to)
            },
            examples: rare.iter().take(EXAMPLES).map(example).collect(),
        }
    }
}

fn recorded(labels: &Labels<'_>, pair: &Pair) -> RecordedDebt {
    match compare::steps_to(labels.corpus, pair.younger, pair.older) {
        Some(1) => RecordedDebt::Direct,
        Some(_) => RecordedDebt::ThroughOthers,
        None => RecordedDebt::None,
    }
}
