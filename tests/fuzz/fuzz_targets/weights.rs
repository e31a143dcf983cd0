//! One of the targets in `tests/fuzz/targets`, fed by libFuzzer.

#![no_main]

#[path = "../targets/weights.rs"]
mod weights;

libfuzzer_sys::fuzz_target!(|data: &[u8]| weights::run(data));
