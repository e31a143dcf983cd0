//! `over time`: earlier books one way, later books another.

use super::{Difference, DifferenceKind, Side, SideLabel, Turning};
use crate::claim::{Facet, Scheme, Thresholds, ValueId};
use crate::compare::witness::{FacetView, Witness};
use crate::corpus::WorkId;

/// For nature and toxicity one turn between sides of the scale, for flavours one for each flavour
/// that comes or goes; none for channels, whose lists are open, and grades, which few books give.
pub(super) fn over_time(
    scheme: &Scheme,
    thresholds: &Thresholds,
    view: &FacetView,
) -> Vec<Difference> {
    match view.facet {
        Facet::Nature | Facet::Toxicity => {
            let label = |witness: &Witness| side_of(scheme, witness).map(SideLabel::OfScale);
            turn(thresholds, &view.witnesses, label)
                .into_iter()
                .collect()
        }
        Facet::Flavour => {
            let flavours = (0..scheme.values().len()).map(|place| ValueId(place as u16));
            let label = |value: ValueId| {
                move |witness: &Witness| {
                    let with = witness.values.contains(&value);
                    Some(if with {
                        SideLabel::With(value)
                    } else {
                        SideLabel::Without(value)
                    })
                }
            };
            flavours
                .filter_map(|value| turn(thresholds, &view.witnesses, label(value)))
                .collect()
        }
        Facet::Grade | Facet::Channel | Facet::Action => Vec::new(),
    }
}

/// The side on which all values of a witness lie; `None` when they lie on two.
fn side_of(scheme: &Scheme, witness: &Witness) -> Option<String> {
    let mut sides = witness
        .values
        .iter()
        .map(|value| scheme.value(*value).side.clone());
    let first = sides.next()??;
    sides
        .all(|side| side.as_ref() == Some(&first))
        .then_some(first)
}

/// Finds the turning point: the split, with enough witnesses before and after it, whose commonest
/// labels differ, each held by a clear majority of its part, and that leaves the fewest witnesses on
/// the wrong side; of equal splits the earliest. It counts when the misfits do not exceed their share.
fn turn(
    thresholds: &Thresholds,
    witnesses: &[Witness],
    label: impl Fn(&Witness) -> Option<SideLabel>,
) -> Option<Difference> {
    let told: Vec<(WorkId, SideLabel)> = witnesses
        .iter()
        .filter_map(|witness| Some((witness.work, label(witness)?)))
        .collect();
    let edge = thresholds.turning_side;
    let splits = edge..=told.len().checked_sub(edge)?;
    let fits = splits.filter_map(|split| {
        let majority = |part: &[(WorkId, SideLabel)]| {
            commonest(part)
                .filter(|(_, held)| thresholds.mostly.reached_by(*held, part.len()))
                .map(|(label, _)| label)
        };
        let (before, after) = (majority(&told[..split])?, majority(&told[split..])?);
        let against: Vec<WorkId> = told
            .iter()
            .enumerate()
            .filter(|(place, (_, label))| {
                *label
                    != if *place < split {
                        before.clone()
                    } else {
                        after.clone()
                    }
            })
            .map(|(_, (work, _))| *work)
            .collect();
        (before != after).then_some((split, before, after, against))
    });
    let (split, before, after, against) =
        fits.min_by_key(|(split, _, _, against)| (against.len(), *split))?;
    if !thresholds
        .turning_misfits
        .not_exceeded_by(against.len(), told.len())
    {
        return None;
    }
    let side = |wanted: &SideLabel, part: &[(WorkId, SideLabel)]| Side {
        label: wanted.clone(),
        witnesses: part
            .iter()
            .filter(|(_, label)| label == wanted)
            .map(|(work, _)| *work)
            .collect(),
    };
    Some(Difference {
        kind: DifferenceKind::OverTime,
        sides: vec![side(&before, &told[..split]), side(&after, &told[split..])],
        turning: Some(Turning {
            first_of_later: told[split].0,
            against,
        }),
    })
}

/// The commonest label and how many hold it; of equally common ones the first met. `None` for an
/// empty list.
fn commonest(part: &[(WorkId, SideLabel)]) -> Option<(SideLabel, usize)> {
    let count = |label: &SideLabel| part.iter().filter(|(_, other)| other == label).count();
    let mut best: Option<(&SideLabel, usize)> = None;
    for (_, label) in part {
        let n = count(label);
        if best.is_none_or(|(_, most)| n > most) {
            best = Some((label, n));
        }
    }
    best.map(|(label, n)| (label.clone(), n))
}
