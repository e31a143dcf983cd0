//! Merging entries into a folder's herb files: what a person has reviewed stays, what a program read is
//! replaced by a newer reading, and every file is written beside and renamed into place.

use std::collections::BTreeMap;
use std::fmt;
use std::path::{Path, PathBuf};
use std::{fs, io};

use super::merge_files::Held;
use super::model::{Status, Substance};
use super::record::{EntryRecord, HerbRecord};
use super::store::Corpus;
use super::write::{entry_yaml, scalar};
use super::yaml::{self, Kind, Node};

/// The herb to which an entry belongs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Target {
    /// An herb of the corpus, by id.
    Known(String),
    /// An herb that no record names yet.
    New(NewHerb),
}

/// What is known of an herb that only a text's heading names.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NewHerb {
    /// Its id.
    pub id: String,
    /// Its name in traditional characters.
    pub hant: String,
    /// Its name in simplified characters.
    pub hans: String,
    /// Its name in pinyin with tone marks.
    pub pinyin: String,
    /// What it is made of, where the section tells.
    pub substance: Option<Substance>,
}

/// What a merge did.
#[derive(Debug, Default, PartialEq, Eq)]
pub struct Merged {
    /// Entries that were not there before.
    pub added: usize,
    /// Entries of status `read` that a new reading replaced.
    pub replaced: usize,
    /// Entries that were there already, word for word.
    pub same: usize,
    /// Entries that a person reviewed or that come from memory, and that the new reading differs from:
    /// file, line and heading.
    pub kept: Vec<(PathBuf, usize, String)>,
    /// Ids of herbs that got a first file with a name of their own.
    pub new_herbs: Vec<String>,
    /// Files written.
    pub files: usize,
}

/// Why nothing, or not all, was merged.
#[derive(Debug)]
pub enum MergeError {
    /// A file could not be read or written.
    Io {
        /// The file.
        file: PathBuf,
        /// What happened.
        error: io::Error,
    },
    /// A file could not be put in its place after others were.
    Partly {
        /// The file.
        file: PathBuf,
        /// What happened.
        error: io::Error,
        /// How many were put in their places before it; merging again puts the rest.
        written: usize,
        /// How many there are.
        of: usize,
    },
    /// A file is no herb record in block style.
    Form {
        /// The file.
        file: PathBuf,
        /// The line, from 1.
        line: usize,
        /// What is wrong.
        message: String,
    },
}

impl fmt::Display for MergeError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Io { file, error } => {
                write!(f, "{}: {error}; nothing was merged", file.display())
            }
            Self::Partly {
                file,
                error,
                written,
                of,
            } => write!(
                f,
                "{}: {error}; {written} of {of} files were merged before it, each of them whole",
                file.display()
            ),
            Self::Form {
                file,
                line,
                message,
            } => write!(f, "{}:{line}: {message}", file.display()),
        }
    }
}

impl std::error::Error for MergeError {}

/// Merges `entries` into the herb files below `folder`. All new texts are made and checked before the
/// first file is written; all are then written beside and renamed, so a reader never sees half a file. Two merges into one
/// folder wait for each other, so that none undoes what the other added.
///
/// # Errors
/// When a file cannot be read or written, or is no herb record with one entry a block.
pub fn merge(
    folder: &Path,
    corpus: &Corpus,
    entries: Vec<(Target, EntryRecord)>,
) -> Result<Merged, MergeError> {
    let herbs = folder.join("herbs");
    let mut by_herb: BTreeMap<String, (Target, Vec<EntryRecord>)> = BTreeMap::new();
    for (target, entry) in entries {
        let id = match &target {
            Target::Known(id) => id.clone(),
            Target::New(herb) => herb.id.clone(),
        };
        let place = by_herb.entry(id).or_insert_with(|| (target, Vec::new()));
        place.1.push(entry);
    }
    let held = match by_herb.is_empty() {
        true => None,
        false => Some(Held::new(&herbs)?),
    };
    let mut merged = Merged::default();
    let mut texts = Vec::new();
    for (id, (target, entries)) in by_herb {
        let file = herbs.join(format!("{id}.yaml"));
        let mut page = Page::open(file, &id, &target, corpus, &mut merged)?;
        for entry in entries {
            page.put(entry, &mut merged);
        }
        if page.changed {
            texts.push(page.finish()?);
        }
    }
    if let Some(held) = held.filter(|_| !texts.is_empty()) {
        held.write(&texts)?;
        merged.files = texts.len();
    }
    Ok(merged)
}

/// One herb file, cut into its head, its entries and what follows them.
struct Page<'c> {
    corpus: &'c Corpus,
    file: PathBuf,
    head: String,
    blocks: Vec<Block>,
    tail: String,
    changed: bool,
}

struct Block {
    text: String,
    entry: EntryRecord,
    line: usize,
}

impl<'c> Page<'c> {
    fn open(
        file: PathBuf,
        id: &str,
        target: &Target,
        corpus: &'c Corpus,
        merged: &mut Merged,
    ) -> Result<Self, MergeError> {
        let text = match fs::read_to_string(&file) {
            Ok(text) => text,
            Err(error) if error.kind() == io::ErrorKind::NotFound => {
                if matches!(target, Target::New(_)) {
                    merged.new_herbs.push(id.to_owned());
                }
                return Ok(Self {
                    head: head(id, target),
                    corpus,
                    file,
                    blocks: Vec::new(),
                    tail: String::new(),
                    changed: false,
                });
            }
            Err(error) => return Err(MergeError::Io { file, error }),
        };
        let page = Self::cut(file, &text, corpus)?;
        if let Target::New(herb) = target {
            page.is_of(herb)?;
        }
        Ok(page)
    }

