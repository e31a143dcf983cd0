//! The consensus profile: for each value how many witnesses and lines support it, with an interval;
//! for ordered facets the middle and the spread.

use std::collections::BTreeSet;

use super::answer::{Verdict, verdict};
use super::lines::{Lines, lines};
use super::witness::{FacetView, Statement, Witness};
use crate::claim::{Facet, Scale, Scheme, ValueId};
use crate::corpus::{Corpus, Scope, WorkId};
use crate::stats::{Interval, Spread, spread, wilson};

/// The support of one value.
#[derive(Debug, Clone, PartialEq)]
pub struct Support {
    /// The value.
    pub value: ValueId,
    /// Whether its degrees are counted too: warm in any degree. Then the value itself and each degree
    /// follow, without a verdict of their own.
    pub any_degree: bool,
    /// Witnesses that state it.
    pub k: usize,
    /// Witnesses on the facet.
    pub n: usize,
    /// Lines that state it.
    pub j: usize,
    /// Lines on the facet.
    pub m: usize,
    /// Wilson 95 % interval for `k` of `n`; `None` for open lists, where silence is no denial.
    pub interval: Option<Interval>,
    /// The witnesses that state it, oldest first.
    pub by: Vec<WorkId>,
    /// The verdict; `None` for a single degree of a value whose degrees stand together above it.
    pub verdict: Option<Verdict>,
}

/// The middle and the ends of an ordered facet.
#[derive(Debug, Clone, PartialEq)]
pub struct Scaled {
    /// Median, quartiles and ends, over all values that witnesses state.
    pub spread: Spread,
    /// The value or values that most witnesses state.
    pub commonest: Vec<ValueId>,
}

/// The most severe toxicity, of all statements or of those on the herb as such.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Severest {
    /// The value.
    pub value: ValueId,
    /// The works that state it, oldest first.
    pub by: Vec<Warner>,
}

/// A work that states the most severe toxicity.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Warner {
    /// The work.
    pub work: WorkId,
    /// What it limits the statement to; empty when it speaks of the herb as such.
    pub scopes: Vec<Scope>,
    /// Whether every reading of it is doubtful.
    pub doubtful: bool,
}

/// The profile of one facet.
#[derive(Debug, Clone, PartialEq)]
pub struct Profile {
    /// The facet.
    pub facet: Facet,
    /// Witnesses on the facet.
    pub n: usize,
    /// Lines on the facet.
    pub m: usize,
    /// Support of each value that is stated: for ordered facets in the order of the scale, otherwise
    /// the best supported first.
    pub supports: Vec<Support>,
    /// For ordered facets, the middle and the ends.
    pub scaled: Option<Scaled>,
    /// For toxicity, the most severe value of all statements, doubtful ones and those on a part,
    /// preparation or kind included: a warning is not outvoted (rule 19). Where that is of a scope only,
    /// the most severe of the herb as such follows.
    pub severest: Vec<Severest>,
}

/// The profile of the witnesses in `view` (rules 15 to 19 of the methods).
///
/// ```
/// use kaoyi::{claim::Facet, compare, corpus};
/// let corpus = corpus::embedded().unwrap();
/// let corpus::Lookup::One(mint) = corpus.find_herb("bohe") else { panic!() };
/// let flavour = compare::view(&corpus, corpus.herb(mint).unwrap(), Facet::Flavour, &Default::default());
/// let profile = compare::profile(&corpus, &flavour);
/// let acrid = &profile.supports[0];
/// assert_eq!((acrid.k, acrid.n), (profile.n, profile.n), "every book calls mint acrid");
/// ```
#[must_use]
pub fn profile(corpus: &Corpus, view: &FacetView) -> Profile {
    let scheme = corpus.vocabulary.scheme(view.facet);
    let witnesses = &view.witnesses;
    let all_lines = lines(corpus, view);
    let mut supports = Vec::new();
    for group in by_degree(scheme, witnesses) {
        if group.degrees != [group.value] {
            supports.extend(support(corpus, view, &all_lines, group.value, true));
        }
        let alone = supports
            .last()
            .is_none_or(|last: &Support| last.value != group.value);
        for value in group.degrees {
            let one = support(corpus, view, &all_lines, value, false);
            supports.extend(one.map(|one| Support {
                verdict: one.verdict.filter(|_| alone),
                ..one
            }));
        }
    }
    let ordered = scheme.scale() == Scale::Ordinal;
    if !ordered {
        supports.sort_by_key(|support| std::cmp::Reverse((support.k, support.j)));
    }
    let scaled = if ordered {
        scaled(witnesses, &supports)
    } else {
        None
    };
    Profile {
        facet: view.facet,
        n: witnesses.len(),
        m: all_lines.count,
        supports,
        scaled,
        severest: if view.facet == Facet::Toxicity {
            severest(view)
        } else {
            Vec::new()
        },
    }
}

