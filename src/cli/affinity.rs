//! `kaoyi affinity`: which works agree, and which seem to follow which.

use super::common;
use super::disputes_args::AffinityArguments;
use super::outcome::{Attempt, Outcome};
use super::output::Output;
use crate::compare::SetDistance;
use crate::report::ask;
use crate::report::text;
use crate::report::view::{AffinityView, AskedOfWorks, Labels};

pub(super) fn run(arguments: &AffinityArguments, output: &Output) -> Attempt<Outcome> {
    let library = common::library(arguments.scope.corpus.as_deref())?;
    let corpus = &library.corpus;
    let work = arguments.work.as_deref();
    let asked = AskedOfWorks {
        facets: ask::comparable(&arguments.facet),
        shared: arguments.shared.max(1),
        work: work.map(|name| common::work(corpus, name)).transpose()?,
        sets: SetDistance::Masi,
    };
    let selection = common::selection(corpus, &arguments.scope)?;
    let script = common::converter(&arguments.scope)?;
    let stands = library.stands(&asked.facets)?;
    let labels = Labels::new(corpus, &script);
    let view = AffinityView::new(&labels, &stands, &selection, &asked);
    if output.json() {
        output.document(&view)?;
    } else {
        output.text(&text::affinity(output.page(), &view))?;
    }
    Ok(if view.pairs.is_empty() {
        Outcome::Otherwise
    } else {
        Outcome::Answered
    })
}
