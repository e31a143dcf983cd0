//! The tasters of a panel one by one: who stands far from the others, and who repeats themself.

use std::collections::BTreeMap;

use super::panel::{Attribute, Sheet, Voice};
use crate::stats;

/// An outlying taster is so many median deviations farther from the others than the middle taster …
pub const OUTLYING_DEVIATIONS: f64 = 3.0;
/// … and so many points at the least. Both are our own choice, no source.
pub const OUTLYING_POINTS: f64 = 1.0;
/// Others who scored an attribute, without whom nobody is held against them.
const OTHERS: usize = 3;
/// So many attributes are told on which a taster is farthest from the others.
const FARTHEST: usize = 3;

/// An attribute on which a taster differs from the others.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Apart {
    /// The attribute.
    pub attribute: Attribute,
    /// The taster's score, the mean over their own cups.
    pub own: f64,
    /// The median of the others' scores.
    pub others: f64,
}

/// How far a taster stands from the others.
#[derive(Debug, Clone, PartialEq)]
pub struct TasterFigures {
    /// Who.
    pub taster: String,
    /// On how many attributes the taster could be held against three others or more.
    pub n: usize,
    /// The mean distance to the median of the others, in points; `None` where `n` is 0.
    pub distance: Option<f64>,
    /// The mean of the same differences with their signs: above 0 the taster scores higher than the others.
    pub lean: Option<f64>,
    /// Whether the distance is out of the common run.
    pub outlying: bool,
    /// Where the taster is farthest from the others, the farthest first.
    pub farthest: Vec<Apart>,
}

/// Every taster beside the others.
pub(super) fn taster_figures(voices: &BTreeMap<&str, Voice>) -> Vec<TasterFigures> {
    let mut tasters: Vec<TasterFigures> = voices
        .iter()
        .map(|(taster, voice)| beside_others(voices, taster, voice))
        .collect();
    let distances: Vec<f64> = tasters.iter().filter_map(|one| one.distance).collect();
    let limit = || {
        let middle = stats::median(&distances)?;
        let scatter = stats::median_absolute_deviation(&distances)?;
        Some(middle + (OUTLYING_DEVIATIONS * scatter).max(OUTLYING_POINTS))
    };
    if let Some(limit) = limit() {
        for one in &mut tasters {
            one.outlying = one.distance.is_some_and(|distance| distance >= limit);
        }
    }
    tasters
}

fn beside_others(voices: &BTreeMap<&str, Voice>, taster: &str, voice: &Voice) -> TasterFigures {
    let apart = |(attribute, own): (&Attribute, &f64)| {
        let others: Vec<f64> = voices
            .iter()
            .filter(|(other, _)| **other != taster)
            .filter_map(|(_, voice)| voice.get(attribute).copied())
            .collect();
        let others = Some(&others).filter(|others| others.len() >= OTHERS)?;
        Some(Apart {
            attribute: *attribute,
            own: *own,
            others: stats::median(others)?,
        })
    };
    let mut all: Vec<Apart> = voice.iter().filter_map(apart).collect();
    let differences: Vec<f64> = all.iter().map(|one| one.own - one.others).collect();
    let sizes: Vec<f64> = differences.iter().map(|one| one.abs()).collect();
    let n = all.len();
    all.retain(|one| one.own != one.others);
    all.sort_by(|a, b| {
        let size = |one: &Apart| (one.own - one.others).abs();
        size(b).total_cmp(&size(a))
    });
    all.truncate(FARTHEST);
    TasterFigures {
        taster: taster.to_owned(),
        n,
        distance: stats::mean(&sizes),
        lean: stats::mean(&differences),
        outlying: false,
        farthest: all,
    }
}

/// A taster's own two or more cups of the same thing.
#[derive(Debug, Clone, PartialEq)]
pub struct Repeat {
    /// Who.
    pub taster: String,
    /// How many cups of the same thing the taster had.
    pub cups: usize,
    /// How many differences stand behind the mean: one for each pair of the taster's cups and each attribute scored in
    /// both.
    pub n: usize,
    /// The mean difference between two own cups, in points.
    pub within: f64,
    /// The mean difference between an own cup and one of another taster, in points; `None` where nobody else had it.
    pub between: Option<f64>,
}

/// Whether tasters repeat themselves.
#[derive(Debug, Clone, PartialEq)]
pub struct Repeats {
    /// The tasters who had the same thing twice, in the order of their names.
    pub tasters: Vec<Repeat>,
    /// The mean of `within` over these tasters.
    pub within: f64,
    /// The mean of `between` over those of them that have one.
    pub between: Option<f64>,
}

/// How many of a taster's sheets are of something that the taster had more than once.
fn same_again(sheets: &[Sheet], taster: &str) -> usize {
    let mut made: BTreeMap<&str, usize> = BTreeMap::new();
    for sheet in sheets.iter().filter(|sheet| sheet.taster == taster) {
        *made.entry(&sheet.made).or_default() += 1;
    }
    made.values().filter(|cups| **cups > 1).sum()
}

/// What the replicate cups show: pairs of sheets of what was made in the same way. `None` where there is no pair of one
/// taster.
pub(super) fn repeats(sheets: &[Sheet]) -> Option<Repeats> {
    let mut pairs: BTreeMap<&str, (Vec<f64>, Vec<f64>)> = BTreeMap::new();
    for (place, one) in sheets.iter().enumerate() {
        for other in &sheets[place + 1..] {
            if one.made != other.made {
                continue;
            }
            let differences = one.scores.iter().filter_map(|(attribute, score)| {
                let other = other.scores.get(attribute)?;
                Some((score - other).abs())
            });
            let differences: Vec<f64> = differences.collect();
            if one.taster == other.taster {
                pairs.entry(&one.taster).or_default().0.extend(differences);
            } else {
                for taster in [&one.taster, &other.taster] {
                    pairs.entry(taster).or_default().1.extend(&differences);
                }
            }
        }
    }
    let repeat = |(taster, (within, between)): (&str, (Vec<f64>, Vec<f64>))| {
        Some(Repeat {
            taster: taster.to_owned(),
            cups: same_again(sheets, taster),
            n: within.len(),
            within: stats::mean(&within)?,
            between: stats::mean(&between),
        })
    };
    let tasters: Vec<Repeat> = pairs.into_iter().filter_map(repeat).collect();
    let means = |of: &dyn Fn(&Repeat) -> Option<f64>| -> Option<f64> {
        stats::mean(&tasters.iter().filter_map(of).collect::<Vec<_>>())
    };
    Some(Repeats {
        within: means(&|one| Some(one.within))?,
        between: means(&|one| one.between),
        tasters,
    })
}
