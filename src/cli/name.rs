//! `kaoyi name`: who bears a name.

use super::common;
use super::find_args::NameArguments;
use super::outcome::{Attempt, Outcome};
use super::output::Output;
use crate::report::view::{Labels, NameView};
use crate::report::{ask, text};

pub(super) fn run(arguments: &NameArguments, output: &Output) -> Attempt<Outcome> {
    let library = common::library(arguments.scope.corpus.as_deref())?;
    let words = library.words()?;
    let name = arguments.words.join(" ");
    ask::findable(&words, std::slice::from_ref(&name))?;
    if let Some(reason) = &words.not_kept {
        output.note(&format!(
            "the search index was made in memory and is not kept: {reason}"
        ));
    }
    let script = common::converter(&arguments.scope)?;
    let view = NameView::new(&Labels::new(&library.corpus, &script), &words, &name)?;
    if output.json() {
        output.document(&view)?;
    } else {
        output.text(&text::name(output.page(), &view))?;
    }
    Ok(if view.bearers.is_empty() {
        Outcome::Otherwise
    } else {
        Outcome::Answered
    })
}
