//! The subcommands of `taste`.

use clap::{Args, Subcommand};

use super::taste_class_args::{FormArguments, PanelArguments, PlanArguments};

#[derive(Debug, Args)]
pub(super) struct TasteArguments {
    #[command(subcommand)]
    pub command: TasteCommand,
}

#[derive(Debug, Subcommand)]
pub(super) enum TasteCommand {
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
        Examples:\n  kaoyi taste plan bohe juhua --from 2027-01-04\n  \
        kaoyi taste plan 薄荷 菊花 陳皮 --from 2027-01-04 --at 19:30 --every '2 weeks' -o plan.ics"
    )]
    Plan(PlanArguments),
}
