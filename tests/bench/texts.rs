//! The reader beside a regular expression.

use std::time::{Duration, Instant};

use kaoyi::corpus::embedded;
use kaoyi::reader::{Folder, Layout, Reader, articles};
use regex::Regex;

use crate::times::median;

pub const RUNS: usize = 7;

/// Both on the same texts, medians.
pub struct Both {
    /// Which texts.
    pub texts: String,
    pub ours: Duration,
    pub theirs: Duration,
    /// What the reader found.
    pub sayings: usize,
    /// What the expression found.
    pub matches: usize,
}

pub fn measure() -> Both {
    let texts = texts();
    let characters: usize = texts.iter().map(|(_, text)| text.chars().count()).sum();
    let peer = Regex::new(
        r"[气味性]*([微小大]?[辛甘酸苦咸淡涩][、，微小大辛甘酸苦咸淡涩]*)[，、气性]*([微小大]?[寒热温平凉])[，、]*([无有小大]*毒)?",
    )
    .unwrap();
    let (mut ours, mut theirs) = (Vec::new(), Vec::new());
    let (mut sayings, mut matches) = (0, 0);
    for _ in 0..RUNS {
        let start = Instant::now();
        sayings = read(&texts);
        ours.push(start.elapsed());
        let start = Instant::now();
        matches = texts
            .iter()
            .map(|(_, text)| by_expression(&peer, text))
            .sum();
        theirs.push(start.elapsed());
    }
    Both {
        texts: format!("{} texts, {characters} characters", texts.len()),
        ours: median(ours),
        theirs: median(theirs),
        sayings,
        matches,
    }
}

/// The books in `KAOYI_TEXTS`, else the invented example, many times over.
fn texts() -> Vec<(String, String)> {
    let Ok(folder) = std::env::var("KAOYI_TEXTS") else {
        let garden = include_str!("../data/reading/garden.txt");
        return vec![("garden".to_owned(), garden.repeat(2_000))];
    };
    let mut texts = Vec::new();
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.extension().is_some_and(|ending| ending == "txt") {
            let name = path.file_stem().unwrap().to_string_lossy().into_owned();
            texts.push((name, std::fs::read_to_string(path).unwrap()));
        }
    }
    texts
}

fn read(texts: &[(String, String)]) -> usize {
    let corpus = embedded().unwrap();
    let reader = Reader::new(&corpus).unwrap();
    let mut folder = Folder::new();
    let mut sayings = 0;
    for (work, text) in texts {
        let layout = Layout::recognise(text).unwrap();
        for article in articles(text, &layout) {
            sayings += reader
                .read(&article, work, &layout, &mut folder)
                .sayings
                .len();
        }
    }
    sayings
}

fn by_expression(peer: &Regex, text: &str) -> usize {
    text.split("<篇名>")
        .filter(|article| peer.captures(&article.replace([' ', '\n'], "")).is_some())
        .count()
}