/// A value with the degrees of it that are stated, in the order of the scheme.
struct Group {
    value: ValueId,
    degrees: Vec<ValueId>,
}

/// The stated values, each under the value of which it is a degree.
fn by_degree(scheme: &Scheme, witnesses: &[Witness]) -> Vec<Group> {
    let stated: BTreeSet<ValueId> = witnesses
        .iter()
        .flat_map(|one| &one.values)
        .copied()
        .collect();
    let mut groups: Vec<Group> = Vec::new();
    for degree in stated {
        let base = scheme.value(degree).degree_of.as_deref();
        let value = base.and_then(|base| scheme.place(base)).unwrap_or(degree);
        match groups.iter_mut().find(|group| group.value == value) {
            Some(group) => group.degrees.push(degree),
            None => groups.push(Group {
                value,
                degrees: vec![degree],
            }),
        }
    }
    groups
}

fn support(
    corpus: &Corpus,
    view: &FacetView,
    lines: &Lines,
    value: ValueId,
    any_degree: bool,
) -> Option<Support> {
    let scheme = corpus.vocabulary.scheme(view.facet);
    let answers = |stated: &ValueId| {
        *stated == value
            || scheme.covers(*stated, value)
            || (any_degree && scheme.answers(*stated, value))
    };
    let states = |witness: &&Witness| witness.values.iter().any(answers);
    let supporters: Vec<WorkId> = view
        .witnesses
        .iter()
        .filter(states)
        .map(|one| one.work)
        .collect();
    let (k, n) = (supporters.len(), view.witnesses.len());
    if k == 0 {
        return None;
    }
    let of = view
        .witnesses
        .iter()
        .zip(&lines.line_of)
        .filter(|(witness, _)| states(witness));
    let j = of.map(|(_, line)| line).collect::<BTreeSet<_>>().len();
    Some(Support {
        value,
        any_degree,
        k,
        n,
        j,
        m: lines.count,
        interval: if scheme.closed() { wilson(k, n) } else { None },
        by: supporters,
        verdict: Some(verdict(&corpus.vocabulary, view.facet, k, n)),
    })
}

fn scaled(witnesses: &[Witness], supports: &[Support]) -> Option<Scaled> {
    let positions: Vec<usize> = witnesses
        .iter()
        .flat_map(|witness| &witness.values)
        .map(|value| value.index())
        .collect();
    let spread = spread(&positions)?;
    let single = || supports.iter().filter(|support| !support.any_degree);
    let most = single().map(|support| support.k).max()?;
    let commonest = single()
        .filter(|support| support.k == most)
        .map(|support| support.value)
        .collect();
    Some(Scaled { spread, commonest })
}

fn severest(view: &FacetView) -> Vec<Severest> {
    let mut statements: Vec<(WorkId, &Statement)> = view
        .all()
        .flat_map(|witness| witness.statements.iter().map(|one| (witness.work, one)))
        .collect();
    statements.sort_by_key(|(work, _)| *work);
    let of_all = worst(&statements);
    statements.retain(|(_, one)| one.scope.is_whole());
    let of_herb = worst(&statements);
    let told = |one: &Severest| of_all.as_ref().is_some_and(|all| all.value == one.value);
    let more = of_herb.filter(|one| !told(one));
    of_all.clone().into_iter().chain(more).collect()
}

/// The most severe value of some statements, with who makes it.
fn worst(statements: &[(WorkId, &Statement)]) -> Option<Severest> {
    let values = statements.iter().flat_map(|(_, one)| &one.values);
    let value = values.map(|(value, _)| *value).max()?;
    let mut by: Vec<Warner> = Vec::new();
    for (work, one) in statements {
        if one.values.iter().all(|(stated, _)| *stated != value) {
            continue;
        }
        if by.last().is_none_or(|last| last.work != *work) {
            by.push(Warner {
                work: *work,
                scopes: Vec::new(),
                doubtful: true,
            });
        }
        if let Some(last) = by.last_mut() {
            last.scopes.push(one.scope.clone());
            last.doubtful &= one.doubtful;
        }
    }
    for warner in &mut by {
        // Who says it of the herb as such says enough.
        if warner.scopes.iter().any(Scope::is_whole) {
            warner.scopes.clear();
        }
        warner.scopes.sort();
        warner.scopes.dedup();
    }
    Some(Severest { value, by })
}
