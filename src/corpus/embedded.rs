//! The corpus that the program carries.

use serde::de::DeserializeOwned;

use super::assemble::{AssembleError, Records, assemble};
use super::model::{Corpus, Origin};
use super::shape::Placed;
use super::source::{Folder, Source};

/// An embedded file.
struct File {
    /// Its path below `corpus/`.
    name: &'static str,
    /// Its text, for the check.
    yaml: &'static str,
    /// The same record as JSON, for a quick start.
    json: &'static str,
}

/// Every file, in the order of the paths, written by the build script.
static FILES: &[File] = include!(concat!(env!("OUT_DIR"), "/embedded_corpus.rs"));

/// The embedded files as sources, for the check.
pub(super) fn sources() -> Vec<Source> {
    FILES
        .iter()
        .filter_map(|file| {
            let (folder, stem) = file.name.split_once('/')?;
            let folder = Folder::named(folder)?;
            let stem = stem.strip_suffix(".yaml").unwrap_or(stem).to_owned();
            Some(Source::new(
                format!("corpus/{}", file.name),
                folder,
                stem,
                file.yaml.to_owned(),
            ))
        })
        .collect()
}

/// The records of the embedded corpus, read without the check that a test has already made.
///
/// # Errors
/// When a file does not hold a record of its kind.
pub(super) fn records() -> Result<Records, AssembleError> {
    let mut records = Records::default();
    for file in FILES {
        match file.name.split_once('/') {
            Some(("herbs", _)) => records.herbs.push((placed(file)?, Origin::Shipped)),
            Some(("works", _)) => records.works.push((placed(file)?, Origin::Shipped)),
            Some(("vocabulary", "cautions.yaml")) => records.cautions = Some(read(file)?),
            Some(("vocabulary", "thresholds.yaml")) => records.thresholds = Some(read(file)?),
            Some(("vocabulary", "phrases.yaml")) => records.phrases = Some(read(file)?),
            Some(("vocabulary", "headings.yaml")) => records.headings = Some(read(file)?),
            Some(("vocabulary", _)) => records.schemes.push(read(file)?),
            _ => {
                return Err(AssembleError(format!(
                    "corpus/{} lies in no known folder",
                    file.name
                )));
            }
        }
    }
    Ok(records)
}

fn placed<T: DeserializeOwned>(file: &File) -> Result<Placed<T>, AssembleError> {
    Ok(Placed {
        record: read(file)?,
        origin: None,
    })
}

fn read<T: DeserializeOwned>(file: &File) -> Result<T, AssembleError> {
    serde_json::from_str(file.json)
        .map_err(|error| AssembleError(format!("corpus/{}: {error}", file.name)))
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
