//! The arguments: one definition feeds parser, help and the command reference.

use std::path::PathBuf;

use clap::builder::{PossibleValuesParser, TypedValueParser};
use clap::{Args, CommandFactory, Parser, Subcommand, ValueEnum};

use super::chart_args::ChartArguments;
use super::complete::{herbs, works};
use super::data_args::{CheckArguments, ManualArguments, ReadArguments, WorksArguments};
use super::disputes_args::{AffinityArguments, DisputesArguments};
use super::export_args::{CITE, CiteArguments, EXPORT, ExportArguments};
use super::find_args::{FindArguments, NameArguments};
use super::handout_args::HandoutArguments;
use super::notebook::OwnArguments;
use super::pair_args::{ExplainArguments, PairArguments};
use super::serve_args::ServeArguments;
use super::taste_args::TasteArguments;
use super::weigh_args::WeighArguments;
use crate::claim::Facet;
use crate::text::Script;

/// What classical books claim about medicinal herbs, side by side
///
/// Kaoyi reports what books say and prescribes nothing: check local law and ask a licensed
/// practitioner before any use of an herb.
#[derive(Debug, Parser)]
#[command(
    name = "kaoyi",
    version,
    max_term_width = 100,
    propagate_version = true
)]
#[command(
    after_help = "Exit codes: 0 answered, 1 any other answer or findings, 2 could not run\n\n\
    Examples:\n  kaoyi compare bohe\n  kaoyi is juhua sweet\n  kaoyi profile 菊花 --script hans"
)]
pub(super) struct Arguments {
    #[command(flatten)]
    pub global: Global,
    #[command(subcommand)]
    pub command: Command,
}

/// Arguments of every command.
#[derive(Debug, Args)]
pub(super) struct Global {
    /// Write one JSON document instead of text
    #[arg(long, global = true)]
    pub json: bool,
    /// Lay the page out at least 140 columns wide, with Han labels and dates in full
    #[arg(long, global = true, conflicts_with = "json")]
    pub wide: bool,
    /// When to use colour; NO_COLOR and CLICOLOR_FORCE are obeyed
    #[arg(long, global = true, value_enum, default_value_t = Colour::Auto, value_name = "WHEN")]
    pub color: Colour,
}

/// When to use colour.
#[derive(Debug, Clone, Copy, ValueEnum)]
pub(super) enum Colour {
    /// On a terminal
    Auto,
    /// Always
    Always,
    /// Never
    Never,
}

