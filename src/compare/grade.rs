//! The grade of an herb by the oldest work that states one: it tells how the first books meant it to be dosed.

use super::{Selection, view};
use crate::claim::{Facet, ValueId};
use crate::corpus::{Corpus, Herb, WorkId};

/// A grade with the oldest work that states it of the herb as such.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OldestGrade {
    /// The work.
    pub work: WorkId,
    /// The grades that it states: one, but where the record gives several.
    pub grades: Vec<ValueId>,
}

/// The grade of `herb` by the oldest work that states one, among all works; `None` where none does.
///
/// ```
/// use kaoyi::{claim::Facet, compare, corpus};
/// let corpus = corpus::embedded().unwrap();
/// let corpus::Lookup::One(licorice) = corpus.find_herb("甘草") else { panic!() };
/// let oldest = compare::oldest_grade(&corpus, corpus.herb(licorice).unwrap()).unwrap();
/// let grades = corpus.vocabulary.scheme(Facet::Grade);
/// assert_eq!(corpus.work(oldest.work).id, "shennong-bencao-jing");
/// assert_eq!(grades.value(oldest.grades[0]).id, "upper");
/// ```
#[must_use]
pub fn oldest_grade(corpus: &Corpus, herb: &Herb) -> Option<OldestGrade> {
    let grade = view(corpus, herb, Facet::Grade, &Selection::default());
    let oldest = grade.witnesses.into_iter().next()?;
    Some(OldestGrade {
        work: oldest.work,
        grades: oldest.values,
    })
}
