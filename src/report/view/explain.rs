//! What the doctrine leads one to expect of an herb, beside what the books say it does.

use schemars::JsonSchema;
use serde::Serialize;

use super::filter::FilterView;
use super::heed::HeedView;
use super::herb::HerbView;
use super::labels::{Labels, ValueRef, WorkRef};
use crate::claim::Facet;
use crate::compare::Selection;
use crate::corpus::Herb;
use crate::pairing::{self, Expectation, Shown};

/// What `kaoyi explain --json` writes.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct ExplainView {
    /// Name and version of this format.
    pub format: &'static str,
    /// The herb.
    pub herb: HerbView,
    /// Which works were counted; `null` for all.
    pub filter: Option<FilterView>,
    /// The doctrines that apply, those first that most witnesses support.
    pub expectations: Vec<ExpectationView>,
    /// What must be heeded.
    pub heed: HeedView,
    /// The works named here.
    pub works: Vec<WorkRef>,
}

/// A doctrine that applies to the herb, and how its actions answer.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct ExpectationView {
    /// `flavour` or `nature`.
    pub facet: Facet,
    /// The flavour; of a nature the value that stands for its side.
    pub value: ValueRef,
    /// Witnesses that state it, or a nature on its side.
    pub k: usize,
    /// Witnesses on the facet.
    pub n: usize,
    /// The doctrine in the words of its source.
    pub han: String,
    /// What is held, in one line.
    pub holds: String,
    /// Where it is published.
    pub source: String,
    /// Actions in which it shows, those of most works first.
    pub borne_out: Vec<ShownView>,
    /// Actions contrary to one in which it would show.
    pub against: Vec<ShownView>,
}

/// An action.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct ShownView {
    /// The action.
    pub value: ValueRef,
    /// The works that state it of the herb as such, oldest first.
    pub by: Vec<String>,
    /// The works that state it of a part, preparation or kind only.
    pub of_scope_only: Vec<String>,
    /// How many works state it of the herb as such, or an action contrary to it.
    pub of: usize,
}

impl ExplainView {
    /// Expectation and record of `herb`.
    #[must_use]
    pub fn new(labels: &Labels<'_>, herb: &Herb, selection: &Selection) -> Self {
        let found = pairing::expectations(labels.corpus, herb, selection);
        Self {
            format: "kaoyi.explain/1",
            herb: HerbView::new(labels, herb),
            filter: FilterView::new(labels, selection),
            expectations: found
                .iter()
                .map(|one| ExpectationView::new(labels, one))
                .collect(),
            heed: HeedView::new(labels, herb),
            works: labels.named_works(),
        }
    }
}

impl ExpectationView {
    fn new(labels: &Labels<'_>, found: &Expectation<'_>) -> Self {
        let doctrine = found.doctrine;
        let shown = |all: &[Shown]| all.iter().map(|one| ShownView::new(labels, one)).collect();
        Self {
            facet: doctrine.facet,
            value: labels.value(doctrine.facet, found.value),
            k: found.k,
            n: found.n,
            han: labels.han(&doctrine.hant),
            holds: doctrine.holds.clone(),
            source: doctrine.source.clone(),
            borne_out: shown(&found.borne_out),
            against: shown(&found.against),
        }
    }
}

impl ShownView {
    fn new(labels: &Labels<'_>, shown: &Shown) -> Self {
        Self {
            value: labels.value(Facet::Action, shown.value),
            by: labels.works(&shown.by),
            of_scope_only: labels.works(&shown.of_scope_only),
            of: shown.of,
        }
    }
}
