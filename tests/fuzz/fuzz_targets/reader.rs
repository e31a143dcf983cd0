//! One of the targets in `tests/fuzz/targets`, fed by libFuzzer.

#![no_main]

#[path = "../targets/reader.rs"]
mod reader;

libfuzzer_sys::fuzz_target!(|data: &[u8]| reader::run(data));
