//! The arguments of `handout`.

use std::path::PathBuf;

use clap::builder::{PossibleValuesParser, TypedValueParser};
use clap::{ArgGroup, Args};

use super::args::Scope;
use super::chart_args::drawn_facet;
use super::complete::herbs;
use super::notebook::OwnArguments;
use crate::claim::Facet;

/// Make a page to print and hand out: the record of one herb or several with drawings and questions
#[derive(Debug, Args)]
#[command(group(ArgGroup::new("about").required(true).args(["herbs", "disputes"])))]
#[command(
    after_help = "HTML is one file without script or anything from elsewhere, for A4 and Letter, a phone, light and dark. \
    Markdown holds the same parts, the drawings as tables. Cautions stand on every page.\n\n\
    A lesson (--disputes) takes the herbs on which the books differ most in one facet, as `kaoyi disputes` ranks them.\n\n\
    Exit codes: 0 made, 1 made but no work takes a stand, 2 could not run\n\n\
    Examples:\n  kaoyi handout 薄荷 -o mint.html\n  kaoyi handout 薄荷 菊花 --ruby\n  kaoyi handout mint --format md\n  \
    kaoyi handout --disputes nature --top 3 --format md"
)]
pub(super) struct HandoutArguments {
    /// The herbs, by 汉字, pinyin, Latin, English or any other name
    #[arg(value_name = "HERB", add = herbs())]
    pub herbs: Vec<String>,
    /// Make a lesson of the herbs whose FACET is most disputed
    #[arg(long, value_name = "FACET", value_parser = drawn_facet())]
    pub disputes: Option<Facet>,
    /// How many herbs a lesson has
    #[arg(long, value_name = "N", default_value_t = 10, requires = "disputes")]
    pub top: usize,
    /// The file to write; default: standard output
    #[arg(short, long, value_name = "FILE", conflicts_with = "json")]
    pub output: Option<PathBuf>,
    /// The format; default: by the ending of the file, else HTML
    #[arg(long, value_name = "FORMAT", value_parser = format())]
    pub format: Option<PageFormat>,
    /// Put pinyin over the names of herbs and books
    #[arg(long)]
    pub ruby: bool,
    /// Show your own tastings beside the books
    #[arg(long)]
    pub tasted: bool,
    #[command(flatten)]
    pub own: OwnArguments,
    #[command(flatten)]
    pub scope: Scope,
}

/// What a page is written as.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum PageFormat {
    /// One file of HTML.
    Html,
    /// Markdown.
    Markdown,
}

fn format() -> impl TypedValueParser<Value = PageFormat> {
    PossibleValuesParser::new(["html", "md"]).map(|name| match name.as_str() {
        "md" => PageFormat::Markdown,
        _ => PageFormat::Html,
    })
}
