//! A search, as it is asked in words.

use super::failure::{Attempt, Failure};
use super::named;
use crate::claim::Facet;
use crate::compare::{By, QuestionError, Selection, Wanted};
use crate::corpus::{Corpus, Lookup, WorkId};
use crate::index::{Asked, Search, Words};

/// What is looked for, in words.
#[derive(Debug, Default)]
pub(crate) struct Sought {
    /// Phrases of the wordings or names.
    pub phrases: Vec<String>,
    /// Whether one phrase is enough.
    pub any: bool,
    /// Values wanted, facet by facet.
    pub properties: Vec<(Facet, Vec<String>)>,
    /// How many of the witnesses must say so.
    pub by: By,
    /// What nobody may have said.
    pub never: Vec<String>,
    /// Only sayings on this herb.
    pub herb: Option<String>,
    /// Which works count.
    pub selection: Selection,
}

/// The search that is meant, with what must be told beside its answer.
pub(crate) fn search(corpus: &Corpus, sought: Sought) -> Attempt<(Search, Vec<String>)> {
    let mut wanted = Vec::new();
    for (facet, words) in &sought.properties {
        for word in words {
            wanted.push(property(corpus, *facet, word)?);
        }
    }
    let mut never = Vec::new();
    for word in &sought.never {
        let question = named::question(corpus, word)?;
        never.push(Wanted::of(&corpus.vocabulary, question));
    }
    if sought.phrases.is_empty() && wanted.is_empty() && never.is_empty() {
        return Err(Failure::new("nothing to look for")
            .with_hint("Give words (kaoyi find 发汗) or properties (kaoyi find --flavour sweet --nature warm)."));
    }
    let herb = sought.herb.as_deref();
    let herb = herb.map(|name| named::herb(corpus, name)).transpose()?;
    let search = Search {
        words: Asked {
            phrases: sought.phrases,
            any: sought.any,
            works: works(corpus, &sought.selection)?,
            herb: herb.as_ref().map(|named| corpus.place_of(named.herb)),
        },
        wanted,
        by: sought.by,
        never,
        selection: sought.selection,
    };
    Ok((search, herb.map_or_else(Vec::new, |named| named.notes)))
}

/// Refuses phrases in which nothing could be found.
pub(crate) fn findable(words: &Words, phrases: &[String]) -> Attempt<()> {
    match phrases.iter().find(|phrase| words.key(phrase).is_empty()) {
        None => Ok(()),
        Some(empty) => Err(Failure::new(format!(
            "`{}` holds no character or letter that could be found",
            named::shorten(empty)
        ))),
    }
}

/// One line of words as phrases: each word by itself, what stands between quotation marks together; a name of several
/// words (huang qi) is one phrase where an herb is called so.
pub(crate) fn phrases(corpus: &Corpus, line: &str) -> Vec<String> {
    let whole = line.trim();
    let is_mark = |c: char| matches!(c, '"' | '“' | '”' | '「' | '」');
    let words = whole.contains(char::is_whitespace) && !whole.contains(is_mark);
    let named = || matches!(corpus.find_herb(whole), Lookup::One(_) | Lookup::Many(_));
    if words && named() {
        return vec![whole.to_owned()];
    }
    let mut phrases = Vec::new();
    let mut phrase = String::new();
    let mut quoted = false;
    for c in whole.chars() {
        let mark = is_mark(c);
        if mark || (c.is_whitespace() && !quoted) {
            phrases.push(std::mem::take(&mut phrase));
            quoted ^= mark;
        } else {
            phrase.push(c);
        }
    }
    phrases.push(phrase);
    phrases.retain(|one| !one.trim().is_empty());
    phrases
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

#[cfg(test)]
mod tests {
    use super::phrases;
    use pretty_assertions::assert_eq;

    #[test]
    fn words_are_phrases_and_quoted_ones_stay_together() {
        let corpus = crate::corpus::embedded().unwrap();
        assert_eq!(phrases(&corpus, " 薄荷　头痛 "), ["薄荷", "头痛"]);
        assert_eq!(phrases(&corpus, "「a b」c \"d e"), ["a b", "c", "d e"]);
        assert_eq!(phrases(&corpus, "bo he"), ["bo he"]);
        assert!(phrases(&corpus, "  \"\" ").is_empty());
    }
}
