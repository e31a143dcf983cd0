//! The room: the corpus that is read in it, looked at anew when its files have changed.

use std::collections::HashMap;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, OnceLock, PoisonError, RwLock};
use std::time::Duration;

use super::kept::{Kept, Made};
use crate::corpus::Finding;
use crate::index::{Library, Words, WordsError, settled_stamp, stamp_of_folder};
use crate::report::ask::{self, Failure};
use crate::tasting::{Day, Notebook};
use crate::text::{Converter, Script, ScriptError};

/// How often a folder is looked at, at most.
const LOOK: Duration = Duration::from_secs(1);

/// What a room is opened with. The library asks neither clock nor environment: both come in here.
#[derive(Debug, Clone)]
pub struct Settings {
    /// A corpus folder beside or instead of the shipped corpus.
    pub corpus: Option<PathBuf>,
    /// The notebook's folder, where there is one.
    pub notebook: Option<PathBuf>,
    /// The folder of derived files.
    pub cache: Option<PathBuf>,
    /// Whether nothing may be written: wherever others than this machine can ask.
    pub read_only: bool,
    /// A secret that only the room's own pages know; their forms send it back.
    pub token: String,
    /// The time since some moment, which only goes forward.
    pub elapsed: fn() -> Duration,
    /// Today's date where the user is.
    pub today: fn() -> Option<Day>,
    /// The milliseconds since 1970, for the names of files that are written.
    pub now: fn() -> u64,
    /// A number that no two runs share, for the same.
    pub chance: fn() -> u64,
}

/// An open corpus with its index.
pub(crate) struct Shelf {
    pub library: Library,
    words: OnceLock<Words>,
    /// Whoever makes the index holds it, so that it is made once.
    making: Mutex<()>,
    sounds: OnceLock<HashMap<String, String>>,
}

impl Shelf {
    fn new(library: Library) -> Self {
        Self {
            library,
            words: OnceLock::new(),
            making: Mutex::new(()),
            sounds: OnceLock::new(),
        }
    }

    /// The index of words and names.
    pub(crate) fn words(&self) -> Result<&Words, WordsError> {
        if let Some(words) = self.words.get() {
            return Ok(words);
        }
        let _making = self.making.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(words) = self.words.get() {
            return Ok(words);
        }
        let words = self.library.words()?;
        Ok(self.words.get_or_init(|| words))
    }

    /// The pinyin of the names of herbs and works, by these names in traditional and simplified script. Names that several
    /// herbs bear have none.
    pub(crate) fn sounds(&self) -> &HashMap<String, String> {
        self.sounds.get_or_init(|| {
            let corpus = &self.library.corpus;
            let mut sounds = HashMap::new();
            for herb in corpus.names() {
                for name in [&herb.names.hant, &herb.names.hans] {
                    sounds.insert(name.clone(), herb.names.pinyin.clone());
                }
            }
            let hans = Converter::new(Script::Hans);
            for work in corpus.works() {
                if let Ok(hans) = &hans {
                    sounds.insert(
                        hans.convert_label(&work.hant).into_owned(),
                        work.pinyin.clone(),
                    );
                }
                sounds.insert(work.hant.clone(), work.pinyin.clone());
            }
            sounds
        })
    }
}

/// The corpus as it was found last.
#[derive(Clone)]
pub(crate) struct State {
    /// The last good one.
    pub shelf: Arc<Shelf>,
    /// What is wrong with the folder now.
    pub fault: Option<Arc<Failure>>,
    /// How often it was read anew or found to be faulty.
    turn: u64,
}

/// When the folder was looked at, and what it looked like.
#[derive(Debug)]
struct Look {
    at: Duration,
    stamp: Option<u64>,
}

/// Why a room could not be opened.
#[derive(Debug)]
pub struct OpenError(pub(crate) Box<Failure>);

impl std::fmt::Display for OpenError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&self.0.message)
    }
}

impl std::error::Error for OpenError {}

