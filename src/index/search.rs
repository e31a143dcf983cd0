//! Searching the index: names first, then wordings, herb by herb.

use std::cmp::Reverse;
use std::collections::BTreeMap;

use tantivy::collector::{Collector, SegmentCollector};
use tantivy::columnar::Column;
use tantivy::query::{
    BooleanQuery, ConstScoreQuery, Occur, PhraseQuery, Query, TermQuery, TermSetQuery,
};
use tantivy::schema::{Field, IndexRecordOption};
use tantivy::{DocId, Score, SegmentOrdinal, SegmentReader, TantivyError, Term};

use super::named::NameRank;
use super::tokens;
use super::words::Words;
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
    /// So many sayings of each herb are kept; the others are counted.
    pub keep: usize,
}

/// A saying that was found.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SayingFound {
    /// The entry, by its place in the herb.
    pub entry: usize,
    /// The saying, by its place in the entry.
    pub saying: usize,
    /// The work that asserts.
    pub by: WorkId,
    /// How well it answers: BM25.
    pub score: f32,
    /// Of a herb's own document, how many articles it has; 0 of a saying.
    pub(super) weight: usize,
}

/// A herb that was found.
#[derive(Debug, Clone, PartialEq)]
pub struct HerbFound {
    /// The herb.
    pub herb: HerbId,
    /// How its name answers.
    pub name: Option<NameRank>,
    /// How many of its sayings answer.
    pub count: usize,
    /// The best of them, best first.
    pub sayings: Vec<SayingFound>,
}

impl HerbFound {
    /// A herb that no words were looked for in.
    pub(super) const fn without_words(herb: HerbId) -> Self {
        Self {
            herb,
            name: None,
            count: 0,
            sayings: Vec::new(),
        }
    }
}

/// What was found.
#[derive(Debug, Clone, PartialEq)]
pub struct Found {
    /// The herbs: those whose name answers first, exact ones before others, then by the best saying.
    pub herbs: Vec<HerbFound>,
    /// How many sayings answer, by the work that asserts.
    pub by_work: BTreeMap<WorkId, usize>,
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
    /// let asked = Asked { phrases: vec!["辛凉".to_owned()], keep: 3, ..Asked::default() };
    /// let found = words.find(&library.corpus, &asked).unwrap();
    /// assert!(found.herbs.iter().all(|one| one.count >= one.sayings.len()));
    /// ```
    pub fn find(&self, corpus: &Corpus, asked: &Asked) -> Result<Found, TantivyError> {
        let mut found: BTreeMap<HerbId, HerbFound> = BTreeMap::new();
        let mut by_work = BTreeMap::new();
        let name = asked.phrases.join(" ");
        let mut named = self.answering(&name)?.sorted();
        for one in &named {
            if asked.herb.is_none_or(|only| only == one.herb) {
                of(&mut found, one.herb).name = Some(one.rank);
            }
        }
        if let Some(query) = self.query(asked)? {
            for hit in self.searcher.search(&query, &AllHits(&self.numbers))? {
                *by_work.entry(hit.1.by).or_default() += 1;
                let herb = of(&mut found, hit.0);
                herb.count += 1;
                herb.sayings.push(hit.1);
            }
        }
        // What only sounds or looks like a name is offered where nothing else answers.
        if found.is_empty() && asked.herb.is_none() {
            named = self.named(corpus, &name)?;
            for one in &named {
                of(&mut found, one.herb).name = Some(one.rank);
            }
        }
        let place = |herb: HerbId| named.iter().position(|one| one.herb == herb);
        let mut herbs: Vec<HerbFound> = found.into_values().collect();
        for herb in &mut herbs {
            herb.sayings.sort_by(|a, b| {
                b.score
                    .total_cmp(&a.score)
                    .then((a.entry, a.saying).cmp(&(b.entry, b.saying)))
            });
            herb.sayings.truncate(asked.keep);
        }
        let best = |one: &HerbFound| one.sayings.first().map_or(0.0, |saying| saying.score);
        herbs.sort_by(|a, b| {
            let name = |one: &HerbFound| one.name.map_or((1, None), |_| (0, place(one.herb)));
            name(a)
                .cmp(&name(b))
                .then(best(b).total_cmp(&best(a)))
                .then(Reverse(a.count).cmp(&Reverse(b.count)))
                .then(a.herb.cmp(&b.herb))
        });
        Ok(Found { herbs, by_work })
    }

    /// The articles whose heading is `name`: the herb, the entry in it, and the work.
    ///
    /// # Errors
    /// When the index cannot be read.
    pub fn headed(&self, name: &str) -> Result<Vec<(HerbId, usize, WorkId)>, TantivyError> {
        let term = Term::from_field_text(self.fields.heading, &self.key(name));
        let hits = self
            .searcher
            .search(&TermSetQuery::new([term]), &AllHits(&self.numbers))?;
        let mut headed: Vec<_> = hits
            .into_iter()
            .map(|(herb, one)| (herb, one.entry, one.by))
            .collect();
        headed.sort_unstable();
        Ok(headed)
    }

    /// The herbs of which `name` is a name, by their numbers.
    fn bearing(&self, name: &str) -> Result<Vec<u64>, TantivyError> {
        let term = Term::from_field_text(self.fields.name, &self.key(name));
        let hits = self
            .searcher
            .search(&TermSetQuery::new([term]), &AllHits(&self.numbers))?;
        Ok(hits.iter().map(|(herb, _)| u64::from(herb.0)).collect())
    }

