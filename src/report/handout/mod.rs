//! Pages to print and hand out: an herb, several herbs, or a lesson on what the books dispute; as one file of
//! HTML that needs nothing else, or as Markdown, both from the same parts.

mod html;
mod markdown;
mod parts;
mod questions;
mod rich;

pub use html::{html, linked, style};
pub use markdown::markdown;
pub use questions::{Question, questions};

use super::view::{BookView, ComparisonView, DisputesView, OwnView, ScalesView};
use crate::claim::Facet;

/// An herb on a page.
#[derive(Debug, Clone)]
pub struct HerbPart {
    /// The comparison of its sources.
    pub comparison: ComparisonView,
    /// The own tastings, where they are to be shown.
    pub own: Option<OwnView>,
}

/// What a page is made from.
#[derive(Debug, Clone)]
pub struct Handout {
    /// The herbs, in the order in which they are shown.
    pub herbs: Vec<HerbPart>,
    /// For a lesson, the ranking that chose the herbs.
    pub lesson: Option<DisputesView>,
    /// The facet of which lines of transmission are drawn; of a lesson, its theme.
    pub facet: Facet,
    /// The scales and the script.
    pub scales: ScalesView,
    /// The works used, oldest first.
    pub books: Vec<BookView>,
    /// Whether pinyin stands over names.
    pub ruby: bool,
}

impl Handout {
    /// What the page is called.
    #[must_use]
    pub fn title(&self) -> String {
        match (&self.lesson, self.herbs.as_slice()) {
            (Some(_), herbs) => format!(
                "What the books dispute: {} of {}",
                self.facet.name(),
                super::text::count(herbs.len(), "herb")
            ),
            (None, [one]) => {
                let herb = &one.comparison.herb;
                let english = herb.english.iter().map(|name| format!(" · {name}"));
                format!(
                    "{} {}{}",
                    herb.name,
                    herb.pinyin,
                    english.collect::<String>()
                )
            }
            (None, herbs) => {
                let names = herbs.iter().map(|one| one.comparison.herb.name.as_str());
                format!(
                    "{}, as the books have them",
                    names.collect::<Vec<_>>().join("、")
                )
            }
        }
    }
}
