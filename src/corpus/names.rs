//! Finding an herb by any of its names.

use pinyin::ToPinyin;

use super::keys::{self, NameKind};
use super::model::{HerbId, Work, WorkId};
use super::store::{Corpus, HerbNames};
use crate::text::{Converter, HanFolder, Script, fold, nearest};

/// What came of looking for a name.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Lookup {
    /// One herb bears the name.
    One(HerbId),
    /// Several herbs bear the name.
    Many(Vec<HerbId>),
    /// No herb bears it; these bear names near to it.
    None(Vec<HerbId>),
}

impl Corpus {
    /// Finds the herb called `name`: by id, Han characters in either script, pinyin with or without
    /// tones and spaces, Latin, English, or any other name. A main name wins over another herb's
    /// by-name.
    ///
    /// ```
    /// use kaoyi::corpus::{Lookup, embedded};
    /// let corpus = embedded().unwrap();
    /// for name in ["bohe", "bò hé", "薄荷", "mint", "Menthae Herba"] {
    ///     assert!(matches!(corpus.find_herb(name), Lookup::One(_)), "{name}");
    /// }
    /// ```
    #[must_use]
    pub fn find_herb(&self, name: &str) -> Lookup {
        // The id settles what a name leaves open.
        if let Some(id) = self.by_id(name) {
            return Lookup::One(id);
        }
        let key = fold(name);
        if key.is_empty() {
            return Lookup::None(Vec::new());
        }
        let bearing = self.bearing(&key);
        let main = bearing.iter().filter(|one| one.1 <= NameKind::Main);
        let any = bearing.iter();
        for herbs in [distinct(main), distinct(any)] {
            match herbs.as_slice() {
                [] => {}
                [one] => return Lookup::One(*one),
                _ => return Lookup::Many(herbs),
            }
        }
        self.find_in_either_script(name)
            .unwrap_or_else(|| Lookup::None(self.near(name)))
    }

    /// The herb whose id it is.
    #[must_use]
    pub fn by_id(&self, id: &str) -> Option<HerbId> {
        if self.keyed {
            return keys::by_id(id);
        }
        let of = |one: &HerbNames| one.id.as_str().cmp(id);
        let place = self.names().binary_search_by(of).ok()?;
        Some(HerbId(place as u32))
    }

    /// Other herbs of which the pinyin, folded, is `key`.
    #[must_use]
    pub fn sounding(&self, key: &str, than: HerbId) -> Vec<HerbId> {
        let bearing = self.bearing(key);
        let sound = bearing.iter().filter(|one| one.1 == NameKind::Sound);
        let mut herbs = distinct(sound);
        herbs.retain(|herb| *herb != than);
        herbs
    }

    /// The herbs that bear a folded name, in their order.
    pub(super) fn bearing(&self, key: &str) -> Vec<(HerbId, NameKind)> {
        if self.keyed {
            return keys::bearing(key);
        }
        let mut found = Vec::new();
        for (place, herb) in self.names().iter().enumerate() {
            let id = HerbId(place as u32);
            if fold(&herb.names.pinyin) == key {
                found.push((id, NameKind::Sound));
            }
            if herb.main().any(|name| fold(name) == key) {
                found.push((id, NameKind::Main));
            } else if herb.all().any(|name| fold(name) == key) {
                found.push((id, NameKind::Other));
            }
        }
        found
    }

    fn herbs_with(&self, same: impl Fn(&str) -> bool) -> Vec<HerbId> {
        let herbs = self.names().iter().enumerate();
        herbs
            .filter(|(_, herb)| herb.all().any(&same))
            .map(|(place, _)| HerbId(place as u32))
            .collect()
    }

    /// By-names are recorded in one script, and a name may be typed with a variant of a character: compare all folded.
    fn find_in_either_script(&self, name: &str) -> Option<Lookup> {
        if name.is_ascii() {
            return None;
        }
        let folder = HanFolder::new().ok()?;
        let key = fold(&folder.fold(name));
        match self
            .herbs_with(|name| fold(&folder.fold(name)) == key)
            .as_slice()
        {
            [] => None,
            [one] => Some(Lookup::One(*one)),
            many => Some(Lookup::Many(many.to_vec())),
        }
    }

    /// The herbs that sound like a name in Han characters (黃連 for 黃蓮), then those with a name a letter or two away.
    fn near(&self, name: &str) -> Vec<HerbId> {
        let sound = name.chars().map(|c| Some(c.to_pinyin()?.plain()));
        let sound = sound.collect::<Option<String>>();
        let sounding = sound.map_or_else(Vec::new, |sound| self.bearing(&fold(&sound)));
        let mut herbs = distinct(sounding.iter());
        let names = self.names().iter().flat_map(HerbNames::all);
        for near in nearest(name, names) {
            for herb in self.herbs_with(|name| name == near) {
                if !herbs.contains(&herb) {
                    herbs.push(herb);
                }
            }
        }
        herbs
    }
}

/// Each herb once, in order.
fn distinct<'k>(found: impl Iterator<Item = &'k (HerbId, NameKind)>) -> Vec<HerbId> {
    let mut herbs: Vec<HerbId> = found.map(|one| one.0).collect();
    herbs.sort_unstable();
    herbs.dedup();
    herbs
}

/// What came of looking for a work.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum WorkLookup {
    /// The work.
    One(WorkId),
    /// Several works are called so.
    Many(Vec<WorkId>),
    /// None is; these ids are near.
    None(Vec<String>),
}

impl Corpus {
    /// Finds the work called `name`: by id, title in Han characters, pinyin or English, or a short
    /// form under which other books quote it.
    ///
    /// ```
    /// let corpus = kaoyi::corpus::embedded().unwrap();
    /// assert_eq!(corpus.find_work("時珍"), corpus.find_work("bencao-gangmu"));
    /// ```
    #[must_use]
    pub fn find_work(&self, name: &str) -> WorkLookup {
        let hans = Converter::new(Script::Hans).unwrap_or_default();
        let key = |name: &str| fold(&hans.convert(name));
        let wanted = key(name);
        let bearing = |names: fn(&Work) -> Vec<&str>| -> Vec<WorkId> {
            let works = self.works.iter().enumerate();
            let same =
                works.filter(|(_, work)| names(work).into_iter().any(|name| key(name) == wanted));
            same.map(|(place, _)| WorkId(place as u16)).collect()
        };
        let titles: fn(&Work) -> Vec<&str> =
            |work| vec![&work.id, &work.hant, &work.pinyin, &work.english];
        let short: fn(&Work) -> Vec<&str> =
            |work| work.cited_as.iter().map(String::as_str).collect();
        for names in [titles, short] {
            match bearing(names).as_slice() {
                [] => {}
                [one] => return WorkLookup::One(*one),
                several => return WorkLookup::Many(several.to_vec()),
            }
        }
        let ids = self.works.iter().map(|work| work.id.as_str());
        WorkLookup::None(nearest(name, ids).into_iter().map(str::to_owned).collect())
    }
}
