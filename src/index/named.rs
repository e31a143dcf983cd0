//! Names: which herbs answer to what was typed, best first.

use std::cmp::Reverse;
use std::collections::BTreeMap;

use pinyin::ToPinyinMulti;
use tantivy::query::FuzzyTermQuery;
use tantivy::schema::IndexRecordOption;
use tantivy::{DocId, DocSet, TERMINATED, TantivyError, Term};

use super::words::Words;
use crate::corpus::{Corpus, HerbId};
use crate::text::fold;

/// How a herb's name answers to what was typed, the best first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum NameRank {
    /// It is a main name: Han characters, pinyin, Latin, English.
    Main,
    /// It is another of its names.
    Exact,
    /// One of its names begins with it.
    Begins,
    /// One of its names contains it.
    Contains,
    /// One of its names sounds like it.
    Sounds,
    /// One of its names is a letter or a character away.
    Near,
}

/// A herb that answers to a name.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Named {
    /// The herb.
    pub herb: HerbId,
    /// How.
    pub rank: NameRank,
}

/// From so many letters on two may be wrong, from [`ONE_WRONG`] on one.
const TWO_WRONG: usize = 8;
const ONE_WRONG: usize = 3;

impl Words {
    /// The herbs of which a name answers, the best first; of equal ones that on which more books have an article. What is
    /// only near or sounds alike is looked for when no name holds what was typed.
    ///
    /// # Errors
    /// When the index cannot be read.
    ///
    /// ```
    /// use kaoyi::index::{Library, NameRank};
    /// let library = Library::embedded(None).unwrap();
    /// let words = library.words().unwrap();
    /// let first = |name: &str| {
    ///     let found = words.named(&library.corpus, name).unwrap()[0];
    ///     (library.corpus.named(found.herb).id.clone(), found.rank)
    /// };
    /// assert_eq!(first("薄荷"), ("bohe".to_owned(), NameRank::Main));
    /// assert_eq!(first("薄菏"), ("bohe".to_owned(), NameRank::Sounds));
    /// assert_eq!(first("chrysantemum"), ("juhua".to_owned(), NameRank::Near));
    /// ```
    pub fn named(&self, corpus: &Corpus, name: &str) -> Result<Vec<Named>, TantivyError> {
        let mut found = self.answering(name)?;
        let key = self.key(name);
        if !key.is_empty() && found.herbs.is_empty() {
            self.put_near(&mut found, corpus, &key)?;
        }
        Ok(found.sorted())
    }

    /// The herbs of which a name is what was typed, begins with it or contains it.
    pub(super) fn answering(&self, name: &str) -> Result<Ranked, TantivyError> {
        let key = self.key(name);
        let mut found = Ranked::default();
        if key.is_empty() {
            return Ok(found);
        }
        let main = self.with_term(self.fields.main, &key)?;
        let exact = self.with_term(self.fields.name, &key)?;
        self.put(&mut found, main, NameRank::Main, &|_| 0);
        self.put(&mut found, exact, NameRank::Exact, &|_| 0);
        self.put(&mut found, self.beginning(&key)?, NameRank::Begins, &|_| 0);
        let contains = self.containing(name)?;
        self.put(&mut found, contains, NameRank::Contains, &|_| 0);
        Ok(found)
    }

