//! The making of the index and of the peer's database: times and sizes.

use std::fs;
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use kaoyi::index::{Library, Opened, Words};

use crate::fts5::{Made, Peer};
use crate::times::{median, ratio};

/// Makings of each; the median counts.
const MAKINGS: usize = 3;

/// A corpus folder and where it is kept.
pub struct Place {
    pub folder: PathBuf,
    pub cache: PathBuf,
}

impl Place {
    pub fn open(&self) -> Library {
        match Library::folder(&self.folder, Some(&self.cache)).unwrap() {
            Opened::Library(library) => *library,
            Opened::Faulty(_) => panic!("a synthetic corpus has no faults"),
        }
    }

    /// What is kept under names that begin so.
    fn kept(&self, beginning: &str) -> Vec<PathBuf> {
        let shelves = fs::read_dir(&self.cache).unwrap();
        let of_shelves = shelves.flat_map(|shelf| fs::read_dir(shelf.unwrap().path()).unwrap());
        let paths = of_shelves.map(|file| file.unwrap().path());
        let so = |path: &PathBuf| {
            let name = path.file_name().unwrap().to_string_lossy();
            name.starts_with(beginning)
        };
        paths.filter(so).collect()
    }
}

fn bytes(path: &Path) -> u64 {
    if path.is_dir() {
        let files = fs::read_dir(path).unwrap();
        return files.map(|file| bytes(&file.unwrap().path())).sum();
    }
    fs::metadata(path).unwrap().len()
}

/// What was made, and how long it took: medians.
pub struct Making {
    pub library: Library,
    pub words: Words,
    pub peer: Peer,
    /// The index of words.
    pub index: Duration,
    /// The peer's tables, indexes and full text.
    pub database: Duration,
}

/// Makes both several times, and compares times and sizes.
pub fn making(place: &Place, database: &Path) -> Making {
    let (mut unpacking, mut packing, mut indexing) = (Vec::new(), Vec::new(), Vec::new());
    let (mut all, mut peers): (Vec<(Peer, Made)>, Vec<Duration>) = (Vec::new(), Vec::new());
    for _ in 0..MAKINGS {
        let library = place.open();
        for old in place.kept("words-") {
            fs::remove_dir_all(old).unwrap();
        }
        let start = Instant::now();
        drop(library.words().unwrap());
        indexing.push(start.elapsed());
        let library = place.open();
        let start = Instant::now();
        library.corpus.herbs().unwrap();
        unpacking.push(start.elapsed());
        let start = Instant::now();
        let mut file = fs::File::create(database).unwrap();
        library.corpus.write_compiled(0, &mut file).unwrap();
        packing.push(start.elapsed());
        // In turn, so that what disturbs one disturbs the other.
        all.clear();
        all.push(Peer::make(database, &library.corpus));
        peers.push(all[0].1.all());
    }
    let (unpacking, packing, indexing) = (median(unpacking), median(packing), median(indexing));
    println!(
        "\nindex of words made: {indexing:.2?}, in which the herbs are unpacked: {unpacking:.2?}; records packed before: {packing:.2?}"
    );
    let (peer, last) = all.remove(0);
    compare_makings(&last, indexing, packing);
    println!(
        "SQLite, merging its full text afterwards: {:.2?}",
        peer.optimize()
    );
    let sum = |paths: Vec<PathBuf>| paths.iter().map(|path| bytes(path)).sum::<u64>();
    compare_sizes(&peer, sum(place.kept("words-")), sum(place.kept("records")));
    let library = place.open();
    let words = library.words().unwrap();
    Making {
        library,
        words,
        peer,
        index: indexing,
        database: median(peers),
    }
}

fn compare_makings(made: &Made, indexing: Duration, packing: Duration) {
    println!(
        "SQLite: tables and indexes {:.2?}, FTS5 of pairs {:.2?}, of single characters {:.2?}, end {:.2?}; all {:.2?}",
        made.tables,
        made.pairs,
        made.ones,
        made.commit,
        made.all()
    );
    println!(
        "ratios: index / all {:.2}, index and packing / all {:.2}, index / all without single characters {:.2}",
        ratio(indexing, made.all()),
        ratio(indexing + packing, made.all()),
        ratio(indexing, made.all() - made.ones)
    );
}

fn compare_sizes(peer: &Peer, words: u64, records: u64) {
    let megabytes = |bytes: u64| bytes as f64 / 1e6;
    let (all, pairs, ones) = (peer.bytes(""), peer.bytes("pairs"), peer.bytes("ones"));
    println!(
        "size: index of words {:.1} MB, records {:.1} MB; SQLite {:.1} MB, of which pairs {:.1} and single characters {:.1}",
        megabytes(words),
        megabytes(records),
        megabytes(all),
        megabytes(pairs),
        megabytes(ones)
    );
    let part = |ours: u64, theirs: u64| ours as f64 / theirs as f64;
    println!(
        "ratios: index / all {:.2}, index and records / all {:.2}, index / both FTS5 tables {:.2}",
        part(words, all),
        part(words + records, all),
        part(words, pairs + ones)
    );
}
