//! One of the targets in `tests/fuzz/targets`, fed by libFuzzer.

#![no_main]

#[path = "../targets/notebook.rs"]
mod notebook;

libfuzzer_sys::fuzz_target!(|data: &[u8]| notebook::run(data));
