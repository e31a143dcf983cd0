//! The index of words: a document for each herb with its names, for each article with its heading, and for each saying with
//! its wording.

use std::fmt;
use std::fs;
use std::path::Path;

use tantivy::directory::{MmapDirectory, RamDirectory};
use tantivy::indexer::SingleSegmentIndexWriter;
use tantivy::schema::{
    FAST, Field, INDEXED, IndexRecordOption, STRING, Schema, TextFieldIndexing, TextOptions,
};
use tantivy::tokenizer::TokenizerManager;
use tantivy::{Index, Searcher, SegmentReader, TantivyDocument, TantivyError};

use super::named::sounds;
use super::numbers::Numbers;
use super::seal;
use super::shelf::Shelf;
use super::tokens::{Pairs, Singles};
use crate::corpus::{AssembleError, Corpus, Herb, HerbNames, WorkId};
use crate::text::{HanFolder, ScriptError, fold};

/// The names of our tokenizers, which hold the version of the index: other names make another index.
const SINGLES: &str = "singles-1";
const PAIRS: &str = "pairs-1";
/// Memory for the writer, in bytes.
const BUDGET: usize = 200_000_000;

/// The fields of a document.
#[derive(Debug, Clone, Copy)]
pub(super) struct Fields {
    /// The herb, by its place in the corpus.
    pub herb: Field,
    /// The entry and the saying: see [`place`].
    pub place: Field,
    /// The work that asserts.
    pub by: Field,
    /// The wording, folded: the pieces.
    pub wording: Field,
    /// The same: the pairs, which alone know their order.
    pub wording_pairs: Field,
    /// Of a herb's own document: how many articles it has.
    pub weight: Field,
    /// A main name, folded, as one term: Han characters, pinyin, Latin, English.
    pub main: Field,
    /// Any name, folded, as one term.
    pub name: Field,
    /// How a name in Han characters sounds, as one term.
    pub sound: Field,
    /// The names, folded: the pieces.
    pub names: Field,
    /// The same: the pairs.
    pub names_pairs: Field,
    /// The heading of an article, folded, as one term.
    pub heading: Field,
}

impl Fields {
    fn schema() -> (Schema, Self) {
        let mut builder = Schema::builder();
        let terms = |tokenizer, option| {
            let indexing = TextFieldIndexing::default().set_tokenizer(tokenizer);
            TextOptions::default().set_indexing_options(indexing.set_index_option(option))
        };
        let singles = terms(SINGLES, IndexRecordOption::WithFreqs);
        let pairs = terms(PAIRS, IndexRecordOption::WithFreqsAndPositions);
        let fields = Self {
            herb: builder.add_u64_field("herb", FAST | INDEXED),
            place: builder.add_u64_field("place", FAST),
            by: builder.add_u64_field("by", FAST | INDEXED),
            wording: builder.add_text_field("wording", singles.clone()),
            wording_pairs: builder.add_text_field("wording_pairs", pairs.clone()),
            weight: builder.add_u64_field("weight", FAST),
            main: builder.add_text_field("main", STRING),
            name: builder.add_text_field("name", STRING),
            sound: builder.add_text_field("sound", STRING),
            names: builder.add_text_field("names", singles),
            names_pairs: builder.add_text_field("names_pairs", pairs),
            heading: builder.add_text_field("heading", STRING),
        };
        (builder.build(), fields)
    }
}

/// The number of an entry and a saying in it, as documents keep it; `None` where one is beyond what fits.
fn place(entry: usize, saying: usize) -> Option<u64> {
    let (entry, saying) = (u16::try_from(entry).ok()?, u16::try_from(saying).ok()?);
    Some(u64::from(entry) << 16 | u64::from(saying))
}

/// The entry and the saying that [`place`] put together.
pub(super) const fn placed(number: u64) -> (usize, usize) {
    ((number >> 16) as usize, (number & 0xffff) as usize)
}

