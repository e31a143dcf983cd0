//! One facet of all herbs at once, as columns: which witness takes which stand.

use std::borrow::Cow;
use std::collections::HashMap;

use super::distance::{SetDistance, distance, place_on_scale};
use super::selection::Selection;
use super::witness::view_of;
use crate::claim::{Facet, ValueId};
use crate::corpus::{AssembleError, Corpus, Entry, HerbId, WorkId};

/// A witness and the stand that it takes, by the place of the stand among [`Stands::kinds`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Row {
    /// The witness.
    pub work: WorkId,
    /// Its stand.
    pub kind: u32,
}

/// The stands of all witnesses on one facet of every herb.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Stands {
    /// The facet.
    pub facet: Facet,
    /// The different stands, each a sorted list of values: on a scale from the lowest place to the highest.
    pub kinds: Vec<Vec<ValueId>>,
    /// Herb by herb, the witnesses from the oldest on.
    rows: Vec<Row>,
    /// Where the rows of each herb end: those of `HerbId(n)` before `ends[n]`.
    ends: Vec<u32>,
}

impl Stands {
    /// How many herbs there are, those without a witness included.
    #[must_use]
    pub const fn herbs(&self) -> usize {
        self.ends.len()
    }

    /// The witnesses on an herb, oldest first.
    #[must_use]
    pub fn of(&self, herb: HerbId) -> &[Row] {
        let place = herb.0 as usize;
        let from = place.checked_sub(1).map_or(0, |before| self.ends[before]);
        &self.rows[from as usize..self.ends[place] as usize]
    }

    /// The witnesses of each herb, in the order of the herbs.
    pub fn by_herb(&self) -> impl Iterator<Item = &[Row]> {
        (0_u32..).take(self.herbs()).map(|n| self.of(HerbId(n)))
    }

    /// Where the rows of each herb end.
    #[must_use]
    pub fn ends(&self) -> &[u32] {
        &self.ends
    }

    /// Stands from their columns; `None` where these do not fit together.
    #[must_use]
    pub fn from_columns(
        facet: Facet,
        kinds: Vec<Vec<ValueId>>,
        rows: Vec<Row>,
        ends: Vec<u32>,
    ) -> Option<Self> {
        let known = rows.iter().all(|row| (row.kind as usize) < kinds.len());
        let ordered = ends.windows(2).all(|pair| pair[0] <= pair[1]);
        let whole = ends.last().is_none_or(|last| *last as usize == rows.len());
        (known && ordered && whole).then_some(Self {
            facet,
            kinds,
            rows,
            ends,
        })
    }

    /// All witnesses, herb by herb.
    #[must_use]
    pub fn rows(&self) -> &[Row] {
        &self.rows
    }

    /// Those of the works chosen.
    #[must_use]
    pub fn chosen(&self, corpus: &Corpus, selection: &Selection) -> Cow<'_, Self> {
        if *selection == Selection::default() {
            return Cow::Borrowed(self);
        }
        Cow::Owned(self.only(|work| selection.takes(corpus, work)))
    }

    fn only(&self, takes: impl Fn(WorkId) -> bool) -> Self {
        let mut this = Self {
            facet: self.facet,
            kinds: self.kinds.clone(),
            rows: Vec::with_capacity(self.rows.len()),
            ends: Vec::with_capacity(self.ends.len()),
        };
        for rows in self.by_herb() {
            this.rows.extend(rows.iter().filter(|row| takes(row.work)));
            this.ends.push(this.rows.len() as u32);
        }
        this
    }

    /// The distance of every stand to every other.
    #[must_use]
    pub fn distances(&self, corpus: &Corpus, sets: SetDistance) -> Distances {
        let scheme = corpus.vocabulary.scheme(self.facet);
        let size = self.kinds.len();
        let mut table = vec![0.0; size * size];
        for (a, one) in self.kinds.iter().enumerate() {
            for (b, other) in self.kinds.iter().enumerate().skip(a + 1) {
                let apart = distance(scheme, sets, one, other);
                table[a * size + b] = apart;
                table[b * size + a] = apart;
            }
        }
        Distances { size, table }
    }
}

