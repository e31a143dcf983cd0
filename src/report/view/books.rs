//! The works of an answer, as a bibliography names them.

use schemars::JsonSchema;
use serde::Serialize;

use super::labels::{Labels, WorkRef};

/// A work with its author.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct BookView {
    /// The work.
    pub work: WorkRef,
    /// Author or authors.
    pub author: String,
    /// How many juan it had.
    pub juan: Option<u32>,
    /// What a reader must know.
    pub note: Option<String>,
}

impl BookView {
    /// All works that were named through `labels` so far, oldest first.
    #[must_use]
    pub fn named(labels: &Labels<'_>) -> Vec<Self> {
        let mut books = Vec::new();
        for work in labels.named_works() {
            let Some(place) = labels.corpus.work_place(&work.id) else {
                continue;
            };
            let record = labels.corpus.work(place);
            books.push(Self {
                author: labels.han(&record.author),
                juan: record.juan,
                note: record.note.as_ref().map(|note| labels.han(note)),
                work,
            });
        }
        books
    }
}
