//! `kaoyi disputes`: the herbs on which the books differ most.

use super::common;
use super::disputes_args::DisputesArguments;
use super::outcome::{Attempt, Outcome};
use super::output::Output;
use crate::report::ask;
use crate::report::text;
use crate::report::view::{Asked, DisputesView, Labels};

pub(super) fn run(arguments: &DisputesArguments, output: &Output) -> Attempt<Outcome> {
    let library = common::library(arguments.scope.corpus.as_deref())?;
    let corpus = &library.corpus;
    let selection = common::selection(corpus, &arguments.scope)?;
    let asked = Asked {
        facets: ask::comparable(&arguments.facet),
        witnesses: arguments.witnesses,
        top: arguments.top,
        kind: arguments.kind,
        sets: arguments.sets(),
        intervals: arguments.intervals,
    };
    let script = common::converter(&arguments.scope)?;
    let stands = library.stands(&asked.facets)?;
    let labels = Labels::new(corpus, &script);
    let view = DisputesView::new(&labels, &stands, &selection, &asked)?;
    if output.json() {
        output.document(&view)?;
    } else {
        output.text(&text::disputes(output.page(), &view))?;
    }
    Ok(if view.disputes.is_empty() {
        Outcome::Otherwise
    } else {
        Outcome::Answered
    })
}
