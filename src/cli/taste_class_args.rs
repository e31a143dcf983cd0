//! The arguments of `taste against`, `taste panel`, `taste form` and `taste plan`: what a class needs.

use std::path::PathBuf;
use std::str::FromStr;

use clap::Args;
use jiff::civil::{Date, Time};

use super::args::Scope;
use super::complete::herbs;
use super::notebook::OwnArguments;
use crate::tasting::{Day, Every, MOST_CUPS};

/// The most tasters for whom a table is laid out.
const MOST_TASTERS: u64 = 500;

#[derive(Debug, Args)]
pub(super) struct AgainstArguments {
    /// The herb, by 汉字, pinyin, Latin, English or any other name
    #[arg(add = herbs())]
    pub herb: String,
    #[command(flatten)]
    pub own: OwnArguments,
    #[command(flatten)]
    pub scope: Scope,
}

#[derive(Debug, Args)]
pub(super) struct PanelArguments {
    /// Tables of scores (.csv, .tsv, .txt), single records (.yaml) and notebook folders
    #[arg(required = true, value_name = "FILE")]
    pub files: Vec<PathBuf>,
    /// The herb, where the files hold several
    #[arg(long, value_name = "HERB", add = herbs())]
    pub herb: Option<String>,
    #[command(flatten)]
    pub scope: Scope,
}

#[derive(Debug, Args)]
pub(super) struct FormArguments {
    /// The herbs, each by 汉字, pinyin, Latin, English or any other name
    #[arg(required = true, value_name = "HERB", add = herbs())]
    pub herbs: Vec<String>,
    /// Write Markdown instead of plain text
    #[arg(long, conflicts_with = "json")]
    pub markdown: bool,
    /// Write the empty table in which the scores are gathered, with blind codes
    #[arg(long, conflicts_with_all = ["json", "markdown", "blind"])]
    pub csv: bool,
    /// Keep the herb's name off the form
    #[arg(long)]
    pub blind: bool,
    /// How many tasters there are
    #[arg(long, value_name = "N", default_value_t = 1, value_parser = clap::value_parser!(u64).range(1..=MOST_TASTERS))]
    pub tasters: u64,
    /// How many cups of each herb a taster is given
    #[arg(long, value_name = "N", default_value_t = 1, value_parser = clap::value_parser!(u64).range(1..=MOST_CUPS as u64))]
    pub cups: u64,
    /// Fix codes and orders: the same number gives the same; default: drawn, and told
    #[arg(long, value_name = "NUMBER")]
    pub seed: Option<u64>,
    /// The day of the tasting, to be written into the table
    #[arg(long, value_name = "YYYY-MM-DD", value_parser = Day::from_str)]
    pub date: Option<Day>,
    /// Read the folder DIR too; one with a vocabulary/ of its own stands alone
    #[arg(long, value_name = "DIR")]
    pub corpus: Option<PathBuf>,
}

#[derive(Debug, Args)]
pub(super) struct PlanArguments {
    /// The herbs, one a meeting, in this order
    #[arg(required = true, value_name = "HERB", add = herbs())]
    pub herbs: Vec<String>,
    /// The day on which the first herb is steeped
    #[arg(long, value_name = "YYYY-MM-DD", value_parser = date)]
    pub from: Date,
    /// When it is steeped, by the clock on the wall
    #[arg(long, value_name = "HH:MM", default_value = "18:00", value_parser = time)]
    pub at: Time,
    /// How often: day, week, month, or a number with one of these: '2 weeks'
    #[arg(long, value_name = "INTERVAL", default_value = "week", value_parser = Every::from_str)]
    pub every: Every,
    /// How many hours it steeps; then it is tasted
    #[arg(long, value_name = "N", default_value_t = 12, value_parser = clap::value_parser!(u8).range(1..=48))]
    pub hours: u8,
    /// Write the calendar to FILE, and the plan as text to the terminal
    #[arg(short, long, value_name = "FILE", conflicts_with = "json")]
    pub output: Option<PathBuf>,
    /// Read the folder DIR too; one with a vocabulary/ of its own stands alone
    #[arg(long, value_name = "DIR")]
    pub corpus: Option<PathBuf>,
}

fn date(words: &str) -> Result<Date, String> {
    // The library takes more forms than are told here; a day that can be misread is refused.
    let day = words.parse::<Day>().map_err(|error| error.to_string())?;
    day.to_string()
        .parse()
        .map_err(|error: jiff::Error| error.to_string())
}

fn time(words: &str) -> Result<Time, String> {
    let parts = words.split_once(':').and_then(|(hours, minutes)| {
        let two = minutes.len() == 2 && (1..=2).contains(&hours.len());
        let time = Time::new(hours.parse().ok()?, minutes.parse().ok()?, 0, 0).ok()?;
        two.then_some(time)
    });
    parts.ok_or_else(|| "expected a time of day such as 18:00".to_owned())
}
