//! Words for what the corpus holds: herbs, works, years, periods, values; with what may be meant where nothing is called so.

use super::failure::{Attempt, Failure};
use crate::compare::{Question, QuestionError, Selection, parse_question};
use crate::corpus::{Corpus, Herb, HerbId, Lookup, WorkId, WorkLookup};
use crate::measure::{Measures, PeriodId};
use crate::text::fold;

/// An herb that was asked for.
#[derive(Debug)]
pub(crate) struct NamedHerb<'c> {
    /// The herb.
    pub herb: &'c Herb,
    /// What must be told beside the answer: which others sound the same or bear the name.
    pub notes: Vec<String>,
}

/// The herb called `name`.
pub(crate) fn herb<'c>(corpus: &'c Corpus, name: &str) -> Attempt<NamedHerb<'c>> {
    let shown = shorten(name);
    let candidates = |herbs: &[HerbId]| {
        let one = |id: &HerbId| corpus.named(*id).line();
        herbs.iter().map(one).collect::<Vec<_>>()
    };
    match corpus.find_herb(name) {
        Lookup::One(id) => {
            let herb = corpus.herb(id)?;
            let mut notes = Vec::new();
            let key = fold(name);
            // What is written in Han characters has been told apart already.
            let same = if key.is_ascii() {
                corpus.sounding(&key, id)
            } else {
                Vec::new()
            };
            for other in same.into_iter().map(|other| corpus.named(other)) {
                notes.push(format!(
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
                notes.push(format!(
                    "{} is a name of another drug too ({}); what follows is about {hant}.",
                    shared.name, shared.note
                ));
            }
            Ok(NamedHerb { herb, notes })
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

/// The works and years asked for.
pub(crate) fn selection(
    corpus: &Corpus,
    works: &[String],
    since: Option<i32>,
    until: Option<i32>,
) -> Attempt<Selection> {
    if let (Some(since), Some(until)) = (since, until)
        && since > until
    {
        return Err(Failure::new(format!(
            "--since {since} is later than --until {until}: no work can be in between"
        )));
    }
    let works = works
        .iter()
        .map(|name| work(corpus, name))
        .collect::<Result<_, _>>()?;
    Ok(Selection {
        works,
        since,
        until,
    })
}

/// The work called `name`.
pub(crate) fn work(corpus: &Corpus, name: &str) -> Attempt<WorkId> {
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
pub(crate) fn period(measures: &Measures<'_>, name: &str) -> Attempt<PeriodId> {
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
pub(crate) fn question(corpus: &Corpus, word: &str) -> Attempt<Question> {
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

/// At most sixty characters of what was typed.
pub(crate) fn shorten(word: &str) -> String {
    match word.char_indices().nth(60) {
        Some((end, _)) => format!("{}…", &word[..end]),
        None => word.to_owned(),
    }
}
