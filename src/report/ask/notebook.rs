//! Tastings of a notebook by herb, taster, day and id.

use super::failure::{Attempt, Failure};
use super::named::{herb, shorten};
use crate::corpus::{Corpus, Herb};
use crate::tasting::{Day, Notebook, Noted, Sought, Tasting};

/// So many ids are named where a word fits several.
const IDS: usize = 10;

/// Which tastings are listed.
#[derive(Debug, Clone, Default)]
pub(crate) struct Listed<'a> {
    /// Only those of this herb, by id; see [`herb_of`].
    pub herb: Option<&'a str>,
    /// Only those by this taster.
    pub taster: Option<&'a str>,
    /// Only those of this day or later.
    pub since: Option<Day>,
    /// Only those of this day or earlier.
    pub until: Option<Day>,
}

/// The tastings asked for, newest first.
///
/// # Errors
/// When no day can be in between.
pub(crate) fn list<'n>(notebook: &'n Notebook, listed: &Listed<'_>) -> Attempt<Vec<&'n Noted>> {
    if let (Some(since), Some(until)) = (listed.since, listed.until)
        && since > until
    {
        return Err(Failure::new(format!(
            "since {since} is later than until {until}: no day can be in between"
        )));
    }
    let fits = |one: &&Noted| {
        let day = one.tasting.date;
        let taster = one.tasting.taster.as_deref();
        listed.herb.is_none_or(|herb| one.herb == herb)
            && listed.taster.is_none_or(|name| taster == Some(name))
            && listed.since.is_none_or(|since| day >= since)
            && listed.until.is_none_or(|until| day <= until)
    };
    Ok(notebook.all().iter().rev().filter(fits).collect())
}

/// The id of the herb called `name`, with what else the name may mean; an herb that only the notebook knows is asked for as
/// it is written there.
///
/// # Errors
/// When neither corpus nor notebook knows it.
pub(crate) fn herb_of(
    corpus: &Corpus,
    notebook: &Notebook,
    name: &str,
) -> Attempt<(String, Vec<String>)> {
    if notebook.of(name).any(|one| !one.known) {
        return Ok((name.to_owned(), Vec::new()));
    }
    let called = herb(corpus, name)?;
    Ok((called.herb.id.clone(), called.notes))
}

/// The tasting that `word` names: its id, the beginning or end of one, or `last`. No file is looked at.
///
/// # Errors
/// When it names none, with ids near to it, or several.
pub(crate) fn find<'n>(notebook: &'n Notebook, word: &str) -> Attempt<&'n Noted> {
    let shown = shorten(word);
    let owned = |ids: Vec<&str>| ids.into_iter().take(IDS).map(str::to_owned).collect();
    Err(match notebook.find(word) {
        Sought::One(one) => return Ok(one),
        Sought::Many(ids) => Failure::new(format!(
            "`{shown}` begins or ends {} ids; among them:",
            ids.len()
        ))
        .with_candidates(owned(ids)),
        Sought::None(near) if near.is_empty() => Failure::new(format!(
            "no tasting in {} has the id `{shown}`",
            notebook.folder().display()
        ))
        .with_hint("All of them: kaoyi taste list"),
        Sought::None(near) => Failure::new(format!("no tasting has the id `{shown}`; near to it:"))
            .with_candidates(owned(near)),
    })
}

/// The tastings of an herb, of all tasters or of one.
pub(crate) fn of_herb<'n>(
    notebook: &'n Notebook,
    herb: &Herb,
    taster: Option<&str>,
) -> Vec<&'n Tasting> {
    let all = notebook.of(&herb.id).map(|noted| &noted.tasting);
    all.filter(|one| taster.is_none_or(|name| one.taster.as_deref() == Some(name)))
        .collect()
}
