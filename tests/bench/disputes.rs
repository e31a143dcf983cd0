//! The ranking of herbs with all coefficients over a synthetic corpus, as a whole process, beside DuckDB counting the same
//! stands in the same run. DuckDB gives the nominal coefficients; the command gives the graded ones, the ranking, the
//! intervals and the page as well.
//!
//! `cargo bench --bench disputes` or with other sizes `cargo bench --bench disputes -- 100000 1000000`. The peer needs a
//! `python3` with the package duckdb, or `KAOYI_PYTHON`; without it the command is measured alone.

#![allow(clippy::unwrap_used, clippy::panic, clippy::print_stdout, missing_docs)]

mod phrases;
mod synthetic;
mod times;

use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::time::{Duration, Instant};

use kaoyi::compare::{COMPARABLE, PERIODS};
use kaoyi::index::{Library, Opened};
use serde_json::Value;
use times::{median, ratio, sizes};

const RUNS: usize = 9;

fn main() {
    for size in sizes() {
        measure(size);
    }
}

fn measure(size: usize) {
    let root = Path::new(env!("CARGO_TARGET_TMPDIR"));
    let folder = synthetic::corpus(root, size);
    let cache = root.join("cache");
    let _ = std::fs::remove_dir_all(&cache);
    let start = Instant::now();
    ask(&folder, &cache, &[]);
    println!(
        "first run, which reads, checks and keeps: {:.2?}",
        start.elapsed()
    );
    let library = library(&folder, &cache.join("kaoyi"));
    let (entries, claims) = library.corpus.size().unwrap();
    println!("{entries} entries, {claims} claims");
    let peer = peer(root, &library, size);
    let (mut ours, mut theirs, mut inside) = (Vec::new(), Vec::new(), Vec::new());
    let mut rows = Value::Null;
    for _ in 0..RUNS {
        let start = Instant::now();
        ask(&folder, &cache, &[]);
        ours.push(start.elapsed());
        if let Some(peer) = &peer {
            let start = Instant::now();
            rows = peer.ask();
            theirs.push(start.elapsed());
            inside.push(Duration::from_secs_f64(rows["seconds"].as_f64().unwrap()));
        }
    }
    let ours = median(ours);
    println!("disputes, whole process: {ours:.1?}");
    if peer.is_some() {
        let (theirs, inside) = (median(theirs), median(inside));
        println!(
            "DuckDB in Python, whole process: {theirs:.1?}, ratio {:.2}; without the start of Python: {inside:.1?}, ratio {:.2}",
            ratio(ours, theirs),
            ratio(ours, inside)
        );
        same(&ask(&folder, &cache, &["--json"]), &rows["rows"]);
    }
}

/// Runs the command and gives its JSON, if that was asked for.
fn ask(folder: &Path, cache: &Path, more: &[&str]) -> Value {
    let output = Command::new(env!("CARGO_BIN_EXE_kaoyi"))
        .args(["disputes", "--corpus"])
        .arg(folder)
        .args(more)
        .env("XDG_CACHE_HOME", cache)
        .output()
        .unwrap();
    assert!(
        output.status.success(),
        "{}",
        String::from_utf8_lossy(&output.stderr)
    );
    serde_json::from_slice(&output.stdout).unwrap_or(Value::Null)
}

struct Peer {
    python: String,
    script: PathBuf,
    database: PathBuf,
}

impl Peer {
    fn run(&self, act: &str, more: &[&Path]) -> Option<Value> {
        let mut command = Command::new(&self.python);
        command
            .arg(&self.script)
            .arg(act)
            .arg(&self.database)
            .args(more);
        let output = command
            .output()
            .ok()
            .filter(|output| output.status.success())?;
        Some(serde_json::from_slice(&output.stdout).unwrap_or(Value::Null))
    }

    fn ask(&self) -> Value {
        self.run("ask", &[]).unwrap()
    }
}

/// The peer with its database; `None` where it is not there.
fn peer(root: &Path, library: &Library, size: usize) -> Option<Peer> {
    let peer = Peer {
        python: std::env::var("KAOYI_PYTHON").unwrap_or_else(|_| "python3".to_owned()),
        script: Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/bench/peer_duckdb.py"),
        database: root.join(format!("synthetic-{size}.duckdb")),
    };
    let table = root.join(format!("synthetic-{size}.csv"));
    let _ = std::fs::remove_file(&peer.database);
    std::fs::write(&table, stands(library)).unwrap();
    let loaded = peer.run("load", &[&table]);
    if loaded.is_none() {
        println!("no peer: {} has no duckdb", peer.python);
    }
    loaded.map(|_| peer)
}

fn library(folder: &Path, cache: &Path) -> Library {
    match Library::folder(folder, Some(cache)).unwrap() {
        Opened::Library(library) => *library,
        Opened::Faulty(_) => panic!("a synthetic corpus has no faults"),
    }
}

/// The stands as a table, with the number of the period of each work.
fn stands(library: &Library) -> String {
    let period = |work| {
        let year = library.corpus.work(work).date.to;
        PERIODS
            .iter()
            .position(|one| (one.from..=one.to).contains(&year))
            .unwrap()
    };
    let mut table = String::from("facet,herb,work,stand,period\n");
    for stands in library.stands(&COMPARABLE).unwrap() {
        for (herb, rows) in stands.by_herb().enumerate() {
            for row in rows {
                let facet = stands.facet;
                let _ = writeln!(
                    table,
                    "{facet},{herb},{},{},{}",
                    row.work.0,
                    row.kind,
                    period(row.work)
                );
            }
        }
    }
    table
}

/// Whether both give the same sums and coefficients.
fn same(ours: &Value, theirs: &Value) {
    let mut compared = 0;
    for row in ours["agreement"].as_array().unwrap() {
        let period = match row["period"]["han"].as_str() {
            None => -1,
            Some(han) => PERIODS.iter().position(|one| one.han == han).unwrap() as i64,
        };
        let other = theirs
            .as_array()
            .unwrap()
            .iter()
            .find(|other| other[0] == row["facet"] && other[1] == period);
        let Some(other) = other else {
            assert!(row["alpha_nominal"].is_null());
            continue;
        };
        assert_eq!(
            (&row["herbs"], &row["stands"]),
            (&other[2], &other[3]),
            "{row}"
        );
        let (a, b) = (
            row["alpha_nominal"].as_f64().unwrap(),
            other[4].as_f64().unwrap(),
        );
        assert!((a - b).abs() < 1e-9, "{row} {other}");
        compared += 1;
    }
    println!("{compared} rows of both have equal sums and coefficients");
}