/// A reading room.
pub struct Room {
    pub(crate) settings: Settings,
    state: RwLock<State>,
    look: Mutex<Look>,
    scripts: [OnceLock<Converter>; 3],
    /// Answers that were given before.
    pub(crate) kept: Kept,
}

impl Room {
    /// Opens a room.
    ///
    /// # Errors
    /// When the corpus has faults, with all of them.
    ///
    /// ```
    /// use kaoyi::web::{Room, Settings};
    /// let settings = Settings {
    ///     corpus: None, notebook: None, cache: None, read_only: true, token: "told to nobody".to_owned(),
    ///     elapsed: || std::time::Duration::ZERO, today: || None, now: || 0, chance: || 0,
    /// };
    /// assert!(Room::open(settings).is_ok());
    /// ```
    pub fn open(settings: Settings) -> Result<Self, OpenError> {
        let stamp = settings.corpus.as_deref().and_then(stamp_of_folder);
        let library = ask::library(settings.corpus.as_deref(), settings.cache.as_deref());
        let shelf = Arc::new(Shelf::new(library.map_err(OpenError)?));
        let look = Look {
            at: (settings.elapsed)(),
            stamp,
        };
        Ok(Self {
            settings,
            state: RwLock::new(State {
                shelf,
                fault: None,
                turn: 0,
            }),
            kept: Kept::default(),
            look: Mutex::new(look),
            scripts: Default::default(),
        })
    }

    /// The corpus as it is now; whoever comes while it is read anew gets the one before.
    pub(crate) fn state(&self) -> State {
        if let Some(folder) = &self.settings.corpus
            && let Ok(mut look) = self.look.try_lock()
        {
            self.look_again(folder, &mut look);
        }
        let state = self.state.read().unwrap_or_else(PoisonError::into_inner);
        state.clone()
    }

    fn look_again(&self, folder: &Path, look: &mut Look) {
        let now = (self.settings.elapsed)();
        if now < look.at + LOOK {
            return;
        }
        let stamp = stamp_of_folder(folder);
        look.at = now;
        if stamp.is_some() && stamp == look.stamp {
            return;
        }
        look.stamp = stamp;
        let read = if folder.is_dir() {
            ask::library(Some(folder), self.settings.cache.as_deref())
        } else {
            let gone = format!("the corpus folder {} is gone", folder.display());
            Err(Failure::new(gone))
        };
        let mut state = self.state.write().unwrap_or_else(PoisonError::into_inner);
        state.turn += 1;
        match read {
            Ok(library) => {
                state.shelf = Arc::new(Shelf::new(library));
                state.fault = None;
            }
            Err(fault) => state.fault = Some(Arc::from(fault)),
        }
    }

    /// What an answer is made from now; `None` where the notebook was written to a moment ago, so that its files do not tell yet
    /// whether they are the same.
    pub(crate) fn made(&self, state: &State) -> Option<Made> {
        let notebook = match self.settings.notebook.as_deref() {
            Some(folder) => Some(settled_stamp(folder)?),
            None => None,
        };
        Some(Made {
            corpus: state.turn,
            notebook,
        })
    }

    /// The notebook as it is now, with what is wrong in it; `None` where there is none. What was read before is kept by the
    /// times of its files.
    pub(crate) fn notebook(&self, shelf: &Shelf) -> Option<(Notebook, Vec<Finding>)> {
        let folder = self.settings.notebook.as_deref()?;
        let cache = self.settings.cache.as_deref();
        folder
            .is_dir()
            .then(|| Notebook::open_with(folder, &shelf.library.corpus, cache))
    }

    /// The converter to a script, made once.
    pub(crate) fn script(&self, script: Script) -> Result<&Converter, ScriptError> {
        let place = match script {
            Script::Recorded => 0,
            Script::Hant => 1,
            Script::Hans => 2,
        };
        let slot = &self.scripts[place];
        if let Some(converter) = slot.get() {
            return Ok(converter);
        }
        let converter = Converter::new(script)?;
        Ok(slot.get_or_init(|| converter))
    }
}
