//! The place of a corpus in the user's cache folder.

use std::fs;
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use std::time::{Duration, SystemTime};

/// A folder in which the derived files of one corpus lie.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Shelf {
    folder: PathBuf,
    key: u64,
}

/// The beginnings of the names of what is not in its place yet.
const FILE_BESIDE: &str = ".tmp";
const FOLDER_BESIDE: &str = "beside-";

/// What was not put in its place in this time never will be: who wrote it was killed.
const LEFT: Duration = Duration::from_secs(60 * 60);

/// What nobody asked for in this time is removed.
const FORGOTTEN: Duration = Duration::from_secs(60 * 24 * 60 * 60);

impl Shelf {
    /// The shelf called `name` below the cache folder `cache`, for content of one key.
    #[must_use]
    pub fn new(cache: &Path, name: &str, key: u64) -> Self {
        Self {
            folder: cache.join(name),
            key,
        }
    }

    /// The key of the content.
    #[must_use]
    pub const fn key(&self) -> u64 {
        self.key
    }

    /// The path of a derived file.
    #[must_use]
    pub fn path(&self, file: &str) -> PathBuf {
        self.folder.join(file)
    }

    /// Writes a derived file: beside its place, then renamed into it, so that nobody reads half of it.
    ///
    /// # Errors
    /// When the folder cannot be written to; nothing is left behind.
    pub fn put(
        &self,
        file: &str,
        write: impl FnOnce(&mut dyn Write) -> io::Result<()>,
    ) -> io::Result<()> {
        self.make()?;
        self.sweep();
        let mut beside = tempfile::Builder::new()
            .prefix(FILE_BESIDE)
            .tempfile_in(&self.folder)?;
        {
            let mut buffered = io::BufWriter::new(beside.as_file_mut());
            write(&mut buffered)?;
            buffered.flush()?;
        }
        beside.as_file().sync_all()?;
        beside.persist(self.path(file))?;
        Ok(())
    }

    /// Makes a derived folder: beside its place, then renamed into it. One that another process put there meanwhile stays; one
    /// that is damaged is replaced, and so are those of other keys, whose names begin with `family`.
    ///
    /// # Errors
    /// When the shelf cannot be written to; nothing is left behind.
    pub fn put_folder(
        &self,
        name: &str,
        family: &str,
        make: impl FnOnce(&Path) -> io::Result<()>,
    ) -> io::Result<()> {
        self.make()?;
        self.sweep();
        let beside = tempfile::Builder::new()
            .prefix(FOLDER_BESIDE)
            .tempdir_in(&self.folder)?;
        make(beside.path())?;
        for old in fs::read_dir(&self.folder)?.flatten() {
            if old.file_name().to_string_lossy().starts_with(family) {
                // Whoever reads it has it open, and makes it anew if it is gone.
                let _ = fs::remove_dir_all(old.path());
            }
        }
        // Renaming fails where another process was faster; what it put there is as good.
        let place = self.path(name);
        let renamed = fs::rename(beside.path(), &place);
        match renamed {
            Ok(()) => {
                let _ = beside.keep();
                Ok(())
            }
            Err(_) if place.is_dir() => Ok(()),
            Err(error) => Err(error),
        }
    }

    /// Removes what runs that were killed left beside its place.
    fn sweep(&self) {
        for one in fs::read_dir(&self.folder).into_iter().flatten().flatten() {
            let name = one.file_name();
            let name = name.to_string_lossy();
            let file = name.starts_with(FILE_BESIDE);
            let written = one.metadata().and_then(|about| about.modified());
            // A time that lies ahead is no age.
            let age = written
                .ok()
                .and_then(|written| SystemTime::now().duration_since(written).ok());
            if (file || name.starts_with(FOLDER_BESIDE)) && age.is_some_and(|age| age > LEFT) {
                let _ = match file {
                    true => fs::remove_file(one.path()),
                    false => fs::remove_dir_all(one.path()),
                };
            }
        }
    }

    /// Makes the folder, if it is not there, and then removes shelves that were forgotten.
    fn make(&self) -> io::Result<()> {
        if self.folder.is_dir() {
            return Ok(());
        }
        fs::create_dir_all(&self.folder)?;
        if let Some(cache) = self.folder.parent() {
            for shelf in fs::read_dir(cache)?.flatten() {
                let about = shelf.metadata()?;
                let written = about.modified()?;
                let age = SystemTime::now()
                    .duration_since(written)
                    .unwrap_or_default();
                if about.is_dir() && age > FORGOTTEN {
                    // Whoever still uses it makes it anew; that it cannot be removed is no fault of this command.
                    let _ = fs::remove_dir_all(shelf.path());
                }
            }
        }
        Ok(())
    }
}
