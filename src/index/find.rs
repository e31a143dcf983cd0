//! Finding herbs by words and by properties together.

use std::collections::BTreeMap;

use super::library::Library;
use super::search::{Asked, Found, HerbFound};
use super::words::{Words, WordsError};
use crate::claim::{Facet, ValueId};
use crate::compare::{self, Backing, By, COMPARABLE, Question, Selection, Stands, Wanted};
use crate::corpus::{AssembleError, HerbId, WorkId};

/// What is looked for.
#[derive(Debug, Clone, Default)]
pub struct Search {
    /// The words; without any, all herbs are asked for their properties.
    pub words: Asked,
    /// The properties that an herb must have.
    pub wanted: Vec<Wanted>,
    /// How many witnesses must say so.
    pub by: By,
    /// What nobody may have said of it, of whatever part.
    pub never: Vec<Wanted>,
    /// The works that count.
    pub selection: Selection,
}

/// A herb that answers.
#[derive(Debug, Clone, PartialEq)]
pub struct Hit {
    /// The herb, with its sayings that answer.
    pub found: HerbFound,
    /// For each property wanted, the witnesses that say so.
    pub backings: Vec<Backing>,
}

/// How many of the herbs that answer are called so by most.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct FacetCount {
    /// The facet.
    pub facet: Facet,
    /// The value, in any degree.
    pub value: ValueId,
    /// So many herbs.
    pub herbs: usize,
}

/// What answers.
#[derive(Debug, Clone, PartialEq)]
pub struct Hits {
    /// The herbs: those whose name answers first, then by the best saying; without words those first that most witnesses
    /// back in what they have least backing for.
    pub herbs: Vec<Hit>,
    /// How many sayings answer, by the work that asserts.
    pub by_work: BTreeMap<WorkId, usize>,
    /// What most books say of these herbs, facet by facet, the commonest first.
    pub facets: Vec<FacetCount>,
}

impl Library {
    /// The herbs that answer to words and properties. `words` is the index of words where words are looked for.
    ///
    /// # Errors
    /// When an embedded record is faulty or the index cannot be read.
    ///
    /// ```
    /// use kaoyi::{claim::Facet, compare::Wanted, index::{Library, Search}};
    /// let library = Library::embedded(None).unwrap();
    /// let sweet = Wanted::parse(&library.corpus.vocabulary, Facet::Flavour, "sweet").unwrap();
    /// let search = Search { wanted: vec![sweet], ..Search::default() };
    /// let hits = library.find(&search, None).unwrap();
    /// assert!(hits.herbs.iter().all(|hit| 3 * hit.backings[0].k >= 2 * hit.backings[0].n));
    /// ```
    pub fn find(&self, search: &Search, words: Option<&Words>) -> Result<Hits, WordsError> {
        let all = (0_u32..).take(self.corpus.herb_count()).map(HerbId);
        let found = match words {
            Some(words) => words.find(&self.corpus, &search.words)?,
            None => Found {
                herbs: all.map(HerbFound::without_words).collect(),
                by_work: BTreeMap::new(),
            },
        };
        let only = search.words.herb;
        let herbs = found
            .herbs
            .into_iter()
            .filter(|one| only.is_none_or(|only| only == one.herb));
        let mut hits = self.with_backing(herbs.collect(), search)?;
        if !search.never.is_empty() {
            let mut never = Vec::with_capacity(hits.len());
            for hit in hits {
                if !self.ever_stated(hit.found.herb, search)? {
                    never.push(hit);
                }
            }
            hits = never;
        }
        if words.is_none() {
            let weight = |hit: &Hit| {
                hit.backings
                    .iter()
                    .map(|one| one.weight())
                    .fold(f64::INFINITY, f64::min)
            };
            hits.sort_by(|a, b| {
                weight(b)
                    .total_cmp(&weight(a))
                    .then(a.found.herb.cmp(&b.found.herb))
            });
        }
        Ok(Hits {
            facets: self.facets(&hits, &search.selection)?,
            herbs: hits,
            by_work: found.by_work,
        })
    }

    /// Those herbs that have every property wanted.
    fn with_backing(
        &self,
        herbs: Vec<HerbFound>,
        search: &Search,
    ) -> Result<Vec<Hit>, AssembleError> {
        let vocabulary = &self.corpus.vocabulary;
        let mut columns = Vec::with_capacity(search.wanted.len());
        for wanted in &search.wanted {
            let stands = self.chosen(&[wanted.facet], &search.selection)?.remove(0);
            let kinds = wanted.kinds(vocabulary, &stands);
            columns.push((stands, kinds));
        }
        let mut hits = Vec::new();
        for found in herbs {
            let backing = |(stands, kinds): &(Stands, Vec<(bool, usize)>)| {
                Wanted::backing(kinds, stands, found.herb)
            };
            let backings: Vec<Backing> = columns.iter().map(backing).collect();
            if backings.iter().all(|one| one.meets(vocabulary, search.by)) {
                hits.push(Hit { found, backings });
            }
        }
        Ok(hits)
    }

    /// The stands of the works chosen.
    fn chosen(
        &self,
        facets: &[Facet],
        selection: &Selection,
    ) -> Result<Vec<Stands>, AssembleError> {
        let stands = self.stands(facets)?.into_iter();
        Ok(stands
            .map(|one| one.chosen(&self.corpus, selection))
            .collect())
    }

    fn ever_stated(&self, herb: HerbId, search: &Search) -> Result<bool, AssembleError> {
        let herb = self.corpus.herb(herb)?;
        let stated = |never: &Wanted| {
            let view = compare::view(&self.corpus, herb, never.facet, &Selection::default());
            never.ever_stated(&view)
        };
        Ok(search.never.iter().any(stated))
    }

    fn facets(
        &self,
        hits: &[Hit],
        selection: &Selection,
    ) -> Result<Vec<FacetCount>, AssembleError> {
        let vocabulary = &self.corpus.vocabulary;
        let mut counts = Vec::new();
        for stands in self.chosen(&COMPARABLE, selection)? {
            let scheme = vocabulary.scheme(stands.facet);
            let values = (0..scheme.values().len()).map(|place| ValueId(place as u16));
            let mut of_facet = Vec::new();
            // A degree is counted with the value of which it is one.
            for value in values.filter(|value| scheme.value(*value).degree_of.is_none()) {
                let wanted = Wanted::of(
                    vocabulary,
                    Question {
                        facet: stands.facet,
                        value,
                    },
                );
                let kinds = wanted.kinds(vocabulary, &stands);
                let so = |hit: &&Hit| {
                    Wanted::backing(&kinds, &stands, hit.found.herb).meets(vocabulary, By::Most)
                };
                of_facet.push(FacetCount {
                    facet: stands.facet,
                    value,
                    herbs: hits.iter().filter(so).count(),
                });
            }
            of_facet.retain(|one| one.herbs > 0);
            of_facet.sort_by_key(|one| std::cmp::Reverse(one.herbs));
            counts.extend(of_facet);
        }
        Ok(counts)
    }
}
