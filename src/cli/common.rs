//! What several commands do before they ask: load the corpus, find the herb, choose the works.

use std::path::{Path, PathBuf};

use etcetera::BaseStrategy;

use super::args::Scope;
use super::outcome::{Attempt, Failure};
use super::output::Output;
use crate::claim::Facet;
use crate::compare::Selection;
use crate::corpus::{Corpus, Herb};
use crate::index::Library;
use crate::report::ask;
use crate::text::{Converter, Script};

pub(super) use crate::report::ask::{period, question, shorten, work};

/// The shipped corpus, or the folder asked for, with what is kept of it in the cache.
pub(super) fn library(folder: Option<&Path>) -> Attempt<Library> {
    ask::library(folder, cache().as_deref())
}

/// The user's cache folder for this program; `None` where there is no home.
pub(super) fn cache() -> Option<PathBuf> {
    let base = etcetera::choose_base_strategy().ok()?;
    Some(base.cache_dir().join("kaoyi"))
}

/// The herb called `name`; what must be told beside it is noted.
pub(super) fn herb<'c>(corpus: &'c Corpus, name: &str, output: &Output) -> Attempt<&'c Herb> {
    let named = ask::herb(corpus, name)?;
    for note in &named.notes {
        output.note(note);
    }
    Ok(named.herb)
}

/// The facets asked for, in the order in which they are shown; all where none is named.
pub(super) fn facets(asked: &[Facet]) -> Vec<Facet> {
    let wanted = |facet: &Facet| asked.is_empty() || asked.contains(facet);
    Facet::ALL.into_iter().filter(wanted).collect()
}

/// The works and years asked for.
pub(super) fn selection(corpus: &Corpus, scope: &Scope) -> Attempt<Selection> {
    ask::selection(corpus, &scope.works, scope.since, scope.until)
}

/// The converter for the script asked for.
pub(super) fn converter(scope: &Scope) -> Attempt<Converter> {
    Ok(Converter::new(scope.script.unwrap_or(Script::Recorded))?)
}

/// The herbs called `names`; all that is wrong with them at once.
pub(super) fn all_herbs<'c>(
    corpus: &'c Corpus,
    names: &[String],
    output: &Output,
) -> Attempt<Vec<&'c Herb>> {
    let (mut herbs, mut faults) = (Vec::new(), Vec::new());
    for name in names {
        match herb(corpus, name, output) {
            Ok(herb) => herbs.push(herb),
            Err(failure) => faults.push(failure),
        }
    }
    if faults.len() < 2 {
        return faults.pop().map_or(Ok(herbs), Err);
    }
    let lines = faults
        .iter()
        .map(|one| format!("{} {}", one.message, one.candidates.join(" | ")));
    let lines = lines.map(|line| line.trim_end().to_owned()).collect();
    Err(Failure::new(format!("{} faults:", faults.len())).with_candidates(lines))
}
