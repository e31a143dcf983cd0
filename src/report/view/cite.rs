//! How the corpus and its claims are cited.

use std::collections::BTreeMap;
use std::path::Path;

use schemars::JsonSchema;
use serde::Serialize;

use super::claim::ClaimView;
use super::heed::HeedView;
use super::labels::{Labels, NOTICE};
use super::work_entry::WorkEntry;
use crate::corpus::{self, AssembleError, Corpus, Herb, WorkId};

/// What the corpus is, and how it is cited.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct CorpusView {
    /// Its title.
    pub title: &'static str,
    /// The version of the program that carries it.
    pub version: &'static str,
    /// The day on which it last changed, `YYYY-MM-DD`; `null` for a folder of the user's.
    pub date: Option<String>,
    /// The key of its content: SHA-256, hexadecimal. Of a folder that adds to the shipped corpus, that of the folder.
    pub key: String,
    /// How many herbs it holds.
    pub herbs: usize,
    /// How many works it knows.
    pub works: usize,
    /// The citation in one line.
    pub citation: String,
}

impl CorpusView {
    const TITLE: &'static str =
        "Kaoyi 考異: attributed claims of classical Chinese books on medicinal herbs";

    /// What `corpus` is; `folder` is the user's folder that it was read from, if any.
    ///
    /// # Errors
    /// When the embedded files cannot be unpacked.
    pub fn new(corpus: &Corpus, folder: Option<&Path>) -> Result<Self, AssembleError> {
        let key = corpus::content_key(folder)?;
        let version = env!("CARGO_PKG_VERSION");
        let short = key.get(..16).unwrap_or(&key);
        let date = folder.is_none().then(|| corpus::date().to_owned());
        let which = match &date {
            Some(date) => format!("corpus of {date}, content key {short}"),
            None => format!("with a folder of one's own, content key {short}"),
        };
        let (herbs, works) = (corpus.herb_count(), corpus.works().len());
        let title = Self::TITLE;
        Ok(Self {
            title,
            version,
            date,
            herbs,
            works,
            citation: format!("{title}. Version {version}, {which}, {herbs} herbs, {works} works."),
            key,
        })
    }
}

/// A saying with its claims, as it is cited.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct CitationView {
    /// Who says it, where it was read, and through whom it is known.
    pub citation: String,
    /// Its claims.
    pub claims: Vec<ClaimView>,
}

/// What `kaoyi cite --json` writes.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct CiteView {
    /// Name and version of this format.
    pub format: &'static str,
    /// The corpus.
    pub corpus: CorpusView,
    /// The sayings asked for.
    pub citations: Vec<CitationView>,
    /// The works that they name, oldest first.
    pub works: Vec<WorkEntry>,
    /// The cautions of the herbs asked for, by herb.
    pub heed: BTreeMap<String, HeedView>,
    /// What the program does not do.
    pub notice: &'static str,
}

impl CiteView {
    /// The format's name and version.
    pub const FORMAT: &'static str = "kaoyi.cite/1";

    /// Cites claims; those of one saying stand together.
    #[must_use]
    pub fn new(
        labels: &Labels<'_>,
        about: &CorpusView,
        herbs: &[&Herb],
        claims: Vec<ClaimView>,
    ) -> Self {
        let mut works: BTreeMap<WorkId, WorkEntry> = BTreeMap::new();
        let mut citations: Vec<CitationView> = Vec::new();
        for claim in claims {
            for id in [&claim.by, &claim.work].into_iter().chain(&claim.through) {
                if let Some(place) = labels.corpus.work_place(id) {
                    works
                        .entry(place)
                        .or_insert_with(|| WorkEntry::new(labels, place));
                }
            }
            let same = citations.last_mut().filter(|last| {
                let before = &last.claims[0];
                saying_of(&before.claim) == saying_of(&claim.claim)
            });
            match same {
                Some(last) => last.claims.push(claim),
                None => citations.push(CitationView {
                    citation: in_words(labels, &claim),
                    claims: vec![claim],
                }),
            }
        }
        let heed = |herb: &&Herb| (herb.id.clone(), HeedView::new(labels, herb));
        Self {
            format: Self::FORMAT,
            corpus: about.clone(),
            citations,
            works: works.into_values().collect(),
            heed: herbs.iter().map(heed).collect(),
            notice: NOTICE,
        }
    }
}

/// The part of a claim's id that names the saying.
fn saying_of(claim: &str) -> &str {
    claim.rsplitn(3, '/').nth(2).unwrap_or(claim)
}

/// The ids of all sayings on an herb, by the places of their articles and of the sayings in them.
#[must_use]
pub fn saying_ids(labels: &Labels<'_>, herb: &Herb) -> Vec<Vec<String>> {
    let mut articles: BTreeMap<(WorkId, u32), usize> = BTreeMap::new();
    let mut ids = Vec::with_capacity(herb.entries.len());
    for entry in &herb.entries {
        let ordinal = entry.at.as_ref().and_then(|at| at.ordinal).unwrap_or(0);
        let seen = articles.entry((entry.work, ordinal)).or_default();
        *seen += 1;
        let article = match seen {
            1 => ordinal.to_string(),
            again => format!("{ordinal}-{again}"),
        };
        let work = &labels.corpus.work(entry.work).id;
        let id = |number: usize| format!("{}/{work}/{article}/{number}", herb.id);
        ids.push((1..=entry.sayings.len()).map(id).collect());
    }
    ids
}

/// Author, title and date of the work that asserts; the works that carry it; the place; the wording.
fn in_words(labels: &Labels<'_>, claim: &ClaimView) -> String {
    let work = |id: &str| {
        let place = labels.corpus.work_place(id);
        place.map_or_else(
            || id.to_owned(),
            |place| one_work(&WorkEntry::new(labels, place)),
        )
    };
    let mut words = work(&claim.by);
    for carrier in claim.through.iter().rev() {
        words.push_str(&format!(", quoted in {}", work(carrier)));
    }
    let section = claim.section.iter();
    let section = section.map(|one| format!(", {}", one.replace('\\', " / ")));
    let ordinal = claim.ordinal.iter().map(|one| format!(", no. {one}"));
    let heading = claim.heading.iter().map(|one| format!(", {one}"));
    words.extend(section.chain(ordinal).chain(heading));
    if let Some(wording) = &claim.wording {
        words.push_str(&format!(": “{wording}”"));
    }
    if let Some(doubt) = &claim.doubt {
        words.push_str(&format!(" (doubtful: {doubt})"));
    }
    words.push('.');
    words
}

fn one_work(work: &WorkEntry) -> String {
    let mut authors = work.authors().join(", ");
    if work.and_others() {
        authors.push_str(" and others");
    }
    let lead = if authors.is_empty() {
        String::new()
    } else {
        format!("{authors}, ")
    };
    let state = work.state().map(|state| format!("; {state}"));
    format!(
        "{lead}{} ({}{})",
        work.full_title(),
        work.date.words,
        state.unwrap_or_default()
    )
}
