//! How far the books agree on all herbs: Krippendorff's alpha by facet and by period (rule 29).

use std::collections::HashMap;

use super::distance::{SetDistance, distance, place_on_scale};
use super::field::Field;
use super::witness::{FacetView, Witness};
use crate::claim::{Facet, Scale, ValueId};
use crate::corpus::Corpus;
use crate::stats::{self, Alpha, Bootstrap, Undefined, alpha, bootstrap, nominal};

/// The stands of all herbs on one facet: for each herb the categories of its witnesses, and the stand that each category is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Units {
    /// The facet.
    pub facet: Facet,
    /// For each herb, the category of each witness.
    pub units: Vec<Vec<usize>>,
    /// The stand that each category is.
    pub stands: Vec<Vec<ValueId>>,
    /// The rank of each category by its place on the scale; two stands at one place have one rank.
    pub ranks: Vec<usize>,
}

/// The agreement on one facet.
#[derive(Debug, Clone, PartialEq)]
pub struct Agreement {
    /// The facet.
    pub facet: Facet,
    /// Whether stands are the same or not.
    pub nominal: Result<Alpha, Undefined>,
    /// By how far stands differ: on a scale by places (ordinal alpha), for lists by the set distance.
    pub graded: Result<Alpha, Undefined>,
}

/// Gathers the stands of the witnesses of a field, of those works only whose latest year lies within `period`.
#[must_use]
pub fn units(corpus: &Corpus, field: &Field, period: Option<Period>) -> Units {
    let scheme = corpus.vocabulary.scheme(field.facet);
    let within = |witness: &&Witness| {
        let year = corpus.work(witness.work).date.to;
        period.is_none_or(|period| (period.from..=period.to).contains(&year))
    };
    let of_herb = |view: &FacetView| {
        let witnesses = view.witnesses.iter().filter(within);
        witnesses.map(Witness::stand).collect()
    };
    let by_herb: Vec<Vec<Vec<ValueId>>> = field.views.iter().map(of_herb).collect();
    let mut all: Vec<Vec<ValueId>> = by_herb.iter().flatten().cloned().collect();
    let place = |stand: &Vec<ValueId>| place_on_scale(scheme, stand);
    all.sort_by(|a, b| place(a).total_cmp(&place(b)).then(a.cmp(b)));
    all.dedup();
    // On a scale two stands at one place, cool and the middle of cold and neutral, are one rank.
    let mut ranks: Vec<usize> = Vec::with_capacity(all.len());
    for (n, stand) in all.iter().enumerate() {
        let rank = match n.checked_sub(1) {
            None => 0,
            Some(last) => ranks[last] + usize::from(place(stand) > place(&all[last])),
        };
        ranks.push(rank);
    }
    let by_stand: HashMap<&Vec<ValueId>, usize> = all.iter().zip(0..).collect();
    let unit = |stands: &Vec<Vec<ValueId>>| {
        let categories = stands.iter().filter_map(|stand| by_stand.get(stand));
        categories.copied().collect()
    };
    let units = by_herb.iter().map(unit).collect();
    Units {
        facet: field.facet,
        units,
        ranks,
        stands: all,
    }
}

/// The agreement on the facet of `units`.
///
/// ```
/// use kaoyi::{claim::Facet, compare};
/// let corpus = kaoyi::corpus::embedded().unwrap();
/// let fields = compare::fields(&corpus, &[Facet::Nature], &Default::default()).unwrap();
/// let units = compare::units(&corpus, &fields[0], None);
/// let agreement = compare::agreement(&corpus, &units, compare::SetDistance::Masi);
/// assert!(agreement.graded.unwrap().value > agreement.nominal.unwrap().value);
/// ```
#[must_use]
pub fn agreement(corpus: &Corpus, units: &Units, sets: SetDistance) -> Agreement {
    Agreement {
        facet: units.facet,
        nominal: alpha(&units.units, |a, b| nominal(&a, &b)),
        graded: graded(corpus, units, &units.units, sets),
    }
}

fn graded(
    corpus: &Corpus,
    units: &Units,
    drawn: &[Vec<usize>],
    sets: SetDistance,
) -> Result<Alpha, Undefined> {
    let scheme = corpus.vocabulary.scheme(units.facet);
    match scheme.scale() {
        Scale::Ordinal => {
            let ranked: Vec<Vec<usize>> = drawn
                .iter()
                .map(|unit| unit.iter().map(|category| units.ranks[*category]).collect())
                .collect();
            let difference = stats::ordinal_difference(&stats::marginals(&ranked));
            alpha(&ranked, difference)
        }
        Scale::Nominal => {
            let stand = |place: usize| &units.stands[place];
            alpha(drawn, |a, b| distance(scheme, sets, stand(a), stand(b)))
        }
    }
}

/// So often are herbs drawn for an interval.
const DRAWS: usize = 400;

/// The interval at 95 % of the graded agreement: the herbs are drawn again.
#[must_use]
pub fn agreement_interval(corpus: &Corpus, units: &Units, sets: SetDistance) -> Option<Bootstrap> {
    bootstrap(&units.units, DRAWS, 1, |drawn| {
        let drawn: Vec<Vec<usize>> = drawn.iter().map(|unit| (*unit).clone()).collect();
        graded(corpus, units, &drawn, sets)
            .ok()
            .map(|alpha| alpha.value)
    })
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
