//! The corpus that is asked.

use std::path::Path;

use super::failure::{Attempt, Failure};
use crate::index::{Library, Opened};
use crate::report::view::FindingsView;

/// The shipped corpus, or the folder asked for, with what is kept of it in the cache.
pub(crate) fn library(folder: Option<&Path>, cache: Option<&Path>) -> Attempt<Library> {
    let Some(folder) = folder else {
        return Ok(Library::embedded(cache)?);
    };
    match Library::folder(folder, cache)? {
        Opened::Library(library) => Ok(*library),
        Opened::Faulty(loaded) => {
            let mut failure = Failure::new(format!(
                "the corpus in {} has faults; nothing was answered",
                folder.display()
            ))
            .with_hint(format!("All of them: kaoyi check {}", folder.display()));
            failure.findings = Some(FindingsView::new(&loaded)?);
            Err(failure)
        }
    }
}
