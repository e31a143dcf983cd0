//! Loading a folder: read, check, and put together, with all faults in one run.

use std::path::Path;
use std::sync::Arc;
use std::thread;

use super::assemble::{AssembleError, Records, assemble_with};
use super::check::trees::Trees;
use super::check::{self, Context};
use super::code::Code;
use super::embedded;
use super::finding::Finding;
use super::headings::HeadingFile;
use super::model::Origin;
use super::record::{HerbRecord, WorkRecord};
use super::shape::{Placed, Shape, finding};
use super::source::{Folder, Source, read_folder, whole_file};
use super::store::Corpus;
use super::yaml;
use crate::claim::{CautionFile, MeasureFile, PairingFile, PhraseFile, SchemeFile, Thresholds};

/// So many findings of one file are reported; mending them shows the rest.
const FINDINGS_A_FILE: usize = 200;

/// What came of loading a folder.
#[derive(Debug)]
pub struct Loaded {
    /// The corpus; `None` when there are findings.
    pub corpus: Option<Corpus>,
    /// All faults, in the order of file and place.
    pub findings: Vec<Finding>,
    /// How many files were read.
    pub files: usize,
    /// Whether there was anything to check: false when the folder is not there or holds no record.
    pub ran: bool,
}

/// Loads the folder `root`. One that holds a folder `vocabulary/` stands alone; another is added to
/// the shipped corpus, its records marked as the user's.
///
/// # Errors
/// When the shipped corpus itself is faulty.
///
/// ```
/// let loaded = kaoyi::corpus::load_folder(std::path::Path::new("no such folder")).unwrap();
/// assert!(loaded.corpus.is_none());
/// assert_eq!(loaded.findings[0].code, kaoyi::corpus::Code::Unreadable);
/// ```
pub fn load_folder(root: &Path) -> Result<Loaded, AssembleError> {
    let mut findings = Vec::new();
    let sources = read_folder(root, &mut findings);
    // A vocabulary folder that cannot be read is a fault, not an addition.
    let alone = root.join("vocabulary").is_dir();
    let base = if alone {
        Records::default()
    } else {
        embedded::records()?
    };
    load(root, sources, base, Origin::User, findings)
}

/// Checks the corpus that the program carries.
///
/// # Errors
/// When records that pass every check do not fit together.
pub fn check_embedded() -> Result<Loaded, AssembleError> {
    let sources = embedded::sources()?;
    load(
        Path::new("corpus"),
        sources,
        Records::default(),
        Origin::Shipped,
        Vec::new(),
    )
}

fn load(
    root: &Path,
    sources: Vec<Source>,
    mut records: Records,
    origin: Origin,
    mut findings: Vec<Finding>,
) -> Result<Loaded, AssembleError> {
    let files = sources.len();
    read_records(&sources, origin, &mut records, &mut findings);
    check::pairing::check(&sources, &records, &mut findings);
    let vocabulary = match records.take_vocabulary() {
        Ok(vocabulary) => Some(Arc::new(vocabulary)),
        Err(error) => {
            // With faulty vocabulary files the missing part is a consequence, not a fault of its own.
            if findings.is_empty() {
                let expected = "all vocabulary files, or no vocabulary/ folder";
                findings.push(whole_file(
                    Code::Vocabulary,
                    root,
                    &error.to_string(),
                    expected,
                ));
            }
            None
        }
    };
    let mut corpus = None;
    if let Some(vocabulary) = vocabulary {
        let trees = Trees::default();
        let context = Context::new(&sources, &vocabulary, &records, &trees);
        check::run(&context, &mut findings);
        // The texts have told all that they can tell.
        drop(sources);
        if findings.is_empty() {
            corpus = Some(assemble_with(vocabulary, records)?);
        }
    }
    let nothing = |one: &Finding| matches!(one.code, Code::Unreadable | Code::Empty);
    let ran = files > 0 || !findings.iter().all(nothing);
    findings.sort_by(|a, b| {
        (&a.file, a.line, a.column, a.code).cmp(&(&b.file, b.line, b.column, b.code))
    });
    findings.dedup();
    cap(&mut findings);
    Ok(Loaded {
        corpus,
        findings,
        files,
        ran,
    })
}

/// Keeps the first findings of each file: a file that is faulty through and through is mended from its
/// head, and a hostile one must not fill the memory.
fn cap(findings: &mut Vec<Finding>) {
    let (mut file, mut count) = (String::new(), 0);
    findings.retain(|one| {
        if one.file != file {
            file.clone_from(&one.file);
            count = 0;
        }
        count += 1;
        count <= FINDINGS_A_FILE
    });
}

