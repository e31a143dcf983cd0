//! The works: what the corpus holds of them, and what they carry of each other.

use std::collections::BTreeMap;

use schemars::JsonSchema;
use serde::Serialize;

use super::labels::{Labels, WorkRef};
use crate::claim::Facet;
use crate::compare::{Amount, Coverage, WorkCoverage};
use crate::corpus::{TextRecord, WorkId};

/// An amount of text that was read.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
pub struct AmountView {
    /// Entries.
    pub entries: usize,
    /// Entries that a second reader compared with the text.
    pub reviewed: usize,
    /// Sayings.
    pub sayings: usize,
    /// Sayings whose reading is doubtful.
    pub doubtful: usize,
    /// Claims.
    pub claims: usize,
}

impl From<Amount> for AmountView {
    fn from(amount: Amount) -> Self {
        Self {
            entries: amount.entries,
            reviewed: amount.reviewed,
            sayings: amount.sayings,
            doubtful: amount.doubtful,
            claims: amount.claims,
        }
    }
}

/// A work with what the corpus holds of it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct WorkRow {
    /// The work's id.
    pub work: String,
    /// What was read in its own articles, whoever speaks there.
    pub articles: AmountView,
    /// On how many herbs it makes a claim itself, wherever that was read.
    pub herbs: usize,
    /// How many claims it makes itself, wherever they were read.
    pub own_claims: usize,
    /// In how many sayings others carry its word.
    pub carried: usize,
    /// What was counted in its plain text.
    pub text: Option<TextRecord>,
}

impl WorkRow {
    pub(super) fn new(labels: &Labels<'_>, coverage: &WorkCoverage) -> Self {
        Self {
            work: labels.work(coverage.work),
            articles: coverage.articles.into(),
            herbs: coverage.herbs,
            own_claims: coverage.asserts.iter().sum(),
            carried: coverage.carried_by.values().sum(),
            text: labels.corpus.work(coverage.work).text,
        }
    }
}

/// What `kaoyi works --json` writes.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct WorksView {
    /// Name and version of this format.
    pub format: &'static str,
    /// How many herbs the corpus holds.
    pub herbs: usize,
    /// What it holds.
    pub whole: AmountView,
    /// The works with what it holds of each, oldest first.
    pub coverage: Vec<WorkRow>,
    /// The works.
    pub works: Vec<WorkRef>,
}

impl WorksView {
    /// All works.
    #[must_use]
    pub fn new(labels: &Labels<'_>, coverage: &Coverage) -> Self {
        let rows = coverage.works.iter().map(|one| WorkRow::new(labels, one));
        Self {
            format: "kaoyi.works/1",
            herbs: coverage.herbs.len(),
            whole: coverage.whole.into(),
            coverage: rows.collect(),
            works: labels.named_works(),
        }
    }
}

/// How many claims of a facet a work makes.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct FacetCount {
    /// The facet.
    pub facet: Facet,
    /// The claims.
    pub claims: usize,
}

/// Sayings of one work in the articles of another.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct CarriedCount {
    /// The other work's id.
    pub work: String,
    /// The sayings.
    pub sayings: usize,
}

/// A debt between two works.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct DebtView {
    /// The other work's id.
    pub work: String,
    /// Why it is said to be so.
    pub why: String,
}

/// What `kaoyi works WORK --json` writes.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct WorkView {
    /// Name and version of this format.
    pub format: &'static str,
    /// The work.
    pub work: WorkRef,
    /// Author or authors.
    pub author: String,
    /// How many juan it had.
    pub juan: Option<u32>,
    /// Short forms under which other books quote it.
    pub cited_as: Vec<String>,
    /// What a reader must know.
    pub note: Option<String>,
    /// What the corpus holds of it.
    pub coverage: WorkRow,
    /// Its own claims by facet.
    pub claims: Vec<FacetCount>,
    /// Whose sayings its articles carry, the most first.
    pub carries: Vec<CarriedCount>,
    /// In whose articles its sayings stand, the most first.
    pub carried_by: Vec<CarriedCount>,
    /// What it draws on.
    pub draws_on: Vec<DebtView>,
    /// What draws on it.
    pub drawn_on_by: Vec<DebtView>,
    /// The works named here.
    pub works: Vec<WorkRef>,
}

impl WorkView {
    /// One work.
    #[must_use]
    pub fn new(labels: &Labels<'_>, coverage: &WorkCoverage) -> Self {
        let id = coverage.work;
        let work = labels.corpus.work(id);
        let debt = |work: WorkId, why: &str| DebtView {
            work: labels.work(work),
            why: labels.han(why),
        };
        let later = (0_u16..).map(WorkId).zip(labels.corpus.works());
        let drawn_on_by = later.flat_map(|(other, record)| {
            let debts = record.draws_on.iter().filter(|one| one.work == id);
            debts.map(move |one| (other, one.why.as_str()))
        });
        let claims = Facet::ALL.into_iter().zip(coverage.asserts);
        let row = WorkRow::new(labels, coverage);
        let carries = counts(labels, &coverage.carries);
        let carried_by = counts(labels, &coverage.carried_by);
        let draws_on = work.draws_on.iter();
        let draws_on = draws_on.map(|one| debt(one.work, &one.why)).collect();
        let drawn_on_by = drawn_on_by.map(|(other, why)| debt(other, why)).collect();
        Self {
            format: "kaoyi.work/1",
            work: labels.work_ref(id),
            author: work.author.clone(),
            juan: work.juan,
            cited_as: work.cited_as.iter().map(|name| labels.han(name)).collect(),
            note: work.note.as_ref().map(|note| labels.han(note)),
            coverage: row,
            claims: claims
                .map(|(facet, claims)| FacetCount { facet, claims })
                .collect(),
            carries,
            carried_by,
            draws_on,
            drawn_on_by,
            works: labels.named_works(),
        }
    }
}

fn counts(labels: &Labels<'_>, counts: &BTreeMap<WorkId, usize>) -> Vec<CarriedCount> {
    let mut counts: Vec<(WorkId, usize)> = counts.iter().map(|(id, n)| (*id, *n)).collect();
    counts.sort_by_key(|(id, sayings)| (std::cmp::Reverse(*sayings), *id));
    let count = |(id, sayings)| CarriedCount {
        work: labels.work(id),
        sayings,
    };
    counts.into_iter().map(count).collect()
}