    /// The query for documents with one of these numbers in a field; it adds nothing to their score.
    fn only(field: Field, values: Vec<u64>) -> Box<dyn Query> {
        let terms = values
            .into_iter()
            .map(|value| Term::from_field_u64(field, value));
        Box::new(ConstScoreQuery::new(
            Box::new(TermSetQuery::new(terms)),
            0.0,
        ))
    }

    /// The query for sayings: every phrase, or any, in the wording or among the names of the herb, but one at least in the
    /// wording. `None` where nothing in the phrases can be looked for.
    fn query(&self, asked: &Asked) -> Result<Option<Box<dyn Query>>, TantivyError> {
        let mut wordings: Vec<Box<dyn Query>> = Vec::new();
        let mut parts: Vec<(Occur, Box<dyn Query>)> = Vec::new();
        let each = if asked.any {
            Occur::Should
        } else {
            Occur::Must
        };
        let single = asked.phrases.len() == 1;
        for phrase in &asked.phrases {
            let mut either: Vec<(Occur, Box<dyn Query>)> = Vec::new();
            let named = if single {
                Vec::new()
            } else {
                self.bearing(phrase)?
            };
            if !named.is_empty() {
                // That the herb bears the name says nothing of which saying answers best.
                either.push((Occur::Should, Self::only(self.fields.herb, named)));
            }
            if let Some(wording) = self.phrase(self.fields.wording, phrase) {
                either.push((Occur::Should, wording.box_clone()));
                wordings.push(wording);
            }
            parts.push((each, Box::new(BooleanQuery::new(either))));
        }
        if wordings.is_empty() {
            return Ok(None);
        }
        let any_wording = BooleanQuery::union(wordings);
        let mut all: Vec<(Occur, Box<dyn Query>)> = vec![
            (Occur::Must, Box::new(BooleanQuery::new(parts))),
            (
                Occur::Must,
                Box::new(ConstScoreQuery::new(Box::new(any_wording), 0.0)),
            ),
        ];
        if let Some(herb) = asked.herb {
            let herb = vec![u64::from(herb.0)];
            all.push((Occur::Must, Self::only(self.fields.herb, herb)));
        }
        if !asked.works.is_empty() {
            let works = asked.works.iter().map(|work| u64::from(work.0));
            all.push((Occur::Must, Self::only(self.fields.by, works.collect())));
        }
        Ok(Some(Box::new(BooleanQuery::new(all))))
    }

    /// The query for a phrase in a field; `None` where it has no character that can be looked for.
    pub(super) fn phrase(&self, field: Field, phrase: &str) -> Option<Box<dyn Query>> {
        let folded = self.folded(phrase);
        let terms = tokens::phrase(&folded);
        let term = |one: &tokens::Term| Term::from_field_text(field, &one.text);
        match terms.as_slice() {
            [] => None,
            [one] => {
                let query = TermQuery::new(term(one), IndexRecordOption::WithFreqs);
                Some(Box::new(query))
            }
            several => {
                let placed = several.iter().map(|one| (one.place, term(one))).collect();
                Some(Box::new(PhraseQuery::new_with_offset(placed)))
            }
        }
    }
}

fn of(found: &mut BTreeMap<HerbId, HerbFound>, herb: HerbId) -> &mut HerbFound {
    found
        .entry(herb)
        .or_insert_with(|| HerbFound::without_words(herb))
}

/// The numbers of the documents of one segment.
#[derive(Clone)]
pub(super) struct Numbers {
    herb: Column<u64>,
    entry: Column<u64>,
    saying: Column<u64>,
    by: Column<u64>,
    weight: Column<u64>,
}

impl Numbers {
    /// Opens the columns of a segment.
    pub(super) fn of(segment: &SegmentReader) -> Result<Self, TantivyError> {
        let fields = segment.fast_fields();
        Ok(Self {
            herb: fields.u64("herb")?,
            entry: fields.u64("entry")?,
            saying: fields.u64("saying")?,
            by: fields.u64("by")?,
            weight: fields.u64("weight")?,
        })
    }
}

/// Collects every document that answers, with the place of its saying. A search for a name asks several times: the columns
/// are opened once for all.
pub(super) struct AllHits<'w>(pub &'w [Numbers]);

type Hit = (HerbId, SayingFound);

impl Collector for AllHits<'_> {
    type Fruit = Vec<Hit>;
    type Child = HitsOfSegment;

    fn for_segment(
        &self,
        place: SegmentOrdinal,
        segment: &SegmentReader,
    ) -> Result<Self::Child, TantivyError> {
        let numbers = match self.0.get(place as usize) {
            Some(open) => open.clone(),
            None => Numbers::of(segment)?,
        };
        Ok(HitsOfSegment {
            numbers,
            hits: Vec::new(),
        })
    }

    fn requires_scoring(&self) -> bool {
        true
    }

    fn merge_fruits(&self, fruits: Vec<Vec<Hit>>) -> Result<Vec<Hit>, TantivyError> {
        Ok(fruits.concat())
    }
}

pub(super) struct HitsOfSegment {
    numbers: Numbers,
    hits: Vec<Hit>,
}

impl SegmentCollector for HitsOfSegment {
    type Fruit = Vec<Hit>;

    fn collect(&mut self, document: DocId, score: Score) {
        let number = |column: &Column<u64>| column.first(document).unwrap_or_default();
        let saying = SayingFound {
            entry: number(&self.numbers.entry) as usize,
            saying: number(&self.numbers.saying) as usize,
            by: WorkId(number(&self.numbers.by) as u16),
            weight: number(&self.numbers.weight) as usize,
            score,
        };
        self.hits
            .push((HerbId(number(&self.numbers.herb) as u32), saying));
    }

    fn harvest(self) -> Vec<Hit> {
        self.hits
    }
}
