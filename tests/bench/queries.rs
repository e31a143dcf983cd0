//! What is asked: phrases cut from wordings, and headings, in their natural frequency.

use fastrand::Rng;
use kaoyi::text::HanFolder;

use crate::phrases::Phrases;

/// What stands for a lost character or a gap.
pub const LOST: char = '0';

/// A query and the group in which it is counted.
pub struct Query {
    /// Characters of a phrase; 0 for a heading.
    pub group: usize,
    /// Folded, Han characters only.
    pub text: String,
}

/// A folded text without punctuation, with [`LOST`] where the index lets nothing match.
pub fn plain(folder: &HanFolder, text: &str) -> Vec<char> {
    let of = |c: char| match c {
        '□' | '…' => Some(LOST),
        c if c.is_ascii_alphanumeric() => Some(LOST),
        c => c.is_alphanumeric().then_some(c),
    };
    folder.fold(text).chars().filter_map(of).collect()
}

/// So many phrases of each length, from one to six characters, and as many headings.
pub fn queries(phrases: &Phrases, each: usize, random: &mut Rng) -> Vec<Query> {
    let folder = HanFolder::new().unwrap();
    let mut queries = Vec::new();
    for group in 1..=6 {
        while queries.len() < group * each {
            let text = plain(&folder, phrases.wording(random));
            let Some(last) = text.len().checked_sub(group) else {
                continue;
            };
            let from = random.usize(..=last);
            if let Some(text) = of_han(&text[from..from + group]) {
                queries.push(Query { group, text });
            }
        }
    }
    while queries.len() < 7 * each {
        if let Some(text) = of_han(&plain(&folder, phrases.heading(random))) {
            queries.push(Query { group: 0, text });
        }
    }
    queries
}

fn of_han(text: &[char]) -> Option<String> {
    let whole = !text.is_empty() && text.iter().all(|c| *c >= '\u{3400}');
    whole.then(|| text.iter().collect())
}
