//! What several commands do before they ask: load the corpus, find the herb, choose the works.

use std::path::{Path, PathBuf};

use etcetera::BaseStrategy;

use super::args::Scope;
use super::outcome::{Attempt, Failure};
use super::output::Output;
use crate::claim::Facet;
use crate::compare::{Question, QuestionError, Selection, parse_question};
use crate::corpus::{Corpus, Herb, HerbId, Lookup, WorkId, WorkLookup};
use crate::index::{Library, Opened};
use crate::measure::{Measures, PeriodId};
use crate::report::view::FindingsView;
use crate::text::{Converter, Script, fold};

/// The shipped corpus, or the folder asked for, with what is kept of it in the cache.
pub(super) fn library(folder: Option<&Path>) -> Attempt<Library> {
    let cache = cache();
    let Some(folder) = folder else {
        return Ok(Library::embedded(cache.as_deref())?);
    };
    match Library::folder(folder, cache.as_deref())? {
        Opened::Library(library) => Ok(*library),
        Opened::Faulty(loaded) => {
            let mut failure = Failure::new(format!(
                "the corpus in {} has faults; nothing was answered",
                folder.display()
            ))
            .with_hint(format!("All of them: kaoyi check {}", folder.display()));
            failure.findings = Some(FindingsView::new(&loaded)?);
            Err(failure)
        }
    }
}

/// The user's cache folder for this program; `None` where there is no home.
pub(super) fn cache() -> Option<PathBuf> {
    let base = etcetera::choose_base_strategy().ok()?;
    Some(base.cache_dir().join("kaoyi"))
}

/// The herb called `name`.
pub(super) fn herb<'c>(corpus: &'c Corpus, name: &str, output: &Output) -> Attempt<&'c Herb> {
    let shown = shorten(name);
    let candidates = |herbs: &[HerbId]| {
        let one = |id: &HerbId| corpus.named(*id).line();
        herbs.iter().map(one).collect::<Vec<_>>()
    };
    match corpus.find_herb(name) {
        Lookup::One(id) => {
            let herb = corpus.herb(id)?;
            let key = fold(name);
            // What is written in Han characters has been told apart already.
            let same = if key.is_ascii() {
                corpus.sounding(&key, id)
            } else {
                Vec::new()
            };
            for other in same.into_iter().map(|other| corpus.named(other)) {
                output.note(&format!(
                    "{} {} sounds the same: ask for `{}`; what follows is about {}.",
                    other.names.hant, other.names.pinyin, other.id, herb.names.hant
                ));
            }
            for shared in herb
                .names
                .shared
                .iter()
                .filter(|shared| fold(&shared.name) == key)
            {
                let hant = &herb.names.hant;
                output.note(&format!(
                    "{} is a name of another drug too ({}); what follows is about {hant}.",
                    shared.name, shared.note
                ));
            }
            Ok(herb)
        }
        Lookup::Many(herbs) => Err(Failure::new(format!(
            "`{shown}` is a name of {} herbs:",
            herbs.len()
        ))
        .with_candidates(candidates(&herbs))
        .with_hint("Ask by the id, the first word of a line.")),
        Lookup::None(herbs) if herbs.is_empty() => Err(Failure::new(format!(
            "no herb here is called `{shown}`"
        ))
        .with_hint(format!(
            "The corpus holds {} herbs: {}.",
            corpus.herb_count(),
            sample(corpus)
        ))),
        Lookup::None(herbs) => Err(Failure::new(format!(
            "no herb here is called `{shown}`; near to it:"
        ))
        .with_candidates(candidates(&herbs))),
    }
}

/// The names of all herbs, or of the first sixty.
fn sample(corpus: &Corpus) -> String {
    let names: Vec<String> = corpus
        .names()
        .iter()
        .take(60)
        .map(|herb| format!("{} {}", herb.names.hant, herb.id))
        .collect();
    let more = if corpus.herb_count() > names.len() {
        " …"
    } else {
        ""
    };
    format!("{}{more}", names.join(", "))
}

/// The facets asked for, in the order in which they are shown; all where none is named.
pub(super) fn facets(asked: &[Facet]) -> Vec<Facet> {
    let wanted = |facet: &Facet| asked.is_empty() || asked.contains(facet);
    Facet::ALL.into_iter().filter(wanted).collect()
}

