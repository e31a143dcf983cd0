//! Places in which things go wrong: folders of their own, full disks, users without rights, runs that are killed.

use std::collections::BTreeMap;
use std::fs::{self, File};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::thread;
use std::time::{Duration, Instant, SystemTime};

use crate::support::{Run, files_below, text};

/// The small invented corpus, which stands alone.
const SMALL: &str = include_str!("fuzz/base/small.txt");

/// A user who owns nothing here, and of whom no system knows a home.
#[cfg(unix)]
const NOBODY: u32 = 54_321;

/// Folders for the time of a test: cache, notebook, corpus and whatever is written out.
pub struct Place(tempfile::TempDir);

impl Place {
    /// With the small corpus.
    pub fn new() -> Self {
        let place = Self::empty();
        let mut open: Option<(PathBuf, String)> = None;
        let put = |file: Option<(PathBuf, String)>| {
            if let Some((path, text)) = file {
                fs::create_dir_all(path.parent().unwrap()).unwrap();
                fs::write(path, text).unwrap();
            }
        };
        for line in SMALL.split_inclusive('\n') {
            if let Some(name) = line.strip_prefix("=== ") {
                put(open.replace((place.corpus().join(name.trim()), String::new())));
            } else if let Some((_, text)) = &mut open {
                text.push_str(line);
            }
        }
        put(open);
        place
    }

    /// With the small corpus, made so large by remarks that it is kept in the cache folder, and an hour old.
    pub fn large() -> Self {
        let place = Self::new();
        place.herb(&fs::read_to_string(place.mint()).unwrap());
        for file in files_below(&place.corpus()) {
            date(&file, SystemTime::now() - Duration::from_secs(3600));
        }
        place
    }

    /// The file of the herb of the small corpus.
    pub fn mint(&self) -> PathBuf {
        self.corpus().join("herbs/circle-mint.yaml")
    }

    /// Writes the herb of the small corpus anew, with as many remarks as before, and an hour old.
    pub fn herb(&self, record: &str) {
        let record = record.split("# 園").next().unwrap_or_default();
        let remarks = "# 園課：此為學圃社之例，非古書。\n".repeat(8_000);
        fs::write(self.mint(), format!("{record}{remarks}")).unwrap();
        date(&self.mint(), SystemTime::now() - Duration::from_secs(3600));
    }

    /// Without anything in it.
    pub fn empty() -> Self {
        let mut root = tempfile::Builder::new();
        let root = root.prefix("place-").tempdir().unwrap();
        rights(root.path(), 0o755);
        let place = Self(root);
        for folder in ["cache", "notebook", "corpus", "out"] {
            fs::create_dir(place.at(folder)).unwrap();
        }
        place
    }

    pub fn at(&self, name: &str) -> PathBuf {
        self.0.path().join(name)
    }

    /// The path of the whole, as answers name it.
    pub fn name(&self) -> String {
        text(self.0.path()).to_owned()
    }

    pub fn corpus(&self) -> PathBuf {
        self.at("corpus")
    }

    pub fn cache(&self) -> PathBuf {
        self.at("cache")
    }

    /// Writes a file, and gives its path as an argument.
    pub fn file(&self, name: &str, words: &str) -> String {
        fs::write(self.at(name), words).unwrap();
        text(&self.at(name)).to_owned()
    }

