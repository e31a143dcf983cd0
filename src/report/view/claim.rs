//! A claim by itself: one value that one work states, with its id, its evidence and its way down to us.

use std::collections::{BTreeMap, BTreeSet};

use schemars::JsonSchema;
use serde::Serialize;

use super::cite::saying_ids;
use super::labels::Labels;
use super::work_entry::WorkEntry;
use crate::claim::Facet;
use crate::compare::{self, Selection};
use crate::corpus::{Claim, Entry, Herb, Origin, Saying, Status, WorkId};

/// One claim, as a row of a table and a line of JSON.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct ClaimView {
    /// `herb/work/article/saying/facet/value`: the work in which it was read, the ordinal of the article in its plain text (0
    /// where it was not located; a second article under one ordinal adds -2), the number of the saying in the article from 1.
    pub claim: String,
    /// The herb's id.
    pub herb: String,
    /// The herb's name in traditional characters.
    pub hant: String,
    /// The herb's name in simplified characters.
    pub hans: String,
    /// The herb's name in pinyin.
    pub pinyin: String,
    /// The herb's pharmaceutical Latin name.
    pub latin: Option<String>,
    /// The herb's English name.
    pub english: Option<String>,
    /// The id of the work in which the claim was read.
    pub work: String,
    /// Its title in Han characters.
    pub work_title: String,
    /// Its date in words.
    pub work_date: String,
    /// The earliest year of its date, negative before the common era, which has no year 0.
    pub work_from: Option<i32>,
    /// The latest year of its date.
    pub work_to: i32,
    /// The id of the work that asserts the claim.
    pub by: String,
    /// Its title in Han characters.
    pub by_title: String,
    /// Its date in words.
    pub by_date: String,
    /// The earliest year of its date, negative before the common era.
    pub by_from: Option<i32>,
    /// The latest year of its date.
    pub by_to: i32,
    /// Ids of the works that carry the claim, oldest first, the last being the one in which it was read; empty when the
    /// asserting work was read itself.
    pub through: Vec<String>,
    /// The facet.
    pub facet: Facet,
    /// The value's id.
    pub value: String,
    /// The value in Han characters.
    pub value_han: String,
    /// The value in English.
    pub value_english: String,
    /// The degree's id.
    pub degree: Option<String>,
    /// The part to which the saying is limited, by id.
    pub part: Option<String>,
    /// The preparation to which the saying is limited, by id.
    pub preparation: Option<String>,
    /// The kind to which the saying is limited.
    pub kind: Option<String>,
    /// The phrase from which it was read.
    pub wording: Option<String>,
    /// Whether the reading is doubtful.
    pub doubtful: bool,
    /// Why the reading is doubtful.
    pub doubt: Option<String>,
    /// Whether it counts for the stand of the work that asserts it (rule 3 of the methods).
    pub counted: bool,
    /// How far the reading has been checked.
    pub status: Status,
    /// Whose record it is.
    pub origin: Origin,
    /// The ordinal of the article's heading in the plain text, from 1.
    pub ordinal: Option<u32>,
    /// The section or chapter of the article.
    pub section: Option<String>,
    /// The heading of the article.
    pub heading: Option<String>,
    /// The number of the saying in the article, from 1.
    pub saying: usize,
    /// The cautions of the herb.
    pub cautions: Vec<String>,
}

/// The claims on one herb.
pub struct ClaimsOf<'a, 'c> {
    labels: &'a Labels<'c>,
    herb: &'a Herb,
    cautions: Vec<String>,
    works: BTreeMap<WorkId, WorkEntry>,
    counted: BTreeSet<(Facet, usize, usize)>,
}

impl<'a, 'c> ClaimsOf<'a, 'c> {
    /// Gets the claims on `herb` ready.
    #[must_use]
    pub fn new(labels: &'a Labels<'c>, herb: &'a Herb) -> Self {
        let mut counted = BTreeSet::new();
        for facet in Facet::ALL {
            let view = compare::view(labels.corpus, herb, facet, &Selection::default());
            for statement in view.witnesses.iter().flat_map(|witness| witness.counted()) {
                let (entry, saying) = statement.evidence;
                counted.insert((facet, entry, saying));
            }
        }
        let cautions = labels.cautions(herb).into_iter().map(|one| one.text);
        let mut works = BTreeMap::new();
        for entry in &herb.entries {
            let asserting = entry.sayings.iter().map(|saying| saying.by);
            for work in asserting.chain([entry.work]) {
                works
                    .entry(work)
                    .or_insert_with(|| WorkEntry::new(labels, work));
            }
        }
        Self {
            labels,
            herb,
            cautions: cautions.collect(),
            works,
            counted,
        }
    }

