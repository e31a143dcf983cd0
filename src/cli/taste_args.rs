//! The arguments of `taste`.

use std::path::PathBuf;

use clap::{Args, Subcommand};

use super::args::script;
use super::complete::herbs;
use super::taste_class_args::{AgainstArguments, FormArguments, PanelArguments, PlanArguments};
use crate::tasting::Day;
use crate::text::Script;

#[derive(Debug, Args)]
pub(super) struct TasteArguments {
    #[command(subcommand)]
    pub command: TasteCommand,
}

/// What is done with the notebook.
#[derive(Debug, Subcommand)]
pub(super) enum TasteCommand {
    /// Note a tasting: step by step on a terminal, or by flags, or from a file
    #[command(
        after_help = "Herbs that any book calls toxic, and those whose cautions forbid it, are refused.\n\n\
        Exit codes: 0 written, 2 not written\n\n\
        Examples:\n  kaoyi taste add 薄荷 --notebook my-notebook\n  \
        kaoyi taste add 薄荷 --taster A --amount 3 --score acrid=6.5 --notebook my-notebook\n  \
        kaoyi taste add --file my-tasting.yaml --notebook my-notebook"
    )]
    Add(Box<TasteAddArguments>),
    /// List tastings, newest first
    #[command(
        after_help = "Exit codes: 0 listed, 1 none as asked for, or faulty files, 2 could not run\n\n\
        Examples:\n  kaoyi taste list --notebook docs/examples/notebook\n  \
        kaoyi taste list 薄荷 --taster A --notebook docs/examples/notebook --json"
    )]
    List(TasteListArguments),
    /// Show one tasting
    #[command(after_help = "Example:\n  kaoyi taste show last --notebook docs/examples/notebook")]
    Show(TasteShowArguments),
    /// Change a tasting: in your editor, or single fields by flags
    #[command(
        after_help = "Without flags the editor named by VISUAL or EDITOR opens a copy, which takes the file's place once \
        it is without fault. With flags the lines of the named fields are written anew and all others stay, comments too; \
        - takes a value away.\n\n\
        Exit codes: 0 changed, 1 nothing to change, 2 not changed\n\n\
        Examples:\n  kaoyi taste edit last --notebook my-notebook\n  \
        kaoyi taste edit last --hours 10 --score acrid=7 --lot - --notebook my-notebook"
    )]
    Edit(Box<TasteEditArguments>),
    /// Take back the tasting that was added last
    #[command(
        after_help = "Its file is moved into the folder undone/ of the notebook and never deleted: to bring it back, move it \
        back. A second undo takes back the one before. Files that you named yourself are left alone.\n\n\
        Exit codes: 0 taken back, 1 nothing to take back, 2 could not run\n\n\
        Example:\n  kaoyi taste undo --notebook my-notebook"
    )]
    Undo(TasteUndoArguments),
    /// Hold your own tastings of an herb against the books
    #[command(
        after_help = "Each tasting is a voice. What was varied, amount, hours and lot, is set side by side with the number of tastings; no curve \
        is drawn.\n\n\
        Exit codes: 0 answered, 1 answered, with faults in the notebook, 2 could not answer\n\n\
        Examples:\n  kaoyi taste against 薄荷 --notebook docs/examples/notebook\n  \
        kaoyi taste against juhua --taster A --notebook docs/examples/notebook --json"
    )]
    Against(AgainstArguments),
    /// Sum up many tasters of one herb, and hold them against the books
    #[command(
        after_help = "A table has a row for each cup that a taster tasted; its columns are those of the empty one that \
        `taste form HERB --csv` prints, in any order. What is left empty is unsaid and never zero.\n\n\
        Exit codes: 0 answered, 1 with faults in the files, or nobody scored, 2 could not answer\n\n\
        Examples:\n  kaoyi taste panel docs/examples/class/scores.csv --herb bohe\n  \
        kaoyi taste panel docs/examples/class/scores.csv --herb juhua --json"
    )]
    Panel(PanelArguments),
    /// Print a form to hand out, or the empty table for a class
    #[command(after_help = "Toxic and restricted herbs are refused.\n\n\
        Examples:\n  kaoyi taste form bohe\n  kaoyi taste form bohe --markdown\n  \
        kaoyi taste form bohe juhua --csv --tasters 12 --cups 2 --seed 7")]
    Form(FormArguments),
    /// Plan a circle: one herb a meeting, as a calendar file
    #[command(
        after_help = "Two events for each herb: steeping in the evening, tasting so many hours later. Their times are those of the clock \
        on the wall (no time zone). A plan that is made again replaces its events.\n\nToxic and restricted herbs are refused.\n\n\
        Examples:\n  kaoyi taste plan bohe juhua --from 2027-01-04 --json\n  \
        kaoyi taste plan 薄荷 菊花 陳皮 --from 2027-01-04 --at 19:30 --every 2-weeks -o my-plan.ics"
    )]
    Plan(PlanArguments),
}

/// Which notebook, which corpus, which script.
#[derive(Debug, Args)]
pub(super) struct TasteScope {
    /// The notebook's folder; default: the variable KAOYI_NOTEBOOK, else the user's data folder
    #[arg(long, value_name = "DIR")]
    pub notebook: Option<PathBuf>,
    /// Read the folder DIR too; one with a vocabulary/ of its own stands alone
    #[arg(long, value_name = "DIR")]
    pub corpus: Option<PathBuf>,
    /// Show Han text in traditional (hant) or simplified (hans) script; default: as recorded
    #[arg(long, value_name = "SCRIPT", value_parser = script())]
    pub script: Option<Script>,
}

