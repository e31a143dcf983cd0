//! Differences between lists: flavours and channels.

use super::{Difference, DifferenceKind, Side, SideLabel};
use crate::claim::{Scheme, ValueId};
use crate::compare::witness::{FacetView, Witness};

/// `unanimous`, `nested` or `mixed`; `graded` beside `unanimous` when only degrees differ;
/// `crossing` for every pair of opposed values that different witnesses stand for.
pub(super) fn kinds(scheme: &Scheme, view: &FacetView, groups: Vec<Side>) -> Vec<Difference> {
    let mut found = Vec::new();
    if groups.len() == 1 {
        found.push(Difference::new(DifferenceKind::Unanimous, groups));
        found.extend(by_degree(view));
        return found;
    }
    let kind = if is_nested(&view.witnesses) {
        DifferenceKind::Nested
    } else {
        DifferenceKind::Mixed
    };
    found.push(Difference::new(kind, groups));
    found.extend(crossings(scheme, &view.witnesses));
    found
}

/// Whether the shortest stand is contained in every other.
fn is_nested(witnesses: &[Witness]) -> bool {
    let shortest = witnesses.iter().min_by_key(|witness| witness.values.len());
    shortest.is_some_and(|core| {
        witnesses.iter().all(|witness| {
            core.values
                .iter()
                .all(|value| witness.values.contains(value))
        })
    })
}

/// For each value of equal lists whose degree differs, a side for each degree.
fn by_degree(view: &FacetView) -> Vec<Difference> {
    let values = view
        .witnesses
        .first()
        .map(Witness::stand)
        .unwrap_or_default();
    let graded = values.into_iter().filter_map(|value| {
        let mut sides: Vec<Side> = Vec::new();
        for witness in &view.witnesses {
            let label = SideLabel::Degree(value, witness.degree(value));
            match sides.iter_mut().find(|side| side.label == label) {
                Some(side) => side.witnesses.push(witness.work),
                None => sides.push(Side {
                    label,
                    witnesses: vec![witness.work],
                }),
            }
        }
        (sides.len() > 1).then(|| Difference::new(DifferenceKind::Graded, sides))
    });
    graded.collect()
}

fn crossings(scheme: &Scheme, witnesses: &[Witness]) -> Vec<Difference> {
    let values = (0..scheme.values().len()).map(|place| ValueId(place as u16));
    let pairs = values
        .clone()
        .flat_map(|a| values.clone().map(move |b| (a, b)));
    pairs
        .filter(|(a, b)| a < b && scheme.opposed(*a, *b))
        .filter_map(|(a, b)| {
            let side = |with: ValueId, without: ValueId| Side {
                label: SideLabel::With(with),
                witnesses: witnesses
                    .iter()
                    .filter(|witness| {
                        witness.values.contains(&with) && !witness.values.contains(&without)
                    })
                    .map(|witness| witness.work)
                    .collect(),
            };
            let sides = vec![side(a, b), side(b, a)];
            let both = sides.iter().all(|side| !side.witnesses.is_empty());
            both.then(|| Difference::new(DifferenceKind::Crossing, sides))
        })
        .collect()
}
