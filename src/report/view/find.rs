//! What was found by words and properties.

use schemars::JsonSchema;
use serde::Serialize;

use super::best::FoundSaying;
use super::filter::FilterView;
use super::heed::ListedCautions;
use super::labels::{Labels, NOTICE, ValueRef, WorkRef};
use super::state::HerbRef;
use crate::claim::Facet;
use crate::compare::{self, By, Selection, Wanted};
use crate::corpus::{AssembleError, Herb, HerbId};
use crate::index::{HerbFound, Hits, NameRank, Search, Words};

/// What `kaoyi find --json` writes.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct FindView {
    /// Name and version of this format.
    pub format: &'static str,
    /// The phrases looked for.
    pub phrases: Vec<String>,
    /// Whether one phrase was enough.
    pub any: bool,
    /// The properties wanted.
    pub wanted: Vec<WantedView>,
    /// By how many witnesses: `any`, `most` or `all`.
    pub by: &'static str,
    /// What nobody may have said.
    pub never: Vec<WantedView>,
    /// Which works were counted; `null` for all.
    pub filter: Option<FilterView>,
    /// How many herbs answer.
    pub herbs_found: usize,
    /// How many sayings answer.
    pub sayings_found: usize,
    /// How many herbs were passed over before those shown.
    pub skipped: usize,
    /// The herbs shown.
    pub herbs: Vec<FoundHerb>,
    /// How many of the herbs that answer most books call so.
    pub facets: Vec<FacetCountView>,
    /// How many sayings answer, by the work that asserts, most first.
    pub by_work: Vec<WorkCount>,
    /// The grave cautions of the herbs shown.
    pub cautions: Vec<ListedCautions>,
    /// What the program does not do.
    pub notice: &'static str,
    /// The works named here.
    pub works: Vec<WorkRef>,
}

/// How much of what was found is shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Shown {
    /// So many herbs are passed over first.
    pub skip: usize,
    /// So many herbs.
    pub herbs: usize,
    /// So many sayings of each.
    pub sayings: usize,
}

/// A property.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct WantedView {
    /// The facet.
    pub facet: Facet,
    /// The value; for a span of a scale its lower end.
    pub from: ValueRef,
    /// The upper end of a span; the value itself where it is none.
    pub to: ValueRef,
}

/// A herb that was found.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct FoundHerb {
    /// The herb.
    pub herb: HerbRef,
    /// Its English name.
    pub english: Option<String>,
    /// How its name answers: `exact`, `begins`, `contains`, `sounds`, `near`; `null` where it does not.
    pub name: Option<&'static str>,
    /// How many of its sayings answer.
    pub sayings: usize,
    /// The best of them.
    pub shown: Vec<FoundSaying>,
    /// For each property wanted, who says so.
    pub backing: Vec<BackingView>,
}

/// Who says that a herb has a property.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct BackingView {
    /// Witnesses that say so.
    pub k: usize,
    /// Witnesses on the facet; of an action those that state it or the contrary.
    pub n: usize,
    /// Lines that say so.
    pub j: usize,
    /// Lines on the facet; of an action those that state it or the contrary.
    pub m: usize,
}

/// How many herbs most books call so.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct FacetCountView {
    /// The facet.
    pub facet: Facet,
    /// The value, in any degree.
    pub value: ValueRef,
    /// So many herbs.
    pub herbs: usize,
}

/// How many sayings of a work answer.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct WorkCount {
    /// The work.
    pub work: String,
    /// So many.
    pub sayings: usize,
}

