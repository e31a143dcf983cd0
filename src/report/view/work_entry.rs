//! A work as a bibliography has it.

use schemars::JsonSchema;
use serde::Serialize;

use super::labels::Labels;
use crate::corpus::{Kind, Origin, WorkId};

/// A date in words and in years.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct ClaimDate {
    /// In words: `c. 208–239`.
    pub words: String,
    /// The earliest year, negative before the common era, which has no year 0; `null` where only "not later than" is known.
    pub from: Option<i32>,
    /// The latest year.
    pub to: i32,
    /// Whether the years are rough.
    pub about: bool,
}

/// A work as a bibliography has it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct WorkEntry {
    /// The work's id.
    pub id: String,
    /// Its title in Han characters.
    pub title: String,
    /// Its title in pinyin.
    pub pinyin: String,
    /// Its title in English.
    pub english: String,
    /// The author or authors as recorded; also "unknown", "legendary", "attributed".
    pub author: String,
    /// How it has come down.
    pub kind: Kind,
    /// When it was made.
    pub date: ClaimDate,
    /// How many juan it had.
    pub juan: Option<u32>,
    /// Ids of the works that it draws on.
    pub draws_on: Vec<String>,
    /// What a reader must know.
    pub note: Option<String>,
    /// Whose record it is.
    pub origin: Origin,
}

impl WorkEntry {
    /// The work at `id`.
    #[must_use]
    pub fn new(labels: &Labels<'_>, id: WorkId) -> Self {
        let work = labels.corpus.work(id);
        let debts = work.draws_on.iter();
        Self {
            id: work.id.clone(),
            title: labels.han(&work.hant),
            pinyin: work.pinyin.clone(),
            english: work.english.clone(),
            author: work.author.clone(),
            kind: work.kind,
            date: ClaimDate {
                words: work.date.short(),
                from: work.date.from,
                to: work.date.to,
                about: work.date.about,
            },
            juan: work.juan,
            draws_on: debts
                .map(|debt| labels.corpus.work(debt.work).id.clone())
                .collect(),
            note: work.note.as_ref().map(|note| labels.han(note)),
            origin: work.origin,
        }
    }

    /// The names of its authors, each whole: which part is the family's is not recorded. Empty where none is known.
    #[must_use]
    pub fn authors(&self) -> Vec<&str> {
        if matches!(self.author.as_str(), "unknown" | "legendary" | "attributed") {
            return Vec::new();
        }
        let named = self.author.strip_suffix(" and others");
        let names = named.unwrap_or(&self.author).split(", ");
        names.filter(|name| !name.trim().is_empty()).collect()
    }

    /// Whether there were more authors than are named.
    #[must_use]
    pub fn and_others(&self) -> bool {
        self.author.ends_with(" and others")
    }

    /// Its title as a bibliography in English gives it: pinyin, Han characters, English in brackets.
    #[must_use]
    pub fn full_title(&self) -> String {
        format!("{} {} [{}]", self.pinyin, self.title, self.english)
    }

    /// What a bibliography must say of how it has come down; `None` where it is simply there.
    #[must_use]
    pub const fn state(&self) -> Option<&'static str> {
        match self.kind {
            Kind::Extant => None,
            Kind::Reconstructed => Some("lost; reconstructed from quotations"),
            Kind::Lost => Some("lost; known through quotations"),
            Kind::Authority => Some("sayings quoted under this name; no book is known"),
        }
    }
}
