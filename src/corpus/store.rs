//! The corpus in memory: works in the order of time, and herbs, of which the embedded ones are opened when
//! they are first asked for.

use std::collections::HashMap;
use std::sync::{Arc, OnceLock};

use serde::{Deserialize, Serialize};

use super::assemble::{self, AssembleError};
use super::compiled::Compiled;
use super::embedded;
use super::headings::Headings;
use super::model::{Entry, Herb, HerbId, Origin, Work, WorkId};
use super::record::NamesRecord;
use crate::claim::{Facet, PhraseFile, Vocabulary};

/// What an herb is found by.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct HerbNames {
    /// Short name.
    pub id: String,
    /// Its names.
    pub names: NamesRecord,
    /// Botanical or zoological names.
    pub species: Vec<String>,
}

impl HerbNames {
    /// The names of an herb.
    pub(super) fn of(herb: &Herb) -> Self {
        Self {
            id: herb.id.clone(),
            names: herb.names.clone(),
            species: herb.species.clone(),
        }
    }

    /// Its main names, the id first: Han characters, pinyin, Latin, English.
    pub fn main(&self) -> impl Iterator<Item = &str> {
        let names = &self.names;
        let main = [&self.id, &names.hant, &names.hans, &names.pinyin];
        let foreign = names.latin.iter().chain(&names.english);
        main.into_iter().chain(foreign).map(String::as_str)
    }

    /// Every name by which it is found, the main ones first.
    pub fn all(&self) -> impl Iterator<Item = &str> {
        let shared = self.names.shared.iter().map(|shared| &shared.name);
        let others = self.names.also.iter().chain(shared).chain(&self.species);
        self.main().chain(others.map(String::as_str))
    }

    /// The herb in a line: id, name, pinyin and, where there is one, the English name.
    #[must_use]
    pub fn line(&self) -> String {
        let names = &self.names;
        let english = names.english.iter().map(|name| format!(", {name}"));
        format!(
            "{}  {} {}{}",
            self.id,
            names.hant,
            names.pinyin,
            english.collect::<String>()
        )
    }
}

/// What only the reading of texts needs of the vocabulary.
#[derive(Debug, Clone, Default, Serialize, Deserialize)]
pub struct ReadingWords {
    /// Which drug a book's heading means.
    pub headings: Headings,
    /// The phrases by which actions are stated.
    pub phrases: PhraseFile,
}

/// Where a record is packed, by its place there.
#[derive(Debug, Clone, Copy)]
pub(super) enum Packed {
    /// In the program.
    Embedded(usize),
    /// In the compiled file.
    Compiled(usize),
}

/// An herb's place in the corpus: its record, or where the record is packed until somebody asks for it.
#[derive(Debug, Clone)]
pub(super) struct Slot {
    pub packed: Option<Packed>,
    // Boxed: a place costs little until its herb is opened.
    pub herb: OnceLock<Box<Herb>>,
    pub names: OnceLock<Box<HerbNames>>,
}

impl Slot {
    /// The place of a packed record.
    pub const fn packed(packed: Packed) -> Self {
        Self {
            packed: Some(packed),
            herb: OnceLock::new(),
            names: OnceLock::new(),
        }
    }
}

/// Works, herbs and the vocabulary that they use.
#[derive(Debug, Clone)]
pub struct Corpus {
    /// The vocabulary.
    pub vocabulary: Arc<Vocabulary>,
    pub(super) works: Vec<Work>,
    pub(super) work_places: HashMap<String, WorkId>,
    /// The names of all herbs, once somebody asks for all.
    pub(super) names: OnceLock<Vec<HerbNames>>,
    /// Whether its herbs are the embedded ones and no others, so that the table of their names holds.
    pub(super) keyed: bool,
    pub(super) slots: Vec<Slot>,
    pub(super) reading: OnceLock<ReadingWords>,
    pub(super) compiled: Option<Arc<Compiled>>,
}

impl Corpus {
    /// All works, oldest first.
    #[must_use]
    pub fn works(&self) -> &[Work] {
        &self.works
    }

    /// The place of the work called `id` in the order of time; unknown works come last.
    #[must_use]
    pub fn work_rank(&self, id: &str) -> usize {
        self.work_places
            .get(id)
            .map_or(usize::MAX, |place| usize::from(place.0))
    }

    /// Whether there is a work called `id`.
    #[must_use]
    pub fn has_work(&self, id: &str) -> bool {
        self.work_places.contains_key(id)
    }

    /// The work at `id`.
    #[must_use]
    pub fn work(&self, id: WorkId) -> &Work {
        &self.works[id.0 as usize]
    }

    /// The work called `id`.
    #[must_use]
    pub fn work_place(&self, id: &str) -> Option<WorkId> {
        self.work_places.get(id).copied()
    }

    /// The names of all herbs, in the order of their ids: those at `n` are of `HerbId(n)`.
    #[must_use]
    pub fn names(&self) -> &[HerbNames] {
        // That every embedded herb has its names is tested.
        self.names.get_or_init(|| match &self.compiled {
            Some(compiled) => compiled.names(),
            None => embedded::names().unwrap_or_default(),
        })
    }

