//! The arguments of `weigh`.

use std::path::PathBuf;

use clap::Args;

use super::args::script;
use super::complete::periods;
use crate::text::Script;

#[derive(Debug, Args)]
pub(super) struct WeighArguments {
    /// An amount, as 三兩 or 3 liang, or a formula as HERB=AMOUNT words
    #[arg(
        value_name = "AMOUNT",
        required_unless_present = "file",
        allow_negative_numbers = true
    )]
    pub words: Vec<String>,
    /// Weigh the formula in a YAML file instead
    #[arg(long, value_name = "FILE", conflicts_with = "words")]
    pub file: Option<PathBuf>,
    /// Only by the measures of this period, by id or name; default: all, oldest first
    #[arg(long, value_name = "PERIOD", add = periods())]
    pub period: Option<String>,
    /// Scale the formula so that all of it comes to this many grams a day
    #[arg(long, value_name = "GRAMS", allow_negative_numbers = true)]
    pub daily: Option<String>,
    /// Read the folder DIR too; one with a vocabulary/ of its own stands alone
    #[arg(long, value_name = "DIR")]
    pub corpus: Option<PathBuf>,
    /// Show Han text in traditional (hant) or simplified (hans) script; default: as recorded
    #[arg(long, value_name = "SCRIPT", value_parser = script())]
    pub script: Option<Script>,
}
