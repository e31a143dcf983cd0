//! How far the books agree on all herbs: Krippendorff's alpha by facet and by period (rule 29).

use super::distance::{SetDistance, place_on_scale};
use super::stands::{Distances, Row, Stands};
use crate::claim::{Facet, Scale};
use crate::corpus::Corpus;
use crate::stats::{self, Alpha, Bootstrap, Tally, Undefined, alpha, bootstrap, nominal};

/// The agreement on one facet.
#[derive(Debug, Clone, PartialEq)]
pub struct Agreement {
    /// The facet.
    pub facet: Facet,
    /// Whether stands are the same or not.
    pub nominal: Result<Alpha, Undefined>,
    /// By how far stands differ: on a scale by places (ordinal alpha), for lists by the set distance.
    pub graded: Result<Alpha, Undefined>,
    /// The interval at 95 % of the graded one, where it was asked for and could be computed.
    pub interval: Option<Bootstrap>,
}

/// So often are herbs drawn for an interval.
const DRAWS: usize = 400;

/// The agreement of all witnesses on a facet. For the interval the herbs are drawn again, which takes longer.
///
/// ```
/// use kaoyi::{claim::Facet, compare};
/// let corpus = kaoyi::corpus::embedded().unwrap();
/// let stands = compare::stands(&corpus, &[Facet::Nature]).unwrap();
/// let agreement = compare::agreement(&corpus, &stands[0], compare::SetDistance::Masi, false);
/// assert!(agreement.graded.unwrap().value > agreement.nominal.unwrap().value);
/// ```
#[must_use]
pub fn agreement(
    corpus: &Corpus,
    stands: &Stands,
    sets: SetDistance,
    with_interval: bool,
) -> Agreement {
    let distances = stands.distances(corpus, sets);
    let kinds = |rows: &[Row]| -> Vec<usize> { rows.iter().map(|row| row.kind as usize).collect() };
    let by_kind = Tally::of(stands.by_herb().map(kinds));
    of_tally(corpus, stands, &distances, &by_kind, with_interval)
}

/// The agreement on a facet, of which `by_kind` tells how often each stand is taken on each herb.
pub(super) fn of_tally(
    corpus: &Corpus,
    stands: &Stands,
    distances: &Distances,
    by_kind: &Tally,
    with_interval: bool,
) -> Agreement {
    let scheme = corpus.vocabulary.scheme(stands.facet);
    let nominal = alpha(by_kind, |a, b| nominal(&a, &b));
    let (graded, interval) = match scheme.scale() {
        Scale::Ordinal => {
            let ranks = ranks(corpus, stands);
            let by_rank = by_kind.merged(|kind| ranks[kind]);
            let of = |tally: &Tally| alpha(tally, stats::ordinal_difference(&tally.marginals()));
            (of(&by_rank), with_interval.then(|| interval(&by_rank, of)))
        }
        Scale::Nominal => {
            let of = |tally: &Tally| alpha(tally, |a, b| distances.between(a as u32, b as u32));
            (of(by_kind), with_interval.then(|| interval(by_kind, of)))
        }
    };
    Agreement {
        facet: stands.facet,
        nominal,
        graded,
        interval: interval.flatten(),
    }
}

/// The interval of a coefficient, the herbs drawn again.
fn interval(tally: &Tally, of: impl Fn(&Tally) -> Result<Alpha, Undefined>) -> Option<Bootstrap> {
    let herbs: Vec<usize> = (0..tally.units().count()).collect();
    bootstrap(&herbs, DRAWS, 1, |drawn| {
        let drawn = tally.drawn(drawn.iter().map(|place| **place));
        of(&drawn).ok().map(|alpha| alpha.value)
    })
}

/// The rank of each stand by its place on the scale. Two stands at one place, cool and the middle of cold and neutral, have
/// one rank.
fn ranks(corpus: &Corpus, stands: &Stands) -> Vec<usize> {
    let scheme = corpus.vocabulary.scheme(stands.facet);
    let place = |stand: usize| place_on_scale(scheme, &stands.kinds[stand]);
    let mut ranks: Vec<usize> = Vec::with_capacity(stands.kinds.len());
    for stand in 0..stands.kinds.len() {
        let rank = match stand.checked_sub(1) {
            None => 0,
            Some(last) => ranks[last] + usize::from(place(stand) > place(last)),
        };
        ranks.push(rank);
    }
    ranks
}

/// A span of years by which works are compared.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Period {
    /// In Han characters.
    pub han: &'static str,
    /// In pinyin.
    pub pinyin: &'static str,
    /// The first year.
    pub from: i32,
    /// The last year.
    pub to: i32,
}

impl Period {
    /// The place among [`PERIODS`] of the period in which a year lies.
    ///
    /// ```
    /// use kaoyi::compare::{PERIODS, Period};
    /// assert_eq!(PERIODS[Period::place_of(1596)].pinyin, "Ming");
    /// ```
    #[must_use]
    pub fn place_of(year: i32) -> usize {
        // They follow one another without a gap.
        PERIODS.iter().take_while(|one| one.to < year).count()
    }
}

/// The periods, by the latest year of a work: customary spans of dynasties, from memory.
pub const PERIODS: [Period; 4] = [
    Period {
        han: "漢至唐",
        pinyin: "Han to Tang",
        from: i32::MIN,
        to: 907,
    },
    Period {
        han: "五代至元",
        pinyin: "Five Dynasties to Yuan",
        from: 908,
        to: 1368,
    },
    Period {
        han: "明",
        pinyin: "Ming",
        from: 1369,
        to: 1644,
    },
    Period {
        han: "清",
        pinyin: "Qing",
        from: 1645,
        to: i32::MAX,
    },
];
