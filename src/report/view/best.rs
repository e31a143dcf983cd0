//! The best sayings of all herbs, one by one.

use schemars::JsonSchema;
use serde::Serialize;

use super::filter::FilterView;
use super::heed::ListedCautions;
use super::labels::{Labels, NOTICE, ValueRef, WorkRef};
use super::state::HerbRef;
use crate::compare::Selection;
use crate::corpus::{AssembleError, Herb, HerbId, PlaceRecord, Relation, Status};
use crate::index::{Asked, Best, SayingFound, Words, places_of};

/// What `kaoyi find --best N --json` writes.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct BestView {
    /// Name and version of this format.
    pub format: &'static str,
    /// The phrases looked for.
    pub phrases: Vec<String>,
    /// Whether one phrase was enough.
    pub any: bool,
    /// Which works were looked at; `null` for all.
    pub filter: Option<FilterView>,
    /// How many sayings answer.
    pub sayings_found: usize,
    /// How many sayings were passed over before those shown.
    pub skipped: usize,
    /// The best of them, best first.
    pub sayings: Vec<SayingOnHerb>,
    /// The grave cautions of the herbs shown.
    pub cautions: Vec<ListedCautions>,
    /// What the program does not do.
    pub notice: &'static str,
    /// The works named here.
    pub works: Vec<WorkRef>,
}

/// A saying with the herb that it is on.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct SayingOnHerb {
    /// The herb.
    pub herb: HerbRef,
    /// The saying.
    #[serde(flatten)]
    pub saying: FoundSaying,
}

/// A saying that was found.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct FoundSaying {
    /// The work that asserts.
    pub work: String,
    /// The works that carry it, oldest first.
    pub through: Vec<String>,
    /// The wording.
    pub wording: String,
    /// Where the phrases stand in it: spans of characters, from the first to behind the last.
    pub marks: Vec<(usize, usize)>,
    /// What it is read as.
    pub values: Vec<ValueRef>,
    /// What it says of other drugs, named as the text names them.
    pub relations: Vec<Relation>,
    /// Where the article stands.
    pub at: Option<PlaceRecord>,
    /// Why the reading is doubtful.
    pub doubt: Option<String>,
    /// How far the reading has been checked.
    pub status: Status,
    /// How well it answers: BM25, by the rarity of the terms and the shortness of the wording.
    pub score: f32,
}

impl BestView {
    /// The best sayings that were found, after the first `skipped`.
    ///
    /// # Errors
    /// When an embedded record is faulty.
    pub fn new(
        labels: &Labels<'_>,
        words: &Words,
        (asked, selection): (&Asked, &Selection),
        best: &Best,
        skipped: usize,
    ) -> Result<Self, AssembleError> {
        let mut sayings = Vec::with_capacity(best.sayings.len());
        let mut herbs: Vec<HerbId> = Vec::new();
        for found in &best.sayings {
            let herb = labels.corpus.herb(found.herb)?;
            if let Some(saying) = FoundSaying::new(labels, words, asked, herb, found) {
                sayings.push(SayingOnHerb {
                    herb: HerbRef::new(labels, found.herb),
                    saying,
                });
            }
            if !herbs.contains(&found.herb) {
                herbs.push(found.herb);
            }
        }
        let cautions = herbs
            .into_iter()
            .map(|herb| ListedCautions::new(labels, herb));
        let cautions = cautions.collect::<Result<Vec<_>, _>>()?;
        Ok(Self {
            format: "kaoyi.best/1",
            phrases: asked.phrases.clone(),
            any: asked.any,
            filter: FilterView::new(labels, selection),
            sayings_found: best.count,
            skipped: skipped.min(best.count),
            sayings,
            cautions: cautions.into_iter().flatten().collect(),
            notice: NOTICE,
            works: labels.named_works(),
        })
    }
}

impl FoundSaying {
    /// What is shown of a saying that was found; `None` where the record has no such saying.
    pub(super) fn new(
        labels: &Labels<'_>,
        words: &Words,
        asked: &Asked,
        herb: &Herb,
        found: &SayingFound,
    ) -> Option<Self> {
        let entry = herb.entries.get(found.entry)?;
        let saying = entry.sayings.get(found.saying)?;
        let wording = labels.quoted(saying.wording.as_ref()?);
        let claims = saying.claims.iter();
        Some(Self {
            work: labels.work(saying.by),
            through: labels.works(&saying.carriers),
            marks: marks(words, asked, &wording),
            wording,
            values: claims
                .map(|claim| labels.value(claim.facet, claim.value))
                .collect(),
            relations: saying
                .relations
                .iter()
                .map(|one| Relation {
                    kind: one.kind,
                    drug: labels.quoted(&one.drug),
                })
                .collect(),
            at: entry.at.as_ref().map(|at| labels.place(at)),
            doubt: saying.doubt.clone(),
            status: saying.status_in(entry),
            score: found.score,
        })
    }
}

/// Where the phrases stand in a wording, from the first on, none within another.
fn marks(words: &Words, asked: &Asked, wording: &str) -> Vec<(usize, usize)> {
    let folded = words.folded(wording);
    let phrases = asked.phrases.iter();
    let mut marks: Vec<(usize, usize)> = phrases
        .flat_map(|phrase| places_of(&words.folded(phrase), &folded))
        .collect();
    marks.sort_unstable();
    let mut end = 0;
    marks.retain(|(from, to)| {
        let apart = *from >= end;
        end = end.max(*to);
        apart
    });
    marks
}
