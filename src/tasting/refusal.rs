//! Herbs that are not tasted to learn them: those that any book calls toxic, and those whose cautions forbid it.

use crate::claim::{Caution, Facet, Severity};
use crate::compare::{self, Selection, Severest};
use crate::corpus::{Corpus, Herb};

/// Why an herb is not tasted; at least one of the two is there.
#[derive(Debug, Clone)]
pub struct Refusal<'c> {
    /// The most severe toxicity that any book states of it, with the books.
    pub toxic: Option<Severest>,
    /// The cautions that forbid it, grave ones first.
    pub cautions: Vec<&'c Caution>,
}

/// Why `herb` is not tasted to learn it; `None` where nothing on record is against it, which is no proof of harmlessness.
///
/// One book is enough, and so is what a book says of a part, and a doubtful reading: an herb is refused once too often
/// rather than once too seldom.
///
/// ```
/// use kaoyi::{corpus, tasting};
/// let corpus = corpus::embedded().unwrap();
/// let herb = |name| match corpus.find_herb(name) {
///     corpus::Lookup::One(id) => corpus.herb(id).unwrap(),
///     _ => panic!("shipped"),
/// };
/// assert!(tasting::refusal(&corpus, herb("薄荷")).is_none());
/// let aconite = tasting::refusal(&corpus, herb("附子")).unwrap();
/// assert!(aconite.toxic.unwrap().by.len() > 5 && !aconite.cautions.is_empty());
/// ```
#[must_use]
pub fn refusal<'c>(corpus: &'c Corpus, herb: &Herb) -> Option<Refusal<'c>> {
    let view = compare::view(corpus, herb, Facet::Toxicity, &Selection::default());
    let scheme = corpus.vocabulary.scheme(Facet::Toxicity);
    let severest = compare::profile(corpus, &view).severest.into_iter();
    let toxic = severest
        .filter(|one| scheme.value(one.value).side.as_deref() == Some("harmful"))
        .max_by_key(|one| one.value);
    let borne = herb.cautions.iter();
    let mut cautions: Vec<&Caution> = borne
        .filter_map(|place| corpus.vocabulary.cautions.get(*place))
        .filter(|caution| !caution.tasted())
        .collect();
    cautions.sort_by_key(|caution| caution.severity == Severity::Care);
    (toxic.is_some() || !cautions.is_empty()).then_some(Refusal { toxic, cautions })
}
