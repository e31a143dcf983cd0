//! Asking the index of words and one herb's claims, in process.

use std::time::{Duration, Instant};

use fastrand::Rng;
use kaoyi::corpus::{Corpus, HerbId};
use kaoyi::index::{Asked, SayingFound, Words};

use crate::fts5::Peer;
use crate::making::Place;
use crate::queries::Query;
use crate::times::{median, part};

/// Askings of each query; the median counts.
pub const RUNS: usize = 5;
/// So many sayings are shown.
pub const BEST: usize = 10;

/// How long it takes to read one herb's claims, p50.
pub struct Read {
    /// How many herbs were read.
    pub herbs: usize,
    /// Our whole record.
    pub ours: Duration,
    /// The peer's claims.
    pub claims: Duration,
    /// The peer's claims and wordings.
    pub wordings: Duration,
}

/// The total count and the best ten sayings with their wordings.
pub fn best(words: &Words, corpus: &Corpus, phrase: &str) -> (usize, Vec<String>) {
    let best = words.best(&asked(phrase), 0, BEST).unwrap();
    let text = |found: &SayingFound| {
        let entry = &corpus.herb(found.herb).unwrap().entries[found.entry];
        entry.sayings[found.saying].wording.clone().unwrap()
    };
    (best.count, best.sayings.iter().map(text).collect())
}

pub fn asked(phrase: &str) -> Asked {
    Asked {
        phrases: vec![phrase.to_owned()],
        ..Asked::default()
    }
}

/// Reads herbs one after another, each once in a run.
pub fn reading(place: &Place, peer: &Peer, random: &mut Rng) -> Read {
    // An open corpus keeps what it has unpacked: each run takes another.
    let packed = place.open().corpus;
    let mut herbs: Vec<usize> = (0..packed.names().len()).collect();
    random.shuffle(&mut herbs);
    herbs.truncate(1000);
    let (mut ours, mut theirs, mut wordings) = (Vec::new(), Vec::new(), Vec::new());
    for _ in 0..RUNS {
        let fresh = packed.clone();
        for herb in &herbs {
            let start = Instant::now();
            let record = fresh.herb(HerbId(*herb as u32)).unwrap();
            ours.push(start.elapsed());
            let sayings = record.entries.iter().flat_map(|entry| &entry.sayings);
            let count: usize = sayings.map(|saying| saying.claims.len()).sum();
            let start = Instant::now();
            let claims = peer.claims(*herb);
            let between = start.elapsed();
            theirs.push(between);
            peer.wordings(*herb);
            wordings.push(start.elapsed());
            assert_eq!(claims.0, count);
        }
    }
    Read {
        herbs: herbs.len(),
        ours: part(&ours, 0.5),
        claims: part(&theirs, 0.5),
        wordings: part(&wordings, 0.5),
    }
}

/// For each query the median time.
pub fn medians<S, R>(
    queries: &[Query],
    prepare: impl Fn() -> S,
    ask: impl Fn(&S, &str) -> R,
) -> Vec<Duration> {
    let mut times = vec![Vec::new(); queries.len()];
    for _ in 0..RUNS {
        for (query, times) in queries.iter().zip(&mut times) {
            let prepared = prepare();
            let start = Instant::now();
            std::hint::black_box(ask(&prepared, &query.text));
            times.push(start.elapsed());
        }
    }
    times.into_iter().map(median).collect()
}
