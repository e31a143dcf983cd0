//! One of the targets in `tests/fuzz/targets`, fed by libFuzzer.

#![no_main]

#[path = "../targets/folder.rs"]
mod folder;
#[path = "../targets/words.rs"]
mod words;

libfuzzer_sys::fuzz_target!(|data: &[u8]| words::run(data));