/// The index could not be made or read.
#[derive(Debug)]
pub enum WordsError {
    /// An embedded record is faulty.
    Record(AssembleError),
    /// The tables of scripts are damaged.
    Script(ScriptError),
    /// The index itself.
    Index(TantivyError),
}

impl fmt::Display for WordsError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Record(error) => error.fmt(f),
            Self::Script(error) => error.fmt(f),
            Self::Index(error) => write!(f, "the index of words failed: {error}"),
        }
    }
}

impl std::error::Error for WordsError {}

impl From<AssembleError> for WordsError {
    fn from(error: AssembleError) -> Self {
        Self::Record(error)
    }
}

impl From<ScriptError> for WordsError {
    fn from(error: ScriptError) -> Self {
        Self::Script(error)
    }
}

impl From<TantivyError> for WordsError {
    fn from(error: TantivyError) -> Self {
        Self::Index(error)
    }
}

/// An open index of words.
pub struct Words {
    pub(super) searcher: Searcher,
    pub(super) segment: SegmentReader,
    pub(super) numbers: Numbers,
    pub(super) fields: Fields,
    pub(super) folder: HanFolder,
    /// Why the index is not kept, so that it will be made again next time.
    pub not_kept: Option<String>,
}

impl fmt::Debug for Words {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("Words").finish_non_exhaustive()
    }
}

impl Words {
    pub(super) fn open_or_make(corpus: &Corpus, shelf: Option<&Shelf>) -> Result<Self, WordsError> {
        let Some(shelf) = shelf else {
            let folder = HanFolder::new()?;
            let index = make(corpus, &folder, None)?;
            return Self::of(&index, folder, Some("there is no place for it".to_owned()));
        };
        let place = format!("words-{:016x}", shelf.key());
        if let Some((index, folder)) = open(&shelf.path(&place)) {
            // What cannot be read after all is made anew.
            if let Ok(words) = Self::of(&index, folder, None) {
                return Ok(words);
            }
        }
        let folder = HanFolder::new()?;
        let kept = shelf.put_folder(&place, "words-", |beside| {
            make(corpus, &folder, Some(beside)).map_err(std::io::Error::other)?;
            let pairs = postcard::to_stdvec(&folder.pairs()).map_err(std::io::Error::other)?;
            fs::write(beside.join(FOLDING), pairs)?;
            seal::put(beside)
        });
        match (kept, open(&shelf.path(&place))) {
            (Ok(()), Some((index, folder))) => Self::of(&index, folder, None),
            (kept, _) => {
                let reason = kept.err().map_or_else(
                    || "it could not be read again".to_owned(),
                    |error| error.to_string(),
                );
                let index = make(corpus, &folder, None)?;
                Self::of(&index, folder, Some(reason))
            }
        }
    }

    fn of(index: &Index, folder: HanFolder, not_kept: Option<String>) -> Result<Self, WordsError> {
        register(index.tokenizers());
        let reader = index
            .reader_builder()
            .reload_policy(tantivy::ReloadPolicy::Manual)
            .try_into()?;
        let reader: tantivy::IndexReader = reader;
        let searcher = reader.searcher();
        let [segment] = searcher.segment_readers() else {
            let found = searcher.segment_readers().len();
            let error = format!("it is in {found} segments, not in one");
            return Err(TantivyError::InternalError(error).into());
        };
        Ok(Self {
            numbers: Numbers::of(segment)?,
            segment: segment.clone(),
            searcher,
            fields: Fields::schema().1,
            folder,
            not_kept,
        })
    }

    /// The key under which a name is found, however it is written.
    #[must_use]
    pub fn key(&self, name: &str) -> String {
        key(&self.folder, name)
    }

    /// A text folded for comparison, character for character.
    #[must_use]
    pub fn folded(&self, text: &str) -> String {
        self.folder.fold(text)
    }
}

fn key(folder: &HanFolder, name: &str) -> String {
    fold(&folder.fold(name))
}

