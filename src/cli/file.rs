//! Writes a file that was asked for.

use std::fs::{self, OpenOptions};
use std::io::{self, BufWriter, Write};
use std::path::Path;

use super::outcome::{Attempt, Failure};
use crate::text::nearest;

/// Writes a file beside its place and puts it there when it is whole; over what was there. What is no plain file, such as
/// a pipe, is written to as it is.
pub(super) fn put<E>(
    path: &Path,
    write: impl FnOnce(&mut dyn Write) -> Result<(), E>,
) -> Attempt<()>
where
    Box<Failure>: From<E>,
{
    // A link stays a link: what it leads to is replaced.
    let path = &fs::canonicalize(path).unwrap_or_else(|_| path.to_owned());
    if fs::metadata(path).is_ok_and(|about| !about.is_file() && !about.is_dir()) {
        let mut open = OpenOptions::new()
            .write(true)
            .open(path)
            .map_err(|error| unwritten(path, &error))?;
        write(&mut open)?;
        return Ok(());
    }
    let folder = path
        .parent()
        .filter(|folder| !folder.as_os_str().is_empty());
    let folder = folder.unwrap_or_else(|| Path::new("."));
    let mut builder = tempfile::Builder::new();
    builder.prefix(".kaoyi-");
    readable(&mut builder);
    let beside = builder.tempfile_in(folder);
    let mut beside = beside.map_err(|error| unwritten(path, &error))?;
    let mut buffered = BufWriter::new(beside.as_file_mut());
    write(&mut buffered)?;
    buffered.flush().map_err(|error| unwritten(path, &error))?;
    drop(buffered);
    let synced = beside.as_file().sync_all();
    synced.map_err(|error| unwritten(path, &error))?;
    beside
        .persist(path)
        .map_err(|error| unwritten(path, &error.error))?;
    Ok(())
}

/// Writes `bytes` to a file.
pub(super) fn write(path: &Path, bytes: &[u8]) -> Attempt<()> {
    put(path, |file| {
        file.write_all(bytes)
            .map_err(|error| unwritten(path, &error))
    })
}

/// A temporary file is its owner's alone; what is written out has the rights of any new file.
#[cfg(unix)]
fn readable(builder: &mut tempfile::Builder<'_, '_>) {
    use std::os::unix::fs::PermissionsExt;
    builder.permissions(fs::Permissions::from_mode(0o666));
}

#[cfg(not(unix))]
fn readable(_: &mut tempfile::Builder<'_, '_>) {}

/// A file that could not be written.
pub(super) fn unwritten(path: &Path, error: &io::Error) -> Box<Failure> {
    Failure::new(format!("{} could not be written: {error}", path.display()))
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