fn read_records(
    sources: &[Source],
    origin: Origin,
    records: &mut Records,
    findings: &mut Vec<Finding>,
) {
    let (works, schemes) = (Shape::of::<WorkRecord>(), Shape::of::<SchemeFile>());
    for (place, source) in sources.iter().enumerate() {
        if source.folder == Folder::Herbs {
            continue;
        }
        let Some(node) = tree(source, findings) else {
            continue;
        };
        match (source.folder, source.stem.as_str()) {
            (Folder::Works, _) => {
                if let Some(record) = works.read(source, &node, findings) {
                    records.works.push((placed(record, place), origin));
                }
            }
            (Folder::Vocabulary, stem) => {
                read_vocabulary(stem, (place, source), &node, &schemes, records, findings);
            }
            (Folder::Herbs | Folder::Alone, _) => {}
        }
    }
    for (read, found) in read_herbs(sources) {
        let read = read.into_iter().map(|herb| (herb, origin));
        records.herbs.extend(read);
        findings.extend(found);
    }
}

/// So many files of herbs are read before another thread is worth its start.
const A_THREAD: usize = 50;

/// The records of herbs and what is wrong with them, part by part in the order of the sources. No file asks for another, so
/// that they are read on all processors.
fn read_herbs(sources: &[Source]) -> Vec<(Vec<Placed<HerbRecord>>, Vec<Finding>)> {
    let shape = Shape::of::<HerbRecord>();
    let read = |first: usize, sources: &[Source]| {
        let (mut herbs, mut findings) = (Vec::new(), Vec::new());
        for (place, source) in sources.iter().enumerate() {
            if source.folder == Folder::Herbs
                && let Some(node) = tree(source, &mut findings)
                && let Some(record) = shape.read(source, &node, &mut findings)
            {
                herbs.push(placed(record, first + place));
            }
        }
        (herbs, findings)
    };
    let threads = thread::available_parallelism().map_or(1, usize::from);
    let share = sources.len().div_ceil(threads).max(A_THREAD);
    thread::scope(|scope| {
        let mut parts = Vec::new();
        for (number, part) in sources.chunks(share).enumerate() {
            let read = &read;
            parts.push((
                number * share,
                part,
                scope.spawn(move || read(number * share, part)),
            ));
        }
        // A thread that fell is no reason to leave its part out: it is read here.
        let joined = parts.into_iter();
        joined
            .map(|(first, part, thread)| thread.join().unwrap_or_else(|_| read(first, part)))
            .collect()
    })
}

/// Reads one file of the vocabulary. Of schemes there are many, of every other kind one.
fn read_vocabulary(
    stem: &str,
    (place, source): (usize, &Source),
    node: &yaml::Node,
    schemes: &Shape,
    records: &mut Records,
    findings: &mut Vec<Finding>,
) {
    match stem {
        "cautions" => {
            records.cautions = Shape::of::<CautionFile>().read(source, node, findings);
        }
        "thresholds" => {
            records.thresholds = Shape::of::<Thresholds>().read(source, node, findings);
        }
        "headings" => {
            records.headings = Shape::of::<HeadingFile>().read(source, node, findings);
        }
        "measures" => {
            records.measures = Shape::of::<MeasureFile>().read(source, node, findings);
            if let Some(file) = &records.measures {
                check::measures::check(source, node, file, findings);
            }
        }
        "pairing" => {
            let record = Shape::of::<PairingFile>().read(source, node, findings);
            records.pairing = record.map(|record| placed(record, place));
        }
        "phrases" => {
            records.phrases = Shape::of::<PhraseFile>().read(source, node, findings);
            if let Some(file) = &records.phrases {
                check::phrases::check(source, node, file, findings);
            }
        }
        _ => {
            if let Some(file) = schemes.read::<SchemeFile>(source, node, findings) {
                check::vocabulary::check(source, node, &file, findings);
                records.schemes.push(file);
            }
        }
    }
}

const fn placed<T>(record: T, place: usize) -> Placed<T> {
    Placed {
        record,
        origin: Some(place),
    }
}

/// The tree of a file; faults of its YAML go to `findings`.
pub(super) fn tree(source: &Source, findings: &mut Vec<Finding>) -> Option<yaml::Node> {
    match yaml::parse(&source.text) {
        Ok(node) => {
            node.duplicate_keys(&mut |key| {
                let found = format!("`{}` a second time", key.text().unwrap_or_default());
                findings.push(finding(
                    source,
                    Code::DuplicateKey,
                    key.at,
                    found,
                    "each key once",
                ));
            });
            Some(node)
        }
        Err(fault) => {
            let at = fault.at.unwrap_or(yaml::At {
                line: 1,
                column: 1,
                width: 1,
            });
            let (code, expected) = if fault.beyond_limits {
                (Code::Budget, "a small record without anchors and aliases")
            } else {
                (Code::Syntax, "well-formed YAML, one document a file")
            };
            findings.push(finding(source, code, at, fault.message, expected));
            None
        }
    }
}
