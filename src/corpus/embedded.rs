//! The corpus that the program carries.

use serde::de::DeserializeOwned;

use super::assemble::{AssembleError, Records, assemble};
use super::model::{Corpus, Origin};
use super::shape::Placed;
use super::source::{Folder, Source};

/// Path below `corpus/` and text of every file, written by the build script.
static FILES: &[(&str, &str)] = include!(concat!(env!("OUT_DIR"), "/embedded_corpus.rs"));

/// Path below `corpus/` and text of every embedded file, in the order of the paths.
#[must_use]
pub fn embedded_files() -> &'static [(&'static str, &'static str)] {
    FILES
}

/// The embedded files as sources, for the check.
pub(super) fn sources() -> Vec<Source> {
    FILES
        .iter()
        .filter_map(|(name, text)| {
            let (folder, file) = name.split_once('/')?;
            let stem = file.strip_suffix(".yaml").unwrap_or(file);
            let folder = Folder::named(folder)?;
            Some(Source { name: format!("corpus/{name}"), folder, stem: stem.to_owned(), text: (*text).to_owned() })
        })
        .collect()
}

/// The records of the embedded corpus, read without the check that a test has already made.
///
/// # Errors
/// When a file does not hold a record of its kind.
pub(super) fn records() -> Result<Records, AssembleError> {
    let mut records = Records::default();
    for (name, text) in FILES {
        match name.split_once('/') {
            Some(("herbs", _)) => records.herbs.push((placed(name, text)?, Origin::Shipped)),
            Some(("works", _)) => records.works.push((placed(name, text)?, Origin::Shipped)),
            Some(("vocabulary", "cautions.yaml")) => records.cautions = Some(read(name, text)?),
            Some(("vocabulary", "thresholds.yaml")) => records.thresholds = Some(read(name, text)?),
            _ => records.schemes.push(read(name, text)?),
        }
    }
    Ok(records)
}

fn placed<T: DeserializeOwned>(name: &str, text: &str) -> Result<Placed<T>, AssembleError> {
    Ok(Placed { record: read(name, text)?, origin: None })
}

fn read<T: DeserializeOwned>(name: &str, text: &str) -> Result<T, AssembleError> {
    serde_yaml::from_str(text)
        .map_err(|error| AssembleError(format!("corpus/{name}: {}", error.without_snippet())))
}

/// The corpus that the program carries.
///
/// # Errors
/// When the embedded files are faulty; a test sees to it that they are not.
///
/// ```
/// let corpus = kaoyi::corpus::embedded().unwrap();
/// assert!(corpus.herbs().len() >= 40);
/// ```
pub fn embedded() -> Result<Corpus, AssembleError> {
    assemble(records()?)
}
