//! The arguments of the commands on the data itself: `read`, `works`, `check`, `manual`.

use std::path::PathBuf;

use clap::Args;
use clap::builder::{PossibleValuesParser, TypedValueParser};

use super::args::script;
use super::complete::works;
use crate::reader::Encoding;
use crate::text::Script;

#[derive(Debug, Args)]
pub(super) struct ReadArguments {
    /// The text, in UTF-8, GB18030 or Big5; - for standard input
    #[arg(value_name = "TEXT")]
    pub text: PathBuf,
    /// The id of the work that it is
    #[arg(long, value_name = "ID")]
    pub work: String,
    /// Merge the entries into the corpus folder DIR instead of writing them out
    #[arg(long, value_name = "DIR", conflicts_with = "json")]
    pub into: Option<PathBuf>,
    /// How the text is laid out, told in a YAML file
    #[arg(long, value_name = "FILE")]
    pub layout: Option<PathBuf>,
    /// The encoding; default: recognised
    #[arg(long, value_name = "NAME", value_parser = encoding())]
    pub encoding: Option<Encoding>,
    /// Read the folder DIR too, for its works and words
    #[arg(long, value_name = "DIR")]
    pub corpus: Option<PathBuf>,
}

#[derive(Debug, Args)]
pub(super) struct WorksArguments {
    /// The work, by id, title or short form; default: all
    #[arg(value_name = "WORK", add = works())]
    pub work: Option<String>,
    /// Read the folder DIR too; one with a vocabulary/ of its own stands alone
    #[arg(long, value_name = "DIR")]
    pub corpus: Option<PathBuf>,
    /// Show Han text in traditional (hant) or simplified (hans) script; default: as recorded
    #[arg(long, value_name = "SCRIPT", value_parser = script())]
    pub script: Option<Script>,
}

#[derive(Debug, Args)]
pub(super) struct CheckArguments {
    /// The folder to check; default: the corpus that the program carries
    #[arg(value_name = "DIR")]
    pub folder: Option<PathBuf>,
    /// Write one line a fault: file:line:column: code: found, expected
    #[arg(long, conflicts_with = "json")]
    pub brief: bool,
    /// Where there is no fault, report the state of the corpus: coverage by work and herb, what waits for
    /// review, doubtful sayings, herbs that may be recorded twice, witnesses that stand alone
    #[arg(long, conflicts_with = "brief")]
    pub report: bool,
    /// Explain a code and stop; without CODE list all codes
    #[arg(long, value_name = "CODE", num_args = 0..=1, default_missing_value = "", conflicts_with_all = ["folder", "json", "report"])]
    pub explain: Option<String>,
}

#[derive(Debug, Args)]
pub(super) struct ManualArguments {
    /// The folder, made where it is not there
    #[arg(value_name = "DIR")]
    pub folder: PathBuf,
}

fn encoding() -> impl TypedValueParser<Value = Encoding> {
    PossibleValuesParser::new(Encoding::ALL.map(Encoding::name)).map(|name| {
        let named = Encoding::ALL.into_iter().find(|one| one.name() == name);
        named.unwrap_or(Encoding::Utf8)
    })
}