/// A table of the distances of stands, by their places among [`Stands::kinds`].
#[derive(Debug, Clone, PartialEq)]
pub struct Distances {
    size: usize,
    table: Vec<f64>,
}

impl Distances {
    /// The distance of two stands.
    #[must_use]
    pub fn between(&self, a: u32, b: u32) -> f64 {
        self.table[a as usize * self.size + b as usize]
    }
}

/// Gathers the stands of all witnesses on `facets` of all herbs.
///
/// ```
/// use kaoyi::{claim::Facet, compare};
/// let corpus = kaoyi::corpus::embedded().unwrap();
/// let stands = compare::stands(&corpus, &[Facet::Nature]).unwrap();
/// assert_eq!(stands[0].herbs(), corpus.names().len());
/// ```
///
/// # Errors
/// When an embedded record is faulty.
pub fn stands(corpus: &Corpus, facets: &[Facet]) -> Result<Vec<Stands>, AssembleError> {
    let mut columns: Vec<Columns> = facets.iter().map(|facet| Columns::new(*facet)).collect();
    if facets.contains(&Facet::Action) {
        for herb in corpus.herbs()? {
            put(corpus, &herb.entries, &mut columns);
        }
    } else {
        // The light edition has everything but actions.
        for entries in corpus.properties()? {
            put(corpus, &entries, &mut columns);
        }
    }
    Ok(columns
        .into_iter()
        .map(|column| column.finish(corpus))
        .collect())
}

/// Puts the witnesses of the next herb into all columns.
fn put(corpus: &Corpus, entries: &[Entry], columns: &mut [Columns]) {
    let all = Selection::default();
    for column in columns {
        let view = view_of(corpus, entries, column.facet, &all);
        let witnesses = view.witnesses.iter();
        column.put(witnesses.map(|witness| (witness.work, witness.stand())));
    }
}

/// Stands as they are gathered, numbered in the order in which they are met.
struct Columns {
    facet: Facet,
    numbers: HashMap<Vec<ValueId>, u32>,
    rows: Vec<Row>,
    ends: Vec<u32>,
}

impl Columns {
    fn new(facet: Facet) -> Self {
        Self {
            facet,
            numbers: HashMap::new(),
            rows: Vec::new(),
            ends: Vec::new(),
        }
    }

    /// The witnesses of the next herb.
    fn put(&mut self, witnesses: impl Iterator<Item = (WorkId, Vec<ValueId>)>) {
        for (work, stand) in witnesses {
            let next = self.numbers.len() as u32;
            let kind = *self.numbers.entry(stand).or_insert(next);
            self.rows.push(Row { work, kind });
        }
        self.ends.push(self.rows.len() as u32);
    }

    /// Numbers the stands anew, by their place on the scale and then by their values.
    fn finish(mut self, corpus: &Corpus) -> Stands {
        let scheme = corpus.vocabulary.scheme(self.facet);
        let mut kinds: Vec<(Vec<ValueId>, u32)> = self.numbers.into_iter().collect();
        let place = |stand: &[ValueId]| place_on_scale(scheme, stand);
        kinds.sort_by(|(a, _), (b, _)| place(a).total_cmp(&place(b)).then_with(|| a.cmp(b)));
        let mut anew = vec![0; kinds.len()];
        for (number, (_, met)) in kinds.iter().enumerate() {
            anew[*met as usize] = number as u32;
        }
        for row in &mut self.rows {
            row.kind = anew[row.kind as usize];
        }
        Stands {
            facet: self.facet,
            kinds: kinds.into_iter().map(|(stand, _)| stand).collect(),
            rows: self.rows,
            ends: self.ends,
        }
    }
}