    fn put_near(&self, found: &mut Ranked, corpus: &Corpus, key: &str) -> Result<(), TantivyError> {
        let sounds = sounds(key);
        if !key.is_ascii() {
            // Of by-names, of which nobody has written down the sound, it is guessed.
            for (field, far) in [(self.fields.main, 0), (self.fields.sound, 2)] {
                for sound in &sounds {
                    let alike = self.with_term(field, sound)?;
                    self.put(found, alike, NameRank::Sounds, &|_| far);
                }
            }
        }
        let length = key.chars().count();
        let wrong = match length {
            ..ONE_WRONG => u8::from(!key.is_ascii() && length == 2),
            TWO_WRONG.. => 2,
            _ => 1,
        };
        // Of Han characters the sound tells which slip is likelier, of letters the distance to the nearest name or word.
        let far = |herb: HerbId| {
            let names = corpus.named(herb);
            let distance = |other: &str| {
                sounds
                    .iter()
                    .map(|sound| strsim::damerau_levenshtein(sound, other))
                    .min()
            };
            if !key.is_ascii() {
                return distance(&fold(&names.names.pinyin)).unwrap_or(usize::MAX);
            }
            let words = names.all().flat_map(|name| name.split(' ').chain([name]));
            let distances = words.filter_map(|word| distance(&fold(word)));
            distances.min().unwrap_or(usize::MAX)
        };
        for distance in 1..=wrong {
            for field in [self.fields.main, self.fields.name, self.fields.names] {
                // A character alone is no name that could be misspelt.
                if field == self.fields.names && !key.is_ascii() {
                    continue;
                }
                let term = Term::from_field_text(field, key);
                let query = FuzzyTermQuery::new(term, distance, true);
                self.put(found, self.documents(&query)?, NameRank::Near, &far);
            }
        }
        Ok(())
    }

    /// The documents of herbs with a name that begins with `key`.
    fn beginning(&self, key: &str) -> Result<Vec<DocId>, TantivyError> {
        let terms = self.segment.inverted_index(self.fields.name)?;
        let mut stream = terms.terms().range().ge(key.as_bytes()).into_stream()?;
        let mut begins = Vec::new();
        while stream.advance() && stream.key().starts_with(key.as_bytes()) {
            let postings =
                terms.read_postings_from_terminfo(stream.value(), IndexRecordOption::Basic);
            let mut postings = postings?;
            while postings.doc() != TERMINATED {
                begins.push(postings.doc());
                postings.advance();
            }
        }
        Ok(begins)
    }

    fn put(
        &self,
        found: &mut Ranked,
        documents: Vec<DocId>,
        rank: NameRank,
        far: &dyn Fn(HerbId) -> usize,
    ) {
        for document in documents {
            let (herb, weight) = (self.numbers.herb(document), self.numbers.weight(document));
            let place = || (rank, cost(far(herb), weight), Reverse(weight));
            found.herbs.entry(herb).or_insert_with(place);
        }
    }
}

/// How unlikely it is that a name `distance` away was meant, of an herb on which so many books have an article: a letter more
/// weighs as much as five books less. Our own choice, no source.
fn cost(distance: usize, books: usize) -> usize {
    let known = books.min(MOST_BOOKS);
    distance
        .saturating_mul(5)
        .saturating_add(MOST_BOOKS - known)
}

/// More books say no more of how well an herb is known.
const MOST_BOOKS: usize = 20;

/// So many readings of a name are tried.
const READINGS: usize = 16;

/// How a key sounds, in pinyin without tones: several ways where a character has several readings.
pub(super) fn sounds(key: &str) -> Vec<String> {
    let mut sounds = vec![String::new()];
    for c in key.chars() {
        let mut readings: Vec<String> = match c.to_pinyin_multi() {
            Some(readings) => readings.into_iter().map(|one| fold(one.plain())).collect(),
            None => vec![c.to_string()],
        };
        readings.dedup();
        let longer = sounds
            .iter()
            .flat_map(|sound| readings.iter().map(move |one| format!("{sound}{one}")));
        sounds = longer.take(READINGS).collect();
    }
    sounds
}

/// Herbs by how they were found first, which is how they answer best.
#[derive(Default)]
pub(super) struct Ranked {
    herbs: BTreeMap<HerbId, (NameRank, usize, Reverse<usize>)>,
}

impl Ranked {
    pub(super) fn sorted(self) -> Vec<Named> {
        let mut herbs: Vec<_> = self.herbs.into_iter().collect();
        herbs.sort_by_key(|(herb, place)| (*place, *herb));
        let named = herbs.into_iter();
        named
            .map(|(herb, (rank, _, _))| Named { herb, rank })
            .collect()
    }
}
