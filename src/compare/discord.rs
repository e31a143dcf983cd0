//! How much the books differ on an herb: the mean distance between two of them (rule 27).

use std::borrow::Borrow;
use std::cmp::Reverse;
use std::thread;

use super::agreement::{Agreement, PERIODS, Period, of_tally};
use super::distance::SetDistance;
use super::stands::{Distances, Row, Stands};
use crate::claim::Facet;
use crate::corpus::{Corpus, HerbId, WorkId};
use crate::stats::{Bootstrap, Tallies, bootstrap};

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

/// The stands on one facet, counted once for all that is asked of them.
#[derive(Debug)]
struct Counted<'s> {
    stands: &'s Stands,
    distances: Distances,
    /// How many witnesses take each stand on each herb: in all, and of each of the [`PERIODS`].
    tallies: Tallies,
}

impl<'s> Counted<'s> {
    fn new(corpus: &Corpus, stands: &'s Stands, sets: SetDistance, periods: &[usize]) -> Self {
        let of_row = |row: &Row| (row.kind as usize, periods[usize::from(row.work.0)]);
        let units = stands.by_herb().map(|rows| rows.iter().map(of_row));
        Self {
            stands,
            distances: stands.distances(corpus, sets),
            tallies: Tallies::of(units, stands.kinds.len(), PERIODS.len()),
        }
    }

    /// The number of witnesses on an herb and the mean distance of two of them; `None` where there are fewer than `least`.
    fn mean(&self, herb: HerbId, least: usize) -> Option<(usize, f64)> {
        let kinds = self.tallies.all.unit(herb.0 as usize);
        let witnesses: u64 = kinds.iter().map(|(_, count)| u64::from(*count)).sum();
        let pairs = witnesses * witnesses.saturating_sub(1) / 2;
        (witnesses >= least as u64 && pairs > 0).then(|| {
            (
                witnesses as usize,
                apart(kinds, &self.distances) / pairs as f64,
            )
        })
    }
}

/// From so many witnesses on, of all herbs and facets, each facet is counted by a thread of its own.
const MANY: usize = 100_000;

/// The stands counted, with the distances between them: what discord and agreement are computed from.
#[derive(Debug)]
pub struct Discords<'s> {
    facets: Vec<Counted<'s>>,
}

impl<'s> Discords<'s> {
    /// Measures how far the stands on each facet are apart, and counts who takes them.
    #[must_use]
    pub fn new(corpus: &Corpus, stands: &'s [impl Borrow<Stands>], sets: SetDistance) -> Self {
        let works = corpus.works().iter();
        let periods: Vec<usize> = works.map(|work| Period::place_of(work.date.to)).collect();
        let counted = |one| Counted::new(corpus, one, sets, &periods);
        let stands: Vec<&Stands> = stands.iter().map(Borrow::borrow).collect();
        let rows: usize = stands.iter().map(|one| one.rows().len()).sum();
        if rows < MANY {
            let facets = stands.into_iter().map(counted);
            return Self {
                facets: facets.collect(),
            };
        }
        let facets = thread::scope(|scope| {
            let counted = &counted;
            let threads = stands.into_iter();
            let threads: Vec<_> = threads
                .map(|one| (one, scope.spawn(move || counted(one))))
                .collect();
            // A facet whose thread fell is counted here.
            let joined = threads.into_iter();
            joined
                .map(|(one, thread)| thread.join().unwrap_or_else(|_| counted(one)))
                .collect()
        });
        Self { facets }
    }

    /// How many witnesses take each stand on an herb, on the facet at `place` among those given: places of
    /// [`Stands::kinds`], in order, with numbers above 0.
    #[must_use]
    pub fn counts(&self, place: usize, herb: HerbId) -> &[(u32, u32)] {
        self.facets[place].tallies.all.unit(herb.0 as usize)
    }

    /// How far all witnesses agree, facet by facet: of all times, and, where `by_period` says so, of each of the [`PERIODS`]
    /// after that. With intervals it takes longer.
    ///
    /// ```
    /// use kaoyi::claim::Facet;
    /// use kaoyi::compare::{Discords, SetDistance, agreement, stands};
    /// let corpus = kaoyi::corpus::embedded().unwrap();
    /// let stands = stands(&corpus, &[Facet::Nature]).unwrap();
    /// let discords = Discords::new(&corpus, &stands, SetDistance::Masi);
    /// let found = discords.agreements(&corpus, true, false);
    /// assert_eq!(found[0], (None, agreement(&corpus, &stands[0], SetDistance::Masi, false)));
    /// assert_eq!(found[1].0.unwrap().pinyin, "Han to Tang");
    /// ```
    #[must_use]
    pub fn agreements(
        &self,
        corpus: &Corpus,
        by_period: bool,
        with_intervals: bool,
    ) -> Vec<(Option<Period>, Agreement)> {
        let mut all = Vec::new();
        for one in &self.facets {
            let of = |tally| of_tally(corpus, one.stands, &one.distances, tally, with_intervals);
            all.push((None, of(&one.tallies.all)));
            if by_period {
                let periods = PERIODS.iter().zip(&one.tallies.groups);
                all.extend(periods.map(|(period, tally)| (Some(*period), of(tally))));
            }
        }
        all
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
        let herbs = self.facets.first().map_or(0, |one| one.stands.herbs());
        let herbs = (0_u32..).map(HerbId).take(herbs);
        let mut found: Vec<Discord> = herbs
            .filter_map(|herb| self.of(herb, least.max(2)))
            .collect();
        found.sort_by_cached_key(|one| {
            (Reverse(rank(one.mean)), Reverse(one.witnesses()), one.herb)
        });
        found
    }

