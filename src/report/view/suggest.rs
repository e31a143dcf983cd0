//! What answers to the beginning of a word: herbs, works, properties.

use schemars::JsonSchema;
use serde::Serialize;

use super::find::rank_word;
use super::labels::{Labels, ValueRef};
use super::state::HerbRef;
use crate::claim::{Facet, ValueId};
use crate::index::{Words, WordsError};
use crate::text::fold;

/// What is offered while something is typed.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct SuggestView {
    /// Name and version of this format.
    pub format: &'static str,
    /// What was typed.
    pub typed: String,
    /// Herbs that answer to it, the best first.
    pub herbs: Vec<SuggestedHerb>,
    /// Works of which a title begins with it, oldest first.
    pub works: Vec<SuggestedWork>,
    /// Properties and actions of which a label begins with it.
    pub values: Vec<SuggestedValue>,
    /// How many herbs the corpus holds.
    pub herbs_in_all: usize,
    /// How many works it holds.
    pub works_in_all: usize,
}

/// A herb that answers.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct SuggestedHerb {
    /// The herb.
    pub herb: HerbRef,
    /// Its English name.
    pub english: Option<String>,
    /// How it answers: `exact`, `begins`, `contains`, `sounds`, `near`.
    pub how: &'static str,
}

/// A work that answers.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct SuggestedWork {
    /// The work's id.
    pub id: String,
    /// Its title in Han characters.
    pub title: String,
    /// Its title in English.
    pub english: String,
}

/// A property that answers.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct SuggestedValue {
    /// The facet.
    pub facet: Facet,
    /// The value.
    pub value: ValueRef,
}

/// So many of each kind are offered: what one looks over at a glance.
const HERBS: usize = 8;
const OTHERS: usize = 4;

impl SuggestView {
    /// What answers to `typed` by an index; without one, and of nothing typed, nothing.
    ///
    /// # Errors
    /// When the index cannot be read.
    ///
    /// ```
    /// use kaoyi::{index::Library, report::view::{Labels, SuggestView}, text::Converter};
    /// let library = Library::embedded(None).unwrap();
    /// let (words, script) = (library.words().unwrap(), Converter::default());
    /// let view = SuggestView::new(&Labels::new(&library.corpus, &script), Some(&words), "薄").unwrap();
    /// assert_eq!(view.herbs[0].herb.id, "bohe");
    /// ```
    pub fn new(
        labels: &Labels<'_>,
        words: Option<&Words>,
        typed: &str,
    ) -> Result<Self, WordsError> {
        let corpus = labels.corpus;
        let mut view = Self {
            format: "kaoyi.suggest/1",
            typed: typed.to_owned(),
            herbs: Vec::new(),
            works: Vec::new(),
            values: Vec::new(),
            herbs_in_all: corpus.herb_count(),
            works_in_all: corpus.works().len(),
        };
        let key = words.map(|words| (words, words.key(typed)));
        let Some((words, key)) = key.filter(|(_, key)| !key.is_empty()) else {
            return Ok(view);
        };
        let named = words.named(corpus, typed)?;
        view.herbs = named
            .iter()
            .take(HERBS)
            .map(|one| SuggestedHerb {
                herb: HerbRef::new(labels, one.herb),
                english: corpus.named(one.herb).names.english.clone(),
                how: rank_word(one.rank),
            })
            .collect();
        let begins = |word: &str| words.key(word).starts_with(&key);
        let works = corpus.works().iter().filter(|work| {
            begins(&work.hant)
                || begins(&work.pinyin)
                || begins(&work.english)
                || work.id.starts_with(&fold(typed))
        });
        view.works = works
            .take(OTHERS)
            .map(|work| SuggestedWork {
                id: work.id.clone(),
                title: labels.han(&work.hant),
                english: work.english.clone(),
            })
            .collect();
        for facet in Facet::ALL {
            let scheme = corpus.vocabulary.scheme(facet);
            let places = 0..scheme.values().len();
            let values = places.map(|place| labels.value(facet, ValueId(place as u16)));
            let answering = values.filter(|value| begins(&value.han) || begins(&value.english));
            view.values
                .extend(answering.map(|value| SuggestedValue { facet, value }));
        }
        view.values.truncate(OTHERS);
        Ok(view)
    }
}
