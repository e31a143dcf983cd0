//! `kaoyi taste form`: what is handed out to tasters.

use jiff::Timestamp;

use super::common;
use super::outcome::{Attempt, Failure, Outcome};
use super::output::Output;
use super::taste_class_args::FormArguments;
use super::taste_herbs;
use crate::report::text;
use crate::report::view::{FormView, Labels};
use crate::tasting::{self, MOST_CUPS};
use crate::text::{Converter, Script};

/// Seeds that are drawn have so few digits that they can be copied by hand.
const SEEDS: u32 = 1_000_000;

pub(super) fn run(arguments: &FormArguments, output: &Output) -> Attempt<Outcome> {
    let library = common::library(arguments.corpus.as_deref())?;
    let corpus = &library.corpus;
    let herbs = taste_herbs::allowed(corpus, &arguments.herbs, output)?;
    let cups = usize::try_from(arguments.cups).unwrap_or(MOST_CUPS) * herbs.len();
    if cups > MOST_CUPS {
        return Err(Failure::new(format!(
            "{} herbs with {} cups each are {cups} cups for every taster",
            herbs.len(),
            arguments.cups
        ))
        .with_hint(format!("At most {MOST_CUPS} can be handed out at once.")));
    }
    let seed = arguments.seed.unwrap_or_else(|| {
        let now = Timestamp::now().as_nanosecond().unsigned_abs();
        u64::try_from(now % u128::from(SEEDS)).unwrap_or_default()
    });
    let tasters = usize::try_from(arguments.tasters).unwrap_or(1);
    let serving = tasting::serve(cups, tasters, seed);
    let script = Converter::new(Script::Recorded)?;
    let labels = Labels::new(corpus, &script);
    let view = FormView::new(
        &labels,
        &herbs,
        (&serving, seed),
        arguments.date,
        arguments.blind,
    );
    if output.json() {
        output.document(&view)?;
    } else if arguments.csv {
        if arguments.seed.is_none() {
            output.note(&format!("the same codes again: --seed {seed}"));
        }
        output.text(&text::taste_form_table(&view))?;
    } else if arguments.markdown {
        output.text(&text::taste_form_markdown(&view))?;
    } else {
        output.text(&text::taste_form(output.page(), &view))?;
    }
    Ok(Outcome::Answered)
}
