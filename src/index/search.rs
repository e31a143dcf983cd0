//! Searching the index: names first, then wordings, herb by herb or one by one.

use std::cmp::Reverse;
use std::collections::BTreeMap;
use std::ops::Range;

use tantivy::TantivyError;
use tantivy::collector::{Count, TopDocs};

use super::named::{NameRank, Named};
use super::numbers::{Every, Scored};
use super::query::Wording;
use super::words::Words;
use crate::compare::Backing;
use crate::corpus::{Corpus, HerbId, WorkId};

/// What is looked for.
#[derive(Debug, Clone, Default)]
pub struct Asked {
    /// Phrases: each stands in the wording as it is, punctuation passed over, or is a name of the herb.
    pub phrases: Vec<String>,
    /// Whether one phrase is enough.
    pub any: bool,
    /// Only sayings of these works; all where there are none.
    pub works: Vec<WorkId>,
    /// Only sayings on this herb.
    pub herb: Option<HerbId>,
}

/// A saying that was found.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SayingFound {
    /// The herb.
    pub herb: HerbId,
    /// The entry, by its place in the herb.
    pub entry: usize,
    /// The saying, by its place in the entry.
    pub saying: usize,
    /// The work that asserts.
    pub by: WorkId,
    /// How well it answers: BM25.
    pub score: f32,
}

/// A herb that was found.
#[derive(Debug, Clone, PartialEq)]
pub struct HerbFound {
    /// The herb.
    pub herb: HerbId,
    /// How its name answers.
    pub name: Option<NameRank>,
    /// How well the best of its sayings answers; 0 where none does.
    pub best: f32,
    /// For each property wanted, the witnesses that say so.
    pub backings: Vec<Backing>,
    /// Which of the answers are its sayings.
    sayings: Range<usize>,
}

impl HerbFound {
    /// A herb that no words were looked for in.
    pub(super) const fn without_words(herb: HerbId) -> Self {
        Self {
            herb,
            name: None,
            best: 0.0,
            backings: Vec::new(),
            sayings: 0..0,
        }
    }

    /// How many of its sayings answer.
    #[must_use]
    pub fn count(&self) -> usize {
        self.sayings.len()
    }
}

/// All sayings that answer, in the order of the corpus.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Answers(Vec<Scored>);

/// What was found.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Found {
    /// The herbs: those whose name answers first, exact ones before others, then by the best saying.
    pub herbs: Vec<HerbFound>,
    /// Their sayings, for [`Words::sayings`].
    pub answers: Answers,
    /// How many sayings answer, by the work that asserts.
    pub by_work: BTreeMap<WorkId, usize>,
}

/// The best sayings of all herbs.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Best {
    /// How many sayings answer.
    pub count: usize,
    /// The best of them, best first; of equal ones that which stands first in the corpus.
    pub sayings: Vec<SayingFound>,
}

impl Words {
    /// The herbs and sayings that answer.
    ///
    /// # Errors
    /// When the index cannot be read.
    ///
    /// ```
    /// use kaoyi::index::{Asked, Library};
    /// let library = Library::embedded(None).unwrap();
    /// let words = library.words().unwrap();
    /// let asked = Asked { phrases: vec!["辛凉".to_owned()], ..Asked::default() };
    /// let found = words.find(&library.corpus, &asked).unwrap();
    /// let herb = found.herbs.iter().find(|herb| herb.count() > 2).unwrap();
    /// let shown = words.sayings(&found.answers, herb, 2);
    /// assert_eq!(shown.len(), 2);
    /// assert!(shown[0].score >= shown[1].score);
    /// ```
    pub fn find(&self, corpus: &Corpus, asked: &Asked) -> Result<Found, TantivyError> {
        let answers = match self.query(asked)? {
            Some(wording) => self.searcher.search(&*wording.query, &Every)?,
            None => Vec::new(),
        };
        let mut works = vec![0; corpus.works().len()];
        let mut herbs: Vec<HerbFound> = Vec::new();
        // The sayings of an herb stand together in the index.
        self.numbers.each(&answers, |place, herb, by| {
            if let Some(count) = works.get_mut(by.0 as usize) {
                *count += 1;
            }
            let score = answers[place].1;
            match herbs.last_mut().filter(|last| last.herb == herb) {
                Some(last) => {
                    last.sayings.end = place + 1;
                    last.best = last.best.max(score);
                }
                None => herbs.push(HerbFound {
                    best: score,
                    sayings: place..place + 1,
                    ..HerbFound::without_words(herb)
                }),
            }
        });
        let name = asked.phrases.join(" ");
        let mut named = self.answering(&name)?.sorted();
        named.retain(|one| asked.herb.is_none_or(|only| only == one.herb));
        if herbs.is_empty() && named.is_empty() && asked.herb.is_none() {
            // What only sounds or looks like a name is offered where nothing else answers.
            named = self.named(corpus, &name)?;
        }
        let by_work = (0..).map(WorkId).zip(works).filter(|(_, count)| *count > 0);
        Ok(Found {
            herbs: in_order(herbs, &named),
            answers: Answers(answers),
            by_work: by_work.collect(),
        })
    }

