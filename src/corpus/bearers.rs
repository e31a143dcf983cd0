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

/// What the articles on one herb say of other drugs, opened when it is asked for.
#[derive(Debug)]
pub struct Related<'c> {
    corpus: &'c Corpus,
    herb: HerbId,
    names: Vec<String>,
    /// The entries as text, where they are the embedded ones.
    packed: Option<String>,
}

impl Related<'_> {
    /// The names that they give to other drugs, each once.
    #[must_use]
    pub fn names(&self) -> &[String] {
        &self.names
    }

    /// The entries, with their sayings on other drugs and nothing else.
    ///
    /// # Errors
    /// When an embedded record is faulty.
    pub fn entries(&self) -> Result<Vec<Entry>, AssembleError> {
        let corpus = self.corpus;
        let Some(text) = &self.packed else {
            let entries = corpus.herb(self.herb)?.entries.iter().map(related);
            return Ok(entries.filter(|entry| !entry.sayings.is_empty()).collect());
        };
        let records = embedded::related(text)?;
        assemble::entries(
            records,
            Origin::Shipped,
            &corpus.vocabulary,
            &corpus.work_places,
        )
    }
}

impl Corpus {
    /// What the articles on each herb say of other drugs, in the order of the herbs' ids.
    ///
    /// # Errors
    /// When an embedded record is faulty.
    ///
    /// ```
    /// let corpus = kaoyi::corpus::embedded().unwrap();
    /// let related = corpus.related().unwrap();
    /// assert_eq!(related.len(), corpus.herb_count());
    /// let kansui = corpus.by_id("gansui").unwrap();
    /// assert!(related[kansui.0 as usize].names().contains(&"甘草".to_owned()));
    /// ```
    pub fn related(&self) -> Result<Vec<Related<'_>>, AssembleError> {
        let mut packed = Vec::new();
        let embedded = |slot: &Slot| matches!(slot.packed, Some(Packed::Embedded(_)));
        if self.slots.iter().any(embedded) {
            packed = embedded::relations()?;
        }
        let mut all = Vec::with_capacity(self.slots.len());
        for (slot, herb) in self.slots.iter().zip((0..).map(HerbId)) {
            let (names, packed) = match slot.packed {
                Some(Packed::Embedded(place)) => {
                    let known = packed.get_mut(place).map(std::mem::take);
                    let (names, text) = known.unwrap_or_default();
                    (names, Some(text).filter(|text| !text.is_empty()))
                }
                _ => (named(&self.herb(herb)?.entries), None),
            };
            all.push(Related {
                corpus: self,
                herb,
                names,
                packed,
            });
        }
        Ok(all)
    }
}

/// The names that entries give to other drugs.
fn named(entries: &[Entry]) -> Vec<String> {
    let sayings = entries.iter().flat_map(|entry| &entry.sayings);
    let relations = sayings.flat_map(|saying| &saying.relations);
    let names: BTreeSet<&str> = relations.map(|one| one.drug.as_str()).collect();
    names.into_iter().map(str::to_owned).collect()
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
    /// What was found already.
    found: RefCell<HashMap<String, Vec<HerbId>>>,
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
            found: RefCell::default(),
        })
    }

    fn key(&self, name: &str) -> String {
        let folded = self.folder.as_ref().map(|folder| folder.fold(name));
        // Han characters stand in one form each already: what is left is to drop the signs between them.
        folded.map_or_else(
            || fold(name),
            |folded| folded.chars().filter(|c| c.is_alphanumeric()).collect(),
        )
    }

    /// The herbs that bear `name`; none where a character of it is lost.
    #[must_use]
    pub fn of(&self, name: &str) -> Vec<HerbId> {
        if name.contains('□') {
            return Vec::new();
        }
        if let Some(known) = self.found.borrow().get(name) {
            return known.clone();
        }
        let found = self.look(name);
        self.found
            .borrow_mut()
            .insert(name.to_owned(), found.clone());
        found
    }

    fn look(&self, name: &str) -> Vec<HerbId> {
        let meant = self.headings.everywhere_means(name);
        let as_they_stand = [Some(name), meant].into_iter().flatten();
        let found = as_they_stand.map(|name| self.as_it_stands(name));
        if let Some(found) = found.into_iter().find(|found| !found.is_empty()) {
            return found;
        }
        let folded = self.folded.get_or_init(|| self.all());
        let forms = [Some(name), meant].into_iter().flatten();
        let mut found = forms.filter_map(|name| folded.get(&self.key(name)));
        found
            .next()
            .map_or_else(Vec::new, |bearing| chosen(bearing))
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
                .headings
                .everywhere_means(name)
                .is_some_and(|meant| names.contains(&self.key(meant)));
        may && self.of(name).contains(&herb)
    }

    /// Who bears a name letter for letter, by the table of names.
    fn as_it_stands(&self, name: &str) -> Vec<HerbId> {
        let bearing = self.corpus.bearing(&fold(name)).into_iter();
        let bearing: Vec<(HerbId, bool)> = bearing
            .filter(|one| one.1 != NameKind::Sound)
            .map(|(herb, kind)| (herb, kind == NameKind::Main))
            .collect();
        chosen(&bearing)
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
