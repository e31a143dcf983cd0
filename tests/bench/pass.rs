//! The work on all herbs at once over loaded data, beside DuckDB doing the same on two threads: distances of stands, counts and
//! shares of each stand on each herb, discord and its ranking, and alpha, nominal and graded, of each facet in all periods and
//! in each. What both find must be equal to 1e-9.

use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::time::{Duration, Instant};

use kaoyi::claim::Scale;
use kaoyi::compare::{
    Agreement, COMPARABLE, Discord, Discords, PERIODS, Period, SetDistance, Stands, place_on_scale,
};
use kaoyi::corpus::{Corpus, HerbId};
use kaoyi::index::Library;
use serde_json::Value;

use crate::times::median;

/// Passes of each; the median counts.
pub const PASSES: usize = 15;
/// The fewest witnesses of a facet that is ranked, as the command has it.
const LEAST: usize = 5;

/// What one pass finds.
struct Found {
    ranked: Vec<Discord>,
    agreements: Vec<(Option<Period>, Agreement)>,
    /// The sum of the squares of all shares.
    squares: f64,
}

fn pass(corpus: &Corpus, stands: &[&Stands]) -> Found {
    let discords = Discords::new(corpus, stands, SetDistance::Masi);
    let mut squares = 0.0;
    for (place, of_facet) in stands.iter().enumerate() {
        for herb in (0_u32..).map(HerbId).take(of_facet.herbs()) {
            let counts = discords.counts(place, herb);
            let all: u32 = counts.iter().map(|(_, count)| count).sum();
            let share = |count: u32| f64::from(count) / f64::from(all);
            squares += counts
                .iter()
                .map(|(_, count)| share(*count).powi(2))
                .sum::<f64>();
        }
    }
    Found {
        ranked: discords.ranked(LEAST),
        agreements: discords.agreements(corpus, true, false),
        squares,
    }
}

/// The median of a pass, the stands being in memory.
pub fn ours(library: &Library) -> Duration {
    let stands = library.stands(&COMPARABLE).unwrap();
    let times = (0..PASSES).map(|_| {
        let start = Instant::now();
        std::hint::black_box(pass(&library.corpus, &stands));
        start.elapsed()
    });
    median(times.collect())
}

/// DuckDB for Python, with the stands in its database.
pub struct Peer {
    python: String,
    script: PathBuf,
    database: PathBuf,
}

impl Peer {
    /// Loads the stands; `None` where Python or its package is not there.
    pub fn load(root: &Path, library: &Library) -> Option<Self> {
        let peer = Self {
            python: std::env::var("KAOYI_PYTHON").unwrap_or_else(|_| "python3".to_owned()),
            script: Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/bench/peer_duckdb.py"),
            database: root.join("peer.duckdb"),
        };
        let tables = [root.join("stands.csv"), root.join("kinds.csv")];
        let _ = std::fs::remove_file(&peer.database);
        std::fs::write(&tables[0], stands(library)).unwrap();
        std::fs::write(&tables[1], kinds(library)).unwrap();
        let mut load = peer.command("load");
        let loaded = load.args(&tables).output().ok()?;
        if !loaded.status.success() {
            println!("no peer: {}", String::from_utf8_lossy(&loaded.stderr));
            return None;
        }
        Some(peer)
    }

    fn command(&self, act: &str) -> Command {
        let mut command = Command::new(&self.python);
        command.arg(&self.script).arg(act).arg(&self.database);
        command
    }

    /// The process that opens the database and does one pass.
    pub fn process(&self) -> Command {
        self.command("ask")
    }

    /// The median of a pass in an open database. What was found is compared with ours.
    pub fn pass(&self, library: &Library) -> Duration {
        let output = self.command("pass").arg(PASSES.to_string()).output();
        let output = output.unwrap();
        let text = String::from_utf8_lossy(&output.stderr);
        assert!(output.status.success(), "{text}");
        let found: Value = serde_json::from_slice(&output.stdout).unwrap();
        same(library, &found);
        Duration::from_secs_f64(found["pass"].as_f64().unwrap())
    }
}

/// The stands as a table, with the number of the period of each work.
fn stands(library: &Library) -> String {
    let period = |work| Period::place_of(library.corpus.work(work).date.to);
    let mut table = String::from("facet,herb,work,stand,period\n");
    for stands in library.stands(&COMPARABLE).unwrap() {
        let facet = stands.facet;
        for (herb, rows) in stands.by_herb().enumerate() {
            for row in rows {
                let (work, kind, period) = (row.work.0, row.kind, period(row.work));
                let _ = writeln!(table, "{facet},{herb},{work},{kind},{period}");
            }
        }
    }
    table
}

/// The kinds of stand with their places on a scale, where there is one, and their values.
fn kinds(library: &Library) -> String {
    let mut table = String::from("facet,stand,place,list\n");
    for stands in library.stands(&COMPARABLE).unwrap() {
        let scheme = library.corpus.vocabulary.scheme(stands.facet);
        for (stand, values) in stands.kinds.iter().enumerate() {
            let place = match scheme.scale() {
                Scale::Ordinal => place_on_scale(scheme, values).to_string(),
                Scale::Nominal => String::new(),
            };
            let list: Vec<String> = values.iter().map(|value| value.0.to_string()).collect();
            let (facet, list) = (stands.facet, list.join(" "));
            let _ = writeln!(table, "{facet},{stand},{place},{list}");
        }
    }
    table
}

fn near(ours: f64, theirs: &Value) {
    let theirs = theirs.as_f64().unwrap();
    let apart = (ours - theirs).abs() / theirs.abs().max(1.0);
    assert!(apart < 1e-9, "{ours} and {theirs}");
}

/// Whether both found the same.
fn same(library: &Library, theirs: &Value) {
    let stands = library.stands(&COMPARABLE).unwrap();
    let ours = pass(&library.corpus, &stands);
    near(ours.squares, &theirs["squares"]);
    assert_eq!(theirs["ranked"], ours.ranked.len());
    near(
        ours.ranked.iter().map(|one| one.mean).sum(),
        &theirs["discords"],
    );
    for (one, other) in ours.ranked.iter().zip(theirs["best"].as_array().unwrap()) {
        near(one.mean, &other[1]);
    }
    let rows = theirs["rows"].as_array().unwrap();
    let mut compared = 0;
    for (period, agreement) in &ours.agreements {
        let place = period.map_or(-1, |period| {
            PERIODS.iter().position(|one| *one == period).unwrap() as i64
        });
        let is_it = |row: &&Value| row[0] == agreement.facet.name() && row[1] == place;
        let (Some(row), Ok(graded)) = (rows.iter().find(is_it), agreement.graded) else {
            assert!(agreement.nominal.is_err(), "{agreement:?}");
            continue;
        };
        assert_eq!(
            (&row[2], &row[3]),
            (&graded.units.into(), &graded.values.into())
        );
        near(agreement.nominal.unwrap().value, &row[4]);
        near(graded.value, &row[5]);
        compared += 1;
    }
    println!(
        "{} herbs ranked and {compared} rows of coefficients are equal",
        ours.ranked.len()
    );
}
