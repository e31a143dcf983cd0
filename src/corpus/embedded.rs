//! The corpus that the program carries: small records as JSON, herbs packed one by one and opened when they
//! are asked for. The build script writes it from the YAML files; see `build.rs`.

use serde::Deserialize;
use serde::de::DeserializeOwned;

use super::assemble::{AssembleError, Records, assemble_packed};
use super::headings::{HeadingFile, Headings};
use super::model::Origin;
use super::record::{EntryRecord, HerbRecord};
use super::shape::Placed;
use super::source::{Folder, Source};
use super::store::{Corpus, HerbNames, ReadingWords};
use crate::claim::PhraseFile;

include!(concat!(env!("OUT_DIR"), "/embedded_records.rs"));

static HERBS: &[u8] = include_bytes!(concat!(env!("OUT_DIR"), "/herbs.packed"));
static NAMES: &[u8] = include_bytes!(concat!(env!("OUT_DIR"), "/names.packed"));
static PROPERTIES: &[u8] = include_bytes!(concat!(env!("OUT_DIR"), "/properties.packed"));
static RELATIONS: &[u8] = include_bytes!(concat!(env!("OUT_DIR"), "/relations.packed"));
static READING: &[u8] = include_bytes!(concat!(env!("OUT_DIR"), "/reading.packed"));
static TEXTS: &[u8] = include_bytes!(concat!(env!("OUT_DIR"), "/texts.packed"));

/// The embedded YAML files as sources, for the check.
pub(super) fn sources() -> Result<Vec<Source>, AssembleError> {
    let files: Vec<(String, String)> = unpack("the YAML files", TEXTS)?;
    let sources = files.into_iter().filter_map(|(name, text)| {
        let (folder, stem) = name.split_once('/')?;
        let folder = Folder::named(folder)?;
        let stem = stem.strip_suffix(".yaml").unwrap_or(stem).to_owned();
        Some(Source::new(format!("corpus/{name}"), folder, stem, text))
    });
    Ok(sources.collect())
}

/// The records of the embedded corpus but for the herbs, of which only the names are read. Nothing is
/// checked: a test has done that.
///
/// # Errors
/// When a file does not hold a record of its kind.
pub(super) fn records() -> Result<Records, AssembleError> {
    Ok(Records {
        packed: names()?,
        ..other_records()?
    })
}

/// The names of all herbs, in the order in which their records are packed.
pub(super) fn names() -> Result<Vec<HerbNames>, AssembleError> {
    unpack("the names of the herbs", NAMES)
}

/// The works and the vocabulary.
fn other_records() -> Result<Records, AssembleError> {
    let mut records = Records::default();
    for (name, json) in RECORDS {
        match name.split_once('/') {
            Some(("works", _)) => {
                let record = read(name, json)?;
                let placed = Placed {
                    record,
                    origin: None,
                };
                records.works.push((placed, Origin::Shipped));
            }
            Some(("vocabulary", "cautions.yaml")) => records.cautions = Some(read(name, json)?),
            Some(("vocabulary", "thresholds.yaml")) => {
                records.thresholds = Some(read(name, json)?);
            }
            Some(("vocabulary", "pairing.yaml")) => {
                records.pairing = Some(Placed {
                    record: read(name, json)?,
                    origin: None,
                });
            }
            Some(("vocabulary", "measures.yaml")) => records.measures = Some(read(name, json)?),
            Some(("vocabulary", _)) => records.schemes.push(read(name, json)?),
            _ => {
                return Err(AssembleError(format!(
                    "corpus/{name} lies in no known folder"
                )));
            }
        }
    }
    Ok(records)
}

/// The record of the herb at `place` among the embedded ones.
pub(super) fn herb(place: usize) -> Result<HerbRecord, AssembleError> {
    let packed = PLACES
        .get(place)
        .and_then(|(from, to)| HERBS.get(*from..*to));
    unpack("an herb", packed.unwrap_or_default())
}

/// Of each herb the entries with their statements on properties alone, in the order of the packed records.
pub(super) fn properties() -> Result<Vec<Vec<EntryRecord>>, AssembleError> {
    unpack("the properties", PROPERTIES)
}

/// The entries of the herb at `place` with what they say of other drugs and nothing else.
pub(super) fn related(place: usize) -> Result<Vec<EntryRecord>, AssembleError> {
    let place = RELATED_PLACES.get(place).copied();
    match place.and_then(|(from, to)| RELATIONS.get(from..to)) {
        Some(packed) if !packed.is_empty() => {
            unpack("what an herb's entries say of others", packed)
        }
        _ => Ok(Vec::new()),
    }
}

/// The words for reading texts, in the order in which the build script packs them.
pub(super) fn reading_words() -> Result<ReadingWords, AssembleError> {
    let (headings, phrases): (HeadingFile, PhraseFile) = unpack("the words for reading", READING)?;
    Ok(ReadingWords {
        headings: Headings::new(headings),
        phrases,
    })
}

fn read<'j, T: Deserialize<'j>>(name: &str, json: &'j str) -> Result<T, AssembleError> {
    serde_json::from_str(json).map_err(|error| AssembleError(format!("corpus/{name}: {error}")))
}

fn unpack<T: DeserializeOwned>(what: &str, packed: &[u8]) -> Result<T, AssembleError> {
    let failed = |error: String| AssembleError(format!("{what}, as embedded: {error}"));
    let json = lz4_flex::block::decompress_size_prepended(packed)
        .map_err(|error| failed(error.to_string()))?;
    serde_json::from_slice(&json).map_err(|error| failed(error.to_string()))
}

/// The corpus that the program carries.
///
/// # Errors
/// When the embedded files are faulty; a test sees to it that they are not.
///
/// ```
/// let corpus = kaoyi::corpus::embedded().unwrap();
/// assert!(corpus.names().len() >= 40);
/// ```
pub fn embedded() -> Result<Corpus, AssembleError> {
    assemble_packed(other_records()?, PLACES.len())
}

/// A sum over the YAML files that the program carries: another corpus has another.
#[must_use]
pub fn embedded_content() -> u64 {
    CONTENT
}
