//! A corpus as one file that opens at once: works, names and vocabulary first, then each herb by itself. It is made from
//! the YAML records and never read in their place when they have changed.

use std::collections::HashMap;
use std::fs::File;
use std::hash::{DefaultHasher, Hasher};
use std::io::{self, Read, Seek, SeekFrom, Write};
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, OnceLock};

use serde::{Deserialize, Serialize};

use super::assemble::AssembleError;
use super::model::{Herb, Work, WorkId};
use super::store::{Corpus, HerbNames, Packed, ReadingWords, Slot};
use crate::claim::{Caution, MeasureFile, PairingFile, Scheme, SchemeFile, Thresholds, Vocabulary};

/// The first bytes of the file; the last of them is the version of its form.
const MAGIC: [u8; 8] = *b"kaoyi\0r\x05";

/// Where a packed record stands behind the head, and the checksum that it must have.
#[derive(Debug, Clone, Copy, Serialize, Deserialize)]
struct Span {
    at: u64,
    length: u64,
    sum: u64,
}

/// How many bytes a span takes in the list of all herbs.
const SPAN: usize = 24;

impl Span {
    fn bytes(self) -> impl Iterator<Item = u8> {
        let numbers = [self.at, self.length, self.sum];
        numbers.into_iter().flat_map(u64::to_le_bytes)
    }

    /// The span at a place of the list; `None` beyond its end.
    fn of(list: &[u8], place: usize) -> Option<Self> {
        let bytes = list.get(place * SPAN..(place + 1) * SPAN)?;
        let mut numbers = bytes
            .chunks_exact(8)
            .map(|eight| eight.try_into().map_or(0, u64::from_le_bytes));
        Some(Self {
            at: numbers.next()?,
            length: numbers.next()?,
            sum: numbers.next()?,
        })
    }
}

#[derive(Serialize, Deserialize)]
struct Head {
    works: Vec<Work>,
    schemes: Vec<SchemeFile>,
    cautions: Vec<Caution>,
    thresholds: Thresholds,
    pairing: PairingFile,
    /// As JSON: fields that are left out have no place in a compact form.
    measures: String,
    /// The spans of the herbs, each [`SPAN`] bytes: they are looked up and not read through.
    herbs: Vec<u8>,
    /// The names of all herbs.
    names: Span,
    reading: Span,
}

/// The file behind an open corpus.
#[derive(Debug)]
pub(super) struct Compiled {
    path: PathBuf,
    file: Mutex<File>,
    start: u64,
    herbs: Vec<u8>,
    /// The names of all herbs as they were packed, looked at for damage when the file was opened.
    names: Vec<u8>,
    reading: Span,
}

/// The sum of some bytes, by which one content is told from another.
pub(crate) fn sum(bytes: &[u8]) -> u64 {
    let mut hasher = DefaultHasher::new();
    hasher.write(bytes);
    hasher.finish()
}

/// The sum of some bytes, to tell damage of a kept file by: CRC-32.
pub(crate) fn checksum(bytes: &[u8]) -> u64 {
    u64::from(crc32fast::hash(bytes))
}

fn failed(error: impl std::fmt::Display) -> io::Error {
    io::Error::other(error.to_string())
}

impl Corpus {
    /// Writes the corpus as one file. `key` stands for the records that it was made from: [`Corpus::open_compiled`] gives
    /// it back.
    ///
    /// # Errors
    /// When the file cannot be written, or an embedded record is faulty.
    pub fn write_compiled(&self, key: u64, file: &mut impl Write) -> io::Result<()> {
        let mut packed = Vec::new();
        let mut put = |bytes: Vec<u8>| {
            let span = Span {
                at: packed.len() as u64,
                length: bytes.len() as u64,
                sum: checksum(&bytes),
            };
            packed.extend(bytes);
            span
        };
        let mut herbs = Vec::with_capacity(self.herb_count() * SPAN);
        for herb in self.herbs().map_err(failed)? {
            herbs.extend(put(postcard::to_stdvec(herb).map_err(failed)?).bytes());
        }
        let names = put(postcard::to_stdvec(self.names()).map_err(failed)?);
        let words = self.reading_words().map_err(failed)?;
        let reading = put(postcard::to_stdvec(words).map_err(failed)?);
        let head = Head {
            works: self.works.clone(),
            schemes: self
                .vocabulary
                .schemes()
                .map(Scheme::file)
                .cloned()
                .collect(),
            cautions: self.vocabulary.cautions.clone(),
            thresholds: self.vocabulary.thresholds,
            pairing: self.vocabulary.pairing.clone(),
            measures: serde_json::to_string(&self.vocabulary.measures).map_err(failed)?,
            herbs,
            names,
            reading,
        };
        let head = postcard::to_stdvec(&head).map_err(failed)?;
        file.write_all(&MAGIC)?;
        for number in [key, head.len() as u64, checksum(&head)] {
            file.write_all(&number.to_le_bytes())?;
        }
        file.write_all(&head)?;
        file.write_all(&packed)
    }

