//! All benches that a figure in `docs/performance.md` comes from, beside their peers back to back: it writes the tables there,
//! between two markers, and leaves the prose around them alone.
//!
//! `cargo bench --bench proof` measures the shipped corpus and a synthetic one of a million claims; `KAOYI_BENCH_CLAIMS=10000000`
//! adds one of that size, for which some 3 GB of disk are needed below the target folder and a quarter of an hour. `KAOYI_PYTHON`
//! is a Python with the package duckdb; without it that peer is missing, and the table says so.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::print_stdout,
    missing_docs,
    dead_code
)]

mod asking;
mod child;
mod fts5;
mod making;
mod pass;
mod phrases;
mod queries;
mod sized;
mod synthetic;
mod table;
mod texts;
mod times;

use std::path::Path;
use std::time::Duration;

use fastrand::Rng;
use kaoyi::corpus::Corpus;

use sized::{Sized, measure};
use table::{Table, milliseconds};
use times::{part, ratio};

/// The size of which all figures beside peers are given.
const MILLION: usize = 1_000_000;

fn main() {
    let root = Path::new(env!("CARGO_TARGET_TMPDIR")).join("proof");
    std::fs::create_dir_all(&root).unwrap();
    let larger = std::env::var("KAOYI_BENCH_CLAIMS").ok();
    let larger: Option<usize> = larger.map(|claims| claims.parse().unwrap());
    let mut report = vec![about()];
    report.push(reading());
    let shipped = measure(&root, None);
    let million = measure(&root, Some(MILLION));
    report.push(searching(&root));
    let larger = larger.map(|claims| measure(&root, Some(claims)));
    report.push(table::whole(&shipped, &million, larger.as_ref()));
    report.push(beside(&[Some(&shipped), Some(&million), larger.as_ref()]));
    report.push(table::growth(&million, larger.as_ref()));
    let text = report.join("\n");
    println!("{text}");
    table::write(&text);
}

/// Under which circumstances it was measured.
fn about() -> String {
    let processors = std::thread::available_parallelism().unwrap();
    let load = std::fs::read_to_string("/proc/loadavg").unwrap_or_default();
    let load = load.split(' ').next().unwrap_or("unknown");
    let size = std::fs::metadata(env!("CARGO_BIN_EXE_kaoyi"))
        .unwrap()
        .len();
    format!(
        "Written by `cargo bench --bench proof`. {processors} processors, load {load} at the start; the program has {:.1} MB.\n",
        size as f64 / 1e6
    )
}

fn reading() -> String {
    let both = texts::measure();
    let mut table = Table::new(&["reading", "Kaoyi", "regular expression", "ratio"]);
    table.row(vec![
        format!("{}, median of {}", both.texts, texts::RUNS),
        milliseconds(both.ours),
        milliseconds(both.theirs),
        format!("{:.2}", ratio(both.ours, both.theirs)),
    ]);
    table.text()
}

/// The index of words and one herb's claims beside SQLite, at a million claims.
fn searching(root: &Path) -> String {
    let place = making::Place {
        folder: synthetic::corpus(root, MILLION),
        cache: root.join("search-cache"),
    };
    let made = making::making(&place, &root.join("search.sqlite"));
    let random = &mut Rng::with_seed(MILLION as u64);
    let queries = queries::queries(&phrases::Phrases::shipped(), 100, random);
    let [unpacked, packed, ranked] = asked(&made, &queries);
    let read = asking::reading(&place, &made.peer, random);
    let mut table = Table::new(&["in process, a million claims", "Kaoyi", "SQLite", "ratio"]);
    let mut row = |name: &str, ours: Duration, theirs: Duration| {
        table.row(vec![
            name.to_owned(),
            milliseconds(ours),
            milliseconds(theirs),
            format!("{:.3}", ratio(ours, theirs)),
        ]);
    };
    let p50 = |times: &[Duration]| part(times, 0.5);
    let p99 = |times: &[Duration]| part(times, 0.99);
    row(
        "find, count and best ten, p50; FTS5 ranked",
        p50(&unpacked),
        p50(&ranked),
    );
    row(
        "the same, herbs unpacked for their text",
        p50(&packed),
        p50(&ranked),
    );
    row("find, p99; FTS5 ranked", p99(&unpacked), p99(&ranked));
    row(
        "making the index; tables, indexes, FTS5",
        made.index,
        made.database,
    );
    row(
        "one herb's record; its claims, clustered",
        read.ours,
        read.claims,
    );
    row(
        "the same; its claims and wordings",
        read.ours,
        read.wordings,
    );
    table.text()
}

/// The times of all queries: the herbs found being unpacked before, or for each query; the peer's.
fn asked(made: &making::Making, queries: &[queries::Query]) -> [Vec<Duration>; 3] {
    let corpus = &made.library.corpus;
    let mut counted = 0;
    for query in queries {
        let ours = asking::best(&made.words, corpus, &query.text).0;
        assert_eq!(ours, made.peer.find(&query.text, true).0, "{}", query.text);
        counted += ours;
    }
    println!(
        "{} queries have equal counts, {counted} sayings",
        queries.len()
    );
    let fresh = corpus.clone();
    corpus.herbs().unwrap();
    let best = |corpus: &Corpus, text: &str| asking::best(&made.words, corpus, text);
    [
        asking::medians(queries, || (), |(), text| best(corpus, text)),
        asking::medians(queries, || fresh.clone(), best),
        asking::medians(queries, || (), |(), text| made.peer.find(text, true)),
    ]
}

/// The work on all herbs beside DuckDB.
fn beside(sizes: &[Option<&Sized>]) -> String {
    let mut table = Table::new(&["all herbs at once", "Kaoyi", "DuckDB, two threads", "ratio"]);
    for one in sizes.iter().flatten() {
        let mut row = |name: &str, ours: Duration, theirs: Option<Duration>| {
            let with = |theirs: Duration| (milliseconds(theirs), ratio(ours, theirs));
            let (theirs, ratio) = theirs.map(with).map_or_else(
                || ("not there".to_owned(), String::new()),
                |(theirs, ratio)| (theirs, format!("{ratio:.3}")),
            );
            table.row(vec![
                format!("{name}, {}", one.name()),
                milliseconds(ours),
                theirs,
                ratio,
            ]);
        };
        row("the pass over loaded data", one.pass, one.peer_pass);
        row(
            "`disputes`; Python and one pass, whole processes",
            one.of("disputes"),
            one.peer_process,
        );
    }
    table.text()
}
