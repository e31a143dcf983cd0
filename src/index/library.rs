//! A corpus with what was computed from it before.

use std::io::Write;
use std::path::Path;
use std::sync::OnceLock;
use std::thread;

use super::shelf::Shelf;
use super::words::{Words, WordsError};
use super::{columns, kept, key};
use crate::claim::Facet;
use crate::compare::{self, COMPARABLE, Stands, Ties};
use crate::corpus::{self, AssembleError, Corpus, Loaded};

/// A folder with less than this, in bytes, is read as fast as its compiled form.
const SMALL: u64 = 256 * 1024;

/// An open corpus and its shelf.
#[derive(Debug)]
pub struct Library {
    /// The corpus.
    pub corpus: Corpus,
    /// Where its derived files lie; `None` where nothing can or should be kept.
    shelf: Option<Shelf>,
    /// The stands that were asked for before.
    stands: [OnceLock<Vec<Stands>>; 2],
    /// Which herbs speak of which, once it was asked for.
    ties: OnceLock<Ties>,
}

/// What came of opening a folder.
#[derive(Debug)]
pub enum Opened {
    /// The corpus.
    Library(Box<Library>),
    /// It has faults.
    Faulty(Box<Loaded>),
}

impl Library {
    /// The corpus that the program carries. `cache` is the folder in which derived files are kept, if any.
    ///
    /// # Errors
    /// When an embedded record is faulty.
    ///
    /// ```
    /// use kaoyi::{claim::Facet, index::Library};
    /// let library = Library::embedded(None).unwrap();
    /// assert_eq!(library.stands(&[Facet::Nature]).unwrap().len(), 1);
    /// ```
    pub fn embedded(cache: Option<&Path>) -> Result<Self, AssembleError> {
        let key = key::of_program();
        Ok(Self {
            corpus: corpus::embedded()?,
            stands: Default::default(),
            ties: OnceLock::new(),
            shelf: cache.map(|cache| Shelf::new(cache, &format!("shipped-{key:016x}"), key)),
        })
    }

    fn of(corpus: Corpus, shelf: Option<Shelf>) -> Self {
        Self {
            corpus,
            shelf,
            stands: Default::default(),
            ties: OnceLock::new(),
        }
    }

    /// The corpus of a folder: from the cache where its files are as they were when it was compiled, otherwise read and
    /// checked, and compiled if it is large.
    ///
    /// # Errors
    /// When the shipped corpus is faulty.
    pub fn folder(root: &Path, cache: Option<&Path>) -> Result<Opened, AssembleError> {
        let name = key::name_of(root);
        // What is kept is opened while the files are looked at; which of it holds is known afterwards.
        let (fingerprint, kept) = thread::scope(|scope| {
            let looking = scope.spawn(|| key::of_folder(root));
            let kept =
                cache.and_then(|cache| Corpus::open_compiled(&cache.join(&name).join(RECORDS)));
            (looking.join().ok().flatten(), kept)
        });
        let settled = fingerprint.filter(|found| found.settled);
        let large = settled.is_some_and(|found| found.bytes >= SMALL);
        let shelf = cache
            .zip(settled)
            .map(|(cache, found)| Shelf::new(cache, &name, found.key));
        if let Some(shelf) = shelf.as_ref().filter(|_| large)
            && let Some((key, corpus)) = kept
            && key == shelf.key()
        {
            let shelf = Some(shelf.clone());
            return Ok(Opened::Library(Box::new(Self::of(corpus, shelf))));
        }
        let mut loaded = corpus::load_folder(root)?;
        let Some(corpus) = loaded.corpus.take() else {
            return Ok(Opened::Faulty(Box::new(loaded)));
        };
        // The files may have been written to while they were read: then what was read belongs to neither key.
        let shelf = shelf.filter(|_| key::of_folder(root) == fingerprint);
        if let Some(shelf) = shelf.as_ref().filter(|_| large) {
            // A cache that cannot be written costs time and nothing else.
            let _ = shelf.put(RECORDS, |mut file| {
                corpus.write_compiled(shelf.key(), &mut file)
            });
        }
        Ok(Opened::Library(Box::new(Self::of(corpus, shelf))))
    }

    /// The stands of all witnesses on `facets` of all herbs.
    ///
    /// # Errors
    /// When an embedded record is faulty.
    pub fn stands(&self, facets: &[Facet]) -> Result<Vec<&Stands>, AssembleError> {
        let mut all: Vec<&Stands> = Vec::new();
        let files = [(STANDS, &COMPARABLE), (OPEN, &OTHERS)];
        for ((file, of_file), open) in files.into_iter().zip(&self.stands) {
            if !facets.iter().any(|facet| of_file.contains(facet)) {
                continue;
            }
            let stands = match open.get() {
                Some(stands) => stands,
                None => {
                    let stands = self.kept_stands(file, of_file)?;
                    open.get_or_init(|| stands)
                }
            };
            all.extend(stands);
        }
        let of = |facet: &Facet| all.iter().find(|one| one.facet == *facet).copied();
        Ok(facets.iter().filter_map(of).collect())
    }

    fn kept_stands(&self, file: &str, facets: &[Facet]) -> Result<Vec<Stands>, AssembleError> {
        let herbs = self.corpus.herb_count();
        let fits = |one: &Stands| one.herbs() == herbs;
        let shelf = self.shelf.as_ref();
        let kept = shelf.and_then(|shelf| columns::read(&shelf.path(file), shelf.key()));
        if let Some(kept) = kept.filter(|kept| kept.iter().all(fits)) {
            return Ok(kept);
        }
        let all = compare::stands(&self.corpus, facets)?;
        if let Some(shelf) = shelf {
            // A cache that cannot be written costs time and nothing else.
            let _ = shelf.put(file, |file| columns::write(&all, shelf.key(), file));
        }
        Ok(all)
    }

    /// Which herbs the articles on each herb speak of.
    ///
    /// # Errors
    /// When an embedded record is faulty.
    pub fn ties(&self) -> Result<&Ties, AssembleError> {
        if let Some(ties) = self.ties.get() {
            return Ok(ties);
        }
        let shelf = self.shelf.as_ref();
        let kept =
            shelf.and_then(|shelf| kept::read::<Ties>(&shelf.path(TIES), &TIES_MAGIC, shelf.key()));
        let fits = |ties: &Ties| ties.herbs() == self.corpus.herb_count();
        let ties = match kept.filter(fits) {
            Some(ties) => ties,
            None => {
                let ties = Ties::new(&self.corpus)?;
                if let Some(shelf) = shelf {
                    // A cache that cannot be written costs time and nothing else.
                    let put =
                        |file: &mut dyn Write| kept::write(&ties, (&TIES_MAGIC, shelf.key()), file);
                    let _ = shelf.put(TIES, put);
                }
                ties
            }
        };
        Ok(self.ties.get_or_init(|| ties))
    }

    /// The index of words, names and headings: the kept one, or one made now.
    ///
    /// # Errors
    /// When an embedded record is faulty or the index cannot be made.
    pub fn words(&self) -> Result<Words, WordsError> {
        Words::open_or_make(&self.corpus, self.shelf.as_ref())
    }
}

const RECORDS: &str = "records";
const STANDS: &str = "stands";
const TIES: &str = "ties";
/// The first bytes of the file of ties; the last of them is the version of its form.
const TIES_MAGIC: [u8; 8] = *b"kaoyi\0t\x01";
const OPEN: &str = "stands-of-open-lists";
/// The facets that are asked for less often than [`COMPARABLE`].
const OTHERS: [Facet; 3] = [Facet::Grade, Facet::Channel, Facet::Action];
