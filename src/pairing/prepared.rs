//! Names of prepared drugs: 炙甘草 is 甘草.

use std::cmp::Reverse;

use crate::corpus::{Corpus, HerbId, Lookup};
use crate::text::HanFolder;

/// An herb found under the name of a prepared form.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Prepared {
    /// The herb.
    pub herb: HerbId,
    /// What stood before its name.
    pub prefix: String,
}

/// The herb that `name` means as a prepared form: one whose own name stands behind a word for a preparation, unless the
/// whole is the name of another herb, as 熟地黃 is. `None` where it is no such name.
///
/// ```
/// use kaoyi::{corpus, pairing, text::HanFolder};
/// let corpus = corpus::embedded().unwrap();
/// let folder = HanFolder::new().unwrap();
/// let prepared = pairing::prepared(&corpus, &folder, "炙甘草").unwrap();
/// assert_eq!((corpus.named(prepared.herb).id.as_str(), prepared.prefix.as_str()), ("gancao", "炙"));
/// assert!(pairing::prepared(&corpus, &folder, "甘草").is_none());
/// ```
#[must_use]
pub fn prepared(corpus: &Corpus, folder: &HanFolder, name: &str) -> Option<Prepared> {
    let whole = match corpus.find_herb(name) {
        Lookup::One(herb) => Some(herb),
        Lookup::None(_) => None,
        Lookup::Many(_) => return None,
    };
    let prefixes = corpus.vocabulary.pairing.prefixes.iter();
    let folded = folder.fold(name);
    let mut fitting: Vec<&String> = prefixes
        .filter(|prefix| folded.starts_with(&folder.fold(prefix)))
        .collect();
    // The longest first: 蜜炙 before 蜜.
    fitting.sort_by_key(|prefix| Reverse(prefix.chars().count()));
    fitting.into_iter().find_map(|prefix| {
        let rest: String = name.chars().skip(prefix.chars().count()).collect();
        match corpus.find_herb(&rest) {
            Lookup::One(herb) if whole.is_none_or(|whole| whole == herb) => Some(Prepared {
                herb,
                prefix: prefix.clone(),
            }),
            _ => None,
        }
    })
}
