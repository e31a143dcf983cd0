//! The user's notebook of tastings, for the commands that show it beside the books.

use std::path::{Path, PathBuf};

use clap::Args;
use etcetera::BaseStrategy;

use super::common;
use super::outcome::{Attempt, Failure};
use super::output::Output;
use crate::corpus::{Corpus, Finding, Herb};
use crate::report::ask;
use crate::tasting::{Notebook, Own, Tasting};

/// The variable that names the notebook where no flag does.
const VARIABLE: &str = "KAOYI_NOTEBOOK";

/// Which tastings are shown beside the books.
#[derive(Debug, Args)]
pub(super) struct OwnArguments {
    /// The notebook's folder; default: the variable KAOYI_NOTEBOOK, else the user's data folder
    #[arg(long, value_name = "DIR")]
    pub notebook: Option<PathBuf>,
    /// Only tastings by this taster
    #[arg(long, value_name = "NAME")]
    pub taster: Option<String>,
}

/// A notebook with what is wrong in it.
pub(super) struct Opened {
    pub notebook: Notebook,
    pub findings: Vec<Finding>,
}

/// The notebook's folder: the one named, else the variable's, else a folder in the user's data folder.
pub(super) fn folder(named: Option<&Path>) -> Attempt<PathBuf> {
    let named = named.map(Path::to_path_buf);
    let named = named.or_else(|| std::env::var_os(VARIABLE).map(PathBuf::from));
    if let Some(named) = named.filter(|path| !path.as_os_str().is_empty()) {
        return Ok(named);
    }
    let base = etcetera::choose_base_strategy().map_err(|_| {
        Failure::new("no home folder is known, and so no place for a notebook").with_hint(format!(
            "Name one with --notebook DIR, or with the variable {VARIABLE}."
        ))
    })?;
    Ok(base.data_dir().join("kaoyi").join("notebook"))
}

/// Opens the notebook.
pub(super) fn open(corpus: &Corpus, arguments: &OwnArguments) -> Attempt<Opened> {
    let folder = folder(arguments.notebook.as_deref())?;
    let cache = common::cache();
    let (notebook, findings) = Notebook::open_with(&folder, corpus, cache.as_deref());
    Ok(Opened { notebook, findings })
}

/// The own tastings of an herb, where there is a notebook. One that was not named and cannot be had is none.
pub(super) fn beside(
    corpus: &Corpus,
    herb: &Herb,
    arguments: &OwnArguments,
    output: &Output,
) -> Attempt<Option<Own>> {
    let folder = match folder(arguments.notebook.as_deref()) {
        Ok(folder) if folder.is_dir() => folder,
        Ok(folder) if arguments.notebook.is_some() => {
            return Err(Failure::new(format!(
                "there is no notebook in {}",
                folder.display()
            )));
        }
        _ => return Ok(None),
    };
    let cache = common::cache();
    let (notebook, findings) = Notebook::open_with(&folder, corpus, cache.as_deref());
    let opened = Opened { notebook, findings };
    let tastings = opened.of(herb, arguments.taster.as_deref());
    if !tastings.is_empty() {
        opened.tell_faults(output);
    }
    Ok(Own::new(corpus, &tastings))
}

impl Opened {
    /// The tastings of an herb, of all tasters or of one.
    pub fn of(&self, herb: &Herb, taster: Option<&str>) -> Vec<&Tasting> {
        ask::of_herb(&self.notebook, herb, taster)
    }

    /// Tells in a line that something in the notebook was not used.
    pub fn tell_faults(&self, output: &Output) {
        if !self.findings.is_empty() {
            output.note(&format!(
                "{} fault(s) in {}: what is at fault was not used; see kaoyi taste list.",
                self.findings.len(),
                self.notebook.folder().display()
            ));
        }
    }
}