    /// How many herbs there are.
    #[must_use]
    pub const fn herb_count(&self) -> usize {
        self.slots.len()
    }

    /// The names of the herb at `id`.
    #[must_use]
    pub fn named(&self, id: HerbId) -> &HerbNames {
        let place = id.0 as usize;
        match (self.names.get(), self.herb(id)) {
            (None, Ok(herb)) => self.slots[place]
                .names
                .get_or_init(|| Box::new(HerbNames::of(herb))),
            _ => &self.names()[place],
        }
    }

    /// The place of an herb of this corpus, by its id.
    #[must_use]
    pub fn place_of(&self, herb: &Herb) -> HerbId {
        self.by_id(&herb.id).unwrap_or(HerbId(0))
    }

    /// The herb at `id`.
    ///
    /// # Errors
    /// When its embedded record is faulty; a test opens them all.
    pub fn herb(&self, id: HerbId) -> Result<&Herb, AssembleError> {
        let slot = &self.slots[id.0 as usize];
        if let (None, Some(packed)) = (slot.herb.get(), slot.packed) {
            let herb = self.unpack(packed)?;
            return Ok(slot.herb.get_or_init(|| Box::new(herb)));
        }
        slot.herb
            .get()
            .map(AsRef::as_ref)
            .ok_or_else(|| AssembleError(format!("{} has no record", self.named(id).id)))
    }

    fn unpack(&self, packed: Packed) -> Result<Herb, AssembleError> {
        match (packed, &self.compiled) {
            (Packed::Compiled(place), Some(compiled)) => compiled.herb(place),
            (Packed::Embedded(place) | Packed::Compiled(place), _) => {
                let record = embedded::herb(place)?;
                let (vocabulary, places) = (&self.vocabulary, &self.work_places);
                assemble::herb(record, Origin::Shipped, vocabulary, places)
            }
        }
    }

    /// All herbs, in the order of their ids.
    ///
    /// # Errors
    /// When an embedded record is faulty.
    pub fn herbs(&self) -> Result<Vec<&Herb>, AssembleError> {
        let ids = (0_u32..).map(HerbId).take(self.slots.len());
        ids.map(|id| self.herb(id)).collect()
    }

    /// The entries of all herbs, in the order of their ids, with what their sayings state on properties and nothing
    /// else: no action, wording or place. Who looks at all herbs at once needs no more.
    ///
    /// # Errors
    /// When an embedded record is faulty.
    ///
    /// ```
    /// let corpus = kaoyi::corpus::embedded().unwrap();
    /// assert_eq!(corpus.properties().unwrap().len(), corpus.names().len());
    /// ```
    pub fn properties(&self) -> Result<Vec<Vec<Entry>>, AssembleError> {
        let mut packed = Vec::new();
        let embedded = |slot: &Slot| matches!(slot.packed, Some(Packed::Embedded(_)));
        if self.slots.iter().any(embedded) {
            packed = embedded::properties()?;
        }
        let mut all = Vec::with_capacity(self.slots.len());
        for slot in &self.slots {
            let entries = match (slot.packed, slot.herb.get()) {
                (Some(Packed::Embedded(place)), _) => {
                    let records = packed.get_mut(place).map(std::mem::take);
                    let (vocabulary, places) = (&self.vocabulary, &self.work_places);
                    let records = records.unwrap_or_default();
                    assemble::entries(records, Origin::Shipped, vocabulary, places)?
                }
                (Some(packed), None) => {
                    let herb = self.unpack(packed)?;
                    herb.entries.iter().map(of_properties).collect()
                }
                (_, Some(herb)) => herb.entries.iter().map(of_properties).collect(),
                (None, None) => Vec::new(),
            };
            all.push(entries);
        }
        Ok(all)
    }

    /// How many entries and how many claims the corpus holds.
    ///
    /// # Errors
    /// When an embedded record is faulty.
    pub fn size(&self) -> Result<(usize, usize), AssembleError> {
        let (mut entries, mut claims) = (0, 0);
        for herb in self.herbs()? {
            entries += herb.entries.len();
            let sayings = herb.entries.iter().flat_map(|entry| &entry.sayings);
            claims += sayings.map(|saying| saying.claims.len()).sum::<usize>();
        }
        Ok((entries, claims))
    }

    /// The words for reading texts.
    ///
    /// # Errors
    /// When the embedded ones are faulty.
    pub fn reading_words(&self) -> Result<&ReadingWords, AssembleError> {
        if let Some(words) = self.reading.get() {
            return Ok(words);
        }
        let words = match &self.compiled {
            Some(compiled) => compiled.reading_words()?,
            None => embedded::reading_words()?,
        };
        Ok(self.reading.get_or_init(|| words))
    }
}

/// An entry without its actions, and without the sayings that state nothing else.
fn of_properties(entry: &Entry) -> Entry {
    let mut entry = entry.clone();
    for saying in &mut entry.sayings {
        saying.claims.retain(|claim| claim.facet != Facet::Action);
    }
    entry.sayings.retain(|saying| !saying.claims.is_empty());
    entry
}
