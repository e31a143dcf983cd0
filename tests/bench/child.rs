//! Whole processes: how long they take, and how much memory at the most.

use std::fs::File;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

use wait4::Wait4;

/// One run of a program.
pub struct Run {
    /// From the start to the end.
    pub time: Duration,
    /// The most memory that was resident at a time, in bytes; `None` where it was no more than that of the bench itself, which
    /// the system counts for a child until it becomes another program.
    pub peak: Option<u64>,
}

/// Runs a command to its end; what it prints is thrown away. A code above 1 is a fault of the bench.
pub fn run(command: &mut Command) -> Run {
    let own = resident();
    let start = Instant::now();
    let child = command
        .stdout(Stdio::null())
        .stderr(Stdio::inherit())
        .spawn()
        .unwrap();
    let ended = child.wait4().unwrap();
    let code = ended.status.code();
    assert!(code.is_some_and(|code| code < 2), "{command:?}: {code:?}");
    let time = start.elapsed();
    let peak = ended.rusage.maxrss;
    Run {
        time,
        peak: (peak > own + own / 8).then_some(peak),
    }
}

/// The memory of this process that is resident, in bytes; 0 where the system does not tell.
fn resident() -> u64 {
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let line = status.lines().find_map(|line| line.strip_prefix("VmRSS:"));
    let number = line.and_then(|line| line.trim().strip_suffix(" kB")?.parse::<u64>().ok());
    number.unwrap_or_default() * 1024
}

/// Takes files out of the page cache as far as the system obeys: those that nobody else has mapped, after they are on the disk.
pub fn forget(path: &Path) {
    if path.is_dir() {
        let files = std::fs::read_dir(path).unwrap();
        files.for_each(|file| forget(&file.unwrap().path()));
        return;
    }
    let file = File::open(path).unwrap();
    file.sync_all().unwrap();
    let advice = rustix::fs::Advice::DontNeed;
    rustix::fs::fadvise(&file, 0, None, advice).unwrap();
}

/// The program on one corpus.
pub struct Program {
    /// `None` for the shipped one.
    pub folder: Option<PathBuf>,
    /// The user's cache folder.
    pub cache: PathBuf,
}

impl Program {
    /// The command with its words; `--corpus` is added where it is needed and understood.
    pub fn command(&self, words: &[&str]) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_kaoyi"));
        command.args(words).env("XDG_CACHE_HOME", &self.cache);
        match (&self.folder, words[0]) {
            (None, _) | (_, "--version") => {}
            (Some(folder), "check") => {
                command.arg(folder);
            }
            (Some(folder), _) => {
                command.arg("--corpus").arg(folder);
            }
        }
        command
    }

    pub fn run(&self, words: &[&str]) -> Run {
        run(&mut self.command(words))
    }

    /// Takes away all that is kept.
    pub fn clear(&self) {
        let _ = std::fs::remove_dir_all(&self.cache);
        std::fs::create_dir_all(&self.cache).unwrap();
    }
}
