//! The files of a merge: one merge at a time in a folder, all new texts written beside before the first is put in its place.

use std::fs::{self, File};
use std::io::{self, Write as _};
use std::path::{Path, PathBuf};

use tempfile::TempPath;

use super::merge::MergeError;

/// The beginning of the name of a file that is not in its place yet.
const BESIDE: &str = ".kaoyi-";

/// The folder of herbs, held so that no other merge reads what this one is about to change. The system lets go of it when the
/// program ends, however it ends.
pub(super) struct Held {
    herbs: PathBuf,
    /// Some systems and disks cannot hold a folder; there the last merge counts.
    _lock: Option<File>,
}

impl Held {
    /// Makes the folder where it is not there, waits until no other merge holds it, and removes what a merge that was killed
    /// left behind.
    pub fn new(herbs: &Path) -> Result<Self, MergeError> {
        fs::create_dir_all(herbs).map_err(failed(herbs))?;
        let lock = File::open(herbs).ok();
        let lock = lock.filter(|folder| folder.lock().is_ok());
        if lock.is_some() {
            for one in fs::read_dir(herbs).map_err(failed(herbs))?.flatten() {
                if one.file_name().to_string_lossy().starts_with(BESIDE) {
                    // It is hidden and read by nobody; that it cannot be removed is no fault of this merge.
                    let _ = fs::remove_file(one.path());
                }
            }
        }
        Ok(Self {
            herbs: herbs.to_owned(),
            _lock: lock,
        })
    }

    /// Writes every text beside its place, then puts all in their places. A full disk is met before anything is changed.
    ///
    /// # Errors
    /// When a file cannot be written or put in its place.
    pub fn write(&self, texts: &[(PathBuf, String)]) -> Result<(), MergeError> {
        let mut beside: Vec<(TempPath, &Path)> = Vec::with_capacity(texts.len());
        for (file, text) in texts {
            let written = self.written(text).map_err(failed(file))?;
            beside.push((written, file));
        }
        let of = beside.len();
        for (written, (text, file)) in beside.into_iter().enumerate() {
            text.persist(file).map_err(|error| MergeError::Partly {
                file: file.to_owned(),
                error: error.error,
                written,
                of,
            })?;
        }
        if let Ok(folder) = File::open(&self.herbs) {
            // Makes the renaming last where a folder can be synced; the texts are.
            let _ = folder.sync_all();
        }
        Ok(())
    }

    /// A text in a file of its own, closed again: a merge may be of thousands.
    fn written(&self, text: &str) -> io::Result<TempPath> {
        let mut builder = tempfile::Builder::new();
        builder.prefix(BESIDE);
        shared(&mut builder);
        let mut beside = builder.tempfile_in(&self.herbs)?;
        beside.write_all(text.as_bytes())?;
        beside.as_file().sync_all()?;
        Ok(beside.into_temp_path())
    }
}

/// Temporary files are the user's alone; a corpus may be shared, as the user's other files are.
#[cfg(unix)]
fn shared(builder: &mut tempfile::Builder<'_, '_>) {
    use std::os::unix::fs::PermissionsExt;
    builder.permissions(fs::Permissions::from_mode(0o666));
}

#[cfg(not(unix))]
fn shared(_: &mut tempfile::Builder<'_, '_>) {}

fn failed(file: &Path) -> impl FnOnce(io::Error) -> MergeError {
    let file = file.to_owned();
    move |error| MergeError::Io { file, error }
}
