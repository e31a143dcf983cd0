//! Writes a file that was asked for.

use std::fs;
use std::path::Path;

use super::outcome::{Attempt, Failure};
use crate::text::nearest;

/// Writes `bytes` to the file at `path`, over what was there.
pub(super) fn write(path: &Path, bytes: &[u8]) -> Attempt<()> {
    fs::write(path, bytes)
        .map_err(|error| Failure::new(format!("{} could not be written: {error}", path.display())))
}

/// The ending of the file at `path`, one of `known`.
pub(super) fn ending<'k>(path: &Path, known: &[&'k str]) -> Attempt<&'k str> {
    let ending = path.extension().and_then(|ending| ending.to_str());
    let ending = ending.unwrap_or_default().to_ascii_lowercase();
    if let Some(one) = known.iter().find(|one| **one == ending) {
        return Ok(one);
    }
    let failure = Failure::new(format!(
        "{} ends in {}; expected .{}",
        path.display(),
        if ending.is_empty() {
            "nothing that tells its kind".to_owned()
        } else {
            format!("`.{ending}`")
        },
        known.join(" or .")
    ));
    Err(match nearest(&ending, known.iter().copied()).first() {
        Some(near) => failure.with_hint(format!(
            "Did you mean {}?",
            path.with_extension(near).display()
        )),
        None => failure,
    })
}
