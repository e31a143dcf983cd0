//! The grade by which old books grouped drugs.

use crate::claim::{Facet, ValueId};
use crate::compare::{self, Selection};
use crate::corpus::{Corpus, Herb, WorkId};

/// The grade that the oldest work states of an herb, and that work.
///
/// ```
/// use kaoyi::{corpus, pairing};
/// let corpus = corpus::embedded().unwrap();
/// let corpus::Lookup::One(licorice) = corpus.find_herb("甘草") else { panic!() };
/// let (grade, work) = pairing::oldest_grade(&corpus, corpus.herb(licorice).unwrap()).unwrap();
/// assert_eq!(corpus.vocabulary.scheme(kaoyi::claim::Facet::Grade).value(grade).id, "upper");
/// assert_eq!(corpus.work(work).hant, "神農本草經");
/// ```
#[must_use]
pub fn oldest_grade(corpus: &Corpus, herb: &Herb) -> Option<(ValueId, WorkId)> {
    let view = compare::view(corpus, herb, Facet::Grade, &Selection::default());
    let oldest = view.witnesses.first()?;
    Some((*oldest.values.first()?, oldest.work))
}
