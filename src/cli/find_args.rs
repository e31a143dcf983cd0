//! The arguments of `find` and `name`.

use clap::Args;
use clap::builder::{PossibleValuesParser, TypedValueParser};

use super::args::Scope;
use super::complete::herbs;
use crate::compare::By;

#[derive(Debug, Args)]
pub(super) struct FindArguments {
    /// Phrases of the wordings or names of herbs, in either script, each as one word of the command line; all must answer
    #[arg(value_name = "WORDS")]
    pub words: Vec<String>,
    /// One phrase is enough
    #[arg(long)]
    pub any: bool,
    /// Herbs of this flavour (can be repeated, or joined by commas: then all of them)
    #[arg(long, value_name = "VALUE", value_delimiter = ',')]
    pub flavour: Vec<String>,
    /// Herbs of this nature, or of a span of natures: warm..hot
    #[arg(long, value_name = "VALUE", value_delimiter = ',')]
    pub nature: Vec<String>,
    /// Herbs of this toxicity, or of a span
    #[arg(long, value_name = "VALUE", value_delimiter = ',')]
    pub toxicity: Vec<String>,
    /// Herbs of this grade
    #[arg(long, value_name = "VALUE", value_delimiter = ',')]
    pub grade: Vec<String>,
    /// Herbs that enter this channel
    #[arg(long, value_name = "VALUE", value_delimiter = ',')]
    pub channel: Vec<String>,
    /// Herbs with this action
    #[arg(long, value_name = "VALUE", value_delimiter = ',')]
    pub action: Vec<String>,
    /// How many of the witnesses must say so: any, most (two thirds) or all
    #[arg(long, value_name = "SHARE", default_value = "most", value_parser = by())]
    pub by: By,
    /// Only herbs of which nobody says this of whatever part, doubtful readings included (can be repeated)
    #[arg(long, value_name = "VALUE", value_delimiter = ',')]
    pub never: Vec<String>,
    /// Only sayings on this herb
    #[arg(long, value_name = "HERB", add = herbs())]
    pub herb: Option<String>,
    /// Show so many herbs
    #[arg(long, value_name = "N", default_value_t = 10)]
    pub top: usize,
    /// Pass over so many herbs first; with --best, sayings
    #[arg(long, value_name = "N", default_value_t = 0)]
    pub skip: usize,
    /// Show so many sayings of a herb
    #[arg(long, value_name = "N", default_value_t = 3)]
    pub sayings: usize,
    /// Show the N best sayings of all herbs one by one instead, for words alone
    #[arg(long, value_name = "N", requires = "words", value_parser = clap::value_parser!(u16).range(1..=1000),
        conflicts_with_all = ["flavour", "nature", "toxicity", "grade", "channel", "action", "by", "never", "top", "sayings"])]
    pub best: Option<u16>,
    /// Say why the herbs or sayings stand in this order
    #[arg(long, conflicts_with = "json")]
    pub explain: bool,
    #[command(flatten)]
    pub scope: Scope,
}

#[derive(Debug, Args)]
pub(super) struct NameArguments {
    /// The name, in any script or spelling
    #[arg(required = true, value_name = "WORDS")]
    pub words: Vec<String>,
    #[command(flatten)]
    pub scope: Scope,
}

fn by() -> impl TypedValueParser<Value = By> {
    PossibleValuesParser::new(By::WORDS.map(|(word, _)| word)).map(|word| {
        let named = By::WORDS.into_iter().find(|(one, _)| *one == word);
        named.map_or(By::Most, |(_, by)| by)
    })
}