/// The works and years asked for.
pub(super) fn selection(corpus: &Corpus, scope: &Scope) -> Attempt<Selection> {
    if let (Some(since), Some(until)) = (scope.since, scope.until)
        && since > until
    {
        return Err(Failure::new(format!(
            "--since {since} is later than --until {until}: no work can be in between"
        )));
    }
    let works = scope
        .works
        .iter()
        .map(|name| work(corpus, name))
        .collect::<Result<_, _>>()?;
    Ok(Selection {
        works,
        since: scope.since,
        until: scope.until,
    })
}

/// The work called `name`.
pub(super) fn work(corpus: &Corpus, name: &str) -> Attempt<WorkId> {
    match corpus.find_work(name) {
        WorkLookup::One(id) => Ok(id),
        WorkLookup::Many(works) => Err(Failure::new(format!(
            "`{name}` is a name of {} works:",
            works.len()
        ))
        .with_candidates(works.iter().map(|id| corpus.work(*id).id.clone()).collect())),
        WorkLookup::None(near) if near.is_empty() => {
            let titles: Vec<&str> = corpus
                .works()
                .iter()
                .map(|work| work.hant.as_str())
                .collect();
            Err(
                Failure::new(format!("no work is called `{}`", shorten(name)))
                    .with_hint(format!("Works: {}", titles.join(", "))),
            )
        }
        WorkLookup::None(near) => Err(Failure::new(format!(
            "no work is called `{name}`; near to it:"
        ))
        .with_candidates(near)),
    }
}

/// The period called `name`.
pub(super) fn period(measures: &Measures<'_>, name: &str) -> Attempt<PeriodId> {
    measures.period(name).map_err(|error| {
        let all: Vec<&str> = measures
            .periods()
            .map(|id| measures.period_record(id).id.as_str())
            .collect();
        Failure::new(format!(
            "no period with measures on record is called `{}`",
            shorten(name)
        ))
        .with_candidates(error.nearest)
        .with_hint(format!("Periods: {}.", all.join(", ")))
    })
}

/// The property or action that `word` means.
pub(super) fn question(corpus: &Corpus, word: &str) -> Attempt<Question> {
    parse_question(&corpus.vocabulary, word).map_err(|error| match error {
        QuestionError::Unknown(near) if near.is_empty() => Failure::new(format!("no facet has a value `{word}`"))
            .with_hint("Ask for a flavour, nature, toxicity, grade, channel or action: acrid, warm, toxic, upper, lung …"),
        QuestionError::Unknown(near) => {
            Failure::new(format!("no facet has a value `{word}`; near to it:")).with_candidates(near)
        }
        QuestionError::Ambiguous(several) => {
            Failure::new(format!("`{word}` belongs to several facets; ask for one of:")).with_candidates(several)
        }
    })
}

/// The converter for the script asked for.
pub(super) fn converter(scope: &Scope) -> Attempt<Converter> {
    Ok(Converter::new(scope.script.unwrap_or(Script::Recorded))?)
}

/// At most sixty characters of what was typed.
pub(super) fn shorten(word: &str) -> String {
    match word.char_indices().nth(60) {
        Some((end, _)) => format!("{}…", &word[..end]),
        None => word.to_owned(),
    }
}

/// The herbs called `names`; all that is wrong with them at once.
pub(super) fn all_herbs<'c>(
    corpus: &'c Corpus,
    names: &[String],
    output: &Output,
) -> Attempt<Vec<&'c Herb>> {
    let (mut herbs, mut faults) = (Vec::new(), Vec::new());
    for name in names {
        match herb(corpus, name, output) {
            Ok(herb) => herbs.push(herb),
            Err(failure) => faults.push(failure),
        }
    }
    if faults.len() < 2 {
        return faults.pop().map_or(Ok(herbs), Err);
    }
    let lines = faults
        .iter()
        .map(|one| format!("{} {}", one.message, one.candidates.join(" | ")));
    let lines = lines.map(|line| line.trim_end().to_owned()).collect();
    Err(Failure::new(format!("{} faults:", faults.len())).with_candidates(lines))
}
