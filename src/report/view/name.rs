//! Who bears a name, and which books use it.

use std::collections::BTreeMap;

use schemars::JsonSchema;
use serde::Serialize;

use super::find::rank_word;
use super::heed::ListedCautions;
use super::labels::{Labels, NOTICE, WorkRef};
use super::state::HerbRef;
use crate::corpus::{AssembleError, HerbId, HerbNames, WorkId};
use crate::index::{NameRank, Named, Words};

/// What `kaoyi name --json` writes.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct NameView {
    /// Name and version of this format.
    pub format: &'static str,
    /// The name as typed.
    pub name: String,
    /// Herbs that bear it.
    pub bearers: Vec<BearerView>,
    /// Articles under this heading, herb by herb.
    pub headings: Vec<HeadingView>,
    /// Herbs with a name that begins with it, contains it, sounds like it or is near to it, the best first, at most twenty.
    pub near: Vec<NearView>,
    /// How many more there are.
    pub near_more: usize,
    /// The grave cautions of the herbs that bear it.
    pub cautions: Vec<ListedCautions>,
    /// What the program does not do.
    pub notice: &'static str,
    /// The works named here.
    pub works: Vec<WorkRef>,
}

/// An herb that bears the name.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct BearerView {
    /// The herb.
    pub herb: HerbRef,
    /// Its English name.
    pub english: Option<String>,
    /// As what: `id`, `name`, `pinyin`, `latin`, `english`, `also`, `shared`, `species`.
    pub borne_as: Vec<&'static str>,
    /// Of a name that another drug bears too, what that drug is.
    pub notes: Vec<String>,
    /// All its other names.
    pub also: Vec<String>,
}

/// The articles that a herb has under the name.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct HeadingView {
    /// The herb that the articles are about.
    pub herb: HerbRef,
    /// The works, oldest first.
    pub works: Vec<String>,
}

/// A herb with a name near to it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct NearView {
    /// The herb.
    pub herb: HerbRef,
    /// Its English name.
    pub english: Option<String>,
    /// How it answers: `begins`, `contains`, `sounds`, `near`.
    pub how: &'static str,
    /// The names that hold what was typed; its main name where it only sounds so or is near.
    pub names: Vec<String>,
}

/// So many near herbs are shown.
const NEAR: usize = 20;

impl NameView {
    /// Who bears `name`.
    ///
    /// # Errors
    /// When an embedded record is faulty or the index cannot be read.
    pub fn new(
        labels: &Labels<'_>,
        words: &Words,
        name: &str,
    ) -> Result<Self, crate::index::WordsError> {
        let (mut bearers, mut near) = (Vec::new(), Vec::new());
        let mut cautions: Vec<Result<Option<ListedCautions>, AssembleError>> = Vec::new();
        for Named { herb, rank } in words.named(labels.corpus, name)? {
            if rank <= NameRank::Exact {
                bearers.push(BearerView::new(labels, words, herb, name));
                cautions.push(ListedCautions::new(labels, herb));
            } else {
                near.push((herb, rank));
            }
        }
        let mut by_herb: BTreeMap<HerbId, Vec<WorkId>> = BTreeMap::new();
        for (herb, _, work) in words.headed(name)? {
            by_herb.entry(herb).or_default().push(work);
        }
        let heading = |(herb, mut works): (HerbId, Vec<WorkId>)| {
            works.sort_unstable();
            works.dedup();
            HeadingView {
                herb: HerbRef::new(labels, herb),
                works: labels.works(&works),
            }
        };
        Ok(Self {
            format: "kaoyi.name/1",
            name: name.to_owned(),
            bearers,
            headings: by_herb.into_iter().map(heading).collect(),
            near_more: near.len().saturating_sub(NEAR),
            near: near
                .into_iter()
                .take(NEAR)
                .map(|(herb, rank)| NearView::new(labels, words, herb, rank, name))
                .collect(),
            cautions: cautions
                .into_iter()
                .collect::<Result<Vec<_>, _>>()?
                .into_iter()
                .flatten()
                .collect(),
            notice: NOTICE,
            works: labels.named_works(),
        })
    }
}

impl BearerView {
    fn new(labels: &Labels<'_>, words: &Words, id: HerbId, name: &str) -> Self {
        let herb: &HerbNames = labels.corpus.named(id);
        let names = &herb.names;
        let key = words.key(name);
        let same = |other: &str| words.key(other) == key;
        let mut borne_as = Vec::new();
        let mut tell = |what, borne: bool| {
            if borne {
                borne_as.push(what);
            }
        };
        tell("name", same(&names.hant) || same(&names.hans));
        tell("pinyin", same(&names.pinyin));
        tell("latin", names.latin.as_deref().is_some_and(same));
        tell("english", names.english.as_deref().is_some_and(same));
        tell("also", names.also.iter().any(|one| same(one)));
        tell("shared", names.shared.iter().any(|one| same(&one.name)));
        tell("species", herb.species.iter().any(|one| same(one)));
        if borne_as.is_empty() {
            borne_as.push("id");
        }
        let shared = names.shared.iter().filter(|one| same(&one.name));
        let others = herb.names.also.iter().filter(|one| !same(one));
        Self {
            herb: HerbRef::new(labels, id),
            english: names.english.clone(),
            borne_as,
            notes: shared.map(|one| one.note.clone()).collect(),
            also: others.map(|one| labels.han(one)).collect(),
        }
    }
}

impl NearView {
    fn new(labels: &Labels<'_>, words: &Words, id: HerbId, rank: NameRank, name: &str) -> Self {
        let herb = labels.corpus.named(id);
        let key = words.key(name);
        let mut names: Vec<String> = Vec::new();
        for one in herb
            .all()
            .skip(1)
            .filter(|one| words.key(one).contains(&key))
        {
            let shown = labels.han(one);
            if !names
                .iter()
                .any(|other| words.key(other) == words.key(&shown))
            {
                names.push(shown);
            }
        }
        if names.is_empty() {
            names.push(labels.han(&herb.names.hant));
        }
        Self {
            herb: HerbRef::new(labels, id),
            english: herb.names.english.clone(),
            how: rank_word(rank),
            names,
        }
    }
}
