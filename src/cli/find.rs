//! `kaoyi find`: herbs and sayings by words and properties.

use super::common;
use super::find_args::FindArguments;
use super::outcome::{Attempt, Outcome};
use super::output::Output;
use crate::claim::Facet;
use crate::corpus::Corpus;
use crate::index::{Search, Words, WordsError};
use crate::report::ask::{self, Sought};
use crate::report::text;
use crate::report::view::{BestView, FindView, Labels, Shown};

pub(super) fn run(arguments: &FindArguments, output: &Output) -> Attempt<Outcome> {
    let library = common::library(arguments.scope.corpus.as_deref())?;
    let corpus = &library.corpus;
    let search = search(arguments, corpus, output)?;
    let mut words = None;
    if !search.words.phrases.is_empty() {
        let index = library.words()?;
        if let Some(reason) = &index.not_kept {
            output.note(&format!(
                "the search index was made in memory and is not kept: {reason}"
            ));
        }
        ask::findable(&index, &search.words.phrases)?;
        words = Some(index);
    }
    let script = common::converter(&arguments.scope)?;
    let labels = Labels::new(corpus, &script);
    if let (Some(most), Some(words)) = (arguments.best, &words) {
        return best(arguments, output, &labels, words, &search, most);
    }
    let hits = library.find(&search, words.as_ref())?;
    let page = Shown {
        skip: arguments.skip,
        herbs: arguments.top,
        sayings: arguments.sayings,
    };
    let view = FindView::new(&labels, &search, &hits, words.as_ref(), page)?;
    if output.json() {
        output.document(&view)?;
    } else {
        output.text(&text::find(output.page(), &view, arguments.explain))?;
    }
    Ok(if view.herbs_found == 0 {
        Outcome::Otherwise
    } else {
        Outcome::Answered
    })
}

/// The best sayings one by one.
fn best(
    arguments: &FindArguments,
    output: &Output,
    labels: &Labels<'_>,
    words: &Words,
    search: &Search,
    most: u16,
) -> Attempt<Outcome> {
    let skip = arguments.skip;
    let best = words
        .best(&search.words, skip, most.into())
        .map_err(WordsError::from)?;
    let asked = (&search.words, &search.selection);
    let view = BestView::new(labels, words, asked, &best, skip)?;
    if output.json() {
        output.document(&view)?;
    } else {
        output.text(&text::best(output.page(), &view, arguments.explain))?;
    }
    Ok(if view.sayings_found == 0 {
        Outcome::Otherwise
    } else {
        Outcome::Answered
    })
}

fn search(arguments: &FindArguments, corpus: &Corpus, output: &Output) -> Attempt<Search> {
    let properties = [
        (Facet::Flavour, &arguments.flavour),
        (Facet::Nature, &arguments.nature),
        (Facet::Toxicity, &arguments.toxicity),
        (Facet::Grade, &arguments.grade),
        (Facet::Channel, &arguments.channel),
        (Facet::Action, &arguments.action),
    ];
    let sought = Sought {
        phrases: arguments.words.clone(),
        any: arguments.any,
        properties: properties
            .map(|(facet, words)| (facet, words.clone()))
            .into(),
        by: arguments.by,
        never: arguments.never.clone(),
        herb: arguments.herb.clone(),
        selection: common::selection(corpus, &arguments.scope)?,
    };
    let (search, notes) = ask::search(corpus, sought)?;
    for note in &notes {
        output.note(note);
    }
    Ok(search)
}
