//! One of the targets in `tests/fuzz/targets`, fed by libFuzzer.

#![no_main]

#[path = "../targets/folder.rs"]
mod folder;
#[path = "../targets/records.rs"]
mod records;

libfuzzer_sys::fuzz_target!(|data: &[u8]| records::run(data));
