//! Ids to words, in the chosen script.

use std::cell::RefCell;
use std::collections::BTreeSet;

use schemars::JsonSchema;
use serde::Serialize;

use crate::claim::{Facet, Scheme, Severity, Value, ValueId};
use crate::corpus::{Corpus, Herb, Kind, Origin, PlaceRecord, Scope, WorkId};
use crate::text::{Converter, Script};

/// The line that stands under every answer about an herb.
pub const NOTICE: &str = "Kaoyi reports what books say and prescribes nothing. Check local law and ask a licensed \
                          practitioner before any use.";

/// A work, as an answer refers to it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct WorkRef {
    /// The work's id.
    pub id: String,
    /// Its title in Han characters.
    pub title: String,
    /// Its title in pinyin.
    pub pinyin: String,
    /// Its title in English.
    pub english: String,
    /// Its date in words: `659`, `c. 208–239`, `by 239`.
    pub date: String,
    /// The year by which it is ordered: the latest of its date.
    pub year: i32,
    /// How it has come down.
    pub kind: Kind,
    /// Ids of the works that it draws on.
    pub draws_on: Vec<String>,
    /// Whose record it is.
    pub origin: Origin,
}

/// A value, as an answer refers to it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct ValueRef {
    /// The value's id.
    pub id: String,
    /// Its label in Han characters.
    pub han: String,
    /// Its label in English.
    pub english: String,
}

/// A caution beside an herb.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct CautionView {
    /// The caution's id.
    pub id: String,
    /// How heavily it weighs.
    pub severity: Severity,
    /// The caution.
    pub text: String,
    /// Who says so.
    pub source: String,
}

/// The language of words that a view makes of labels.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Tongue {
    /// English, as in all output of the command line.
    #[default]
    English,
    /// Chinese, in the script of the labels.
    Chinese,
}

/// Turns ids into words and remembers which works an answer names.
pub struct Labels<'c> {
    /// The corpus.
    pub corpus: &'c Corpus,
    script: &'c Converter,
    tongue: Tongue,
    named: RefCell<BTreeSet<WorkId>>,
}

impl<'c> Labels<'c> {
    /// Labels from `corpus`, Han text in the script of `script`.
    #[must_use]
    pub fn new(corpus: &'c Corpus, script: &'c Converter) -> Self {
        Self {
            corpus,
            script,
            tongue: Tongue::English,
            named: RefCell::new(BTreeSet::new()),
        }
    }

    /// The same with words in another language: stands, sides and scopes are told in it.
    #[must_use]
    pub const fn in_tongue(mut self, tongue: Tongue) -> Self {
        self.tongue = tongue;
        self
    }

    /// The language of words.
    #[must_use]
    pub const fn tongue(&self) -> Tongue {
        self.tongue
    }

    /// One of two wordings, by the language of words; Chinese is given in traditional characters.
    pub(super) fn either(&self, english: &str, chinese: &str) -> String {
        match self.tongue {
            Tongue::English => english.to_owned(),
            Tongue::Chinese => self.han(chinese),
        }
    }

    /// A value of any scheme in a word.
    pub(super) fn word_of(&self, scheme: &Scheme, id: ValueId) -> String {
        let value = scheme.value(id);
        self.either(&value.english, &value.hant)
    }

    /// A value of a facet in a word.
    pub(super) fn word(&self, facet: Facet, id: ValueId) -> String {
        self.word_of(self.corpus.vocabulary.scheme(facet), id)
    }

    /// Words in a row.
    pub(super) fn row(&self, words: &[String]) -> String {
        words.join(match self.tongue {
            Tongue::English => ", ",
            Tongue::Chinese => "、",
        })
    }

    /// A name or label in the chosen script.
    #[must_use]
    pub fn han(&self, text: &str) -> String {
        self.script.convert_label(text).into_owned()
    }

    /// The script asked for.
    #[must_use]
    pub const fn script(&self) -> Script {
        self.script.script()
    }

    /// A phrase of the plain texts in the chosen script.
    #[must_use]
    pub fn quoted(&self, text: &str) -> String {
        self.script.convert(text).into_owned()
    }

    /// The place of an article, its words in the chosen script.
    #[must_use]
    pub fn place(&self, at: &PlaceRecord) -> PlaceRecord {
        PlaceRecord {
            ordinal: at.ordinal,
            section: at.section.as_ref().map(|section| self.quoted(section)),
            heading: self.quoted(&at.heading),
        }
    }

    /// The id of a work, which is remembered as named.
    #[must_use]
    pub fn work(&self, work: WorkId) -> String {
        self.named.borrow_mut().insert(work);
        self.corpus.work(work).id.clone()
    }

    /// The ids of works.
    #[must_use]
    pub fn works(&self, works: &[WorkId]) -> Vec<String> {
        works.iter().map(|work| self.work(*work)).collect()
    }

    /// All works named so far, oldest first.
    #[must_use]
    pub fn named_works(&self) -> Vec<WorkRef> {
        self.named
            .borrow()
            .iter()
            .map(|work| self.work_ref(*work))
            .collect()
    }

    /// A work, as an answer refers to it.
    #[must_use]
    pub fn work_ref(&self, id: WorkId) -> WorkRef {
        let work = self.corpus.work(id);
        WorkRef {
            id: work.id.clone(),
            title: self.han(&work.hant),
            pinyin: work.pinyin.clone(),
            english: work.english.clone(),
            date: work.date.short(),
            year: work.date.to,
            kind: work.kind,
            draws_on: work
                .draws_on
                .iter()
                .map(|debt| self.corpus.work(debt.work).id.clone())
                .collect(),
            origin: work.origin,
        }
    }

    /// A value of a facet.
    #[must_use]
    pub fn value(&self, facet: Facet, value: ValueId) -> ValueRef {
        self.value_of(self.corpus.vocabulary.scheme(facet), value)
    }

    /// A value of any scheme.
    #[must_use]
    pub fn value_of(&self, scheme: &Scheme, id: ValueId) -> ValueRef {
        let Value {
            id, hant, english, ..
        } = scheme.value(id);
        ValueRef {
            id: id.clone(),
            han: self.han(hant),
            english: english.clone(),
        }
    }

    /// A scope in words: `leaf, fresh, 白菊`.
    #[must_use]
    pub fn scope(&self, scope: &Scope) -> Option<String> {
        let vocabulary = &self.corpus.vocabulary;
        let part = scope.part.map(|part| self.word_of(&vocabulary.parts, part));
        let preparation = scope
            .preparation
            .map(|one| self.word_of(&vocabulary.preparations, one));
        let kind = scope.kind.as_ref().map(|kind| self.han(kind));
        let words: Vec<String> = [part, preparation, kind].into_iter().flatten().collect();
        (!words.is_empty()).then(|| self.row(&words))
    }

    /// The cautions of an herb, the grave ones first.
    #[must_use]
    pub fn cautions(&self, herb: &Herb) -> Vec<CautionView> {
        let mut cautions: Vec<CautionView> = herb
            .cautions
            .iter()
            .map(|place| {
                let caution = &self.corpus.vocabulary.cautions[*place];
                let words = match (self.tongue, &caution.han) {
                    (Tongue::Chinese, Some(han)) => han,
                    _ => &caution.text,
                };
                CautionView {
                    id: caution.id.clone(),
                    severity: caution.severity,
                    text: self.han(words),
                    source: caution.source.clone(),
                }
            })
            .collect();
        cautions.sort_by_key(|caution| caution.severity == Severity::Care);
        cautions
    }
}
