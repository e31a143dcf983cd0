//! Two herbs beside each other: what the books say of one and not of the other.

use schemars::JsonSchema;
use serde::Serialize;

use super::filter::FilterView;
use super::heed::HeedView;
use super::herb::HerbView;
use super::labels::{Labels, ValueRef, WorkRef};
use super::profile::{FacetProfile, ProfileView, SupportView};
use super::together::TogetherView;
use crate::claim::Facet;
use crate::compare::{Relations, Selection};
use crate::corpus::{AssembleError, Herb};

/// The support of a value in one of the two.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct SupportCell {
    /// Witnesses that state it.
    pub k: usize,
    /// Witnesses on the facet.
    pub n: usize,
    /// Lines that state it.
    pub j: usize,
    /// Lines on the facet.
    pub m: usize,
    /// Lower end of the interval for `k` of `n`; `null` for open lists and where there is no witness.
    pub low: Option<f64>,
    /// Upper end of the interval.
    pub high: Option<f64>,
}

/// A value with its support in both.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct ValueAgainst {
    /// The facet.
    pub facet: Facet,
    /// The value.
    pub value: ValueRef,
    /// Its support in the first herb.
    pub first: SupportCell,
    /// Its support in the second herb.
    pub second: SupportCell,
    /// Whether it tells the two apart.
    pub distinct: bool,
}

/// An action with the number of works that state it of each.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct ActionAgainst {
    /// The action.
    pub action: ValueRef,
    /// Works that state it of the first herb as such.
    pub first: usize,
    /// Works that state it of the second herb as such.
    pub second: usize,
    /// Whether it tells the two apart.
    pub distinct: bool,
}

/// What `kaoyi compare HERB --against HERB --json` writes.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct AgainstView {
    /// Name and version of this format.
    pub format: &'static str,
    /// The two herbs.
    pub herbs: [HerbView; 2],
    /// Which works were counted; `null` for all.
    pub filter: Option<FilterView>,
    /// Flavours, natures, toxicity, channels and grades stated of either.
    pub values: Vec<ValueAgainst>,
    /// The actions stated of either, those of most works first.
    pub actions: Vec<ActionAgainst>,
    /// What must be known of the two together.
    pub together: TogetherView,
    /// Warnings and cautions of each, and the notice.
    pub heed: [HeedView; 2],
    /// The works named here.
    pub works: Vec<WorkRef>,
}

/// An action tells two herbs apart when so many works state it of one and none of the other.
const WORKS: usize = 3;

impl AgainstView {
    /// Two herbs beside each other.
    ///
    /// # Errors
    /// When an embedded record is faulty.
    pub fn new(
        labels: &Labels<'_>,
        relations: &Relations<'_>,
        herbs: [&Herb; 2],
        selection: &Selection,
    ) -> Result<Self, AssembleError> {
        let [first, second] =
            herbs.map(|herb| ProfileView::new(labels, herb, &Facet::ALL, selection));
        Ok(Self {
            format: "kaoyi.against/1",
            together: TogetherView::new(labels, relations, &herbs)?,
            values: values(&first, &second),
            actions: actions(&first, &second),
            filter: FilterView::new(labels, selection),
            herbs: [first.herb, second.herb],
            heed: [first.heed, second.heed],
            works: labels.named_works(),
        })
    }
}

fn values(first: &ProfileView, second: &ProfileView) -> Vec<ValueAgainst> {
    let mut rows = Vec::new();
    for facet in Facet::ALL {
        let of = |view: &ProfileView| view.profile.iter().find(|one| one.facet == facet).cloned();
        let (a, b) = (of(first), of(second));
        let mut seen: Vec<(String, bool)> = Vec::new();
        let both = [&a, &b].into_iter().flatten().flat_map(|one| &one.values);
        for support in both {
            let key = (support.value.id.clone(), support.any_degree);
            // A single degree stands under the value whose degrees are counted together.
            if support.verdict.is_none() || seen.contains(&key) {
                continue;
            }
            let (one, other) = (cell(a.as_ref(), support), cell(b.as_ref(), support));
            rows.push(ValueAgainst {
                facet,
                value: support.value.clone(),
                distinct: apart(&one, &other),
                first: one,
                second: other,
            });
            seen.push(key);
        }
    }
    rows
}

/// The support of the value of `of` in a profile: none of n where nobody states it.
fn cell(profile: Option<&FacetProfile>, of: &SupportView) -> SupportCell {
    let (n, m) = profile.map_or((0, 0), |one| (one.witnesses, one.lines));
    let values = profile.into_iter().flat_map(|one| &one.values);
    // Where one herb has a degree of the value and the other has not, the value alone is counted there.
    let mut same: Vec<&SupportView> = values.filter(|one| one.value.id == of.value.id).collect();
    same.sort_by_key(|one| one.any_degree != of.any_degree);
    match same.first() {
        Some(one) => SupportCell {
            k: one.k,
            n: one.n,
            j: one.j,
            m: one.m,
            low: one.low,
            high: one.high,
        },
        None => {
            let interval = of.low.and_then(|_| crate::stats::wilson(0, n));
            SupportCell {
                k: 0,
                n,
                j: 0,
                m,
                low: interval.map(|one| one.low),
                high: interval.map(|one| one.high),
            }
        }
    }
}

/// Whether two supports differ for certain: their intervals do not meet; of open lists, many works state it of one and
/// none of the other.
fn apart(a: &SupportCell, b: &SupportCell) -> bool {
    match (a.low.zip(a.high), b.low.zip(b.high)) {
        (Some((low_a, high_a)), Some((low_b, high_b))) => high_a < low_b || high_b < low_a,
        _ => a.n > 0 && b.n > 0 && far(a.k, b.k),
    }
}

const fn far(a: usize, b: usize) -> bool {
    a == 0 && b >= WORKS || b == 0 && a >= WORKS
}

fn actions(first: &ProfileView, second: &ProfileView) -> Vec<ActionAgainst> {
    let mut rows: Vec<ActionAgainst> = Vec::new();
    for (place, view) in [first, second].into_iter().enumerate() {
        for one in view.actions.iter().filter(|one| one.k > 0) {
            let known = rows.iter().position(|row| row.action.id == one.action.id);
            let known = known.unwrap_or_else(|| {
                rows.push(ActionAgainst {
                    action: one.action.clone(),
                    first: 0,
                    second: 0,
                    distinct: false,
                });
                rows.len() - 1
            });
            let row = &mut rows[known];
            if place == 0 {
                row.first = one.k;
            } else {
                row.second = one.k;
            }
        }
    }
    for row in &mut rows {
        row.distinct = far(row.first, row.second);
    }
    rows.sort_by_key(|row| std::cmp::Reverse(row.first + row.second));
    rows
}
