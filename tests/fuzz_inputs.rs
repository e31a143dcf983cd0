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

/// All inputs of a target; those that fail are told by name, all of them.
fn hold(target: &str, run: fn(&[u8])) {
    let inputs = files_below(&root().join("tests/fuzz/corpus").join(target));
    assert!((1..=MOST).contains(&inputs.len()), "{}", inputs.len());
    let mut failed = Vec::new();
    for input in inputs {
        let bytes = fs::read(&input).unwrap();
        assert!(bytes.len() <= LARGEST, "{}", input.display());
        if catch_unwind(|| run(&bytes)).is_err() {
            failed.push(input);
        }
    }
    assert!(failed.is_empty(), "{failed:?}");
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
