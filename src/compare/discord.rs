//! How much the books differ on an herb: the mean distance between two of them (rule 27).

use super::distance::{SetDistance, distance, stands};
use super::field::Field;
use super::witness::FacetView;
use crate::claim::ValueId;
use crate::corpus::{Corpus, HerbId};
use crate::stats::{Bootstrap, bootstrap};

/// The discord of one facet of an herb.
#[derive(Debug, Clone, PartialEq)]
pub struct FacetDiscord<'f> {
    /// The mean distance of two witnesses, from 0 (all say the same) to 1.
    pub mean: f64,
    /// The view it was computed from.
    pub view: &'f FacetView,
}

/// The discord of an herb on the facets asked for.
#[derive(Debug, Clone, PartialEq)]
pub struct Discord<'f> {
    /// The herb.
    pub herb: HerbId,
    /// The mean over its facets that have witnesses enough.
    pub mean: f64,
    /// These facets.
    pub facets: Vec<FacetDiscord<'f>>,
}

impl Discord<'_> {
    /// The number of witnesses of the facet that has fewest.
    #[must_use]
    pub fn witnesses(&self) -> usize {
        let numbers = self.facets.iter().map(|one| one.view.witnesses.len());
        numbers.min().unwrap_or_default()
    }
}

/// Herbs by discord, the most disputed first; of equal ones that with more witnesses, then by id. Facets with fewer than
/// `least` witnesses, and two at least, are left out, and herbs without a facet.
///
/// ```
/// use kaoyi::compare::{COMPARABLE, SetDistance, discord, fields};
/// let corpus = kaoyi::corpus::embedded().unwrap();
/// let fields = fields(&corpus, &COMPARABLE, &Default::default()).unwrap();
/// let herbs = discord(&corpus, &fields, 5, SetDistance::Masi);
/// assert!(herbs.windows(2).all(|pair| pair[0].mean >= pair[1].mean));
/// ```
#[must_use]
pub fn discord<'f>(
    corpus: &Corpus,
    fields: &'f [Field],
    least: usize,
    sets: SetDistance,
) -> Vec<Discord<'f>> {
    let herbs = fields.first().map_or(0, |field| field.views.len());
    let mut found = Vec::new();
    for herb in 0..herbs {
        let facet = |field: &'f Field| {
            let view = &field.views[herb];
            let mean = (view.witnesses.len() >= least.max(2)).then(|| mean(corpus, sets, view))?;
            Some(FacetDiscord { mean: mean?, view })
        };
        let facets: Vec<FacetDiscord> = fields.iter().filter_map(facet).collect();
        if !facets.is_empty() {
            found.push(Discord {
                herb: HerbId(herb as u32),
                mean: facets.iter().map(|one| one.mean).sum::<f64>() / facets.len() as f64,
                facets,
            });
        }
    }
    found.sort_by(|a, b| {
        let numbers = b.witnesses().cmp(&a.witnesses());
        b.mean
            .total_cmp(&a.mean)
            .then(numbers)
            .then(a.herb.cmp(&b.herb))
    });
    found
}

fn mean(corpus: &Corpus, sets: SetDistance, view: &FacetView) -> Option<f64> {
    let all: Vec<usize> = (0..view.witnesses.len()).collect();
    mean_of_pairs(&distances(corpus, sets, view), all.iter())
}

/// The distances of all witnesses to each other.
fn distances(corpus: &Corpus, sets: SetDistance, view: &FacetView) -> Vec<Vec<f64>> {
    let scheme = corpus.vocabulary.scheme(view.facet);
    let stands = stands(&view.witnesses);
    let row = |a: &Vec<ValueId>| {
        stands
            .iter()
            .map(|b| distance(scheme, sets, a, b))
            .collect()
    };
    stands.iter().map(row).collect()
}

/// The mean distance of two different witnesses among those drawn; a witness drawn twice is no pair with itself. `None`
/// where one witness alone was drawn.
fn mean_of_pairs<'w>(
    distances: &[Vec<f64>],
    drawn: impl Iterator<Item = &'w usize> + Clone,
) -> Option<f64> {
    let (mut sum, mut pairs) = (0.0, 0_u32);
    let mut rest = drawn;
    while let Some(a) = rest.next() {
        for b in rest.clone().filter(|b| *b != a) {
            sum += distances[*a][*b];
            pairs += 1;
        }
    }
    (pairs > 0).then(|| sum / f64::from(pairs))
}

/// So often are witnesses drawn for an interval.
const DRAWS: usize = 1000;

/// The interval at 95 % of an herb's discord: the witnesses of each facet are drawn again (rule 28).
#[must_use]
pub fn discord_interval(
    corpus: &Corpus,
    sets: SetDistance,
    discord: &Discord<'_>,
) -> Option<Bootstrap> {
    let facets: Vec<Vec<Vec<f64>>> = discord
        .facets
        .iter()
        .map(|one| distances(corpus, sets, one.view))
        .collect();
    // One draw of works for all facets: a book that is left out is left out everywhere.
    let mut works: Vec<_> = discord
        .facets
        .iter()
        .flat_map(|one| one.view.witnesses.iter().map(|witness| witness.work))
        .collect();
    works.sort_unstable();
    works.dedup();
    bootstrap(&works, DRAWS, 1, |drawn| {
        let (mut sum, mut defined) = (0.0, 0);
        for (one, distances) in discord.facets.iter().zip(&facets) {
            let witnesses = &one.view.witnesses;
            let places: Vec<usize> = drawn
                .iter()
                .filter_map(|work| witnesses.iter().position(|witness| witness.work == **work))
                .collect();
            sum += mean_of_pairs(distances, places.iter())?;
            defined += 1;
        }
        (defined > 0).then(|| sum / f64::from(defined))
    })
}
