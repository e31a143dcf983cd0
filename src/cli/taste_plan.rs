//! `kaoyi taste plan`: a circle's plan as a calendar.

use jiff::Timestamp;

use super::outcome::{Attempt, Failure, Outcome};
use super::output::Output;
use super::taste_class_args::PlanArguments;
use super::taste_herbs;
use super::{common, file};
use crate::report::text;
use crate::report::view::{Labels, PlanView};
use crate::tasting;
use crate::text::{Converter, Script};

pub(super) fn run(arguments: &PlanArguments, output: &Output) -> Attempt<Outcome> {
    let library = common::library(arguments.corpus.as_deref())?;
    let corpus = &library.corpus;
    let herbs = taste_herbs::allowed(corpus, &arguments.herbs, output)?;
    let PlanArguments {
        from,
        at,
        every,
        hours,
        ..
    } = arguments;
    let meetings = tasting::meetings(herbs.len(), *from, *at, *every, *hours).ok_or_else(|| {
        Failure::new(format!(
            "{} meetings from {from} on, one every {every}, go beyond the year 9999",
            herbs.len()
        ))
    })?;
    let script = Converter::new(Script::Recorded)?;
    let view = PlanView::new(
        &Labels::new(corpus, &script),
        &herbs,
        &meetings,
        *every,
        *hours,
    );
    if output.json() {
        output.document(&view)?;
        return Ok(Outcome::Answered);
    }
    let stamp = Timestamp::now().strftime("%Y%m%dT%H%M%SZ").to_string();
    let calendar = text::calendar(&view, &stamp);
    match &arguments.output {
        None => output.text(&calendar)?,
        Some(path) => {
            file::write(path, calendar.as_bytes())?;
            output.text(&text::taste_plan(output.page(), &view))?;
            output.note(&format!(
                "{}: two events for each herb; import it into a calendar",
                path.display()
            ));
        }
    }
    Ok(Outcome::Answered)
}