/// Opens a kept index with the folding that it was made with, if its files are as they were when it was made.
fn open(folder: &Path) -> Option<(Index, HanFolder)> {
    seal::holds(folder).then_some(())?;
    let index = Index::open(MmapDirectory::open(folder).ok()?).ok()?;
    let pairs = postcard::from_bytes(&fs::read(folder.join(FOLDING)).ok()?).ok()?;
    let folder = HanFolder::from_pairs(pairs);
    (index.schema() == Fields::schema().0).then_some((index, folder))
}

/// The folding of characters, so that the tables need not be loaded for every search.
const FOLDING: &str = "folding";

/// Makes the index in a folder, or in memory.
fn make(corpus: &Corpus, folder: &HanFolder, at: Option<&Path>) -> Result<Index, WordsError> {
    let (schema, fields) = Fields::schema();
    let tokenizers = TokenizerManager::default();
    register(&tokenizers);
    let builder = Index::builder().schema(schema).tokenizers(tokenizers);
    // One segment, written by one thread: nothing to merge, and every search walks it once.
    let mut writer: SingleSegmentIndexWriter = match at {
        Some(path) => {
            let directory = MmapDirectory::open(path).map_err(TantivyError::from)?;
            builder.single_segment_index_writer(directory, BUDGET)?
        }
        None => builder.single_segment_index_writer(RamDirectory::create(), BUDGET)?,
    };
    for (place, herb) in corpus.herbs()?.into_iter().enumerate() {
        let names = &corpus.names()[place];
        let mut document = names_document(&fields, folder, place as u64, names);
        document.add_u64(fields.weight, herb.entries.len() as u64);
        writer.add_document(document)?;
        add_entries(&mut writer, &fields, folder, place as u64, herb)?;
    }
    Ok(writer.finalize()?)
}

fn register(tokenizers: &TokenizerManager) {
    tokenizers.register(SINGLES, Singles);
    tokenizers.register(PAIRS, Pairs);
}

fn names_document(
    fields: &Fields,
    folder: &HanFolder,
    herb: u64,
    names: &HerbNames,
) -> TantivyDocument {
    let mut document = TantivyDocument::default();
    document.add_u64(fields.herb, herb);
    document.add_u64(fields.place, 0);
    document.add_u64(fields.by, 0);
    let all: Vec<String> = names.all().map(|name| folder.fold(name)).collect();
    for name in &all {
        document.add_text(fields.name, fold(name));
    }
    let of_han = all.iter().filter(|name| !name.is_ascii());
    for sound in of_han.flat_map(|name| sounds(&fold(name))) {
        document.add_text(fields.sound, sound);
    }
    for name in names.main() {
        document.add_text(fields.main, key(folder, name));
    }
    // A lost character between two names, so that no phrase runs from one into the next.
    let all = all.join("\0");
    document.add_text(fields.names, &all);
    document.add_text(fields.names_pairs, &all);
    document
}

fn add_entries(
    writer: &mut SingleSegmentIndexWriter<TantivyDocument>,
    fields: &Fields,
    folder: &HanFolder,
    herb_place: u64,
    herb: &Herb,
) -> Result<(), TantivyError> {
    for (entry, article) in herb.entries.iter().enumerate() {
        let document = |saying: usize, by: WorkId| {
            let place = place(entry, saying)?;
            let mut document = TantivyDocument::default();
            document.add_u64(fields.herb, herb_place);
            document.add_u64(fields.place, place);
            document.add_u64(fields.by, u64::from(by.0));
            Some(document)
        };
        if let Some(at) = &article.at
            && let Some(mut document) = document(0, article.work)
        {
            document.add_text(fields.heading, key(folder, &at.heading));
            writer.add_document(document)?;
        }
        for (number, saying) in article.sayings.iter().enumerate() {
            if let Some(wording) = &saying.wording
                && let Some(mut document) = document(number, saying.by)
            {
                let wording = folder.fold(wording);
                document.add_text(fields.wording, &wording);
                document.add_text(fields.wording_pairs, &wording);
                writer.add_document(document)?;
            }
        }
    }
    Ok(())
}
