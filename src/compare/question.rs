//! The value that is asked for, understood from any of its words.

use std::fmt;

use crate::claim::{Facet, Value, ValueId, Vocabulary};
use crate::text::{Converter, Script, fold, nearest};

/// A value that is asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Question {
    /// Its facet.
    pub facet: Facet,
    /// The value.
    pub value: ValueId,
}

/// The word asked for is no value, or several.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum QuestionError {
    /// No facet has such a value; these are near.
    Unknown(Vec<String>),
    /// Several facets have it: write the facet before it.
    Ambiguous(Vec<String>),
}

impl fmt::Display for QuestionError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Unknown(_) => f.write_str("no facet has such a value"),
            Self::Ambiguous(_) => f.write_str("more than one facet has such a value"),
        }
    }
}

impl std::error::Error for QuestionError {}

/// Understands a value: by id, 汉字 in either script, pinyin, English or another word for it;
/// `facet:value` where a word belongs to several facets. A word that is a property and an action as
/// well (溫: warm, warms) is taken as the property.
///
/// # Errors
/// When no value or more than one bears the word.
///
/// ```
/// use kaoyi::{claim::Facet, compare, corpus};
/// let corpus = corpus::embedded().unwrap();
/// let sweet = compare::parse_question(&corpus.vocabulary, "甘").unwrap();
/// assert_eq!(sweet, compare::parse_question(&corpus.vocabulary, "sweet").unwrap());
/// assert_eq!(sweet.facet, Facet::Flavour);
/// ```
pub fn parse_question(vocabulary: &Vocabulary, word: &str) -> Result<Question, QuestionError> {
    let (facets, word) = match word.split_once([':', '=']) {
        Some((facet, value)) => (
            Facet::ALL
                .into_iter()
                .filter(|one| one.name() == facet)
                .collect(),
            value,
        ),
        None => (Facet::ALL.to_vec(), word),
    };
    // Labels are recorded in traditional characters: what is not found so is looked for in simplified.
    let hans = if word.is_ascii() {
        None
    } else {
        Converter::new(Script::Hans).ok()
    };
    let simplified = |word: &str| match &hans {
        Some(hans) => fold(&hans.convert(word)),
        None => fold(word),
    };
    let keys: [&dyn Fn(&str) -> String; 2] = [&fold, &simplified];
    let words = [main_words as fn(&Value) -> Vec<&str>, other_words];
    for (key, words) in keys
        .into_iter()
        .flat_map(|key| words.map(|words| (key, words)))
    {
        let mut found = bearing(vocabulary, &facets, words, key, &key(word));
        if found.iter().any(|question| question.facet != Facet::Action) {
            found.retain(|question| question.facet != Facet::Action);
        }
        match found.as_slice() {
            [] => {}
            [one] => return Ok(*one),
            several => {
                let name = |one: &Question| {
                    format!(
                        "{}:{}",
                        one.facet,
                        vocabulary.scheme(one.facet).value(one.value).id
                    )
                };
                return Err(QuestionError::Ambiguous(several.iter().map(name).collect()));
            }
        }
    }
    let values = facets
        .iter()
        .flat_map(|facet| vocabulary.scheme(*facet).values());
    let words = values.flat_map(|value| [main_words(value), other_words(value)].concat());
    Err(QuestionError::Unknown(
        nearest(word, words)
            .into_iter()
            .map(str::to_owned)
            .collect(),
    ))
}

fn main_words(value: &Value) -> Vec<&str> {
    let hans = value.hans.as_deref().into_iter();
    [value.id.as_str(), &value.hant, &value.english]
        .into_iter()
        .chain(hans)
        .collect()
}

fn other_words(value: &Value) -> Vec<&str> {
    value
        .also
        .iter()
        .map(String::as_str)
        .chain([value.pinyin.as_str()])
        .collect()
}

/// The values of `facets` that bear a word whose key is the one wanted.
fn bearing(
    vocabulary: &Vocabulary,
    facets: &[Facet],
    words: fn(&Value) -> Vec<&str>,
    key: &dyn Fn(&str) -> String,
    wanted: &str,
) -> Vec<Question> {
    let mut found = Vec::new();
    for facet in facets.iter().filter(|_| !wanted.is_empty()) {
        for (place, value) in vocabulary.scheme(*facet).values().iter().enumerate() {
            if words(value).into_iter().any(|word| key(word) == wanted) {
                found.push(Question {
                    facet: *facet,
                    value: ValueId(place as u16),
                });
            }
        }
    }
    found
}
