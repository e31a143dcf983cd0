//! Who bears a name that a text gives to another drug.

use std::cell::{OnceCell, RefCell};
use std::collections::{BTreeSet, HashMap};

use super::assemble::{self, AssembleError};
use super::embedded;
use super::headings::Headings;
use super::keys::NameKind;
use super::model::{Entry, HerbId, Origin};
use super::store::{Corpus, Packed, Slot};
use crate::text::{HanFolder, fold};

impl Corpus {
    /// The entries of all herbs, in the order of their ids, with what they say of other drugs and nothing else.
    ///
    /// # Errors
    /// When an embedded record is faulty.
    ///
    /// ```
    /// let corpus = kaoyi::corpus::embedded().unwrap();
    /// assert_eq!(corpus.relations().unwrap().len(), corpus.herb_count());
    /// ```
    pub fn relations(&self) -> Result<Vec<Vec<Entry>>, AssembleError> {
        let mut packed = Vec::new();
        let embedded = |slot: &Slot| matches!(slot.packed, Some(Packed::Embedded(_)));
        if self.slots.iter().any(embedded) {
            packed = embedded::relations()?;
        }
        let mut all = Vec::with_capacity(self.slots.len());
        for (slot, id) in self.slots.iter().zip((0..).map(HerbId)) {
            if let Some(Packed::Embedded(place)) = slot.packed {
                let records = packed.get_mut(place).map(std::mem::take);
                let (vocabulary, places) = (&self.vocabulary, &self.work_places);
                let records = records.unwrap_or_default();
                all.push(assemble::entries(
                    records,
                    Origin::Shipped,
                    vocabulary,
                    places,
                )?);
            } else {
                let entries = self.herb(id)?.entries.iter().map(related);
                all.push(entries.filter(|entry| !entry.sayings.is_empty()).collect());
            }
        }
        Ok(all)
    }
}

/// An entry with its sayings on other drugs alone.
fn related(entry: &Entry) -> Entry {
    let mut entry = entry.clone();
    entry.sayings.retain(|saying| !saying.relations.is_empty());
    entry
}

/// Finds the herbs that bear the names under which texts speak of other drugs.
///
/// A main name wins over another herb's by-name. Where no herb bears the name in either script or with a variant of a
/// character, the list of headings is asked, which knows by-names and what the plain texts made of names (浓朴 for 厚朴).
///
/// ```
/// use kaoyi::corpus::{Bearers, Lookup, embedded};
/// let corpus = embedded().unwrap();
/// let bearers = Bearers::new(&corpus).unwrap();
/// let Lookup::One(houpo) = corpus.find_herb("厚朴") else { panic!() };
/// assert_eq!(bearers.of("浓朴"), [houpo]);
/// assert!(bearers.bears(houpo, "浓朴"));
/// assert!(bearers.of("黄□").is_empty());
/// ```
pub struct Bearers<'c> {
    corpus: &'c Corpus,
    headings: &'c Headings,
    folder: Option<HanFolder>,
    /// The herbs by their folded names, once a name is not found as it stands.
    folded: OnceCell<HashMap<String, Vec<(HerbId, bool)>>>,
    /// The folded names of the herbs that were asked for one by one.
    own: RefCell<HashMap<HerbId, BTreeSet<String>>>,
}

impl<'c> Bearers<'c> {
    /// The names of `corpus`.
    ///
    /// # Errors
    /// When the embedded list of headings is faulty.
    pub fn new(corpus: &'c Corpus) -> Result<Self, AssembleError> {
        Ok(Self {
            corpus,
            headings: &corpus.reading_words()?.headings,
            folder: HanFolder::new().ok(),
            folded: OnceCell::new(),
            own: RefCell::default(),
        })
    }

    fn key(&self, name: &str) -> String {
        self.folder
            .as_ref()
            .map_or_else(|| fold(name), |folder| fold(&folder.fold(name)))
    }

    /// The herbs that bear `name`; none where a character of it is lost.
    #[must_use]
    pub fn of(&self, name: &str) -> Vec<HerbId> {
        if name.contains('□') {
            return Vec::new();
        }
        let found = self.named(name);
        if !found.is_empty() {
            return found;
        }
        match self.meant(name) {
            Some(meant) => self.named(meant),
            None => Vec::new(),
        }
    }

    /// Whether `herb` is among those that bear `name`. Quicker than [`Bearers::of`] where it is not.
    #[must_use]
    pub fn bears(&self, herb: HerbId, name: &str) -> bool {
        let mut own = self.own.borrow_mut();
        let names = own.entry(herb).or_insert_with(|| {
            let names = self.corpus.named(herb).all();
            names.map(|name| self.key(name)).collect()
        });
        let may = names.contains(&self.key(name))
            || self
                .meant(name)
                .is_some_and(|meant| names.contains(&self.key(meant)));
        may && self.of(name).contains(&herb)
    }

    /// The drug that the list of headings gives for a name in whatever article.
    fn meant(&self, name: &str) -> Option<&str> {
        self.headings.everywhere_means(name)
    }

    fn named(&self, name: &str) -> Vec<HerbId> {
        let as_it_stands = self.corpus.bearing(&fold(name)).into_iter();
        let bearing: Vec<(HerbId, bool)> = as_it_stands
            .filter(|one| one.1 != NameKind::Sound)
            .map(|(herb, kind)| (herb, kind == NameKind::Main))
            .collect();
        if !bearing.is_empty() {
            return chosen(&bearing);
        }
        let folded = self.folded.get_or_init(|| self.all());
        folded
            .get(&self.key(name))
            .map_or_else(Vec::new, |bearing| chosen(bearing))
    }

    /// All names, folded, with whether each is a main one.
    fn all(&self) -> HashMap<String, Vec<(HerbId, bool)>> {
        let mut all: HashMap<String, Vec<(HerbId, bool)>> = HashMap::new();
        for (herb, id) in self.corpus.names().iter().zip((0..).map(HerbId)) {
            let main = herb.main().count();
            for (place, name) in herb.all().enumerate().filter(|(_, name)| !name.is_ascii()) {
                let bearing = all.entry(self.key(name)).or_default();
                bearing.push((id, place < main));
            }
        }
        all
    }
}

/// Those that bear it as a main name; where none does, all.
fn chosen(bearing: &[(HerbId, bool)]) -> Vec<HerbId> {
    let main = bearing.iter().any(|one| one.1);
    let chosen = bearing.iter().filter(|one| one.1 || !main);
    let herbs: BTreeSet<HerbId> = chosen.map(|one| one.0).collect();
    herbs.into_iter().collect()
}
