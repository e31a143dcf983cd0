//! `kaoyi profile`: the consensus card alone.

use super::args::ProfileArguments;
use super::outcome::{Attempt, Outcome};
use super::output::Output;
use super::{common, notebook};
use crate::claim::Facet;
use crate::compare::{self, COMPARABLE, ENOUGH, SetDistance};
use crate::report::text;
use crate::report::view::{Labels, ProfileView};

pub(super) fn run(arguments: &ProfileArguments, output: &Output) -> Attempt<Outcome> {
    let library = common::library(arguments.scope.corpus.as_deref())?;
    let corpus = &library.corpus;
    let herb = common::herb(corpus, &arguments.herb, output)?;
    let selection = common::selection(corpus, &arguments.scope)?;
    let script = common::converter(&arguments.scope)?;
    let labels = Labels::new(corpus, &script);
    let facets = common::facets(&arguments.facet);
    let mut view = ProfileView::new(&labels, herb, &facets, &selection);
    let tongue = |facet: &Facet| matches!(facet, Facet::Flavour | Facet::Nature);
    if facets.iter().any(tongue)
        && let Some(own) = notebook::beside(corpus, herb, &arguments.own, output)?
    {
        view.taste(&labels, &own);
    }
    if arguments.explain {
        view.explain(&labels, herb, &facets, &selection);
    }
    if arguments.weighted || arguments.found_lines {
        let stands = library.stands(&COMPARABLE)?;
        if arguments.found_lines {
            let pairs = compare::pairs(corpus, &stands, ENOUGH, SetDistance::Masi);
            let found = compare::found_debts(corpus, &pairs);
            view.add_found_lines(&labels, herb, &selection, &found);
        }
        if arguments.weighted {
            let asked = stands.into_iter().filter(|one| facets.contains(&one.facet));
            let chosen = asked.map(|one| one.chosen(corpus, &selection));
            let place = corpus.place_of(herb);
            view.weigh(&labels, place, &chosen.collect::<Vec<_>>());
        }
    }
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
