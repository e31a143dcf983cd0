//! One of the targets in `tests/fuzz/targets`, fed by libFuzzer.

#![no_main]

#[path = "../targets/folder.rs"]
mod folder;
#[path = "../targets/requests.rs"]
mod requests;

libfuzzer_sys::fuzz_target!(|data: &[u8]| requests::run(data));
