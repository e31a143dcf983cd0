//! Words looked for in a synthetic corpus whose wordings are real phrases in their natural frequency, in process, beside
//! SQLite with FTS5 over pairs of characters, asked the same in the same run.
//!
//! Measured: a query's total count and its best ten sayings with their text, by the length of the phrase; what answers herb by
//! herb, counted by herb and by work, with the herbs whose name answers, which the peer does not do; that with what most
//! books say of the herbs found counted as well; the making of the index and its size; the reading of one herb's claims.
//! "Packed" means that the herbs of the best ten are unpacked for each query, "unpacked" that they were before. SQLite is asked for
//! single characters in a second FTS5 table; both are merged before they are asked. Every total count must be equal, and
//! each of our best ten must contain the phrase; which ten are the best may differ.
//!
//! Not measured: anything with a cold page cache, whole processes, several threads, the trigram tokenizer.
//!
//! `cargo bench --bench search` or with other sizes `cargo bench --bench search -- 100000 1000000`.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::print_stdout,
    missing_docs,
    dead_code
)]

mod asking;
mod fts5;
mod making;
mod phrases;
mod queries;
mod synthetic;
mod times;

use std::fs;
use std::path::Path;
use std::time::{Duration, Instant};

use fastrand::Rng;
use kaoyi::index::{Library, Search, Words, places_of};

use asking::{BEST, RUNS, asked, best, medians, reading};
use fts5::Peer;
use making::{Place, making};
use phrases::Phrases;
use queries::{Query, queries};
use times::{part, ratio, sizes};

/// Queries of each length.
const EACH: usize = 100;

fn main() {
    for size in sizes() {
        measure(size);
    }
}

fn measure(size: usize) {
    let root = Path::new(env!("CARGO_TARGET_TMPDIR"));
    let folder = synthetic::corpus(root, size);
    let place = Place {
        cache: root.join("search-cache"),
        folder,
    };
    let _ = fs::remove_dir_all(&place.cache);
    // A folder written to a moment ago is not kept.
    std::thread::sleep(Duration::from_secs(3));
    let start = Instant::now();
    let (entries, claims) = place.open().corpus.size().unwrap();
    println!("{entries} entries, {claims} claims");
    println!(
        "first opening, which reads, checks and keeps: {:.1?}",
        start.elapsed()
    );
    let database = root.join(format!("search-{size}.sqlite"));
    let made = making(&place, &database);
    let (library, words, peer) = (made.library, made.words, made.peer);
    let random = &mut Rng::with_seed(size as u64);
    let queries = queries(&Phrases::shipped(), EACH, random);
    searching(&library, &words, &peer, &queries);
    with_facets(&library, &words, &queries);
    let read = reading(&place, &peer, random);
    println!(
        "\none herb's claims, p50 of {} herbs: the whole record {:.1?}; SQLite, claims alone {:.1?}, ratio {:.2}; with the wordings \
         {:.1?}, ratio {:.2}",
        read.herbs,
        read.ours,
        read.claims,
        ratio(read.ours, read.claims),
        read.wordings,
        ratio(read.ours, read.wordings)
    );
}

/// Both must find the same.
fn same(library: &Library, words: &Words, peer: &Peer, queries: &[Query]) -> usize {
    let mut found = 0;
    for query in queries {
        let (ours, best) = best(words, &library.corpus, &query.text);
        assert_eq!(ours, peer.find(&query.text, true).0, "{}", query.text);
        let by_herb = words.find(&library.corpus, &asked(&query.text)).unwrap();
        assert_eq!(
            ours,
            by_herb.by_work.values().sum::<usize>(),
            "{}",
            query.text
        );
        assert_eq!(best.len(), ours.min(BEST), "{}", query.text);
        for wording in best {
            let places = places_of(&query.text, &words.folded(&wording));
            assert!(!places.is_empty(), "{} in {wording}", query.text);
        }
        found += ours;
    }
    println!(
        "\n{} queries have equal counts, {found} sayings in all",
        queries.len()
    );
    found
}

fn searching(library: &Library, words: &Words, peer: &Peer, queries: &[Query]) {
    let fresh = library.corpus.clone();
    let found = same(library, words, peer, queries);
    library.corpus.herbs().unwrap();
    let packed = medians(
        queries,
        || fresh.clone(),
        |corpus, text| best(words, corpus, text),
    );
    let corpus = &library.corpus;
    let unpacked = medians(queries, || (), |(), text| best(words, corpus, text));
    let by_herb = medians(
        queries,
        || (),
        |(), text| words.find(corpus, &asked(text)).unwrap(),
    );
    let ranked = medians(queries, || (), |(), text| peer.find(text, true));
    let unranked = medians(queries, || (), |(), text| peer.find(text, false));
    println!("medians of {RUNS} askings of each; p50 and p99 over the queries");
    let columns = [
        ("packed", &packed),
        ("unpacked", &unpacked),
        ("by herb", &by_herb),
        ("FTS5 ranked", &ranked),
        ("unranked", &unranked),
    ];
    print!("{:12}", "");
    for (name, _) in columns {
        print!("{name:>22}");
    }
    println!("   packed/ranked  /unranked    unpacked/ranked  /unranked");
    for group in [
        Some(1),
        Some(2),
        Some(3),
        Some(4),
        Some(5),
        Some(6),
        Some(0),
        None,
    ] {
        let of = |times: &[Duration]| -> Vec<Duration> {
            let both = queries.iter().zip(times);
            let chosen = both.filter(|(query, _)| group.is_none_or(|group| group == query.group));
            chosen.map(|(_, time)| *time).collect()
        };
        let name = match group {
            None => "all".to_owned(),
            Some(0) => "headings".to_owned(),
            Some(length) => format!("{length} characters"),
        };
        row(&name, &columns.map(|(_, times)| of(times)));
    }
    let sum = |times: &[Duration]| times.iter().sum::<Duration>().as_secs_f64() * 1e9;
    println!(
        "for each saying found: by herb {:.0} ns; FTS5 ranked {:.0} ns, unranked {:.0} ns",
        sum(&by_herb) / found as f64,
        sum(&ranked) / found as f64,
        sum(&unranked) / found as f64
    );
}

fn row(name: &str, columns: &[Vec<Duration>; 5]) {
    print!("{name:12}");
    for times in columns {
        let both = format!("{:.1?} {:.1?}", part(times, 0.5), part(times, 0.99));
        print!("{both:>22}");
    }
    let [packed, unpacked, _, ranked, unranked] = columns;
    for ours in [packed, unpacked] {
        let over = |theirs: &Vec<Duration>, share| ratio(part(ours, share), part(theirs, share));
        for theirs in [ranked, unranked] {
            print!("  {:6.2} {:5.2}", over(theirs, 0.5), over(theirs, 0.99));
        }
    }
    println!();
}

/// The whole of what `find` asks for: herbs and the facets of those found.
fn with_facets(library: &Library, words: &Words, queries: &[Query]) {
    let find = |text: &str| {
        let search = Search {
            words: asked(text),
            ..Search::default()
        };
        library.find(&search, Some(words)).unwrap()
    };
    let times = medians(queries, || (), |(), text| find(text));
    println!(
        "with facet counts: p50 {:.2?}, p99 {:.2?}, longest {:.2?}",
        part(&times, 0.5),
        part(&times, 0.99),
        part(&times, 1.0)
    );
}
