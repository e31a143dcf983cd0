//! `kaoyi taste against`: the own tongue beside the books.

use super::common;
use super::notebook;
use super::outcome::{Attempt, Failure, Outcome};
use super::output::Output;
use super::taste_class_args::AgainstArguments;
use crate::report::text;
use crate::report::view::{Labels, TasteAgainstView};

pub(super) fn run(arguments: &AgainstArguments, output: &Output) -> Attempt<Outcome> {
    let library = common::library(arguments.scope.corpus.as_deref())?;
    let corpus = &library.corpus;
    let herb = common::herb(corpus, &arguments.herb, output)?;
    let selection = common::selection(corpus, &arguments.scope)?;
    let script = common::converter(&arguments.scope)?;
    let labels = Labels::new(corpus, &script);
    let opened = notebook::open(corpus, &arguments.own)?;
    let tastings = opened.of(herb, arguments.own.taster.as_deref());
    let findings = opened.findings.clone();
    let view = TasteAgainstView::new(&labels, herb, &selection, &tastings, findings);
    let Some(view) = view else {
        let hant = &herb.names.hant;
        let folder = opened.notebook.folder().display().to_string();
        return Err(Failure::new(format!("no tasting of {hant} in {folder}"))
            .with_hint(format!("Note one: kaoyi taste add {hant}")));
    };
    opened.tell_faults(output);
    if output.json() {
        output.document(&view)?;
    } else {
        output.text(&text::taste_against(output.page(), &view))?;
    }
    Ok(if view.findings.is_empty() {
        Outcome::Answered
    } else {
        Outcome::Otherwise
    })
}
