//! `kaoyi profile`: the consensus card alone.

use super::args::ProfileArguments;
use super::common;
use super::outcome::{Attempt, Outcome};
use super::output::Output;
use crate::report::text;
use crate::report::view::{Labels, ProfileView};

pub(super) fn run(arguments: &ProfileArguments, output: &Output) -> Attempt<Outcome> {
    let corpus = common::corpus(&arguments.scope)?;
    let herb = common::herb(&corpus, &arguments.herb, output)?;
    let selection = common::selection(&corpus, &arguments.scope)?;
    let script = common::converter(&arguments.scope)?;
    let view = ProfileView::new(&Labels::new(&corpus, &script), herb, &selection);
    if output.json() {
        output.document(&view)?;
    } else {
        output.text(&text::profile(output.page(), &view))?;
    }
    let empty = view.profile.is_empty() && view.actions.is_empty();
    Ok(if empty {
        Outcome::Otherwise
    } else {
        Outcome::Answered
    })
}
