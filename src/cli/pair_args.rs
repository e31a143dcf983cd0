//! The arguments of `pair` and `explain`.

use clap::Args;
use clap::builder::{PossibleValuesParser, TypedValueParser};

use super::args::Scope;
use super::complete::{herbs, periods};
use super::notebook::OwnArguments;
use crate::pairing::Counting;

#[derive(Debug, Args)]
pub(super) struct PairArguments {
    /// The herbs with their amounts: 薄荷=3g, or without a unit in parts: 薄荷=2, or with --period in units of old: 薄荷=三兩
    #[arg(required = true, value_name = "HERB=AMOUNT")]
    pub herbs: Vec<String>,
    /// The parts of the herbs, which are then named without amounts: --parts 2:1
    #[arg(long, value_name = "PARTS")]
    pub parts: Option<String>,
    /// The amounts are in units of old, by the measures of this period
    #[arg(long, value_name = "PERIOD", conflicts_with = "parts", add = periods())]
    pub period: Option<String>,
    /// Seek a balance: 'sweet>acrid', sweet-over-acrid, 'sweet>2*acrid', bitter-under-30%
    #[arg(long, value_name = "BALANCE")]
    pub aim: Option<String>,
    /// An herb that may be added to reach the balance (can be repeated)
    #[arg(long, value_name = "HERB", requires = "aim", add = herbs())]
    pub with: Vec<String>,
    /// Take an herb to taste so many times as strong for its weight (can be repeated)
    #[arg(long, value_name = "HERB=FACTOR")]
    pub strength: Vec<String>,
    /// How much of a flavour "slightly" is
    #[arg(long, value_name = "FACTOR", default_value_t = 0.5, value_parser = factor)]
    pub slight: f64,
    /// How much of a flavour "greatly" is
    #[arg(long, value_name = "FACTOR", default_value_t = 1.5, value_parser = factor)]
    pub great: f64,
    /// What has one voice: each of the works, or each of the lines of works that repeat each other
    #[arg(long, value_name = "VOICES", default_value = "works", value_parser = counting())]
    pub count: Counting,
    /// Put the scores of your own tastings in place of the books, for the herbs that you tasted
    #[arg(long)]
    pub tasted: bool,
    #[command(flatten)]
    pub own: OwnArguments,
    #[command(flatten)]
    pub scope: Scope,
}

#[derive(Debug, Args)]
pub(super) struct ExplainArguments {
    /// The herb, by 汉字, pinyin, Latin, English or any other name
    #[arg(add = herbs())]
    pub herb: String,
    #[command(flatten)]
    pub scope: Scope,
}

fn factor(word: &str) -> Result<f64, String> {
    let number = word.parse::<f64>().ok();
    number
        .filter(|number| *number > 0.0 && *number <= 100.0)
        .ok_or_else(|| "expected a number above 0, at most 100".to_owned())
}

fn counting() -> impl TypedValueParser<Value = Counting> {
    PossibleValuesParser::new(["works", "lines"]).map(|word| match word.as_str() {
        "lines" => Counting::Lines,
        _ => Counting::Works,
    })
}
