//! A run that is killed at any moment while it makes what is kept: the next run answers right.

#[path = "bench/phrases.rs"]
mod phrases;
#[path = "bench/synthetic.rs"]
mod synthetic;

use std::fs::{self, File};
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::{Duration, Instant, SystemTime};

use crate::support::{Run, files_below, text};
use pretty_assertions::assert_eq;

const KILLS: u32 = 50;

fn command(cache: &Path, folder: &Path) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_kaoyi"));
    command
        .args(["find", "味", "--top", "3", "--corpus", text(folder)])
        .env_clear()
        .env("XDG_CACHE_HOME", cache);
    command
}

#[test]
fn after_any_kill_the_next_run_answers_right_and_leaves_nothing_half() {
    let root = tempfile::tempdir().unwrap();
    let folder = synthetic::corpus(root.path(), 5_000);
    // What was written this moment is not kept.
    for file in files_below(&folder) {
        let file = File::options().write(true).open(file).unwrap();
        file.set_modified(SystemTime::now() - Duration::from_secs(60))
            .unwrap();
    }
    let cache = root.path().join("cache");
    let start = Instant::now();
    let right = Run::from(command(&cache, &folder).output().unwrap());
    let whole = start.elapsed();
    assert_eq!((right.code, right.err.as_str()), (0, ""));
    let kept = names(&cache);
    let mut random = fastrand::Rng::with_seed(50);
    let mut killed = 0;
    for _ in 0..KILLS {
        fs::remove_dir_all(&cache).unwrap();
        let mut run = command(&cache, &folder)
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        std::thread::sleep(whole.mul_f64(random.f64()));
        killed += u32::from(run.try_wait().unwrap().is_none());
        run.kill().unwrap();
        run.wait().unwrap();
        let next = Run::from(command(&cache, &folder).output().unwrap());
        assert_eq!(
            (&next.out, &next.err, next.code),
            (&right.out, &right.err, 0)
        );
        assert!(
            kept.iter().all(|name| names(&cache).contains(name)),
            "{:?} {kept:?}",
            names(&cache)
        );
    }
    assert!(
        killed > KILLS / 2,
        "{killed} of {KILLS} were killed before they were done"
    );
}

/// What is kept, by name, without the parts of an index, which are named anew each time.
fn names(cache: &Path) -> Vec<String> {
    let shelves = fs::read_dir(cache.join("kaoyi"))
        .into_iter()
        .flatten()
        .flatten();
    let kept = shelves.flat_map(|shelf| fs::read_dir(shelf.path()).into_iter().flatten().flatten());
    let mut names: Vec<String> = kept
        .map(|one| one.file_name().to_string_lossy().into_owned())
        .collect();
    names.sort();
    names
}
