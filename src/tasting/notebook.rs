//! A notebook: a folder of tastings, one YAML file each. What cannot be read is reported and the rest loads.

use std::collections::HashMap;
use std::path::{Path, PathBuf};

use super::folder::{self, Found, PassedOver};
use super::names;
use super::read::{Reader, flavour_faults, unknown_flavours};
use super::record::Tasting;
use crate::corpus::{Corpus, Finding, Lookup, embedded, read_text};
use crate::text::nearest;

/// So many characters of an id must be typed at the least.
const SHORTEST: usize = 3;

/// A tasting with its place in the notebook.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Noted {
    /// The file's name without `.yaml`.
    pub id: String,
    /// The herb's id; where the corpus has no such herb, or several, what is written.
    pub herb: String,
    /// Whether the corpus has the herb.
    pub known: bool,
    /// The tasting, as written.
    pub tasting: Tasting,
}

/// The tastings of one folder.
#[derive(Debug, Clone, Default)]
pub struct Notebook {
    folder: PathBuf,
    noted: Vec<Noted>,
    passed_over: Vec<PassedOver>,
    files: usize,
}

/// What a word that should name one tasting names.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Sought<'n> {
    /// One tasting.
    One(&'n Noted),
    /// Several; their ids.
    Many(Vec<&'n str>),
    /// None; ids near to it.
    None(Vec<&'n str>),
}

impl Notebook {
    /// Reads the notebook in `folder`, with names and flavours of the shipped corpus and nothing kept; a folder that is not
    /// there is an empty notebook. What is faulty is in the findings and not in the notebook.
    ///
    /// ```
    /// use std::path::Path;
    /// let (notebook, findings) = kaoyi::tasting::Notebook::open(Path::new("docs/examples/notebook"));
    /// assert!(findings.is_empty() && notebook.of("bohe").count() > 2);
    /// ```
    #[must_use]
    pub fn open(folder: &Path) -> (Self, Vec<Finding>) {
        match embedded() {
            Ok(corpus) => Self::open_with(folder, &corpus, None),
            // Without the corpus only names cannot be told.
            Err(_) => {
                let mut findings = Vec::new();
                let found = folder::read(folder, &Reader::new(), None, &mut findings);
                (Self::new(folder, found, None, &mut findings), findings)
            }
        }
    }

    /// Reads the notebook in `folder` with names and flavours of `corpus`; what was read is kept in the cache folder
    /// `cache`, if there is one.
    #[must_use]
    pub fn open_with(folder: &Path, corpus: &Corpus, cache: Option<&Path>) -> (Self, Vec<Finding>) {
        let mut findings = Vec::new();
        let found = folder::read(folder, &Reader::new(), cache, &mut findings);
        let notebook = Self::new(folder, found, Some(corpus), &mut findings);
        findings.sort_by(|a, b| (&a.file, a.line, a.column).cmp(&(&b.file, b.line, b.column)));
        (notebook, findings)
    }

    fn new(
        folder: &Path,
        found: Found,
        corpus: Option<&Corpus>,
        findings: &mut Vec<Finding>,
    ) -> Self {
        let mut ids: HashMap<String, (String, bool)> = HashMap::new();
        let mut noted = Vec::new();
        for (id, tasting) in found.tastings {
            let faulty = corpus.is_some_and(|corpus| {
                unknown_flavours(&tasting, &corpus.vocabulary)
                    .next()
                    .is_some()
            });
            if let (true, Some(corpus)) = (faulty, corpus) {
                findings.extend(faults(folder, &id, corpus));
                continue;
            }
            let named = match ids.get(&tasting.herb) {
                Some(named) => named.clone(),
                None => {
                    let named = id_of(corpus, &tasting.herb);
                    ids.insert(tasting.herb.clone(), named.clone());
                    named
                }
            };
            let (herb, known) = named;
            noted.push(Noted {
                id,
                herb,
                known,
                tasting,
            });
        }
        noted.sort_by(|a, b| (a.tasting.date, &a.id).cmp(&(b.tasting.date, &b.id)));
        Self {
            folder: folder.to_owned(),
            noted,
            passed_over: found.passed_over,
            files: found.files,
        }
    }

    /// The folder.
    #[must_use]
    pub fn folder(&self) -> &Path {
        &self.folder
    }

    /// All tastings, by day and then in the order of their names.
    #[must_use]
    pub fn all(&self) -> &[Noted] {
        &self.noted
    }

    /// The tastings of the herb whose id is `herb`, by day.
    pub fn of<'n>(&'n self, herb: &str) -> impl Iterator<Item = &'n Noted> {
        let herb = herb.to_owned();
        self.noted.iter().filter(move |one| one.herb == herb)
    }

    /// The files that were passed over, with the reason.
    #[must_use]
    pub fn passed_over(&self) -> &[PassedOver] {
        &self.passed_over
    }

    /// How many files of tastings there are, faulty ones among them.
    #[must_use]
    pub const fn files(&self) -> usize {
        self.files
    }

    /// The path of a tasting's file.
    #[must_use]
    pub fn path(&self, id: &str) -> PathBuf {
        self.folder.join(format!("{id}.yaml"))
    }

    /// The tasting that was added last, by the time in its name; of those that people named themselves none.
    #[must_use]
    pub fn last_added(&self) -> Option<&Noted> {
        let added = self
            .noted
            .iter()
            .filter_map(|one| Some((names::added(&one.id)?, one)));
        added
            .max_by_key(|(time, one)| (*time, one.tasting.date, &one.id))
            .map(|(_, one)| one)
    }

    /// The tasting that was added last, else the one of the latest day; of one taster, where one is named.
    #[must_use]
    pub fn last(&self, taster: Option<&str>) -> Option<&Noted> {
        let of_taster =
            |one: &&Noted| taster.is_none_or(|name| one.tasting.taster.as_deref() == Some(name));
        let key = |one: &&Noted| (names::added(&one.id), one.tasting.date, one.id.clone());
        self.noted.iter().filter(of_taster).max_by_key(key)
    }

    /// The tasting that `word` names: `last`, an id, or three characters or more that one id only begins or ends with.
    #[must_use]
    pub fn find(&self, word: &str) -> Sought<'_> {
        if let Some(one) = self.noted.iter().find(|one| one.id == word) {
            return Sought::One(one);
        }
        if let ("last", Some(last)) = (word, self.last(None)) {
            return Sought::One(last);
        }
        let fits = |one: &&Noted| {
            word.chars().count() >= SHORTEST && (one.id.starts_with(word) || one.id.ends_with(word))
        };
        let fitting: Vec<&Noted> = self.noted.iter().filter(fits).collect();
        match fitting.as_slice() {
            [] => Sought::None(nearest(word, self.noted.iter().map(|one| one.id.as_str()))),
            [one] => Sought::One(one),
            several => Sought::Many(several.iter().map(|one| one.id.as_str()).collect()),
        }
    }
}

fn id_of(corpus: Option<&Corpus>, name: &str) -> (String, bool) {
    match corpus.map(|corpus| (corpus, corpus.find_herb(name))) {
        Some((corpus, Lookup::One(id))) => (corpus.named(id).id.clone(), true),
        _ => (name.to_owned(), false),
    }
}

/// What is wrong with the flavours of one file, read again for the places.
fn faults(folder: &Path, id: &str, corpus: &Corpus) -> Vec<Finding> {
    let path = folder.join(format!("{id}.yaml"));
    let mut findings = Vec::new();
    match read_text(&path) {
        Ok(text) => {
            let name = path.display().to_string();
            if let Some(reading) = Reader::new().read(&name, text, &mut findings) {
                findings.extend(flavour_faults(&reading, &corpus.vocabulary));
            }
        }
        Err(finding) => findings.push(*finding),
    }
    findings
}
