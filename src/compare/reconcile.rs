//! Why two opposed actions may both be true: what the record itself tells apart (rule 14).

use std::collections::BTreeMap;

use super::actions::{Concept, OpposedPair};
use super::witness::Statement;
use crate::claim::ValueId;
use crate::corpus::{Herb, Scope, WorkId};

/// What tells two opposed actions apart in the record.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Reconciliation {
    /// One action is stated of a part, preparation or kind of which nobody states the other.
    Scope {
        /// That action.
        action: ValueId,
        /// The part, preparation or kind.
        scope: Scope,
        /// The works that state it so, oldest first.
        works: Vec<WorkId>,
    },
    /// One action is stated together with a partner.
    Partner {
        /// That action.
        action: ValueId,
        /// The work that states it so.
        work: WorkId,
        /// The phrase that names the partner.
        wording: String,
    },
}

/// Words that open a phrase on a partner: 得黃耆則止汗, 同, 佐, 配.
const WITH: [char; 4] = ['得', '同', '佐', '配'];
/// Words after which such a phrase may begin.
const STOPS: [char; 4] = ['，', '、', '。', '；'];

/// All that the record of `herb` tells of a pair; empty where it tells nothing.
///
/// ```
/// use kaoyi::{claim::Facet, compare, corpus};
/// let corpus = corpus::embedded().unwrap();
/// let corpus::Lookup::One(herb) = corpus.find_herb("麻黃") else { panic!() };
/// let herb = corpus.herb(herb).unwrap();
/// let view = compare::view(&corpus, herb, Facet::Action, &Default::default());
/// let pairs = compare::opposed_pairs(&corpus, &compare::concepts(&corpus, &view));
/// // The stem promotes sweating, the root stops it.
/// assert!(!compare::reconcile(herb, &pairs[0]).is_empty());
/// ```
#[must_use]
pub fn reconcile(herb: &Herb, pair: &OpposedPair) -> Vec<Reconciliation> {
    let mut found = Vec::new();
    for (one, other) in [
        (&pair.stronger, &pair.weaker),
        (&pair.weaker, &pair.stronger),
    ] {
        let others = by_scope(other);
        for (scope, works) in by_scope(one) {
            if !scope.is_whole() && !others.contains_key(scope) {
                found.push(Reconciliation::Scope {
                    action: one.value,
                    scope: scope.clone(),
                    works,
                });
            }
        }
    }
    for concept in [&pair.stronger, &pair.weaker] {
        let with = |(work, statement): &(WorkId, Statement)| {
            let (entry, saying) = statement.evidence;
            let wording = herb
                .entries
                .get(entry)?
                .sayings
                .get(saying)?
                .wording
                .as_ref()?;
            names_partner(wording).then(|| Reconciliation::Partner {
                action: concept.value,
                work: *work,
                wording: wording.clone(),
            })
        };
        found.extend(concept.statements.iter().filter_map(with));
    }
    found
}

/// The works that state an action, by what they limit it to.
fn by_scope(concept: &Concept) -> BTreeMap<&Scope, Vec<WorkId>> {
    let mut scopes: BTreeMap<&Scope, Vec<WorkId>> = BTreeMap::new();
    for (work, statement) in &concept.statements {
        let works = scopes.entry(&statement.scope).or_default();
        if !works.contains(work) {
            works.push(*work);
        }
    }
    scopes
}

fn names_partner(wording: &str) -> bool {
    let mut clauses = wording.split(STOPS);
    clauses.any(|clause| clause.starts_with(WITH) && clause.chars().count() > 3)
}

#[cfg(test)]
mod tests {
    use super::names_partner;

    #[test]
    fn a_phrase_on_a_partner_opens_with_a_word_for_together() {
        assert!(names_partner("得黄芪则止汗") && names_partner("发汗，佐桂枝解表"));
        assert!(!names_partner("止汗") && !names_partner("不同于彼") && !names_partner("同类"));
    }
}
