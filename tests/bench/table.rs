//! The tables of the proof, and their place in the document.

use std::path::Path;
use std::time::Duration;

use crate::sized::{RUNS, Sized};
use crate::times::ratio;

const BEGIN: &str = "<!-- written by `cargo bench --bench proof` -->";
const END: &str = "<!-- end of what is written -->";

/// A table of Markdown.
pub struct Table {
    lines: Vec<String>,
}

impl Table {
    pub fn new(header: &[&str]) -> Self {
        let rule = "|---".repeat(header.len());
        Self {
            lines: vec![format!("| {} |", header.join(" | ")), format!("{rule}|")],
        }
    }

    pub fn row(&mut self, cells: Vec<String>) {
        self.lines.push(format!("| {} |", cells.join(" | ")));
    }

    pub fn text(self) -> String {
        format!("{}\n", self.lines.join("\n"))
    }
}

/// A time in the unit that fits it, to three figures.
pub fn milliseconds(time: Duration) -> String {
    let (value, unit) = match time.as_secs_f64() {
        one if one >= 1.0 => (one, "s"),
        one if one >= 1e-3 => (one * 1e3, "ms"),
        one => (one * 1e6, "µs"),
    };
    match value {
        100.0.. => format!("{value:.0} {unit}"),
        10.0.. => format!("{value:.1} {unit}"),
        _ => format!("{value:.2} {unit}"),
    }
}

/// The most memory of a run, where it is known.
fn megabytes(bytes: Option<u64>) -> String {
    bytes.map_or_else(String::new, |bytes| {
        format!(", {:.0} MB", bytes as f64 / 1e6)
    })
}

/// Whole processes: what is done once, and warm ones beside the start of the program.
pub fn whole(shipped: &Sized, million: &Sized, larger: Option<&Sized>) -> String {
    let all: Vec<&Sized> = [Some(shipped), Some(million), larger]
        .into_iter()
        .flatten()
        .collect();
    let names: Vec<String> = all.iter().map(|one| one.name()).collect();
    let header = |first: &str| {
        let mut header = vec![first.to_owned()];
        header.extend(names.clone());
        header
    };
    let table = |header: Vec<String>| {
        let header: Vec<&str> = header.iter().map(String::as_str).collect();
        Table::new(&header)
    };
    let mut once = table(header("once: time, most memory"));
    for (place, (name, _)) in shipped.once.iter().enumerate() {
        let cell = |one: &&Sized| {
            let run = &one.once[place].1;
            format!("{}{}", milliseconds(run.time), megabytes(run.peak))
        };
        let mut cells = vec![(*name).to_owned()];
        cells.extend(all.iter().map(cell));
        once.row(cells);
    }
    let mut warm = table(header(&format!(
        "warm: median of {RUNS}, of `--version`, most memory"
    )));
    for (place, (name, _)) in shipped.warm.iter().enumerate() {
        let cell = |one: &&Sized| {
            let run = &one.warm[place].1;
            let of = ratio(run.time, one.of("version"));
            format!("{}, {of:.1}{}", milliseconds(run.time), megabytes(run.peak))
        };
        let mut cells = vec![format!("`{name}`")];
        cells.extend(all.iter().map(cell));
        warm.row(cells);
    }
    format!("{}\n{}", once.text(), warm.text())
}

/// How times grow from a million claims on: the exponent e in time = claims^e.
pub fn growth(million: &Sized, larger: Option<&Sized>) -> String {
    let Some(larger) = larger else {
        return "Growth was not measured: `KAOYI_BENCH_CLAIMS=10000000` adds a larger corpus.\n"
            .to_owned();
    };
    let times = larger.claims as f64 / million.claims as f64;
    let mut table = Table::new(&["growth", "a million", "larger", "exponent"]);
    let mut row = |name: &str, small: Duration, large: Duration| {
        let exponent = ratio(large, small).ln() / times.ln();
        table.row(vec![
            name.to_owned(),
            milliseconds(small),
            milliseconds(large),
            format!("{exponent:.2}"),
        ]);
    };
    for ((name, small), (_, large)) in million.once.iter().zip(&larger.once) {
        row(name, small.time, large.time);
    }
    for ((name, small), (_, large)) in million.warm.iter().zip(&larger.warm) {
        row(&format!("`{name}`"), small.time, large.time);
    }
    row("the pass over loaded data", million.pass, larger.pass);
    table.text()
}

/// Puts the tables between the markers of the document.
pub fn write(text: &str) {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("docs/performance.md");
    let whole = std::fs::read_to_string(&path).unwrap();
    let (before, rest) = whole.split_once(BEGIN).unwrap();
    let (_, after) = rest.split_once(END).unwrap();
    std::fs::write(path, format!("{before}{BEGIN}\n\n{text}\n{END}{after}")).unwrap();
}
