//! Tastings with their labels.

use std::collections::HashSet;

use schemars::JsonSchema;
use serde::Serialize;

use super::heed::{HeedView, ListedCautions};
use super::labels::{CautionView, Labels, NOTICE, ValueRef, WorkRef};
use super::profile::SeverestView;
use super::state::HerbRef;
use crate::claim::Facet;
use crate::corpus::{AssembleError, Finding, Herb, HerbId, Lookup};
use crate::tasting::{LIMITS, Notebook, Noted, PassedOver, Refusal, Score, Tasting};

/// What `kaoyi taste show --json`, `add`, `edit` and `undo` write.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct TastingView {
    /// Name and version of this format.
    pub format: &'static str,
    /// The file of the tasting.
    pub file: String,
    /// The tasting.
    #[serde(flatten)]
    pub row: TastingRow,
    /// What holds for every tasting.
    pub limits: &'static str,
    /// The works named here.
    pub works: Vec<WorkRef>,
    /// Warnings, cautions and the notice.
    #[serde(flatten)]
    pub heed: HeedView,
}

/// A tasting, as a list shows it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct TastingRow {
    /// The tasting's id: its file's name without `.yaml`.
    pub id: String,
    /// The herb; one that the corpus does not have under what was written, without pinyin.
    pub herb: HerbRef,
    /// Whether the corpus has the herb.
    pub known: bool,
    /// The flavours that were scored, in the order of the vocabulary.
    pub flavours: Vec<FlavourScore>,
    /// The record, as written.
    pub tasting: Tasting,
}

/// A flavour with its score.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct FlavourScore {
    /// The flavour.
    pub flavour: ValueRef,
    /// From 0 to 10.
    pub score: Score,
}

/// What `kaoyi taste list --json` writes.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct TastingsView {
    /// Name and version of this format.
    pub format: &'static str,
    /// The notebook's folder.
    pub notebook: String,
    /// How many tastings it holds.
    pub total: usize,
    /// How many of them are as asked for.
    pub matching: usize,
    /// The tastings, newest first, as many as were asked for.
    pub tastings: Vec<TastingRow>,
    /// Faulty files; their tastings are not among those above.
    pub findings: Vec<Finding>,
    /// Files that are no tasting of the notebook.
    pub passed_over: Vec<PassedOver>,
    /// What holds for every tasting.
    pub limits: &'static str,
    /// The grave cautions of the herbs that are listed.
    pub cautions: Vec<ListedCautions>,
    /// What the program does not do.
    pub notice: &'static str,
}

/// Why an herb is not tasted.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RefusalView {
    /// The herb's name.
    pub name: String,
    /// The most severe toxicity, with the books.
    pub warnings: Vec<SeverestView>,
    /// The cautions that forbid it.
    pub cautions: Vec<CautionView>,
    /// The works named here.
    pub works: Vec<WorkRef>,
}

impl TastingRow {
    /// A tasting of the notebook.
    #[must_use]
    pub fn new(labels: &Labels<'_>, noted: &Noted) -> Self {
        let corpus = labels.corpus;
        let scheme = corpus.vocabulary.scheme(Facet::Flavour);
        let scores = &noted.tasting.scores.flavours;
        let mut scored: Vec<_> = scores
            .iter()
            .filter_map(|(id, score)| Some((scheme.place(id)?, *score)))
            .collect();
        scored.sort_by_key(|(place, _)| *place);
        let flavours = scored.into_iter().map(|(place, score)| FlavourScore {
            flavour: labels.value(Facet::Flavour, place),
            score,
        });
        Self {
            id: noted.id.clone(),
            herb: match place(labels, noted) {
                Some(id) => HerbRef::new(labels, id),
                None => HerbRef {
                    id: noted.herb.clone(),
                    name: noted.herb.clone(),
                    pinyin: String::new(),
                },
            },
            known: noted.known,
            flavours: flavours.collect(),
            tasting: noted.tasting.clone(),
        }
    }
}

/// The herb of a tasting, where the corpus has it.
fn place(labels: &Labels<'_>, noted: &Noted) -> Option<HerbId> {
    match labels.corpus.find_herb(&noted.herb) {
        Lookup::One(id) if noted.known => Some(id),
        _ => None,
    }
}

impl TastingView {
    /// A tasting of a notebook, whose file is `file`.
    ///
    /// # Errors
    /// When an embedded record is faulty.
    pub fn new(labels: &Labels<'_>, file: String, noted: &Noted) -> Result<Self, AssembleError> {
        let heed = match place(labels, noted) {
            Some(id) => HeedView::new(labels, labels.corpus.herb(id)?),
            None => HeedView {
                warnings: Vec::new(),
                cautions: Vec::new(),
                notice: NOTICE,
            },
        };
        Ok(Self {
            format: "kaoyi.tasting/1",
            file,
            row: TastingRow::new(labels, noted),
            limits: LIMITS,
            works: labels.named_works(),
            heed,
        })
    }
}

impl TastingsView {
    /// The first `top` of `matching` tastings of a notebook.
    ///
    /// # Errors
    /// When an embedded record is faulty.
    pub fn new(
        labels: &Labels<'_>,
        notebook: &Notebook,
        matching: &[&Noted],
        top: usize,
        findings: Vec<Finding>,
    ) -> Result<Self, AssembleError> {
        let shown = &matching[..top.min(matching.len())];
        let mut named = HashSet::new();
        let mut cautions = Vec::new();
        for one in shown.iter().filter(|one| named.insert(one.herb.as_str())) {
            if let Some(id) = place(labels, one) {
                cautions.extend(ListedCautions::new(labels, id)?);
            }
        }
        Ok(Self {
            format: "kaoyi.tastings/1",
            notebook: notebook.folder().display().to_string(),
            total: notebook.all().len(),
            matching: matching.len(),
            tastings: shown
                .iter()
                .map(|one| TastingRow::new(labels, one))
                .collect(),
            findings,
            passed_over: notebook.passed_over().to_vec(),
            limits: LIMITS,
            cautions,
            notice: NOTICE,
        })
    }
}

impl RefusalView {
    /// Why `herb` is not tasted.
    #[must_use]
    pub fn new(labels: &Labels<'_>, herb: &Herb, refusal: &Refusal<'_>) -> Self {
        let mut cautions = labels.cautions(herb);
        cautions.retain(|one| refusal.cautions.iter().any(|caution| caution.id == one.id));
        Self {
            name: labels.han(&herb.names.hant),
            warnings: SeverestView::warnings(labels, herb),
            cautions,
            works: labels.named_works(),
        }
    }
}
