//! The arguments of `export` and `cite`.

use std::path::PathBuf;

use clap::builder::PossibleValue;
use clap::{Args, ValueEnum};

use super::args::Scope;
use super::complete::herbs;
use crate::report::export::Format;

pub(super) const EXPORT: &str = "Columns and shapes: docs/export.md. Without herbs the whole corpus is written. With -o a file \
    is written beside its place and then put there.\n\n\
    In CSV a text that a spreadsheet would take for a formula has an apostrophe put before it; --raw leaves it as it is.\n\n\
    Exit codes: 0 written, 1 nothing to write, 2 could not run\n\n\
    Examples:\n  kaoyi export csv 薄荷\n  kaoyi export tei 薄荷 菊花 -o mint.xml\n  kaoyi export package -o package\n  \
    kaoyi export bibtex\n  kaoyi export jsonld bohe --until 700";

pub(super) const CITE: &str = "A claim's id is herb/work/article/saying/facet/value, as exports show it; the beginning of one names \
    all claims under it.\n\n\
    Exit codes: 0 answered, 2 could not answer\n\n\
    Examples:\n  kaoyi cite\n  kaoyi cite 薄荷 --until 700\n  kaoyi cite bohe/xinxiu-bencao/730/1/flavour/acrid\n  \
    kaoyi cite bohe/xinxiu-bencao --bibtex";

/// What can be written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Shape {
    /// One file.
    File(Format),
    /// A folder of tables.
    Package,
}

impl ValueEnum for Shape {
    fn value_variants<'a>() -> &'a [Self] {
        &[
            Self::File(Format::Csv),
            Self::File(Format::Ndjson),
            Self::Package,
            Self::File(Format::Tei),
            Self::File(Format::Csl),
            Self::File(Format::Bibtex),
            Self::File(Format::Jsonld),
            Self::File(Format::Xlsx),
        ]
    }

    fn to_possible_value(&self) -> Option<PossibleValue> {
        let (name, help) = match self {
            Self::File(Format::Csv) => ("csv", "Claims as comma-separated values (RFC 4180)"),
            Self::File(Format::Ndjson) => ("ndjson", "Claims as JSON, one a line"),
            Self::Package => (
                "package",
                "A Data Package: tables of claims, works and herbs with their schemas; needs -o DIR",
            ),
            Self::File(Format::Tei) => ("tei", "TEI P5 with a critical apparatus"),
            Self::File(Format::Csl) => ("csl", "Works as CSL-JSON"),
            Self::File(Format::Bibtex) => ("bibtex", "Works for BibLaTeX"),
            Self::File(Format::Jsonld) => ("jsonld", "Claims and works as JSON-LD with PROV-O"),
            Self::File(Format::Xlsx) => (
                "xlsx",
                "A workbook: herbs, claims, flavours by witness, differences",
            ),
        };
        Some(PossibleValue::new(name).help(help))
    }
}

#[derive(Debug, Args)]
pub(super) struct ExportArguments {
    /// The format
    #[arg(value_enum, value_name = "FORMAT")]
    pub format: Shape,
    /// The herbs, by 汉字, pinyin, Latin, English or any other name; default: all
    #[arg(value_name = "HERB", add = herbs())]
    pub herbs: Vec<String>,
    /// Write to this file, or for a package into this folder; default: standard output
    #[arg(long, short, value_name = "PATH")]
    pub output: Option<PathBuf>,
    /// Leave texts in CSV as they are, those too that a spreadsheet takes for formulas
    #[arg(long)]
    pub raw: bool,
    #[command(flatten)]
    pub scope: Scope,
}

#[derive(Debug, Args)]
pub(super) struct CiteArguments {
    /// Herbs, claims by id, or beginnings of ids; default: the corpus alone
    #[arg(value_name = "CLAIM-ID|HERB", add = herbs())]
    pub claims: Vec<String>,
    /// Write entries for BibLaTeX
    #[arg(long, conflicts_with_all = ["json", "csl"])]
    pub bibtex: bool,
    /// Write items of CSL-JSON
    #[arg(long, conflicts_with = "json")]
    pub csl: bool,
    #[command(flatten)]
    pub scope: Scope,
}
