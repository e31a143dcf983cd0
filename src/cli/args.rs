//! The arguments: one definition feeds parser, help and the command reference.

use std::path::PathBuf;

use clap::builder::{PossibleValuesParser, TypedValueParser};
use clap::{Args, CommandFactory, Parser, Subcommand, ValueEnum};

use super::complete::{herbs, works};
use super::export_args::{CITE, CiteArguments, EXPORT, ExportArguments};
use super::find_args::{FindArguments, NameArguments};
use super::pair_args::{ExplainArguments, PairArguments};
use crate::claim::Facet;
use crate::compare::{COMPARABLE, DifferenceKind, SetDistance};
use crate::reader::Encoding;
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

#[derive(Debug, Args)]
pub(super) struct ManualArguments {
    /// The folder, made where it is not there
    #[arg(value_name = "DIR")]
    pub folder: PathBuf,
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
pub(super) struct DisputesArguments {
    /// Rank by these facets (can be repeated, or joined by commas); default: flavour, nature, toxicity
    #[arg(long, value_name = "FACET", value_delimiter = ',', value_parser = scaled_facet())]
    pub facet: Vec<Facet>,
    /// Only herbs with this kind of difference
    #[arg(long, value_name = "KIND", value_parser = kind())]
    pub kind: Option<DifferenceKind>,
    /// Leave out facets with fewer witnesses
    #[arg(long, value_name = "N", default_value_t = 5)]
    pub witnesses: usize,
    /// Show so many herbs
    #[arg(long, value_name = "N", default_value_t = 20)]
    pub top: usize,
    /// Compare lists of flavours by the share of common ones alone, not by whether one contains the other
    #[arg(long)]
    pub jaccard: bool,
    /// Give the agreement on all herbs an interval too (takes longer)
    #[arg(long)]
    pub intervals: bool,
    #[command(flatten)]
    pub scope: Scope,
}

impl DisputesArguments {
    /// How lists are compared.
    pub const fn sets(&self) -> SetDistance {
        if self.jaccard {
            SetDistance::Jaccard
        } else {
            SetDistance::Masi
        }
    }
}

#[derive(Debug, Args)]
pub(super) struct AffinityArguments {
    /// The work to show among the others, by id, title or short form; default: all
    #[arg(value_name = "WORK", add = works())]
    pub work: Option<String>,
    /// Compare on these facets (can be repeated, or joined by commas); default: flavour, nature, toxicity
    #[arg(long, value_name = "FACET", value_delimiter = ',', value_parser = scaled_facet())]
    pub facet: Vec<Facet>,
    /// Leave out pairs that share fewer stands
    #[arg(long, value_name = "N", default_value_t = 30)]
    pub shared: usize,
    #[command(flatten)]
    pub scope: Scope,
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

fn facet() -> impl TypedValueParser<Value = Facet> {
    PossibleValuesParser::new(Facet::ALL.map(Facet::name)).map(|name| {
        let named = Facet::ALL.into_iter().find(|facet| facet.name() == name);
        named.unwrap_or(Facet::Flavour)
    })
}

/// The facets on which stands can be held against each other.
fn scaled_facet() -> impl TypedValueParser<Value = Facet> {
    PossibleValuesParser::new(COMPARABLE.map(Facet::name)).map(|name| {
        let named = COMPARABLE.into_iter().find(|facet| facet.name() == name);
        named.unwrap_or(Facet::Flavour)
    })
}

fn kind() -> impl TypedValueParser<Value = DifferenceKind> {
    PossibleValuesParser::new(DifferenceKind::ALL.map(DifferenceKind::name)).map(|name| {
        let mut kinds = DifferenceKind::ALL.into_iter();
        let named = kinds.find(|kind| kind.name() == name);
        named.unwrap_or(DifferenceKind::Mixed)
    })
}

fn encoding() -> impl TypedValueParser<Value = Encoding> {
    PossibleValuesParser::new(Encoding::ALL.map(Encoding::name)).map(|name| {
        let named = Encoding::ALL.into_iter().find(|one| one.name() == name);
        named.unwrap_or(Encoding::Utf8)
    })
}

fn script() -> impl TypedValueParser<Value = Script> {
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