impl FindView {
    /// What was found, as much of it as is shown.
    ///
    /// # Errors
    /// When an embedded record is faulty.
    pub fn new(
        labels: &Labels<'_>,
        search: &Search,
        hits: &Hits,
        words: Option<&Words>,
        page: Shown,
    ) -> Result<Self, AssembleError> {
        let shown: Vec<&HerbFound> = hits.herbs.iter().skip(page.skip).take(page.herbs).collect();
        let finder = Finder {
            labels,
            search,
            hits,
            words,
            shown: page,
        };
        let herbs = shown.iter().map(|found| finder.herb(found));
        let cautions = shown
            .iter()
            .map(|found| ListedCautions::new(labels, found.herb));
        let cautions = cautions.collect::<Result<Vec<_>, _>>()?;
        let mut by_work: Vec<_> = hits.by_work.iter().collect();
        by_work.sort_by_key(|(work, count)| (std::cmp::Reverse(**count), **work));
        let by = By::WORDS.iter().find(|(_, by)| *by == search.by);
        let wanted = |all: &[Wanted]| all.iter().map(|one| WantedView::new(labels, one)).collect();
        Ok(Self {
            format: "kaoyi.find/1",
            phrases: search.words.phrases.clone(),
            any: search.words.any,
            wanted: wanted(&search.wanted),
            by: by.map_or("most", |(word, _)| *word),
            never: wanted(&search.never),
            filter: FilterView::new(labels, &search.selection),
            herbs_found: hits.herbs.len(),
            sayings_found: hits.herbs.iter().map(HerbFound::count).sum(),
            skipped: page.skip.min(hits.herbs.len()),
            herbs: herbs.collect::<Result<_, _>>()?,
            facets: hits
                .facets
                .iter()
                .map(|one| FacetCountView {
                    facet: one.facet,
                    value: labels.value(one.facet, one.value),
                    herbs: one.herbs,
                })
                .collect(),
            by_work: by_work
                .into_iter()
                .map(|(work, count)| WorkCount {
                    work: labels.work(*work),
                    sayings: *count,
                })
                .collect(),
            cautions: cautions.into_iter().flatten().collect(),
            notice: NOTICE,
            works: labels.named_works(),
        })
    }
}

/// How a name answers, in a word.
pub(super) const fn rank_word(rank: NameRank) -> &'static str {
    match rank {
        NameRank::Main | NameRank::Exact => "exact",
        NameRank::Begins => "begins",
        NameRank::Contains => "contains",
        NameRank::Sounds => "sounds",
        NameRank::Near => "near",
    }
}

impl WantedView {
    fn new(labels: &Labels<'_>, wanted: &Wanted) -> Self {
        Self {
            facet: wanted.facet,
            from: labels.value(wanted.facet, wanted.ends.0),
            to: labels.value(wanted.facet, wanted.ends.1),
        }
    }
}

/// What the views of hits are made from.
struct Finder<'a> {
    labels: &'a Labels<'a>,
    search: &'a Search,
    hits: &'a Hits,
    words: Option<&'a Words>,
    shown: Shown,
}

impl Finder<'_> {
    fn herb(&self, found: &HerbFound) -> Result<FoundHerb, AssembleError> {
        let corpus = self.labels.corpus;
        let id: HerbId = found.herb;
        let herb = corpus.herb(id)?;
        let wanted = self.search.wanted.iter().zip(&found.backings);
        let backing = wanted.map(|(wanted, backing)| {
            let view = compare::view(corpus, herb, wanted.facet, self.selection());
            let (j, m) = wanted.lines(corpus, &view);
            BackingView {
                k: backing.k,
                n: backing.n,
                j,
                m,
            }
        });
        Ok(FoundHerb {
            herb: HerbRef::new(self.labels, id),
            english: herb.names.english.clone(),
            name: found.name.map(rank_word),
            sayings: found.count(),
            shown: self.sayings(herb, found),
            backing: backing.collect(),
        })
    }

    fn sayings(&self, herb: &Herb, found: &HerbFound) -> Vec<FoundSaying> {
        let Some(words) = self.words else {
            return Vec::new();
        };
        let asked = &self.search.words;
        words
            .sayings(&self.hits.answers, found, self.shown.sayings)
            .iter()
            .filter_map(|one| FoundSaying::new(self.labels, words, asked, herb, one))
            .collect()
    }

    fn selection(&self) -> &Selection {
        &self.search.selection
    }
}
