//! The binary in an empty environment, with a fixed width and no colour.

use std::path::{Path, PathBuf};
use std::process::{Command, Output};

/// What a run printed and how it ended, together, so that a snapshot holds all three.
pub fn kaoyi(arguments: &[&str]) -> Run {
    let output = Command::new(env!("CARGO_BIN_EXE_kaoyi"))
        .args(arguments)
        .env_clear()
        .env("XDG_CACHE_HOME", cache())
        .env("KAOYI_NOTEBOOK", cache().join("no-notebook"))
        .output()
        .unwrap();
    Run::from(output)
}

/// The cache folder of all runs that do not look at it: not the user's.
pub fn cache() -> PathBuf {
    Path::new(env!("CARGO_TARGET_TMPDIR")).join("cache")
}

/// A finished run.
pub struct Run {
    pub out: String,
    pub err: String,
    pub code: i32,
}

impl From<Output> for Run {
    fn from(output: Output) -> Self {
        Self {
            out: String::from_utf8(output.stdout).unwrap(),
            err: String::from_utf8(output.stderr).unwrap(),
            code: output.status.code().expect("the process was not killed"),
        }
    }
}

impl Run {
    /// Standard output, standard error and exit code as one text.
    pub fn whole(&self) -> String {
        format!("{}{}exit {}", self.out, self.err, self.code)
    }

    /// Standard output as JSON.
    pub fn json(&self) -> serde_json::Value {
        serde_json::from_str(&self.out)
            .unwrap_or_else(|error| panic!("{error}\n{}\n{}", self.out, self.err))
    }
}

/// Ids of herbs spread over the whole corpus: a run for each of all would take minutes. The herbs with the
/// most and the fewest statements are among them.
pub fn herbs_of_every_kind() -> Vec<String> {
    let corpus = kaoyi::corpus::embedded().unwrap();
    let mut herbs = corpus.herbs().unwrap();
    // Of cinnamon and its forms no example is made.
    herbs.retain(|herb| !herb.names.hant.contains('桂'));
    let sayings = |herb: &kaoyi::corpus::Herb| -> usize {
        herb.entries.iter().map(|entry| entry.sayings.len()).sum()
    };
    herbs.sort_by_key(|herb| sayings(herb));
    let last = herbs.len() - 1;
    let spread = (0..40).map(|n| herbs[n * last / 39].id.clone());
    spread.collect()
}

/// The project's folder.
pub fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

/// A folder of test data.
pub fn data(name: &str) -> PathBuf {
    root().join("tests/data").join(name)
}

/// A path as an argument.
pub fn text(path: &Path) -> &str {
    path.to_str().unwrap()
}

/// All files below a folder, sorted.
pub fn files_below(folder: &Path) -> Vec<PathBuf> {
    let mut files = Vec::new();
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            files.extend(files_below(&path));
        } else {
            files.push(path);
        }
    }
    files.sort();
    files
}

/// Compares a file with what it should hold, or rewrites it.
pub fn current(name: &str, wanted: &str) {
    let path = root().join(name);
    if std::env::var_os("KAOYI_REWRITE").is_some() {
        std::fs::create_dir_all(path.parent().unwrap()).unwrap();
        std::fs::write(&path, wanted).unwrap();
    }
    let found = std::fs::read_to_string(&path).unwrap_or_default();
    pretty_assertions::assert_eq!(
        found,
        wanted,
        "{name} is out of date: KAOYI_REWRITE=1 cargo test generated"
    );
}
