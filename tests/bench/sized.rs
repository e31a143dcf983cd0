//! One corpus: how long whole processes take, cold and warm, and how much memory; the pass over all herbs beside its peer.

use std::path::Path;
use std::time::{Duration, Instant};

use kaoyi::index::{Library, Opened};

use crate::child::{Program, Run, forget, run};
use crate::pass::{self, Peer};
use crate::synthetic;
use crate::times::median;

/// Runs of each warm process.
pub const RUNS: usize = 15;

/// The figures of one corpus.
pub struct Sized {
    /// `None` for the shipped one.
    pub asked: Option<usize>,
    /// How many claims it has.
    pub claims: usize,
    /// What was done once: its name, time and memory.
    pub once: Vec<(&'static str, Run)>,
    /// Warm processes: their names, and the medians of time and memory.
    pub warm: Vec<(&'static str, Run)>,
    /// A pass over loaded data, median.
    pub pass: Duration,
    /// The same by the peer.
    pub peer_pass: Option<Duration>,
    /// The peer as a whole process.
    pub peer_process: Option<Duration>,
}

impl Sized {
    pub fn name(&self) -> String {
        let corpus = self.asked.map_or("shipped", |_| "synthetic");
        format!("{corpus}, {} claims", self.claims)
    }

    /// The warm time of a command.
    pub fn of(&self, name: &str) -> Duration {
        let found = self.warm.iter().find(|(one, _)| *one == name);
        found.unwrap().1.time
    }
}

/// Measures the shipped corpus, or a synthetic one of so many claims.
pub fn measure(root: &Path, claims: Option<usize>) -> Sized {
    let program = Program {
        folder: claims.map(|claims| synthetic::corpus(root, claims)),
        cache: root.join("cache"),
    };
    // A folder written to a moment ago is not kept.
    std::thread::sleep(Duration::from_secs(3));
    println!("{claims:?}: once");
    let once = once(&program);
    println!("{claims:?}: warm");
    let warm = warm(&program);
    let library = library(&program);
    let pass = pass::ours(&library);
    let peer = Peer::load(root, &library);
    let peer_pass = peer.as_ref().map(|peer| peer.pass(&library));
    let peer_process = peer.map(|peer| {
        let times = (0..RUNS).map(|_| run(&mut peer.process()).time);
        median(times.collect())
    });
    Sized {
        asked: claims,
        claims: library.corpus.size().unwrap().1,
        once,
        warm,
        pass,
        peer_pass,
        peer_process,
    }
}

const fn herb(program: &Program) -> &'static str {
    match program.folder {
        None => "bohe",
        Some(_) => "herb-aaba",
    }
}

/// What happens once, from an empty cache on, and then with the files taken out of the page cache.
fn once(program: &Program) -> Vec<(&'static str, Run)> {
    let herb = herb(program);
    let mut all = Vec::new();
    all.push(("`check`: loading and checking", program.run(&["check"])));
    program.clear();
    all.push(("`compare`, nothing kept", program.run(&["compare", herb])));
    program.clear();
    all.push(("`disputes`, nothing kept", program.run(&["disputes"])));
    let words = program.run(&["find", "发汗"]);
    all.push(("`find`, which makes the index of words", words));
    let mut cold = |name, words: &[&str]| {
        forget(Path::new(env!("CARGO_BIN_EXE_kaoyi")));
        forget(&program.cache);
        all.push((name, program.run(words)));
    };
    cold(
        "`compare`, kept files out of the page cache; who speaks of whom is found anew",
        &["compare", herb],
    );
    cold(
        "`find`, kept files out of the page cache",
        &["find", "发汗"],
    );
    cold(
        "`disputes`, kept files out of the page cache",
        &["disputes"],
    );
    all
}

/// The commands with all that is kept at hand, in turn, so that what disturbs one disturbs all.
fn warm(program: &Program) -> Vec<(&'static str, Run)> {
    let herb = herb(program);
    let commands: [(&str, Vec<&str>); 7] = [
        ("version", vec!["--version"]),
        ("is", vec!["is", herb, "acrid"]),
        ("compare", vec!["compare", herb]),
        ("handout", vec!["handout", herb]),
        ("find", vec!["find", "发汗"]),
        ("find --best", vec!["find", "发汗", "--best", "10"]),
        ("disputes", vec!["disputes"]),
    ];
    let mut runs: Vec<Vec<Run>> = commands.iter().map(|_| Vec::new()).collect();
    for _ in 0..RUNS {
        for ((_, words), runs) in commands.iter().zip(&mut runs) {
            runs.push(program.run(words));
        }
    }
    let medians = commands.iter().zip(runs).map(|((name, _), runs)| {
        let peak = runs.iter().filter_map(|run| run.peak).max();
        let time = median(runs.iter().map(|run| run.time).collect());
        (*name, Run { time, peak })
    });
    medians.collect()
}

fn library(program: &Program) -> Library {
    let cache = program.cache.join("kaoyi");
    let Some(folder) = &program.folder else {
        return Library::embedded(Some(&cache)).unwrap();
    };
    let start = Instant::now();
    let opened = Library::folder(folder, Some(&cache)).unwrap();
    println!("opened in process in {:.1?}", start.elapsed());
    match opened {
        Opened::Library(library) => *library,
        Opened::Faulty(_) => panic!("a synthetic corpus has no faults"),
    }
}
