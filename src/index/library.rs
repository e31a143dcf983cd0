//! A corpus with what was computed from it before.

use std::path::Path;

use super::shelf::Shelf;
use super::{columns, key};
use crate::claim::Facet;
use crate::compare::{self, COMPARABLE, Stands};
use crate::corpus::{self, AssembleError, Corpus, Loaded};

/// A folder with less than this, in bytes, is read faster than a cache is looked after.
const SMALL: u64 = 256 * 1024;

/// An open corpus and its shelf.
#[derive(Debug)]
pub struct Library {
    /// The corpus.
    pub corpus: Corpus,
    /// Where its derived files lie; `None` where nothing can or should be kept.
    shelf: Option<Shelf>,
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
            shelf: cache.map(|cache| Shelf::new(cache, &format!("shipped-{key:016x}"), key)),
        })
    }

    /// The corpus of a folder: from the cache where its files are as they were when it was compiled, otherwise read and
    /// checked, and compiled if it is large.
    ///
    /// # Errors
    /// When the shipped corpus is faulty.
    pub fn folder(root: &Path, cache: Option<&Path>) -> Result<Opened, AssembleError> {
        let fingerprint = key::of_folder(root);
        let large = fingerprint.filter(|found| found.bytes >= SMALL && found.settled);
        let shelf = cache
            .zip(large)
            .map(|(cache, found)| Shelf::new(cache, &key::name_of(root), found.key));
        if let Some(shelf) = &shelf
            && let Some(corpus) = Corpus::open_compiled(&shelf.path(RECORDS), shelf.key())
        {
            let shelf = Some(shelf.clone());
            return Ok(Opened::Library(Box::new(Self { corpus, shelf })));
        }
        let mut loaded = corpus::load_folder(root)?;
        let Some(corpus) = loaded.corpus.take() else {
            return Ok(Opened::Faulty(Box::new(loaded)));
        };
        // The files may have been written to while they were read: then what was read belongs to neither key.
        let shelf = shelf.filter(|_| key::of_folder(root) == fingerprint);
        if let Some(shelf) = &shelf {
            // A cache that cannot be written costs time and nothing else.
            let _ = shelf.put(RECORDS, |mut file| {
                corpus.write_compiled(shelf.key(), &mut file)
            });
        }
        Ok(Opened::Library(Box::new(Self { corpus, shelf })))
    }

    /// The stands of all witnesses on `facets` of all herbs.
    ///
    /// # Errors
    /// When an embedded record is faulty.
    pub fn stands(&self, facets: &[Facet]) -> Result<Vec<Stands>, AssembleError> {
        if !facets.iter().all(|facet| COMPARABLE.contains(facet)) {
            return compare::stands(&self.corpus, facets);
        }
        let kept = self.shelf.as_ref().and_then(|shelf| {
            let stands = columns::read(&shelf.path(STANDS), shelf.key())?;
            let herbs = self.corpus.names().len();
            stands
                .iter()
                .all(|one| one.herbs() == herbs)
                .then_some(stands)
        });
        let all = match kept {
            Some(all) => all,
            None => {
                let all = compare::stands(&self.corpus, &COMPARABLE)?;
                if let Some(shelf) = &self.shelf {
                    let _ = shelf.put(STANDS, |file| columns::write(&all, shelf.key(), file));
                }
                all
            }
        };
        let of = |facet: &Facet| all.iter().find(|one| one.facet == *facet).cloned();
        Ok(facets.iter().filter_map(of).collect())
    }
}

const RECORDS: &str = "records";
const STANDS: &str = "stands";