    /// Opens a file that [`Corpus::write_compiled`] wrote, and gives the key under which it was written; `None` where it is not
    /// there or is damaged.
    #[must_use]
    pub fn open_compiled(path: &Path) -> Option<(u64, Self)> {
        let mut file = File::open(path).ok()?;
        let mut fixed = [0; 32];
        file.read_exact(&mut fixed).ok()?;
        let number = |place: usize| {
            let bytes = fixed[place * 8..place * 8 + 8].try_into();
            bytes.map_or(0, u64::from_le_bytes)
        };
        if fixed[..8] != MAGIC {
            return None;
        }
        let whole = file.metadata().ok()?.len();
        let length = number(2);
        if length > whole {
            return None;
        }
        let mut head = vec![0; usize::try_from(length).ok()?];
        file.read_exact(&mut head).ok()?;
        if checksum(&head) != number(3) {
            return None;
        }
        let head: Head = postcard::from_bytes(&head).ok()?;
        let start = 32 + length;
        // What was packed last ends the file.
        if start + head.reading.at + head.reading.length != whole {
            return None;
        }
        let names = bytes(&mut file, start, head.names)?;
        let schemes = head.schemes.into_iter().map(Scheme::new).collect();
        let measures: MeasureFile = serde_json::from_str(&head.measures).ok()?;
        let vocabulary = Vocabulary::new(
            schemes,
            Some(head.cautions),
            Some(head.thresholds),
            Some(head.pairing),
            Some(measures),
        )
        .ok()?;
        let places = head.works.iter().zip(0_u16..);
        let places: HashMap<String, WorkId> = places
            .map(|(work, place)| (work.id.clone(), WorkId(place)))
            .collect();
        let places_of_herbs = 0..head.herbs.len() / SPAN;
        let slots = places_of_herbs.map(|place| Slot::packed(Packed::Compiled(place)));
        let corpus = Self {
            vocabulary: Arc::new(vocabulary),
            works: head.works,
            work_places: places,
            slots: slots.collect(),
            names: OnceLock::new(),
            keyed: false,
            reading: OnceLock::new(),
            compiled: Some(Arc::new(Compiled {
                path: path.to_owned(),
                file: Mutex::new(file),
                start,
                herbs: head.herbs,
                names,
                reading: head.reading,
            })),
        };
        Some((number(1), corpus))
    }
}

impl Compiled {
    pub fn herb(&self, place: usize) -> Result<Herb, AssembleError> {
        let span = Span::of(&self.herbs, place);
        let bytes = span.and_then(|span| self.bytes(span));
        bytes
            .and_then(|bytes| postcard::from_bytes(&bytes).ok())
            .ok_or_else(|| self.damaged())
    }

    pub fn reading_words(&self) -> Result<ReadingWords, AssembleError> {
        let bytes = self.bytes(self.reading);
        bytes
            .and_then(|bytes| postcard::from_bytes(&bytes).ok())
            .ok_or_else(|| self.damaged())
    }

    /// The names of all herbs. The bytes were found undamaged, and this program packed them.
    pub fn names(&self) -> Vec<HerbNames> {
        postcard::from_bytes(&self.names).unwrap_or_default()
    }

    fn bytes(&self, span: Span) -> Option<Vec<u8>> {
        let mut file = self.file.lock().ok()?;
        bytes(&mut file, self.start, span)
    }

    /// Removes the file, so that the next run makes it anew.
    fn damaged(&self) -> AssembleError {
        let removed = std::fs::remove_file(&self.path).is_ok();
        AssembleError(format!(
            "its compiled form {} is damaged{}",
            self.path.display(),
            if removed {
                " and has been removed; run the command again"
            } else {
                "; remove it"
            }
        ))
    }
}

/// What is packed at a span behind `start`; `None` where it is damaged.
fn bytes(file: &mut File, start: u64, span: Span) -> Option<Vec<u8>> {
    let whole = file.metadata().ok()?.len();
    let end = start.checked_add(span.at)?.checked_add(span.length)?;
    if end > whole {
        return None;
    }
    let mut bytes = vec![0; usize::try_from(span.length).ok()?];
    file.seek(SeekFrom::Start(start + span.at)).ok()?;
    file.read_exact(&mut bytes).ok()?;
    (checksum(&bytes) == span.sum).then_some(bytes)
}
