//! Every input kept for the fuzz targets goes through its target: what was found once stays mended. How new ones are looked
//! for: DEVELOPERS.md.

#[path = "fuzz/targets/folder.rs"]
mod folder;
#[path = "fuzz/targets/notebook.rs"]
mod notebook;
#[path = "fuzz/targets/reader.rs"]
mod reader;
#[path = "fuzz/targets/records.rs"]
mod records;
#[path = "fuzz/targets/requests.rs"]
mod requests;
#[path = "fuzz/targets/weights.rs"]
mod weights;
#[path = "fuzz/targets/words.rs"]
mod words;

use std::fs;
use std::panic::catch_unwind;

use crate::support::{files_below, root};

/// Most inputs that are kept for a target, and the largest.
const MOST: usize = 30;
const LARGEST: usize = 4096;

/// All inputs of a target, and each with small changes; those that fail are told, all of them.
fn hold(target: &str, run: fn(&[u8])) {
    let inputs = files_below(&root().join("tests/fuzz/corpus").join(target));
    assert!((1..=MOST).contains(&inputs.len()), "{}", inputs.len());
    let all: Vec<Vec<u8>> = inputs
        .iter()
        .map(|input| fs::read(input).unwrap())
        .collect();
    let mut random = fastrand::Rng::with_seed(SEED);
    let mut failed = Vec::new();
    for (input, bytes) in inputs.iter().zip(&all) {
        assert!(bytes.len() <= LARGEST, "{}", input.display());
        if catch_unwind(|| run(bytes)).is_err() {
            failed.push(input.display().to_string());
        }
        for _ in 0..changes() {
            let other = random.choice(&all).unwrap().clone();
            let changed = changed(bytes, &other, &mut random);
            if catch_unwind(|| run(&changed)).is_err() {
                failed.push(format!("{:?}", String::from_utf8_lossy(&changed)));
            }
        }
    }
    assert!(failed.is_empty(), "{}", failed.join("\n"));
}

const SEED: u64 = 12;

/// So many changes are made to each input; `KAOYI_CHANGES` sets another number.
fn changes() -> usize {
    let told = std::env::var("KAOYI_CHANGES").ok();
    told.and_then(|number| number.parse().ok()).unwrap_or(2)
}

/// An input with up to four small changes: a piece taken out, doubled, or put in from another input, a byte turned.
fn changed(bytes: &[u8], other: &[u8], random: &mut fastrand::Rng) -> Vec<u8> {
    let mut changed = bytes.to_vec();
    for _ in 0..random.usize(1..=4) {
        let piece = |of: &[u8], random: &mut fastrand::Rng| {
            let from = random.usize(..=of.len());
            from..(from + random.usize(..24)).min(of.len())
        };
        let here = piece(&changed, random);
        match random.u8(..4) {
            0 => drop(changed.drain(here)),
            1 => {
                let doubled = changed[here.clone()].to_vec();
                changed.splice(here.start..here.start, doubled);
            }
            2 => {
                let from = piece(other, random);
                changed.splice(here, other[from].iter().copied());
            }
            _ if here.start < changed.len() => changed[here.start] ^= 1 << random.u8(..8),
            _ => {}
        }
    }
    changed
}

#[test]
fn records_of_any_kind_are_checked_to_the_end() {
    hold("records", records::run);
}

#[test]
fn texts_of_any_kind_are_read_to_the_end() {
    hold("reader", reader::run);
}

#[test]
fn words_of_any_kind_are_looked_for() {
    hold("words", words::run);
}

#[test]
fn weights_of_any_kind_are_exact_or_refused() {
    hold("weights", weights::run);
}

#[test]
fn tastings_of_any_kind_are_kept_or_refused() {
    hold("notebook", notebook::run);
}

#[test]
fn requests_of_any_kind_are_answered() {
    hold("requests", requests::run);
}