    /// Another merge may have given the id to another herb that sounds alike since this one looked.
    fn is_of(&self, herb: &NewHerb) -> Result<(), MergeError> {
        let tree = yaml::parse(&self.head).ok();
        let name = tree.and_then(|tree| Some(tree.at_pointer("/names/hant").text()?.to_owned()));
        match name {
            Some(name) if name != herb.hant => Err(MergeError::Form {
                file: self.file.clone(),
                line: 1,
                message: format!(
                    "the file is of {name}, and {} was to be put there; merge again",
                    herb.hant
                ),
            }),
            _ => Ok(()),
        }
    }

    /// Cuts a file at the lines on which its entries begin.
    fn cut(file: PathBuf, text: &str, corpus: &'c Corpus) -> Result<Self, MergeError> {
        let wrong = |line: usize, message: String| MergeError::Form {
            file: file.clone(),
            line,
            message,
        };
        let tree = yaml::parse(text)
            .map_err(|fault| wrong(fault.at.map_or(1, |at| at.line), fault.message))?;
        let list = tree.at_pointer("/entries");
        let Kind::List(items) = &list.kind else {
            return Err(wrong(list.at.line, "no list of entries".to_owned()));
        };
        let lines: Vec<&str> = text.split_inclusive('\n').collect();
        let starts: Vec<usize> = items.iter().map(|item| item.at.line).collect();
        let last = starts.last().copied().unwrap_or(list.at.line);
        let end = tree
            .keys()
            .map(|key| key.at.line)
            .filter(|line| *line > last)
            .min()
            .unwrap_or(lines.len() + 1);
        let join = |from: usize, to: usize| lines[from - 1..to - 1].concat();
        let mut blocks = Vec::new();
        for (place, item) in items.iter().enumerate() {
            let start = starts[place];
            let next = starts.get(place + 1).copied().unwrap_or(end);
            let own_line = lines[start - 1].trim_start().starts_with("- ");
            if !own_line || next <= start {
                return Err(wrong(
                    start,
                    "an entry that is no block of its own".to_owned(),
                ));
            }
            let entry = record(item).map_err(|message| wrong(start, message))?;
            blocks.push(Block {
                text: join(start, next),
                entry,
                line: start,
            });
        }
        let first = starts.first().copied().unwrap_or(end);
        Ok(Self {
            corpus,
            head: join(1, first),
            tail: lines[end - 1..].concat(),
            blocks,
            changed: false,
            file,
        })
    }

    /// Puts an entry in its place in the order of time.
    fn put(&mut self, entry: EntryRecord, merged: &mut Merged) {
        let same_place =
            |block: &Block| block.entry.work == entry.work && block.entry.at == entry.at;
        if let Some(block) = self.blocks.iter_mut().find(|block| same_place(block)) {
            if block.entry.sayings == entry.sayings {
                merged.same += 1;
            } else if block.entry.status == Status::Read {
                block.text = entry_yaml(&entry, 2);
                block.entry = entry;
                self.changed = true;
                merged.replaced += 1;
            } else {
                let heading = entry.at.map_or_else(String::new, |at| at.heading);
                merged.kept.push((self.file.clone(), block.line, heading));
            }
            return;
        }
        let key = |entry: &EntryRecord| {
            let ordinal = entry.at.as_ref().and_then(|at| at.ordinal);
            (self.corpus.work_rank(&entry.work), ordinal)
        };
        let new = key(&entry);
        let place = self
            .blocks
            .iter()
            .rposition(|block| key(&block.entry) <= new)
            .map_or(0, |before| before + 1);
        if let Some(last) = self.blocks.last_mut()
            && !last.text.ends_with('\n')
        {
            last.text.push('\n');
        }
        self.blocks.insert(
            place,
            Block {
                text: entry_yaml(&entry, 2),
                entry,
                line: 0,
            },
        );
        self.changed = true;
        merged.added += 1;
    }

    /// The whole text, read back once more before anybody relies on it.
    fn finish(self) -> Result<(PathBuf, String), MergeError> {
        let mut text = self.head;
        for block in &self.blocks {
            text.push_str(&block.text);
        }
        text.push_str(&self.tail);
        let tree = yaml::parse(&text).map_err(|fault| fault.message);
        let read = tree.and_then(|tree| {
            serde_json::from_value::<HerbRecord>(tree.to_json()).map_err(|error| error.to_string())
        });
        match read {
            Ok(_) => Ok((self.file, text)),
            Err(message) => Err(MergeError::Form {
                file: self.file,
                line: 1,
                message,
            }),
        }
    }
}

fn record(node: &Node) -> Result<EntryRecord, String> {
    serde_json::from_value(node.to_json()).map_err(|error| error.to_string())
}

/// The head of a first file of an herb.
fn head(id: &str, target: &Target) -> String {
    let mut head = format!("id: {id}\n");
    if let Target::New(herb) = target {
        head.push_str("names:\n");
        for (key, name) in [
            ("hant", &herb.hant),
            ("hans", &herb.hans),
            ("pinyin", &herb.pinyin),
        ] {
            head.push_str(&format!("  {key}: {}\n", scalar(name)));
        }
        if let Some(substance) = herb.substance {
            head.push_str(&format!("substance: {}\n", substance.id()));
        }
    }
    head.push_str("entries:\n");
    head
}
