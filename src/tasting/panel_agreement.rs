//! How far the tasters of a panel agree: Krippendorff's alpha, with what it rests on.

use std::collections::{BTreeMap, BTreeSet};

use super::panel::{Attribute, Cup, Sheet};
use crate::stats::{self, Interval, Tally, Undefined};

/// So many draws for the interval.
const DRAWS: usize = 2000;
/// The draws are fixed: equal sheets give equal intervals.
const SEED: u64 = 20;
/// From so many tasters on it is told what alpha is without one of them.
const ENOUGH: usize = 3;

/// Agreement of the tasters on the attributes scored 0 to 10.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Agreement {
    /// Krippendorff's alpha with the squared difference in points.
    pub alpha: f64,
    /// The same by ranks (ordinal); `None` where it cannot be computed.
    pub ordinal: Option<f64>,
    /// Its interval, whole attributes being drawn again; `None` where too few draws give a figure.
    pub interval: Option<Interval>,
    /// The lowest and the highest that it becomes when one taster is left out; `None` of fewer than three tasters.
    pub without_one: Option<(f64, f64)>,
    /// How many units were compared: an attribute of a cup that two tasters or more scored.
    pub units: usize,
    /// How many scores stand in these units, a taster's score of the same cup twice being one, their mean.
    pub scores: usize,
    /// How many attributes there are among the units.
    pub attributes: usize,
}

/// The scores of one attribute of one cup, each a taster's.
type Unit<'s> = BTreeMap<&'s str, f64>;

/// The units, attribute by attribute. Warmth has another scale and stays outside.
fn units(sheets: &[Sheet]) -> BTreeMap<Attribute, BTreeMap<&Cup, Unit<'_>>> {
    let mut scores: BTreeMap<Attribute, BTreeMap<&Cup, BTreeMap<&str, Vec<f64>>>> = BTreeMap::new();
    for sheet in sheets {
        for (attribute, score) in &sheet.scores {
            if *attribute != Attribute::Warmth {
                let of_cup = scores.entry(*attribute).or_default();
                let of_unit = of_cup.entry(&sheet.cup).or_default();
                of_unit.entry(&sheet.taster).or_default().push(*score);
            }
        }
    }
    let mut found = BTreeMap::new();
    for (attribute, cups) in scores {
        let cups: BTreeMap<&Cup, Unit<'_>> = cups
            .into_iter()
            .map(|(cup, all)| (cup, unit(all)))
            .collect();
        found.insert(attribute, cups);
    }
    found
}

/// Each taster's own mean.
fn unit(all: BTreeMap<&str, Vec<f64>>) -> Unit<'_> {
    let means = all.into_iter();
    means
        .filter_map(|(taster, scores)| Some((taster, stats::mean(&scores)?)))
        .collect()
}

/// Units counted by places of scores, so that they can be drawn again without being counted again.
struct Counted {
    /// All scores that were given, in order; a place is one of these.
    points: Vec<f64>,
    tally: Tally,
}

impl Counted {
    fn new(units: &[Vec<f64>]) -> Self {
        let mut points: Vec<f64> = units.iter().flatten().copied().collect();
        points.sort_by(f64::total_cmp);
        points.dedup();
        let place = |score: &f64| points.partition_point(|point| point < score);
        let tally = Tally::of(units.iter().map(|unit| unit.iter().map(place)));
        Self { points, tally }
    }

    /// Alpha by points.
    fn alpha(&self, tally: &Tally) -> Result<stats::Alpha, Undefined> {
        let difference = |a: usize, b: usize| (self.points[a] - self.points[b]).powi(2);
        stats::alpha(tally, difference)
    }
}

/// Alpha of the tasters, and what is needed to read it. Errors where it is 0/0.
pub(super) fn agreement(sheets: &[Sheet]) -> Result<Agreement, Undefined> {
    let by_attribute = units(sheets);
    // The units one after another, and which of them belong to one attribute.
    let (mut flat, mut attributes, mut paired) = (Vec::new(), Vec::new(), 0);
    for cups in by_attribute.values() {
        let from = flat.len();
        flat.extend(
            cups.values()
                .map(|unit| unit.values().copied().collect::<Vec<f64>>()),
        );
        attributes.push(from..flat.len());
        paired += usize::from(cups.values().any(|unit| unit.len() > 1));
    }
    let counted = Counted::new(&flat);
    let all = counted.alpha(&counted.tally)?;
    let by_rank = stats::ordinal_difference(&counted.tally.marginals());
    let bootstrap = stats::bootstrap(&attributes, DRAWS, SEED, |drawn| {
        let places = drawn.iter().flat_map(|attribute| (*attribute).clone());
        let tally = counted.tally.drawn(places);
        counted.alpha(&tally).ok().map(|found| found.value)
    });
    Ok(Agreement {
        alpha: all.value,
        ordinal: stats::alpha(&counted.tally, by_rank)
            .ok()
            .map(|found| found.value),
        interval: bootstrap.map(|one| one.interval),
        without_one: without_one(&by_attribute),
        units: all.units,
        scores: all.values,
        attributes: paired,
    })
}

fn without_one(units: &BTreeMap<Attribute, BTreeMap<&Cup, Unit<'_>>>) -> Option<(f64, f64)> {
    let all = || units.values().flat_map(BTreeMap::values);
    let tasters: BTreeSet<&str> = all().flat_map(|unit| unit.keys().copied()).collect();
    if tasters.len() < ENOUGH {
        return None;
    }
    let without = |left: &str| {
        let others = |unit: &Unit<'_>| -> Vec<f64> {
            let kept = unit.iter().filter(|(taster, _)| **taster != left);
            kept.map(|(_, score)| *score).collect()
        };
        let units: Vec<Vec<f64>> = all().map(others).collect();
        let counted = Counted::new(&units);
        counted.alpha(&counted.tally).ok().map(|found| found.value)
    };
    let found: Option<Vec<f64>> = tasters.iter().map(|taster| without(taster)).collect();
    let found = found?;
    Some((
        found.iter().copied().reduce(f64::min)?,
        found.iter().copied().reduce(f64::max)?,
    ))
}
