//! Differences on an ordered scale: nature, toxicity and grade.

use super::{Difference, DifferenceKind, Side, SideLabel};
use crate::claim::{Scheme, ValueId};
use crate::compare::witness::FacetView;

/// The side that is opposite to none.
const NEUTRAL: &str = "neutral";

/// `unanimous`, `crossing` or `graded`.
pub(super) fn kinds(scheme: &Scheme, view: &FacetView, groups: Vec<Side>) -> Vec<Difference> {
    if groups.len() == 1 {
        return vec![Difference::new(DifferenceKind::Unanimous, groups)];
    }
    let sides = by_side(scheme, view);
    let poles = sides
        .iter()
        .filter(|side| side.label != SideLabel::OfScale(NEUTRAL.to_owned()))
        .count();
    if poles > 1 {
        vec![Difference::new(DifferenceKind::Crossing, sides)]
    } else {
        vec![Difference::new(DifferenceKind::Graded, groups)]
    }
}

/// The witnesses by side of the scale, in the order of the scale. A witness with values on two sides
/// stands on both.
fn by_side(scheme: &Scheme, view: &FacetView) -> Vec<Side> {
    let mut sides: Vec<Side> = Vec::new();
    for value in (0..scheme.values().len()).map(|place| ValueId(place as u16)) {
        let Some(name) = &scheme.value(value).side else {
            continue;
        };
        let label = SideLabel::OfScale(name.clone());
        if sides.iter().any(|side| side.label == label) {
            continue;
        }
        let on_it = |stated: &ValueId| scheme.value(*stated).side.as_ref() == Some(name);
        let witnesses: Vec<_> = view
            .witnesses
            .iter()
            .filter(|witness| witness.values.iter().any(on_it))
            .map(|one| one.work)
            .collect();
        if !witnesses.is_empty() {
            sides.push(Side { label, witnesses });
        }
    }
    sides
}