    fn of(&self, herb: HerbId, least: usize) -> Option<Discord> {
        let mut facets = Vec::with_capacity(self.facets.len());
        for one in &self.facets {
            if let Some((witnesses, mean)) = one.mean(herb, least) {
                facets.push(FacetDiscord {
                    facet: one.stands.facet,
                    mean,
                    witnesses,
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
        let facets: Vec<&Counted<'s>> = self
            .facets
            .iter()
            .filter(|one| asked(one.stands.facet))
            .collect();
        let rows = |one: &Counted<'s>| one.stands.of(discord.herb);
        // One draw of works for all facets: a book that is left out is left out everywhere.
        let mut works: Vec<WorkId> = facets
            .iter()
            .flat_map(|one| rows(one).iter().map(|row| row.work))
            .collect();
        works.sort_unstable();
        works.dedup();
        let mut votes: Vec<Votes> = facets
            .iter()
            .map(|one| Votes::new(rows(one), &works, &one.distances))
            .collect();
        let places: Vec<usize> = (0..works.len()).collect();
        let mut times = vec![0_u64; works.len()];
        bootstrap(&places, DRAWS, 1, |drawn| {
            times.fill(0);
            for place in drawn {
                times[**place] += 1;
            }
            let mut sum = 0.0;
            for of_facet in &mut votes {
                sum += of_facet.mean(&times)?;
            }
            (!votes.is_empty()).then(|| sum / votes.len() as f64)
        })
    }
}

/// A mean as whole billionths: what differs by the rounding of a sum alone is a tie.
fn rank(mean: f64) -> u64 {
    (mean * 1e9).round() as u64
}

/// The sum of the distances of all pairs of witnesses, of which so many take each stand.
fn apart(kinds: &[(u32, u32)], distances: &Distances) -> f64 {
    let mut sum = 0.0;
    for (place, (a, of_a)) in kinds.iter().enumerate() {
        for (b, of_b) in &kinds[place + 1..] {
            let pairs = u64::from(*of_a) * u64::from(*of_b);
            sum += pairs as f64 * distances.between(*a, *b);
        }
    }
    sum
}

/// So often are witnesses drawn for an interval.
const DRAWS: usize = 1000;

/// The stands that an herb's witnesses take on one facet, numbered among themselves.
struct Votes {
    /// The place of each witness among the works that are drawn, and its stand.
    of: Vec<(usize, usize)>,
    /// The distance of each stand to each.
    apart: Vec<f64>,
    /// Room for counting a draw.
    counts: Vec<u64>,
}

impl Votes {
    fn new(rows: &[Row], works: &[WorkId], distances: &Distances) -> Self {
        let mut kinds: Vec<u32> = rows.iter().map(|row| row.kind).collect();
        kinds.sort_unstable();
        kinds.dedup();
        let vote = |row: &Row| {
            let work = works.binary_search(&row.work).unwrap_or_default();
            (work, kinds.binary_search(&row.kind).unwrap_or_default())
        };
        let from =
            |a: &u32| -> Vec<f64> { kinds.iter().map(|b| distances.between(*a, *b)).collect() };
        Self {
            of: rows.iter().map(vote).collect(),
            apart: kinds.iter().flat_map(from).collect(),
            counts: vec![0; kinds.len()],
        }
    }

    /// The mean distance of two different witnesses, each drawn so many times; `None` where one witness alone was drawn.
    fn mean(&mut self, times: &[u64]) -> Option<f64> {
        self.counts.fill(0);
        // Pairs of a witness with itself are no pairs.
        let (mut witnesses, mut with_itself) = (0, 0);
        for (work, kind) in &self.of {
            let drawn = times[*work];
            self.counts[*kind] += drawn;
            witnesses += drawn;
            with_itself += drawn * drawn.saturating_sub(1) / 2;
        }
        let pairs = witnesses * witnesses.saturating_sub(1) / 2 - with_itself;
        let mut sum = 0.0;
        for (a, of_a) in self.counts.iter().enumerate() {
            let apart = &self.apart[a * self.counts.len()..];
            for (b, of_b) in self.counts.iter().enumerate().skip(a + 1) {
                sum += (of_a * of_b) as f64 * apart[b];
            }
        }
        (pairs > 0).then(|| sum / pairs as f64)
    }
}
