//! Properties by which herbs are chosen: sweet by most books, warm to hot, never called toxic (rule 34).

use super::lines::{lines, lines_of_support};
use super::question::{Question, QuestionError, parse_question};
use super::stands::Stands;
use super::witness::{FacetView, Witness};
use crate::claim::{Facet, Scale, ValueId, Vocabulary};
use crate::corpus::{Corpus, HerbId};
use crate::stats::wilson;

/// Values of one facet of which one is enough.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Wanted {
    /// The facet.
    pub facet: Facet,
    /// The values, sorted: a value with its degrees, or all of a span of the scale.
    pub values: Vec<ValueId>,
    /// For a span its ends; both the same for a value.
    pub ends: (ValueId, ValueId),
}

/// How many of the witnesses must say so.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum By {
    /// One at least.
    Any,
    /// Two thirds at least, as the verdict "mostly yes" asks.
    #[default]
    Most,
    /// All, and one at least.
    All,
}

impl By {
    /// All, with their words.
    pub const WORDS: [(&str, Self); 3] =
        [("any", Self::Any), ("most", Self::Most), ("all", Self::All)];
}

/// How the witnesses on an herb answer to what is wanted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Backing {
    /// Witnesses that state one of the values.
    pub k: usize,
    /// Witnesses on the facet; of an action those that state it or one opposed to it.
    pub n: usize,
}

impl Backing {
    /// Whether that is enough.
    #[must_use]
    pub fn meets(self, vocabulary: &Vocabulary, by: By) -> bool {
        let Self { k, n } = self;
        match by {
            By::Any => k > 0,
            By::Most => k > 0 && vocabulary.thresholds.mostly.reached_by(k, n),
            By::All => k > 0 && k == n,
        }
    }

    /// By which herbs of equal standing are ranked: the lower end of the Wilson interval, so that fourteen of fourteen come
    /// before one of one.
    #[must_use]
    pub fn weight(self) -> f64 {
        wilson(self.k, self.n).map_or(0.0, |interval| interval.low)
    }
}

impl Wanted {
    /// Understands a value of `facet`, or a span of its scale, `warm..hot`.
    ///
    /// # Errors
    /// When a word is no value of the facet, or the facet has no scale.
    ///
    /// ```
    /// use kaoyi::{claim::Facet, compare::Wanted};
    /// let corpus = kaoyi::corpus::embedded().unwrap();
    /// let warm = Wanted::parse(&corpus.vocabulary, Facet::Nature, "warm").unwrap();
    /// let span = Wanted::parse(&corpus.vocabulary, Facet::Nature, "warm..hot").unwrap();
    /// assert!(warm.values.iter().all(|value| span.values.contains(value)));
    /// assert!(Wanted::parse(&corpus.vocabulary, Facet::Flavour, "sweet..sour").is_err());
    /// ```
    pub fn parse(
        vocabulary: &Vocabulary,
        facet: Facet,
        words: &str,
    ) -> Result<Self, QuestionError> {
        let scheme = vocabulary.scheme(facet);
        let value = |word: &str| {
            parse_question(vocabulary, &format!("{facet}:{}", word.trim())).map(|one| one.value)
        };
        if let Some((from, to)) = words.split_once("..") {
            if scheme.scale() != Scale::Ordinal {
                return Err(QuestionError::Unknown(Vec::new()));
            }
            let (from, to) = (value(from)?, value(to)?);
            let ends = (from.min(to), from.max(to));
            // The degrees of the ends belong to the span: slightly warm to warm..hot.
            let degrees = |end| Self::of(vocabulary, Question { facet, value: end }).values;
            let all = [degrees(ends.0), degrees(ends.1)].concat();
            let low = all.iter().min().copied().unwrap_or(ends.0);
            let high = all.iter().max().copied().unwrap_or(ends.1);
            return Ok(Self {
                facet,
                values: (low.0..=high.0).map(ValueId).collect(),
                ends,
            });
        }
        Ok(Self::of(
            vocabulary,
            Question {
                facet,
                value: value(words)?,
            },
        ))
    }

    /// The value asked for with its degrees and those that stand for it.
    #[must_use]
    pub fn of(vocabulary: &Vocabulary, question: Question) -> Self {
        let scheme = vocabulary.scheme(question.facet);
        let all = (0..scheme.values().len()).map(|place| ValueId(place as u16));
        Self {
            facet: question.facet,
            values: all
                .filter(|stated| scheme.answers(*stated, question.value))
                .collect(),
            ends: (question.value, question.value),
        }
    }

    fn states(&self, stand: &[ValueId]) -> bool {
        stand.iter().any(|value| self.values.contains(value))
    }

    /// Whether a stand states the contrary of an action that is wanted.
    fn opposes(&self, vocabulary: &Vocabulary, stand: &[ValueId]) -> bool {
        let scheme = vocabulary.scheme(self.facet);
        let opposed = |value: &ValueId| self.values.iter().any(|one| scheme.opposed(*one, *value));
        stand.iter().any(opposed)
    }

    /// For each stand of a column whether it states what is wanted, and whether it counts among the `n`.
    #[must_use]
    pub fn kinds(&self, vocabulary: &Vocabulary, stands: &Stands) -> Vec<(bool, usize)> {
        let kind = |stand: &Vec<ValueId>| {
            let states = self.states(stand);
            let counts = match self.facet {
                // Silence on an action means nothing; a work that states both is counted on both sides (rule 21).
                Facet::Action => usize::from(states) + usize::from(self.opposes(vocabulary, stand)),
                _ => 1,
            };
            (states, counts)
        };
        stands.kinds.iter().map(kind).collect()
    }

    /// How the witnesses on an herb answer; `kinds` are those of [`Wanted::kinds`].
    #[must_use]
    pub fn backing(kinds: &[(bool, usize)], stands: &Stands, herb: HerbId) -> Backing {
        let mut backing = Backing { k: 0, n: 0 };
        for row in stands.of(herb) {
            let (states, counts) = kinds[row.kind as usize];
            backing.k += usize::from(states);
            backing.n += counts;
        }
        backing
    }

    /// In how many lines of how many the witnesses stand that state what is wanted.
    #[must_use]
    pub fn lines(&self, corpus: &Corpus, view: &FacetView) -> (usize, usize) {
        let states = |one: &Witness| self.states(&one.values);
        if self.facet == Facet::Action {
            let contrary = |one: &Witness| self.opposes(&corpus.vocabulary, &one.values);
            let j = lines_of_support(corpus, view, states);
            return (j, j + lines_of_support(corpus, view, contrary));
        }
        let lines = lines(corpus, view);
        let of = view.witnesses.iter().zip(&lines.line_of);
        let mut stating: Vec<usize> = of
            .filter(|(witness, _)| states(witness))
            .map(|(_, line)| *line)
            .collect();
        stating.sort_unstable();
        stating.dedup();
        (stating.len(), lines.count)
    }

    /// Whether anybody states one of the values at all, of a part or preparation too, and doubtful readings included: what an
    /// herb was never called, nobody called it.
    #[must_use]
    pub fn ever_stated(&self, view: &FacetView) -> bool {
        let mut statements = view.all().flat_map(|witness| &witness.statements);
        statements.any(|one| {
            let values: Vec<ValueId> = one.values.iter().map(|(value, _)| *value).collect();
            self.states(&values)
        })
    }
}