/// The commands.
#[derive(Debug, Subcommand)]
pub(super) enum Command {
    /// Set the sources on one herb side by side
    #[command(
        after_help = "Examples:\n  kaoyi compare bohe\n  kaoyi compare 薄荷 --facet nature --evidence\n  \
        kaoyi compare mint --until 1600 --wide\n  kaoyi compare bohe --against juhua"
    )]
    Compare(CompareArguments),
    /// Show the consensus card of one herb
    #[command(
        after_help = "Examples:\n  kaoyi profile juhua\n  kaoyi profile juhua --facet nature --explain\n  \
        kaoyi profile 菊花 --weighted --found-lines"
    )]
    Profile(ProfileArguments),
    /// Ask whether the books call an herb sweet, warm, toxic …
    #[command(
        after_help = "A value is a flavour, nature, toxicity, grade, channel or action, by its English word, \
        汉字 or pinyin. Asking for warm, cold, hot or toxic counts their degrees too (slightly warm, greatly warm).\n\n\
        Exit codes: 0 yes or mostly yes to every value, 1 any other answer, 2 could not answer\n\n\
        Examples:\n  kaoyi is juhua sweet\n  kaoyi is bohe 溫 acrid\n  kaoyi is bohe channel:lung"
    )]
    Is(IsArguments),
    /// Read a book's plain text into entries for review
    #[command(
        after_help = "Headings are recognised as <篇名>, # or 【…】; other layouts are told with --layout. What the grammar \
        does not understand is counted and shown, and never guessed.\n\n\
        Exit codes: 0 statements found, 1 none found, 2 could not run\n\n\
        Examples:\n  kaoyi read tests/data/reading/garden.txt --work garden-lessons\n  \
        kaoyi read tests/data/reading/garden.txt --work garden-lessons --into my-corpus"
    )]
    Read(ReadArguments),
    /// Rank the herbs by how much the books differ on them
    #[command(
        after_help = "Exit codes: 0 answered, 1 no herb qualifies, 2 could not answer\n\n\
        Examples:\n  kaoyi disputes\n  kaoyi disputes --facet nature --kind crossing --top 10\n  \
        kaoyi disputes --since 1369 --witnesses 3 --json"
    )]
    Disputes(DisputesArguments),
    /// Show which works agree, and which seem to follow which
    #[command(
        after_help = "Exit codes: 0 answered, 1 no two works share enough, 2 could not answer\n\n\
        Examples:\n  kaoyi affinity\n  kaoyi affinity 本草從新\n  kaoyi affinity --facet nature --since 1369"
    )]
    Affinity(AffinityArguments),
    /// Find herbs and sayings by words and properties
    #[command(
        after_help = "Words are found in either script and with any variant of a character, punctuation passed over; a name is \
        found in pinyin with or without tones too. Several words must all answer, in one saying or in the names of its herb.\n\n\
        Exit codes: 0 found, 1 nothing found, 2 could not run\n\n\
        Examples:\n  kaoyi find 發汗\n  kaoyi find 薄荷 头痛\n  kaoyi find --flavour sweet --nature warm --channel lung --never toxic\n  \
        kaoyi find 咳逆 --nature warm..hot --until 700 --json"
    )]
    Find(FindArguments),
    /// Tell which herbs bear a name, and which books use it
    #[command(
        after_help = "Exit codes: 0 an herb bears it, 1 none does, 2 could not run\n\n\
        Examples:\n  kaoyi name 甘菊\n  kaoyi name huang qi\n  kaoyi name Menthae"
    )]
    Name(NameArguments),
    /// Hold what the doctrine of flavours leads one to expect of an herb against what the books say it does
    #[command(
        after_help = "Exit codes: 0 answered, 1 no doctrine applies, 2 could not answer\n\n\
        Examples:\n  kaoyi explain 薄荷\n  kaoyi explain 黃芩 --until 700 --json"
    )]
    Explain(ExplainArguments),
    /// Tell what a pair or formula is together: flavours, nature, movement, what it must not meet
    #[command(
        after_help = "An arithmetic of what books say, weighted by amount, and no measurement; its assumptions can be changed. \
        A prepared form (炙甘草) is looked up as its herb.\n\n\
        Exit codes: 0 answered, 1 a balance that was sought is not reached, 2 could not answer\n\n\
        Examples:\n  kaoyi pair 薄荷=3g 菊花=6g\n  kaoyi pair 薄荷 甘草 --parts 2:1\n  \
        kaoyi pair 桂枝=9g 甘草=3g --aim sweet-over-acrid\n  kaoyi pair 薄荷=3g --aim sweet-over-acrid --with 甘草 --json"
    )]
    Pair(PairArguments),
    Chart(ChartArguments),
    Handout(HandoutArguments),
    Serve(ServeArguments),
    /// Show what an amount or a formula comes to in grams, by every published opinion
    #[command(
        after_help = "Amounts are Han or Arabic: 三兩, 一兩二錢, 兩半, 半斤, 3 liang, 1/2 jin. Scholars do not agree on the old \
        measures: every opinion is shown, none is preferred. A formula file holds herbs with their amounts: docs/data-guide.md.\n\n\
        Exit codes: 0 weighed, 2 could not run\n\n\
        Examples:\n  kaoyi weigh 3 liang\n  kaoyi weigh 半斤 --period han\n  kaoyi weigh 1 sheng --period han\n  \
        kaoyi weigh 芍藥=四兩 甘草=四兩 --period han --daily 9\n  kaoyi weigh --file tests/data/weighing/two-herbs.yaml"
    )]
    Weigh(WeighArguments),
    /// Keep a notebook of what you taste, one herb at a time; panels, forms and plans for a class
    Taste(Box<TasteArguments>),
    /// Write claims or works for other programs: tables, TEI, bibliographies, linked data, a workbook
    #[command(after_help = EXPORT)]
    Export(ExportArguments),
    /// Tell how the corpus, an herb's claims or single claims are cited
    #[command(after_help = CITE)]
    Cite(CiteArguments),
    /// List the books, or show one with what the corpus holds of it
    #[command(
        after_help = "Examples:\n  kaoyi works\n  kaoyi works 本草綱目\n  kaoyi works bencao-beiyao --json"
    )]
    Works(WorksArguments),
    /// Check a corpus and report every fault with its place
    #[command(
        after_help = "A folder with a vocabulary/ of its own stands alone; one without is checked as an addition \
        to the shipped corpus.\n\nExit codes: 0 clean, 1 faults, 2 could not run\n\n\
        Examples:\n  kaoyi check\n  kaoyi check my-corpus --brief\n  kaoyi check --report\n  kaoyi check --explain no-claim"
    )]
    Check(CheckArguments),
    /// Write man pages into a folder
    #[command(
        after_help = "Completions are asked for by the shell itself: put into its start file\n  \
        bash:  source <(COMPLETE=bash kaoyi)\n  zsh:   source <(COMPLETE=zsh kaoyi)\n  \
        fish:  COMPLETE=fish kaoyi | source\n  elvish: eval (E:COMPLETE=elvish kaoyi | slurp)\n\n\
        Example:\n  kaoyi manual man1"
    )]
    Manual(ManualArguments),
}

