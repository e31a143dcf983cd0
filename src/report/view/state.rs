//! The state of the corpus: what it holds, what waits for review, what looks wrong.

use std::collections::BTreeMap;

use schemars::JsonSchema;
use serde::Serialize;

use super::labels::{Labels, WorkRef};
use super::statement::in_words;
use super::works::{AmountView, WorkRow};
use crate::claim::Facet;
use crate::compare::{Alone, Coverage, Double, Outlier};
use crate::corpus::{AssembleError, HerbId, PlaceRecord, Status};

/// An herb, as a list refers to it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct HerbRef {
    /// The herb's id.
    pub id: String,
    /// Its name in the script asked for.
    pub name: String,
    /// Its name in pinyin.
    pub pinyin: String,
}

impl HerbRef {
    /// The herb at `id`.
    #[must_use]
    pub fn new(labels: &Labels<'_>, id: HerbId) -> Self {
        let named = labels.corpus.named(id);
        Self {
            id: named.id.clone(),
            name: labels.han(&named.names.hant),
            pinyin: named.names.pinyin.clone(),
        }
    }
}

/// What the corpus holds of an herb.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct HerbRow {
    /// The herb.
    pub herb: HerbRef,
    /// In how many works it has an article.
    pub works: usize,
    /// What was read of it.
    pub amount: AmountView,
}

/// How many herbs are treated by so many works.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct SpreadView {
    /// The number of works.
    pub works: usize,
    /// The herbs.
    pub herbs: usize,
    /// The herbs of which every entry was reviewed.
    pub reviewed: usize,
}

/// Two herbs that may be one drug.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct DoubleView {
    /// The two.
    pub herbs: [HerbRef; 2],
    /// How many long wordings both have.
    pub shared: usize,
    /// How many long wordings the one with fewer has.
    pub of: usize,
    /// How many works treat both.
    pub works_in_common: usize,
}

/// What a lone witness does.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum AloneView {
    /// It states what all others leave out, or stands where no other stands.
    States,
    /// It leaves out what all others state.
    Omits,
}

/// A witness that stands alone against ten or more.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct OutlierView {
    /// The herb.
    pub herb: HerbRef,
    /// The witness.
    pub work: String,
    /// The facet.
    pub facet: Facet,
    /// What it does.
    pub alone: AloneView,
    /// The flavour, or the side of the scale.
    pub what: String,
    /// How many witnesses stand against it.
    pub against: usize,
    /// The phrase it was read from.
    pub wording: Option<String>,
    /// Where the article stands.
    pub at: Option<PlaceRecord>,
    /// How far the reading has been checked.
    pub status: Status,
}

/// What `kaoyi check --report --json` writes.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct StateView {
    /// Name and version of this format.
    pub format: &'static str,
    /// What the corpus holds.
    pub whole: AmountView,
    /// How many herbs are treated by how many works.
    pub spread: Vec<SpreadView>,
    /// What it holds of each work, oldest first.
    pub coverage: Vec<WorkRow>,
    /// What it holds of each herb: those of most works first.
    pub herbs: Vec<HerbRow>,
    /// Pairs of herbs that may be one drug, the most alike first.
    pub doubles: Vec<DoubleView>,
    /// Witnesses that stand alone against many, those against most first.
    pub outliers: Vec<OutlierView>,
    /// The works named here.
    pub works: Vec<WorkRef>,
}

impl StateView {
    /// The state of a corpus.
    ///
    /// # Errors
    /// When an embedded record is faulty.
    pub fn new(
        labels: &Labels<'_>,
        coverage: &Coverage,
        doubles: &[Double],
        outliers: &[Outlier],
    ) -> Result<Self, AssembleError> {
        let row = |one: &crate::compare::HerbCoverage| HerbRow {
            herb: HerbRef::new(labels, one.herb),
            works: one.works,
            amount: one.amount.into(),
        };
        let mut herbs: Vec<HerbRow> = coverage.herbs.iter().map(row).collect();
        herbs.sort_by_key(|row| std::cmp::Reverse(row.works));
        let double = |one: &Double| DoubleView {
            herbs: [
                HerbRef::new(labels, one.herbs.0),
                HerbRef::new(labels, one.herbs.1),
            ],
            shared: one.shared,
            of: one.of,
            works_in_common: one.works_in_common,
        };
        let outliers = outliers.iter().map(|one| outlier(labels, one));
        let mut outliers = outliers.collect::<Result<Vec<_>, _>>()?;
        outliers.sort_by_key(|one| std::cmp::Reverse(one.against));
        let works = coverage.works.iter().filter(|one| one.articles.entries > 0);
        Ok(Self {
            format: "kaoyi.state/1",
            whole: coverage.whole.into(),
            spread: spread(&herbs),
            coverage: works.map(|one| WorkRow::new(labels, one)).collect(),
            herbs,
            doubles: doubles.iter().map(double).collect(),
            outliers,
            works: labels.named_works(),
        })
    }
}

fn spread(herbs: &[HerbRow]) -> Vec<SpreadView> {
    let mut spread: BTreeMap<usize, (usize, usize)> = BTreeMap::new();
    for row in herbs {
        let place = spread.entry(row.works).or_default();
        place.0 += 1;
        place.1 += usize::from(row.amount.reviewed == row.amount.entries);
    }
    let view = |(works, (herbs, reviewed))| SpreadView {
        works,
        herbs,
        reviewed,
    };
    spread.into_iter().rev().map(view).collect()
}

fn outlier(labels: &Labels<'_>, one: &Outlier) -> Result<OutlierView, AssembleError> {
    let herb = labels.corpus.herb(one.herb)?;
    let entry = &herb.entries[one.evidence.0];
    let saying = &entry.sayings[one.evidence.1];
    let (alone, what) = match &one.alone {
        Alone::States(value) => (AloneView::States, in_words(labels, one.facet, *value, None)),
        Alone::LeavesOut(value) => (AloneView::Omits, in_words(labels, one.facet, *value, None)),
        Alone::Side(side) => (AloneView::States, side.clone()),
    };
    Ok(OutlierView {
        herb: HerbRef::new(labels, one.herb),
        work: labels.work(one.work),
        facet: one.facet,
        alone,
        what,
        against: one.against,
        wording: saying
            .wording
            .as_ref()
            .map(|wording| labels.quoted(wording)),
        at: entry.at.clone(),
        status: entry.status,
    })
}
