//! The tastings of several files: tables of classes, notebooks, single records.

use std::collections::BTreeMap;
use std::fs::File;
use std::io::Read as _;
use std::path::{Path, PathBuf};

use super::table::read_table;
use super::{Notebook, PassedOver, Tasting, read_tasting, table_faults};
use crate::corpus::{Code, Corpus, FILE_LIMIT, Finding, HerbId, Lookup, read_text};

/// What was read from files.
#[derive(Debug, Default)]
pub struct Gathered {
    /// How many files were read.
    pub files: usize,
    /// The tastings that could be used, in the order of the files.
    pub tastings: Vec<Tasting>,
    /// What is wrong, file by file.
    pub findings: Vec<Finding>,
    /// Rows and records left out for a fault.
    pub left_out: usize,
    /// Rows in which nothing is scored.
    pub unfilled: usize,
    /// Files of notebook folders that were passed over, with the reason.
    pub passed_over: Vec<PassedOver>,
}

/// Reads tables, single records (`.yaml`) and whole notebook folders; what was read of a folder is kept in `cache`, if there
/// is one. A path that is given twice counts once.
///
/// ```
/// let corpus = kaoyi::corpus::embedded().unwrap();
/// let class = std::path::PathBuf::from("docs/examples/class/scores.csv");
/// let gathered = kaoyi::tasting::gather(&corpus, &[class.clone(), class], None);
/// assert_eq!((gathered.files, gathered.tastings.len(), gathered.findings.len()), (1, 48, 0));
/// ```
#[must_use]
pub fn gather(corpus: &Corpus, paths: &[PathBuf], cache: Option<&Path>) -> Gathered {
    let mut gathered = Gathered::default();
    for (place, path) in paths.iter().enumerate() {
        if paths[..place].contains(path) {
            continue;
        }
        let record = path
            .extension()
            .is_some_and(|ending| ending.eq_ignore_ascii_case("yaml"));
        if path.is_dir() {
            read_notebook(corpus, path, cache, &mut gathered);
        } else if record {
            read_record(corpus, path, &mut gathered);
        } else {
            read_table_file(corpus, path, &mut gathered);
        }
    }
    gathered
}

impl Gathered {
    /// What a table holds that is in memory; it is called `name` where a fault is told.
    ///
    /// ```
    /// let corpus = kaoyi::corpus::embedded().unwrap();
    /// let table = b"herb,taster,date,acrid\nbohe,A,2026-03-14,6.5\n";
    /// let gathered = kaoyi::tasting::Gathered::of_table(&corpus, "class.csv", table);
    /// assert_eq!((gathered.files, gathered.tastings.len()), (1, 1));
    /// ```
    #[must_use]
    pub fn of_table(corpus: &Corpus, name: &str, bytes: &[u8]) -> Self {
        let mut gathered = Self::default();
        gathered.take_table(corpus, name, bytes);
        gathered
    }

    fn take_table(&mut self, corpus: &Corpus, name: &str, bytes: &[u8]) {
        let table = read_table(corpus, name, bytes);
        self.files += 1;
        self.tastings.extend(table.tastings);
        self.findings.extend(table.findings);
        self.left_out += table.left_out;
        self.unfilled += table.unfilled;
    }
}

fn read_notebook(corpus: &Corpus, path: &Path, cache: Option<&Path>, gathered: &mut Gathered) {
    let (notebook, findings) = Notebook::open_with(path, corpus, cache);
    gathered.files += notebook.files();
    gathered.left_out += notebook.files() - notebook.all().len();
    let tastings = notebook.all().iter().map(|one| one.tasting.clone());
    gathered.tastings.extend(tastings);
    gathered.findings.extend(findings);
    gathered
        .passed_over
        .extend_from_slice(notebook.passed_over());
}

fn read_record(corpus: &Corpus, path: &Path, gathered: &mut Gathered) {
    let name = path.display().to_string();
    let read = read_text(path).map_err(|finding| vec![*finding]);
    match read.and_then(|text| read_tasting(&name, &text, &corpus.vocabulary)) {
        Ok(tasting) => gathered.tastings.push(tasting),
        Err(findings) => {
            gathered.findings.extend(findings);
            gathered.left_out += 1;
        }
    }
    gathered.files += 1;
}

fn read_table_file(corpus: &Corpus, path: &Path, gathered: &mut Gathered) {
    let shown = path.display().to_string();
    match bytes(path) {
        Ok(bytes) => gathered.take_table(corpus, &shown, &bytes),
        Err(finding) => gathered.findings.push(*finding),
    }
}

fn bytes(path: &Path) -> Result<Vec<u8>, Box<Finding>> {
    let shown = path.display().to_string();
    let unreadable = |error: std::io::Error| {
        Box::new(table_faults::whole(
            &shown,
            Code::Unreadable,
            &error.to_string(),
            "a table or a notebook folder that can be read",
        ))
    };
    let file = File::open(path).map_err(unreadable)?;
    let mut bytes = Vec::new();
    file.take(FILE_LIMIT + 1)
        .read_to_end(&mut bytes)
        .map_err(unreadable)?;
    if bytes.len() as u64 > FILE_LIMIT {
        let found = format!("more than {} KiB", FILE_LIMIT / 1024);
        let expected = format!("at most {} KiB", FILE_LIMIT / 1024);
        let fault = table_faults::whole(&shown, Code::TooLarge, &found, &expected);
        return Err(Box::new(fault));
    }
    Ok(bytes)
}

/// Tastings by the herbs of the corpus, and the names that no herb bears, or several do.
#[derive(Debug, Default)]
pub struct ByHerb<'t> {
    /// The tastings of each herb.
    pub known: BTreeMap<HerbId, Vec<&'t Tasting>>,
    /// The tastings under each other name.
    pub unknown: BTreeMap<&'t str, usize>,
}

/// Sorts tastings by herb.
#[must_use]
pub fn by_herb<'t>(corpus: &Corpus, tastings: &'t [Tasting]) -> ByHerb<'t> {
    let mut sorted = ByHerb::default();
    for tasting in tastings {
        match corpus.find_herb(&tasting.herb) {
            Lookup::One(herb) => sorted.known.entry(herb).or_default().push(tasting),
            _ => *sorted.unknown.entry(&tasting.herb).or_default() += 1,
        }
    }
    sorted
}