#[derive(Debug, Args)]
pub(super) struct TasteAddArguments {
    /// The herb, by 汉字, pinyin, Latin, English or any other name; with --file the record names it
    #[arg(add = herbs(), required_unless_present = "file")]
    pub herb: Option<String>,
    /// Read the tasting from a YAML file; - for standard input
    #[arg(long, value_name = "FILE", conflicts_with = "given")]
    pub file: Option<PathBuf>,
    /// Note it although the herb is toxic or restricted; the reason is written into the record
    #[arg(long, value_name = "REASON")]
    pub despite: Option<String>,
    #[command(flatten)]
    pub fields: FieldArguments,
    #[command(flatten)]
    pub scope: TasteScope,
}

#[derive(Debug, Args)]
pub(super) struct TasteListArguments {
    /// Only tastings of this herb
    #[arg(add = herbs())]
    pub herb: Option<String>,
    /// Only those of this taster
    #[arg(long, value_name = "NAME")]
    pub taster: Option<String>,
    /// Only those of this day and later
    #[arg(long, value_name = "DAY")]
    pub since: Option<Day>,
    /// Only those of this day and earlier
    #[arg(long, value_name = "DAY")]
    pub until: Option<Day>,
    /// Show so many
    #[arg(long, value_name = "N", default_value_t = 50)]
    pub top: usize,
    #[command(flatten)]
    pub scope: TasteScope,
}

#[derive(Debug, Args)]
pub(super) struct TasteShowArguments {
    /// The tasting: its id, the beginning or end of it, or `last`
    #[arg(value_name = "ID", default_value = "last")]
    pub id: String,
    #[command(flatten)]
    pub scope: TasteScope,
}

#[derive(Debug, Args)]
pub(super) struct TasteEditArguments {
    /// The tasting: its id, the beginning or end of it, or `last`
    #[arg(value_name = "ID")]
    pub id: String,
    #[command(flatten)]
    pub fields: FieldArguments,
    #[command(flatten)]
    pub scope: TasteScope,
}

#[derive(Debug, Args)]
pub(super) struct TasteUndoArguments {
    #[command(flatten)]
    pub scope: TasteScope,
}

/// The fields of a tasting.
#[derive(Debug, Args)]
#[group(id = "given", multiple = true)]
pub(super) struct FieldArguments {
    /// A score from 0 to 10, halves allowed: acrid=6.5, 辛=6.5, aroma=3 (can be repeated)
    #[arg(long, value_name = "NAME=N")]
    pub score: Vec<String>,
    /// How thick the taste is, 0 to 10
    #[arg(long, value_name = "N", allow_hyphen_values = true)]
    pub thickness: Option<String>,
    /// How long it lingers, 0 to 10
    #[arg(long, value_name = "N", allow_hyphen_values = true)]
    pub lingering: Option<String>,
    /// How strong the aroma is, 0 to 10
    #[arg(long, value_name = "N", allow_hyphen_values = true)]
    pub aroma: Option<String>,
    /// How warm it feels, from -5 (cold) to 5 (hot)
    #[arg(long, value_name = "N", allow_hyphen_values = true)]
    pub warmth: Option<String>,
    /// How much of the herb, in grams
    #[arg(long, value_name = "GRAMS", allow_hyphen_values = true)]
    pub amount: Option<String>,
    /// How much water, in millilitres
    #[arg(long, value_name = "ML", allow_hyphen_values = true)]
    pub water: Option<String>,
    /// How hot the water was, in degrees Celsius
    #[arg(long, value_name = "CELSIUS", allow_hyphen_values = true)]
    pub temperature: Option<String>,
    /// How long it steeped, in hours
    #[arg(long, value_name = "HOURS", allow_hyphen_values = true)]
    pub hours: Option<String>,
    /// What it was steeped in
    #[arg(long, value_name = "WORDS", allow_hyphen_values = true)]
    pub vessel: Option<String>,
    /// The part, if it is not the usual one
    #[arg(long, value_name = "PART", allow_hyphen_values = true)]
    pub part: Option<String>,
    /// How it was prepared
    #[arg(long, value_name = "WORDS", allow_hyphen_values = true)]
    pub preparation: Option<String>,
    /// The lot
    #[arg(long, value_name = "LOT", allow_hyphen_values = true)]
    pub lot: Option<String>,
    /// Who supplied it
    #[arg(long, value_name = "NAME", allow_hyphen_values = true)]
    pub supplier: Option<String>,
    /// The day, as 2026-03-14; default: today
    #[arg(long, value_name = "DAY")]
    pub date: Option<String>,
    /// Who tasted
    #[arg(long, value_name = "NAME", allow_hyphen_values = true)]
    pub taster: Option<String>,
    /// Whether fasting: yes or no
    #[arg(long, value_name = "YES|NO", allow_hyphen_values = true)]
    pub fasting: Option<String>,
    /// The code on the cup, where it was tasted blind
    #[arg(long, value_name = "CODE", allow_hyphen_values = true)]
    pub code: Option<String>,
    /// Which cup of the herb it was on that day, from 1
    #[arg(long, value_name = "N", allow_hyphen_values = true)]
    pub cup: Option<String>,
    /// Where it is felt, with commas
    #[arg(long, value_name = "WORDS", allow_hyphen_values = true)]
    pub places: Option<String>,
    /// Which way it moves: up, down, out, in, centre, or several with commas
    #[arg(long, value_name = "WAYS", allow_hyphen_values = true)]
    pub direction: Option<String>,
    /// In the taster's own words
    #[arg(long, value_name = "WORDS", allow_hyphen_values = true)]
    pub words: Option<String>,
    /// Names of picture files beside the record, with commas
    #[arg(long, value_name = "FILES", allow_hyphen_values = true)]
    pub photos: Option<String>,
}