/// Which corpus, works and years to look at, and in which script to show them.
#[derive(Debug, Args)]
pub(super) struct Scope {
    /// Read the folder DIR too; one with a vocabulary/ of its own stands alone
    #[arg(long, value_name = "DIR")]
    pub corpus: Option<PathBuf>,
    /// Count only these works, by id, title or short form (can be repeated, or joined by commas)
    #[arg(long, value_name = "WORK", value_delimiter = ',', add = works())]
    pub works: Vec<String>,
    /// Count only works finished in this year or later
    #[arg(long, value_name = "YEAR", allow_negative_numbers = true)]
    pub since: Option<i32>,
    /// Count only works finished in this year or earlier
    #[arg(long, value_name = "YEAR", allow_negative_numbers = true)]
    pub until: Option<i32>,
    /// Show Han text in traditional (hant) or simplified (hans) script; default: as recorded
    #[arg(long, value_name = "SCRIPT", value_parser = script())]
    pub script: Option<Script>,
}

#[derive(Debug, Args)]
pub(super) struct CompareArguments {
    /// The herb, by 汉字, pinyin, Latin, English or any other name
    #[arg(add = herbs())]
    pub herb: String,
    /// Compare only these facets (can be repeated, or joined by commas)
    #[arg(long, value_name = "FACET", value_delimiter = ',', value_parser = facet())]
    pub facet: Vec<Facet>,
    /// Show the wording and place behind every cell
    #[arg(long, conflicts_with = "json")]
    pub evidence: bool,
    /// Show the working of every figure: who was counted, in which lines, with the terms of the formulas
    #[arg(long)]
    pub explain: bool,
    /// Set another herb's profile beside it instead: what tells the two apart
    #[arg(long, value_name = "HERB", add = herbs(), conflicts_with_all = ["facet", "evidence", "explain"])]
    pub against: Option<String>,
    #[command(flatten)]
    pub own: OwnArguments,
    #[command(flatten)]
    pub scope: Scope,
}

#[derive(Debug, Args)]
pub(super) struct ProfileArguments {
    /// The herb, by 汉字, pinyin, Latin, English or any other name
    #[arg(add = herbs())]
    pub herb: String,
    /// Show only these facets (can be repeated, or joined by commas)
    #[arg(long, value_name = "FACET", value_delimiter = ',', value_parser = facet())]
    pub facet: Vec<Facet>,
    /// Show the working of every figure: who was counted, in which lines, with the terms of the formulas
    #[arg(long)]
    pub explain: bool,
    /// Add an estimate that weighs each book by how often it proves right on all herbs
    #[arg(long)]
    pub weighted: bool,
    /// Add the number of lines when debts that the stands suggest are counted with the recorded ones
    #[arg(long)]
    pub found_lines: bool,
    #[command(flatten)]
    pub own: OwnArguments,
    #[command(flatten)]
    pub scope: Scope,
}

#[derive(Debug, Args)]
pub(super) struct IsArguments {
    /// The herb, by 汉字, pinyin, Latin, English or any other name
    #[arg(add = herbs())]
    pub herb: String,
    /// The values to ask for; `facet:value` where a word belongs to several facets
    #[arg(required = true, value_name = "VALUE")]
    pub values: Vec<String>,
    /// Show the wording and place behind every reply
    #[arg(long, conflicts_with = "json")]
    pub evidence: bool,
    #[command(flatten)]
    pub scope: Scope,
}

fn facet() -> impl TypedValueParser<Value = Facet> {
    PossibleValuesParser::new(Facet::ALL.map(Facet::name)).map(|name| {
        let named = Facet::ALL.into_iter().find(|facet| facet.name() == name);
        named.unwrap_or(Facet::Flavour)
    })
}

pub(super) fn script() -> impl TypedValueParser<Value = Script> {
    PossibleValuesParser::new(["hant", "hans"]).map(|name| {
        if name == "hant" {
            Script::Hant
        } else {
            Script::Hans
        }
    })
}

/// The definition of the command line, for help, reference and completions.
#[must_use]
pub fn command() -> clap::Command {
    Arguments::command()
}
