//! Real phrases in their natural frequency: the wordings and headings of the shipped corpus, each as often as it occurs.

use fastrand::Rng;

/// A longer wording is cut, in characters.
const LONGEST: usize = 24;

/// What is drawn from.
pub struct Phrases {
    wordings: Vec<String>,
    headings: Vec<String>,
}

impl Phrases {
    pub fn shipped() -> Self {
        let corpus = kaoyi::corpus::embedded().unwrap();
        let mut phrases = Self {
            wordings: Vec::new(),
            headings: Vec::new(),
        };
        let cut = |text: &str| text.chars().take(LONGEST).collect::<String>();
        for entry in corpus
            .herbs()
            .unwrap()
            .iter()
            .flat_map(|herb| &herb.entries)
        {
            let headings = entry.at.iter().map(|at| cut(&at.heading));
            phrases.headings.extend(headings);
            let wordings = entry
                .sayings
                .iter()
                .filter_map(|saying| saying.wording.as_deref());
            phrases.wordings.extend(wordings.map(cut));
        }
        phrases
    }

    pub fn wording(&self, random: &mut Rng) -> &str {
        &self.wordings[random.usize(..self.wordings.len())]
    }

    pub fn heading(&self, random: &mut Rng) -> &str {
        &self.headings[random.usize(..self.headings.len())]
    }
}