    /// The claims that the works of `selection` assert, in the order of the record.
    ///
    /// ```
    /// use kaoyi::corpus::{Lookup, embedded};
    /// use kaoyi::report::view::{ClaimsOf, Labels};
    /// use kaoyi::text::{Converter, Script};
    /// let corpus = embedded().unwrap();
    /// let script = Converter::new(Script::Recorded).unwrap();
    /// let labels = Labels::new(&corpus, &script);
    /// let Lookup::One(mint) = corpus.find_herb("bohe") else { panic!() };
    /// let claims = ClaimsOf::new(&labels, corpus.herb(mint).unwrap()).all(&Default::default());
    /// assert_eq!(claims[0].claim, "bohe/xinxiu-bencao/730/1/flavour/acrid");
    /// ```
    #[must_use]
    pub fn all(&self, selection: &Selection) -> Vec<ClaimView> {
        let mut all = Vec::new();
        let ids = saying_ids(self.labels, self.herb);
        for (place, entry) in self.herb.entries.iter().enumerate() {
            for (number, saying) in entry.sayings.iter().enumerate() {
                if !selection.takes(self.labels.corpus, saying.by) {
                    continue;
                }
                for claim in &saying.claims {
                    let counted = self.counted.contains(&(claim.facet, place, number));
                    let mut view = self.claim(entry, saying, *claim);
                    view.saying = number + 1;
                    view.counted = counted;
                    view.claim = format!("{}/{}/{}", ids[place][number], view.facet, view.value);
                    all.push(view);
                }
            }
        }
        all
    }

    /// The works that carry or assert, for a bibliography.
    #[must_use]
    pub const fn works(&self) -> &BTreeMap<WorkId, WorkEntry> {
        &self.works
    }

    /// A claim that still lacks its id.
    fn claim(&self, entry: &Entry, saying: &Saying, claim: Claim) -> ClaimView {
        let labels = self.labels;
        let vocabulary = &labels.corpus.vocabulary;
        let names = &self.herb.names;
        let (work, by) = (&self.works[&entry.work], &self.works[&saying.by]);
        let value = labels.value(claim.facet, claim.value);
        let scope = &saying.scope;
        let at = entry.at.as_ref().map(|at| labels.place(at));
        let wording = saying.wording.as_ref().map(|one| labels.quoted(one));
        ClaimView {
            claim: String::new(),
            herb: self.herb.id.clone(),
            hant: names.hant.clone(),
            hans: names.hans.clone(),
            pinyin: names.pinyin.clone(),
            latin: names.latin.clone(),
            english: names.english.clone(),
            work: work.id.clone(),
            work_title: work.title.clone(),
            work_date: work.date.words.clone(),
            work_from: work.date.from,
            work_to: work.date.to,
            by: by.id.clone(),
            by_title: by.title.clone(),
            by_date: by.date.words.clone(),
            by_from: by.date.from,
            by_to: by.date.to,
            through: labels.works(&saying.carriers),
            facet: claim.facet,
            value: value.id,
            value_han: value.han,
            value_english: value.english,
            degree: claim
                .degree
                .map(|one| vocabulary.degrees.value(one).id.clone()),
            part: scope.part.map(|one| vocabulary.parts.value(one).id.clone()),
            preparation: scope
                .preparation
                .map(|one| vocabulary.preparations.value(one).id.clone()),
            kind: scope.kind.as_ref().map(|kind| labels.han(kind)),
            wording,
            doubtful: saying.doubt.is_some(),
            doubt: saying.doubt.clone(),
            counted: false,
            status: entry.status,
            origin: entry.origin,
            ordinal: at.as_ref().and_then(|at| at.ordinal),
            section: at.as_ref().and_then(|at| at.section.clone()),
            heading: at.map(|at| at.heading),
            saying: 0,
            cautions: self.cautions.clone(),
        }
    }
}
