//! Who bears a name that a text gives to another drug.

use std::cell::{OnceCell, RefCell};
use std::collections::{BTreeSet, HashMap};

use super::assemble::{self, AssembleError};
use super::embedded;
use super::headings::Headings;
use super::keys::NameKind;
use super::model::{Entry, HerbId, Origin};
use super::store::{Corpus, Packed};
use crate::text::{HanFolder, fold};

impl Corpus {
    /// The entries on an herb with what they say of other drugs and nothing else.
    ///
    /// # Errors
    /// When an embedded record is faulty.
    ///
    /// ```
    /// let corpus = kaoyi::corpus::embedded().unwrap();
    /// let kansui = corpus.by_id("gansui").unwrap();
    /// let entries = corpus.related(kansui).unwrap();
    /// let sayings = entries.iter().flat_map(|entry| &entry.sayings);
    /// assert!(sayings.flat_map(|saying| &saying.relations).any(|one| one.drug == "甘草"));
    /// ```
    pub fn related(&self, herb: HerbId) -> Result<Vec<Entry>, AssembleError> {
        if let Some(Packed::Embedded(place)) = self.slots[herb.0 as usize].packed {
            let records = embedded::related(place)?;
            let (vocabulary, places) = (&self.vocabulary, &self.work_places);
            return assemble::entries(records, Origin::Shipped, vocabulary, places);
        }
        let mut entries = self.herb(herb)?.entries.clone();
        for entry in &mut entries {
            entry.sayings.retain(|saying| !saying.relations.is_empty());
        }
        entries.retain(|entry| !entry.sayings.is_empty());
        Ok(entries)
    }
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
/// assert!(bearers.of("黄□").is_empty());
/// ```
pub struct Bearers<'c> {
    corpus: &'c Corpus,
    headings: &'c Headings,
    folder: Option<HanFolder>,
    /// The herbs by their names as they stand, where the corpus has no table of them.
    plain: OnceCell<HashMap<String, Vec<(HerbId, bool)>>>,
    /// The herbs by their folded names, once a name is not found as it stands.
    folded: OnceCell<HashMap<String, Vec<(HerbId, bool)>>>,
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
            plain: OnceCell::new(),
            folded: OnceCell::new(),
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
        let folded = self
            .folded
            .get_or_init(|| self.by_key(|name| self.key(name)));
        let forms = [Some(name), meant].into_iter().flatten();
        let mut found = forms.filter_map(|name| folded.get(&self.key(name)));
        found
            .next()
            .map_or_else(Vec::new, |bearing| chosen(bearing))
    }

    /// Who bears a name letter for letter, by the table of names.
    fn as_it_stands(&self, name: &str) -> Vec<HerbId> {
        let key = fold(name);
        if !self.corpus.keyed {
            // Without a table of names one is made: many names are asked for.
            let names = self.plain.get_or_init(|| self.by_key(fold));
            return names
                .get(&key)
                .map_or_else(Vec::new, |bearing| chosen(bearing));
        }
        let bearing = self.corpus.bearing(&key).into_iter();
        let bearing: Vec<(HerbId, bool)> = bearing
            .filter(|one| one.1 != NameKind::Sound)
            .map(|(herb, kind)| (herb, kind == NameKind::Main))
            .collect();
        chosen(&bearing)
    }

    /// All names by what `key` makes of them, with whether each is a main one.
    fn by_key(&self, key: impl Fn(&str) -> String) -> HashMap<String, Vec<(HerbId, bool)>> {
        let mut all: HashMap<String, Vec<(HerbId, bool)>> = HashMap::new();
        for (herb, id) in self.corpus.names().iter().zip((0..).map(HerbId)) {
            let main = herb.main().count();
            for (place, name) in herb.all().enumerate().filter(|(_, name)| !name.is_ascii()) {
                let bearing = all.entry(key(name)).or_default();
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
