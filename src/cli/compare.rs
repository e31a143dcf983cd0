//! `kaoyi compare`: the sources side by side.

use super::args::CompareArguments;
use super::outcome::{Attempt, Outcome};
use super::output::Output;
use super::{common, notebook};
use crate::claim::Facet;
use crate::compare::Relations;
use crate::report::text;
use crate::report::view::{AgainstView, ComparisonView, Labels};

pub(super) fn run(arguments: &CompareArguments, output: &Output) -> Attempt<Outcome> {
    let library = common::library(arguments.scope.corpus.as_deref())?;
    let corpus = &library.corpus;
    let herb = common::herb(corpus, &arguments.herb, output)?;
    let selection = common::selection(corpus, &arguments.scope)?;
    let script = common::converter(&arguments.scope)?;
    let labels = Labels::new(corpus, &script);
    let relations = || library.ties().map(|ties| Relations::new(corpus, ties));
    if let Some(other) = &arguments.against {
        let other = common::herb(corpus, other, output)?;
        let view = AgainstView::new(&labels, &relations()?, [herb, other], &selection)?;
        if output.json() {
            output.document(&view)?;
        } else {
            output.text(&text::against(output.page(), &view))?;
        }
        return Ok(Outcome::Answered);
    }
    let facets = common::facets(&arguments.facet);
    let mut view = ComparisonView::new(&labels, herb, &facets, &selection);
    if arguments.facet.is_empty() {
        view.relate(&labels, &relations()?, herb, &selection)?;
    }
    let tongue = |facet: &Facet| matches!(facet, Facet::Flavour | Facet::Nature);
    if facets.iter().any(tongue)
        && let Some(own) = notebook::beside(corpus, herb, &arguments.own, output)?
    {
        view.taste(&labels, &own);
    }
    if arguments.explain {
        view.explain(&labels, herb, &facets, &selection);
    }
    if output.json() {
        output.document(&view)?;
    } else {
        output.text(&text::comparison(output.page(), &view, arguments.evidence))?;
    }
    let empty = view.witnesses.is_empty() && view.actions.is_empty();
    Ok(if empty {
        Outcome::Otherwise
    } else {
        Outcome::Answered
    })
}
