//! How fast a text is read, beside a plain regular-expression reader on the same text in the same run.
//! The peer finds one flavour and nature statement an article and nothing else: an easy peer.
//!
//! `cargo bench --bench reading`, or with the books at hand `KAOYI_TEXTS=folder cargo bench --bench reading`.

#![allow(clippy::unwrap_used, clippy::print_stdout, missing_docs, dead_code)]

mod texts;
mod times;

fn main() {
    let both = texts::measure();
    println!("{}; medians of {} runs", both.texts, texts::RUNS);
    println!(
        "reader               {:?}  {} sayings",
        both.ours, both.sayings
    );
    println!(
        "regular expression   {:?}  {} statements",
        both.theirs, both.matches
    );
    println!(
        "ratio                {:.2}",
        times::ratio(both.ours, both.theirs)
    );
}