    /// How many sayings answer, and the best `most` of them after the first `skip`, whatever herb they are on. Names of herbs are not looked for, and
    /// what cannot be among the best is passed over, so that this is much faster than [`Words::find`].
    ///
    /// # Errors
    /// When the index cannot be read.
    ///
    /// ```
    /// use kaoyi::index::{Asked, Library};
    /// let library = Library::embedded(None).unwrap();
    /// let words = library.words().unwrap();
    /// let asked = Asked { phrases: vec!["辛凉".to_owned()], ..Asked::default() };
    /// let best = words.best(&asked, 0, 10).unwrap();
    /// let found = words.find(&library.corpus, &asked).unwrap();
    /// assert_eq!(best.count, found.herbs.iter().map(|herb| herb.count()).sum::<usize>());
    /// assert_eq!(best.sayings.len(), 10);
    /// ```
    pub fn best(&self, asked: &Asked, skip: usize, most: usize) -> Result<Best, TantivyError> {
        let Some(Wording { query, term }) = self.query(asked)? else {
            return Ok(Best::default());
        };
        if most == 0 {
            let count = query.count(&self.searcher)?;
            return Ok(Best {
                count,
                sayings: Vec::new(),
            });
        }
        let top = TopDocs::with_limit(most).and_offset(skip).order_by_score();
        let (best, count) = match term {
            // How many documents have a term is written down, and blocks without a good one are skipped.
            Some(term) => {
                let count = self.searcher.doc_freq(&term)?;
                (self.searcher.search(&*query, &top)?, count as usize)
            }
            None => self.searcher.search(&*query, &(top, Count))?,
        };
        let saying = |(score, address): (f32, tantivy::DocAddress)| {
            self.saying_found((address.doc_id, score))
        };
        Ok(Best {
            count,
            sayings: best.into_iter().map(saying).collect(),
        })
    }

    /// The best `most` sayings of a herb, best first.
    #[must_use]
    pub fn sayings(&self, answers: &Answers, herb: &HerbFound, most: usize) -> Vec<SayingFound> {
        let mut of_herb = answers.0[herb.sayings.clone()].to_vec();
        of_herb.sort_by(|a, b| b.1.total_cmp(&a.1));
        let best = of_herb.into_iter().take(most);
        best.map(|one| self.saying_found(one)).collect()
    }

    fn saying_found(&self, (document, score): Scored) -> SayingFound {
        let (entry, saying) = self.numbers.place(document);
        SayingFound {
            herb: self.numbers.herb(document),
            entry,
            saying,
            by: self.numbers.by(document),
            score,
        }
    }

    /// The articles whose heading is `name`: the herb, the entry in it, and the work.
    ///
    /// # Errors
    /// When the index cannot be read.
    pub fn headed(&self, name: &str) -> Result<Vec<(HerbId, usize, WorkId)>, TantivyError> {
        let documents = self.with_term(self.fields.heading, &self.key(name))?;
        let headed = documents.into_iter().map(|document| {
            let (entry, _) = self.numbers.place(document);
            (
                self.numbers.herb(document),
                entry,
                self.numbers.by(document),
            )
        });
        Ok(headed.collect())
    }
}

/// Those herbs first whose name answers, in this order; then those with the best saying. `herbs` come by their numbers.
fn in_order(mut herbs: Vec<HerbFound>, named: &[Named]) -> Vec<HerbFound> {
    let mut ordered = Vec::with_capacity(named.len() + herbs.len());
    for one in named {
        let name = Some(one.rank);
        let found = match herbs.binary_search_by_key(&one.herb, |found| found.herb) {
            Ok(place) => {
                herbs[place].name = name;
                herbs[place].clone()
            }
            Err(_) => HerbFound {
                name,
                ..HerbFound::without_words(one.herb)
            },
        };
        ordered.push(found);
    }
    let mut others = herbs;
    others.retain(|one| one.name.is_none());
    others.sort_unstable_by(|a, b| {
        b.best
            .total_cmp(&a.best)
            .then(Reverse(a.count()).cmp(&Reverse(b.count())))
            .then(a.herb.cmp(&b.herb))
    });
    ordered.extend(others);
    ordered
}
