//! How much the books differ on an herb: the mean distance between two of them (rule 27).

use std::borrow::Borrow;
use std::cmp::Reverse;

use super::distance::SetDistance;
use super::stands::{Distances, Row, Stands};
use crate::claim::Facet;
use crate::corpus::{Corpus, HerbId, WorkId};
use crate::stats::{Bootstrap, bootstrap};

/// The discord of one facet of an herb.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FacetDiscord {
    /// The facet.
    pub facet: Facet,
    /// The mean distance of two witnesses, from 0 (all say the same) to 1.
    pub mean: f64,
    /// How many witnesses.
    pub witnesses: usize,
}

/// The discord of an herb on the facets asked for.
#[derive(Debug, Clone, PartialEq)]
pub struct Discord {
    /// The herb.
    pub herb: HerbId,
    /// The mean over its facets that have witnesses enough.
    pub mean: f64,
    /// These facets.
    pub facets: Vec<FacetDiscord>,
}

impl Discord {
    /// The number of witnesses of the facet that has fewest.
    #[must_use]
    pub fn witnesses(&self) -> usize {
        let numbers = self.facets.iter().map(|one| one.witnesses);
        numbers.min().unwrap_or_default()
    }
}

/// Stands with the distances between them: what discord is computed from.
#[derive(Debug)]
pub struct Discords<'s> {
    facets: Vec<(&'s Stands, Distances)>,
}

impl<'s> Discords<'s> {
    /// Measures how far the stands on each facet are apart.
    #[must_use]
    pub fn new(corpus: &Corpus, stands: &'s [impl Borrow<Stands>], sets: SetDistance) -> Self {
        let measured = |one: &'s Stands| (one, one.distances(corpus, sets));
        Self {
            facets: stands.iter().map(Borrow::borrow).map(measured).collect(),
        }
    }

    /// Herbs by discord, the most disputed first; of equal ones that with more witnesses, then by id. Facets with fewer than
    /// `least` witnesses, and two at least, are left out, and herbs without a facet.
    ///
    /// ```
    /// use kaoyi::compare::{COMPARABLE, Discords, SetDistance, stands};
    /// let corpus = kaoyi::corpus::embedded().unwrap();
    /// let stands = stands(&corpus, &COMPARABLE).unwrap();
    /// let herbs = Discords::new(&corpus, &stands, SetDistance::Masi).ranked(5);
    /// assert!(herbs[0].mean > herbs[9].mean);
    /// ```
    #[must_use]
    pub fn ranked(&self, least: usize) -> Vec<Discord> {
        let herbs = self.facets.first().map_or(0, |(stands, _)| stands.herbs());
        let herbs = (0_u32..).map(HerbId).take(herbs);
        let mut found: Vec<Discord> = herbs
            .filter_map(|herb| self.of(herb, least.max(2)))
            .collect();
        found.sort_by_key(|one| (Reverse(rank(one.mean)), Reverse(one.witnesses()), one.herb));
        found
    }

    fn of(&self, herb: HerbId, least: usize) -> Option<Discord> {
        let mut facets = Vec::with_capacity(self.facets.len());
        for (stands, distances) in &self.facets {
            let rows = stands.of(herb);
            if rows.len() >= least {
                facets.push(FacetDiscord {
                    facet: stands.facet,
                    mean: Drawn::each_once(rows).mean(distances)?,
                    witnesses: rows.len(),
                });
            }
        }
        let sum: f64 = facets.iter().map(|one| one.mean).sum();
        (!facets.is_empty()).then(|| Discord {
            herb,
            mean: sum / facets.len() as f64,
            facets,
        })
    }

    /// The interval at 95 % of an herb's discord: the witnesses of each facet are drawn again (rule 28).
    #[must_use]
    pub fn interval(&self, discord: &Discord) -> Option<Bootstrap> {
        let asked = |facet| discord.facets.iter().any(|one| one.facet == facet);
        let facets: Vec<(&[Row], &Distances)> = self
            .facets
            .iter()
            .filter(|(stands, _)| asked(stands.facet))
            .map(|(stands, distances)| (stands.of(discord.herb), distances))
            .collect();
        // One draw of works for all facets: a book that is left out is left out everywhere.
        let mut works: Vec<WorkId> = facets
            .iter()
            .flat_map(|(rows, _)| rows.iter().map(|row| row.work))
            .collect();
        works.sort_unstable();
        works.dedup();
        let places: Vec<usize> = (0..works.len()).collect();
        bootstrap(&places, DRAWS, 1, |drawn| {
            let mut times = vec![0_u64; works.len()];
            for place in drawn {
                times[**place] += 1;
            }
            let (mut sum, mut defined) = (0.0, 0);
            for (rows, distances) in &facets {
                let mut of_facet = Drawn::default();
                for row in *rows {
                    let place = works.binary_search(&row.work).unwrap_or_default();
                    of_facet.put(row.kind, times[place]);
                }
                sum += of_facet.mean(distances)?;
                defined += 1;
            }
            (defined > 0).then(|| sum / f64::from(defined))
        })
    }
}

/// A mean as whole billionths: what differs by the rounding of a sum alone is a tie.
fn rank(mean: f64) -> u64 {
    (mean * 1e9).round() as u64
}

/// So often are witnesses drawn for an interval.
const DRAWS: usize = 1000;

/// Witnesses drawn, counted by the stand that they take.
#[derive(Default)]
struct Drawn {
    kinds: Vec<(u32, u64)>,
    witnesses: u64,
    /// Pairs of a witness with itself, which are no pairs.
    with_itself: u64,
}

impl Drawn {
    fn each_once(rows: &[Row]) -> Self {
        let mut this = Self::default();
        for row in rows {
            this.put(row.kind, 1);
        }
        this
    }

    fn put(&mut self, kind: u32, times: u64) {
        match self.kinds.iter_mut().find(|(one, _)| *one == kind) {
            Some((_, count)) => *count += times,
            None => self.kinds.push((kind, times)),
        }
        self.witnesses += times;
        self.with_itself += times * times.saturating_sub(1) / 2;
    }

    /// The mean distance of two different witnesses; `None` where one witness alone was drawn.
    fn mean(&self, distances: &Distances) -> Option<f64> {
        let pairs = self.witnesses * self.witnesses.saturating_sub(1) / 2 - self.with_itself;
        let mut sum = 0.0;
        for (place, (a, of_a)) in self.kinds.iter().enumerate() {
            for (b, of_b) in &self.kinds[place + 1..] {
                sum += (of_a * of_b) as f64 * distances.between(*a, *b);
            }
        }
        (pairs > 0).then(|| sum / pairs as f64)
    }
}
