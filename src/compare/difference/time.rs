//! `over time`: earlier books one way, later books another.

use super::{Difference, DifferenceKind, Side, SideLabel, Turning};
use crate::claim::{Facet, Scheme, Thresholds, ValueId};
use crate::compare::witness::{FacetView, Witness};
use crate::corpus::{Corpus, Date, WorkId};

/// For nature and toxicity one turn between sides of the scale, for flavours one for each flavour
/// that comes or goes; none for channels, whose lists are open, and grades, which few books give.
pub(super) fn over_time(corpus: &Corpus, view: &FacetView) -> Vec<Difference> {
    let scheme = corpus.vocabulary.scheme(view.facet);
    match view.facet {
        Facet::Nature | Facet::Toxicity => {
            let label = |witness: &Witness| side_of(scheme, witness).map(SideLabel::OfScale);
            turn(corpus, view, label).into_iter().collect()
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
                .filter_map(|value| turn(corpus, view, label(value)))
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

/// What one witness tells.
struct Told {
    work: WorkId,
    date: Date,
    label: SideLabel,
}

/// Finds the turning point: the split, with enough witnesses before and after it and no date on both
/// sides of it, whose commonest labels differ, each held by a clear majority of its part, and that
/// leaves the fewest witnesses on the wrong side; of equal splits the earliest. The first work after it
/// must have turned. It counts when the misfits are fewer than either side and within their share.
fn turn(
    corpus: &Corpus,
    view: &FacetView,
    label: impl Fn(&Witness) -> Option<SideLabel>,
) -> Option<Difference> {
    let thresholds = &corpus.vocabulary.thresholds;
    let told = view.witnesses.iter().filter_map(|witness| {
        let date = corpus.work(witness.work).date;
        Some(Told {
            work: witness.work,
            date,
            label: label(witness)?,
        })
    });
    let told: Vec<Told> = told.collect();
    let edge = thresholds.turning_side;
    let splits = edge..=told.len().checked_sub(edge)?;
    let turns = splits.filter_map(|split| turn_at(thresholds, &told, split));
    let turns = turns.filter(|turn| {
        let mut sides = turn.sides.iter();
        sides.all(|side| side.witnesses.len() > misfits(turn))
    });
    let best = turns.min_by_key(misfits)?;
    thresholds
        .turning_misfits
        .not_exceeded_by(misfits(&best), told.len())
        .then_some(best)
}

fn misfits(difference: &Difference) -> usize {
    difference
        .turning
        .as_ref()
        .map_or(0, |turning| turning.against.len())
}

/// The turn between the first `split` witnesses and the others, where there is one.
fn turn_at(thresholds: &Thresholds, told: &[Told], split: usize) -> Option<Difference> {
    let (earlier, later) = told.split_at(split);
    if !apart(earlier, later) {
        return None;
    }
    let (before, after) = (majority(thresholds, earlier)?, majority(thresholds, later)?);
    // The turning point is named by its first work, which must itself have turned.
    if before == after || later.first()?.label != after {
        return None;
    }
    let with = |part: &[Told], label: &SideLabel, same: bool| -> Vec<WorkId> {
        part.iter()
            .filter(|one| (one.label == *label) == same)
            .map(|one| one.work)
            .collect()
    };
    let mut against = with(earlier, &before, false);
    against.extend(with(later, &after, false));
    let sides = vec![
        Side {
            label: before.clone(),
            witnesses: with(earlier, &before, true),
        },
        Side {
            label: after.clone(),
            witnesses: with(later, &after, true),
        },
    ];
    let turning = Some(Turning {
        first_of_later: later.first()?.work,
        against,
    });
    Some(Difference {
        kind: DifferenceKind::OverTime,
        sides,
        turning,
    })
}

/// Whether every earlier work was finished before any later one was begun; of a work of which only
/// "not later than" is known that cannot be said.
fn apart(earlier: &[Told], later: &[Told]) -> bool {
    let last = earlier.iter().map(|one| one.date.to).max();
    later.iter().all(|one| one.date.from > last)
}

/// The label that a clear majority holds.
fn majority(thresholds: &Thresholds, part: &[Told]) -> Option<SideLabel> {
    let held = |label: &SideLabel| part.iter().filter(|other| other.label == *label).count();
    let label = part
        .iter()
        .map(|one| &one.label)
        .max_by_key(|label| held(label))?;
    thresholds
        .mostly
        .reached_by(held(label), part.len())
        .then(|| label.clone())
}
