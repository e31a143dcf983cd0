//! An herb's identity.

use schemars::JsonSchema;
use serde::Serialize;

use super::labels::Labels;
use crate::corpus::{Basis, Herb, SharedNameRecord, Status, Substance};

/// An herb's identity.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct HerbView {
    /// The herb's id.
    pub id: String,
    /// Its name in traditional characters.
    pub hant: String,
    /// Its name in simplified characters.
    pub hans: String,
    /// Its name in the script asked for.
    pub name: String,
    /// Its name in pinyin.
    pub pinyin: String,
    /// Its pharmaceutical Latin name.
    pub latin: Option<String>,
    /// Its English name.
    pub english: Option<String>,
    /// Its other names.
    pub also: Vec<String>,
    /// Its names that another drug bears too.
    pub shared: Vec<SharedName>,
    /// Botanical or zoological names.
    pub species: Vec<String>,
    /// How the Latin name and the species are known.
    pub identity: Basis,
    /// The part used.
    pub part: Option<String>,
    /// What it is made of.
    pub substance: Option<Substance>,
    /// What a reader must know of its identity.
    pub note: Option<String>,
    /// How many entries it has.
    pub entries: usize,
    /// How many of them a second reader compared with the text.
    pub reviewed: usize,
}

/// A name that another drug bears too.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct SharedName {
    /// The name.
    pub name: String,
    /// What the other drug is.
    pub note: String,
}

impl SharedName {
    fn new(labels: &Labels<'_>, shared: &SharedNameRecord) -> Self {
        Self {
            name: labels.han(&shared.name),
            note: labels.han(&shared.note),
        }
    }
}

impl HerbView {
    /// The identity of `herb`.
    #[must_use]
    pub fn new(labels: &Labels<'_>, herb: &Herb) -> Self {
        let names = &herb.names;
        Self {
            id: herb.id.clone(),
            hant: names.hant.clone(),
            hans: names.hans.clone(),
            name: labels.han(&names.hant),
            pinyin: names.pinyin.clone(),
            latin: names.latin.clone(),
            english: names.english.clone(),
            also: names.also.iter().map(|name| labels.han(name)).collect(),
            shared: names
                .shared
                .iter()
                .map(|one| SharedName::new(labels, one))
                .collect(),
            species: herb.species.clone(),
            identity: herb.identity,
            part: herb.part.map(|part| {
                let parts = &labels.corpus.vocabulary.parts;
                labels.word_of(parts, part)
            }),
            substance: herb.substance,
            note: herb.note.as_ref().map(|note| labels.han(note)),
            entries: herb.entries.len(),
            reviewed: herb
                .entries
                .iter()
                .filter(|one| one.status == Status::Reviewed)
                .count(),
        }
    }
}