    /// A run sealed from the machine.
    pub fn command(&self, arguments: &[&str]) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_kaoyi"));
        self.seal(&mut command);
        command.args(arguments);
        command
    }

    fn seal(&self, command: &mut Command) {
        command
            .env_clear()
            .current_dir(self.0.path())
            .env("XDG_CACHE_HOME", self.cache())
            .env("KAOYI_NOTEBOOK", self.at("notebook"));
    }

    pub fn run(&self, arguments: &[&str]) -> Run {
        Run::from(self.command(arguments).output().unwrap())
    }

    /// A run in which no file can be written: as on a full disk. The signal that comes with the limit is ignored, since a full
    /// disk sends none.
    #[cfg(unix)]
    pub fn full(&self, arguments: &[&str]) -> Run {
        let words: Vec<String> = arguments.iter().map(|word| format!("'{word}'")).collect();
        let line = format!(
            "trap '' XFSZ; ulimit -f 0; exec '{}' {}",
            env!("CARGO_BIN_EXE_kaoyi"),
            words.join(" ")
        );
        let mut shell = Command::new("/bin/sh");
        self.seal(&mut shell);
        Run::from(shell.args(["-c", &line]).output().unwrap())
    }

    /// A run by a user who may read here and write nowhere; `None` where the tests are not run by the superuser, or the
    /// program lies where that user cannot start it.
    #[cfg(unix)]
    pub fn nobody(&self, arguments: &[&str], home: bool) -> Option<Run> {
        use std::os::unix::process::CommandExt;
        let mut command = self.command(arguments);
        if !home {
            command
                .env_remove("XDG_CACHE_HOME")
                .env_remove("KAOYI_NOTEBOOK");
        }
        command.uid(NOBODY).gid(NOBODY);
        command.output().ok().map(Run::from)
    }

    /// All files below a folder with their content.
    pub fn content(&self, folder: &str) -> BTreeMap<PathBuf, Vec<u8>> {
        let files = files_below(&self.at(folder)).into_iter();
        files
            .map(|file| (file.clone(), fs::read(&file).unwrap()))
            .collect()
    }
}

/// Dates a file.
pub fn date(path: &Path, time: SystemTime) {
    let file = File::options().write(true).open(path).unwrap();
    file.set_modified(time).unwrap();
}

/// All files in a cache folder.
pub fn kept(cache: &Path) -> Vec<PathBuf> {
    files_below(cache)
}

/// Sets the rights of a file or folder.
#[cfg(unix)]
pub fn rights(path: &Path, mode: u32) {
    use std::os::unix::fs::PermissionsExt;
    fs::set_permissions(path, fs::Permissions::from_mode(mode)).unwrap();
}

#[cfg(not(unix))]
pub fn rights(_: &Path, _: u32) {}

/// So many times each kind of run is killed; `KAOYI_KILLS` sets another number.
pub fn kills(usual: u32) -> u32 {
    let told = std::env::var("KAOYI_KILLS").ok();
    told.and_then(|number| number.parse().ok()).unwrap_or(usual)
}

/// Runs a command again and again and kills it, every second time in its first milliseconds and else anywhere in `whole`, which it takes if
/// it is left alone; looks at what is left each time. How many were killed before they were done.
pub fn killed_often(
    seed: u64,
    (times, whole): (u32, Duration),
    start: impl Fn() -> Command,
    mut look: impl FnMut(bool),
) -> u32 {
    let mut random = fastrand::Rng::with_seed(seed);
    let mut killed = 0;
    for time in 0..times {
        let silent = |command: &mut Command| -> Child {
            let command = command.stdout(Stdio::null()).stderr(Stdio::null());
            command.spawn().unwrap()
        };
        let mut run = silent(&mut start());
        let delay = match time % 2 {
            0 => Duration::from_micros(random.u64(0..4_000)),
            _ => whole.mul_f64(random.f64() * 1.1),
        };
        thread::sleep(delay);
        run.kill().unwrap();
        let done = run.wait().unwrap().success();
        killed += u32::from(!done);
        look(done);
    }
    killed
}

/// How long a command takes.
pub fn time_of(mut command: Command) -> Duration {
    let begun = Instant::now();
    let run = Run::from(command.output().unwrap());
    assert_eq!(run.code, 0, "{}", run.whole());
    begun.elapsed()
}

/// An invented book on the herb of the small corpus and on so many that no record names yet, as plain text.
pub fn book(herbs: usize) -> String {
    let names = "山水火木土田石竹米羽青黑日月星雨雪川林枝花果子仁心目耳口手足";
    let names: Vec<char> = names.chars().collect();
    // The first article is on the herb of the small corpus, whose book has it in the same place.
    let mint = "<篇名>园薄荷\n内容：味甘，温。\n".to_owned();
    let others = (0..herbs).map(|n| {
        let (first, second) = (names[n % names.len()], names[n / names.len() % names.len()]);
        format!("<篇名>园{first}{second}草\n内容：味甘，平，无毒。\n")
    });
    std::iter::once(mint).chain(others).collect()
}
