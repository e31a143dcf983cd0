//! The arguments of `chart`.

use std::path::PathBuf;

use clap::Args;
use clap::builder::{PossibleValuesParser, TypedValueParser};

use super::args::Scope;
use super::complete::herbs;
use super::notebook::OwnArguments;
use crate::claim::Facet;
use crate::compare::COMPARABLE;
use crate::report::chart::ChartKind;

/// Draw one picture of the record of an herb, or of several, as SVG
#[derive(Debug, Args)]
#[command(
    after_help = "Kinds: timeline, the witnesses by date · matrix, flavours by witnesses · nature, each witness from cold to hot · \
    lines, who draws on whom · flavours, how many books state each, with intervals · actions, opposed actions side by side.\n\n\
    A drawing tells what it shows in words too, and is light or dark as the screen is. PNG needs a build with --features png.\n\n\
    Exit codes: 0 drawn, 1 drawn but no work takes a stand, 2 could not run\n\n\
    Examples:\n  kaoyi chart nature 薄荷\n  kaoyi chart timeline juhua -o juhua.svg\n  kaoyi chart lines renshen --facet flavour"
)]
pub(super) struct ChartArguments {
    /// What to draw
    #[arg(value_name = "KIND", value_parser = kind())]
    pub kind: ChartKind,
    /// The herbs, by 汉字, pinyin, Latin, English or any other name; several stand below each other
    #[arg(required = true, value_name = "HERB", add = herbs())]
    pub herbs: Vec<String>,
    /// The file to write, .svg or .png; default: SVG to standard output
    #[arg(short, long, value_name = "FILE", conflicts_with = "json")]
    pub output: Option<PathBuf>,
    /// The facet of which `lines` draws the lines
    #[arg(long, value_name = "FACET", default_value = "nature", value_parser = drawn_facet())]
    pub facet: Facet,
    /// Show your own tastings beside the books
    #[arg(long)]
    pub tasted: bool,
    #[command(flatten)]
    pub own: OwnArguments,
    #[command(flatten)]
    pub scope: Scope,
}

fn kind() -> impl TypedValueParser<Value = ChartKind> {
    PossibleValuesParser::new(ChartKind::ALL.map(ChartKind::name)).map(|name| {
        let named = ChartKind::ALL.into_iter().find(|kind| kind.name() == name);
        named.unwrap_or(ChartKind::Timeline)
    })
}

/// The facets on which stands can be held against each other.
pub(super) fn drawn_facet() -> impl TypedValueParser<Value = Facet> {
    PossibleValuesParser::new(COMPARABLE.map(Facet::name)).map(|name| {
        let named = COMPARABLE.into_iter().find(|facet| facet.name() == name);
        named.unwrap_or(Facet::Nature)
    })
}
