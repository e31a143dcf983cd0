//! Writing into a notebook: every file is written beside, synced and then renamed, never over another's, and the folder is
//! synced after it. Nothing is deleted.

use std::fmt;
use std::fs::{self, File};
use std::io::{self, Write as _};
use std::path::{Path, PathBuf};

use tempfile::NamedTempFile;

use super::folder::{UNDONE, UNFINISHED};
use super::names;
use super::record::Tasting;
use super::write::tasting_yaml;

/// So many names are tried before it is said that none is free.
const TRIES: usize = 16;

/// Why nothing was written.
#[derive(Debug)]
pub struct KeepError {
    /// The file or folder.
    pub file: PathBuf,
    /// What happened.
    pub error: io::Error,
}

impl fmt::Display for KeepError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "{}: {}; nothing was changed",
            self.file.display(),
            self.error
        )
    }
}

impl std::error::Error for KeepError {}

fn failed(file: &Path) -> impl FnOnce(io::Error) -> KeepError {
    let file = file.to_owned();
    move |error| KeepError { file, error }
}

/// Writes a tasting of the herb whose id is `herb` into the notebook `folder`, which is made where it is not there, and
/// gives its id. `now` is the time in milliseconds of the clock that began in 1970 and `seed` anything that two runs do not
/// share: both go into the name, so that no two programs give one.
///
/// # Errors
/// When the folder cannot be written to; then no file is left behind.
///
/// ```
/// use kaoyi::tasting::{Notebook, add};
/// let folder = tempfile::tempdir().unwrap();
/// let tasting = serde_json::from_str(r#"{"herb": "bohe", "date": "2026-03-14"}"#).unwrap();
/// let id = add(folder.path(), &tasting, "bohe", 1_773_480_000_000, 7).unwrap();
/// let (notebook, _) = Notebook::open(folder.path());
/// assert_eq!(notebook.last_added().unwrap().id, id);
/// ```
pub fn add(
    folder: &Path,
    tasting: &Tasting,
    herb: &str,
    now: u64,
    seed: u64,
) -> Result<String, KeepError> {
    fs::create_dir_all(folder).map_err(failed(folder))?;
    let mut beside = written_beside(folder, &tasting_yaml(tasting))?;
    let mut random = fastrand::Rng::with_seed(seed);
    for _ in 0..TRIES {
        let id = names::name(tasting.date, herb, now, &mut random);
        let path = folder.join(format!("{id}.yaml"));
        match beside.persist_noclobber(&path) {
            Ok(_) => {
                sync(folder);
                return Ok(id);
            }
            Err(error) if error.error.kind() == io::ErrorKind::AlreadyExists => {
                beside = error.file;
            }
            Err(error) => return Err(failed(&path)(error.error)),
        }
    }
    let error = io::Error::new(io::ErrorKind::AlreadyExists, "no name is free");
    Err(failed(folder)(error))
}

/// Puts `text` in the place of the file at `path`.
///
/// # Errors
/// When it cannot be written; then the file is as it was.
pub fn replace(path: &Path, text: &str) -> Result<(), KeepError> {
    let folder = path.parent().unwrap_or(Path::new("."));
    let beside = written_beside(folder, text)?;
    beside
        .persist(path)
        .map_err(|error| failed(path)(error.error))?;
    sync(folder);
    Ok(())
}

/// Moves the file called `id` into the folder `undone` of the notebook, and gives its new path. To bring it back, move it
/// back.
///
/// # Errors
/// When it cannot be moved, or a file of its name is there.
pub fn undo(folder: &Path, id: &str) -> Result<PathBuf, KeepError> {
    let undone = folder.join(UNDONE);
    fs::create_dir_all(&undone).map_err(failed(&undone))?;
    let name = format!("{id}.yaml");
    let (from, to) = (folder.join(&name), undone.join(&name));
    if to.exists() {
        let error = io::Error::new(io::ErrorKind::AlreadyExists, "a file of this name is there");
        return Err(failed(&to)(error));
    }
    fs::rename(&from, &to).map_err(failed(&from))?;
    sync(&undone);
    sync(folder);
    Ok(to)
}

/// A file beside its place, written and synced. Where that fails it is removed again.
fn written_beside(folder: &Path, text: &str) -> Result<NamedTempFile, KeepError> {
    let mut builder = tempfile::Builder::new();
    builder.prefix(UNFINISHED).suffix(".tmp");
    shared(&mut builder);
    let mut beside = builder.tempfile_in(folder).map_err(failed(folder))?;
    beside.write_all(text.as_bytes()).map_err(failed(folder))?;
    beside.as_file().sync_all().map_err(failed(folder))?;
    Ok(beside)
}

/// Temporary files are the user's alone; a notebook may be shared, as the user's other files are.
#[cfg(unix)]
fn shared(builder: &mut tempfile::Builder<'_, '_>) {
    use std::os::unix::fs::PermissionsExt;
    builder.permissions(fs::Permissions::from_mode(0o666));
}

#[cfg(not(unix))]
fn shared(_: &mut tempfile::Builder<'_, '_>) {}

/// Makes a renaming last. Systems on which a folder cannot be opened do so themselves; where one cannot be synced, as on some
/// disks of other machines, the file is in its place and whole all the same, and saying that nothing was changed would be wrong.
fn sync(folder: &Path) {
    if cfg!(unix)
        && let Ok(opened) = File::open(folder)
    {
        let _ = opened.sync_all();
    }
}
