//! Finding herbs by words and by properties together.

use std::borrow::Cow;
use std::collections::BTreeMap;

use super::facets::FacetCount;
use super::library::Library;
use super::search::{Answers, Asked, Found, HerbFound};
use super::words::{Words, WordsError};
use crate::claim::Facet;
use crate::compare::{self, By, Selection, Stands, Wanted};
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

/// What answers.
#[derive(Debug, Clone, PartialEq)]
pub struct Hits {
    /// The herbs: those whose name answers first, then by the best saying; without words those first that most witnesses
    /// back in what they have least backing for.
    pub herbs: Vec<HerbFound>,
    /// The sayings that answer, for [`Words::sayings`].
    pub answers: Answers,
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
    /// assert!(hits.herbs.iter().all(|herb| 3 * herb.backings[0].k >= 2 * herb.backings[0].n));
    /// ```
    pub fn find(&self, search: &Search, words: Option<&Words>) -> Result<Hits, WordsError> {
        let all = (0_u32..).take(self.corpus.herb_count()).map(HerbId);
        let mut found = match words {
            Some(words) => words.find(&self.corpus, &search.words)?,
            None => Found {
                herbs: all.map(HerbFound::without_words).collect(),
                ..Found::default()
            },
        };
        let herbs = &mut found.herbs;
        if let Some(only) = search.words.herb {
            herbs.retain(|one| one.herb == only);
        }
        self.keep_backed(herbs, search)?;
        if !search.never.is_empty() {
            let mut never = Vec::with_capacity(herbs.len());
            for one in herbs.drain(..) {
                if !self.ever_stated(one.herb, search)? {
                    never.push(one);
                }
            }
            *herbs = never;
        }
        if words.is_none() {
            let weight = |one: &HerbFound| {
                let weights = one.backings.iter().map(|backing| backing.weight());
                weights.fold(f64::INFINITY, f64::min)
            };
            herbs.sort_by(|a, b| weight(b).total_cmp(&weight(a)).then(a.herb.cmp(&b.herb)));
        }
        Ok(Hits {
            facets: self.facets(&found.herbs, &search.selection)?,
            herbs: found.herbs,
            answers: found.answers,
            by_work: found.by_work,
        })
    }

    /// Keeps those herbs that have every property wanted, and notes who backs it.
    fn keep_backed(
        &self,
        herbs: &mut Vec<HerbFound>,
        search: &Search,
    ) -> Result<(), AssembleError> {
        let vocabulary = &self.corpus.vocabulary;
        for wanted in &search.wanted {
            for stands in self.chosen(&[wanted.facet], &search.selection)? {
                let kinds = wanted.kinds(vocabulary, &stands);
                herbs.retain_mut(|one| {
                    let backing = Wanted::backing(&kinds, &stands, one.herb);
                    one.backings.push(backing);
                    backing.meets(vocabulary, search.by)
                });
            }
        }
        Ok(())
    }

    /// The stands of the works chosen.
    pub(super) fn chosen(
        &self,
        facets: &[Facet],
        selection: &Selection,
    ) -> Result<Vec<Cow<'_, Stands>>, AssembleError> {
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
}
