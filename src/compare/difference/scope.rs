//! `by scope`: the difference follows part, preparation or kind.

use std::collections::BTreeMap;

use super::{Difference, DifferenceKind, Side, SideLabel};
use crate::claim::ValueId;
use crate::compare::witness::FacetView;
use crate::corpus::{Scope, WorkId};

type Stands = BTreeMap<WorkId, Vec<ValueId>>;

/// Holds for a scope when some witness states another value for it than for the herb as such (or for
/// another scope), or when all who speak of the scope agree on a stand that no witness takes for the
/// herb as such.
pub(super) fn by_scope(view: &FacetView) -> Option<Difference> {
    let scopes = stands_by_scope(view);
    let whole = scopes.get(&Scope::default()).cloned().unwrap_or_default();
    let differs = |scope: &Scope, stands: &Stands| {
        let elsewhere = |work: &WorkId, stand: &Vec<ValueId>| {
            scopes.iter().any(|(other, theirs)| {
                other != scope && theirs.get(work).is_some_and(|one| one != stand)
            })
        };
        let own_contrast = stands.iter().any(|(work, stand)| elsewhere(work, stand));
        let mut all = stands.values();
        let first = all.next();
        let agreed = all.all(|stand| Some(stand) == first);
        let unheard =
            !whole.is_empty() && agreed && whole.values().all(|stand| Some(stand) != first);
        own_contrast || unheard
    };
    let followed: Vec<&Scope> = scopes
        .iter()
        .filter(|(scope, stands)| !scope.is_whole() && differs(scope, stands))
        .map(|(s, _)| s)
        .collect();
    if followed.is_empty() {
        return None;
    }
    let sides = scopes
        .iter()
        .filter(|(scope, _)| scope.is_whole() || followed.contains(scope));
    Some(Difference::new(
        DifferenceKind::ByScope,
        sides
            .flat_map(|(scope, stands)| sides_of(scope, stands))
            .collect(),
    ))
}

fn stands_by_scope(view: &FacetView) -> BTreeMap<Scope, Stands> {
    let mut scopes: BTreeMap<Scope, Stands> = BTreeMap::new();
    for witness in view.all() {
        for statement in &witness.statements {
            // Of the herb as such only what counts; of a scope all that is said.
            if statement.scope.is_whole() && !statement.counted {
                continue;
            }
            let stand = scopes
                .entry(statement.scope.clone())
                .or_default()
                .entry(witness.work)
                .or_default();
            stand.extend(statement.values.iter().map(|(value, _)| *value));
            stand.sort_unstable();
            stand.dedup();
        }
    }
    scopes
}

fn sides_of(scope: &Scope, stands: &Stands) -> Vec<Side> {
    let mut sides: Vec<Side> = Vec::new();
    for (work, stand) in stands {
        let label = SideLabel::Of(scope.clone(), stand.clone());
        match sides.iter_mut().find(|side| side.label == label) {
            Some(side) => side.witnesses.push(*work),
            None => sides.push(Side {
                label,
                witnesses: vec![*work],
            }),
        }
    }
    sides
}
