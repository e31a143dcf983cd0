//! `kaoyi find`: herbs and sayings by words and properties.

use super::common;
use super::find_args::FindArguments;
use super::outcome::{Attempt, Failure, Outcome};
use super::output::Output;
use crate::claim::Facet;
use crate::compare::{QuestionError, Selection, Wanted};
use crate::corpus::{Corpus, WorkId};
use crate::index::{Asked, Search, Words, WordsError};
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
        let answers = |phrase: &String| !index.key(phrase).is_empty();
        if let Some(empty) = search.words.phrases.iter().find(|phrase| !answers(phrase)) {
            return Err(Failure::new(format!(
                "`{empty}` holds no character or letter that could be found"
            )));
        }
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
    let facets = [
        (Facet::Flavour, &arguments.flavour),
        (Facet::Nature, &arguments.nature),
        (Facet::Toxicity, &arguments.toxicity),
        (Facet::Grade, &arguments.grade),
        (Facet::Channel, &arguments.channel),
        (Facet::Action, &arguments.action),
    ];
    let mut wanted = Vec::new();
    for (facet, words) in facets {
        for word in words {
            wanted.push(property(corpus, facet, word)?);
        }
    }
    let mut never = Vec::new();
    for word in &arguments.never {
        let question = common::question(corpus, word)?;
        never.push(Wanted::of(&corpus.vocabulary, question));
    }
    if arguments.words.is_empty() && wanted.is_empty() && never.is_empty() {
        return Err(Failure::new("nothing to look for")
            .with_hint("Give words (kaoyi find 发汗) or properties (kaoyi find --flavour sweet --nature warm)."));
    }
    let selection = common::selection(corpus, &arguments.scope)?;
    let herb = arguments.herb.as_deref();
    let herb = herb
        .map(|name| common::herb(corpus, name, output))
        .transpose()?;
    Ok(Search {
        words: Asked {
            phrases: arguments.words.clone(),
            any: arguments.any,
            works: works(corpus, &selection)?,
            herb: herb.map(|herb| corpus.place_of(herb)),
        },
        wanted,
        by: arguments.by,
        never,
        selection,
    })
}

/// The works whose sayings are looked at; none where all are.
fn works(corpus: &Corpus, selection: &Selection) -> Attempt<Vec<WorkId>> {
    if *selection == Selection::default() {
        return Ok(Vec::new());
    }
    let all = (0_u16..).map(WorkId).take(corpus.works().len());
    let chosen: Vec<WorkId> = all.filter(|work| selection.takes(corpus, *work)).collect();
    if chosen.is_empty() {
        return Err(Failure::new("no work lies in the years asked for"));
    }
    Ok(chosen)
}

fn property(corpus: &Corpus, facet: Facet, word: &str) -> Attempt<Wanted> {
    Wanted::parse(&corpus.vocabulary, facet, word).map_err(|error| match error {
        QuestionError::Unknown(_) if word.contains("..") => {
            Failure::new(format!("`{word}` is no span of {facet}"))
                .with_hint("A span joins two values of nature, toxicity or grade: warm..hot.")
        }
        QuestionError::Unknown(near) | QuestionError::Ambiguous(near) => {
            let failure = Failure::new(format!("no {facet} is called `{word}`"));
            if near.is_empty() {
                let scheme = corpus.vocabulary.scheme(facet);
                let some: Vec<&str> = scheme.ids().take(12).collect();
                failure.with_hint(format!("Values: {} …", some.join(", ")))
            } else {
                failure.with_candidates(near)
            }
        }
    })
}
