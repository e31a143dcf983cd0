//! One facet of all herbs at once.

use super::selection::Selection;
use super::witness::{FacetView, view_of};
use crate::claim::Facet;
use crate::corpus::{AssembleError, Corpus};

/// The witnesses of one facet on every herb.
#[derive(Debug, Clone, PartialEq)]
pub struct Field {
    /// The facet.
    pub facet: Facet,
    /// The views, in the order of the herbs: the one at `n` is of `HerbId(n)`.
    pub views: Vec<FacetView>,
}

/// Gathers the witnesses of `facets` on all herbs.
///
/// ```
/// use kaoyi::{claim::Facet, compare};
/// let corpus = kaoyi::corpus::embedded().unwrap();
/// let fields = compare::fields(&corpus, &[Facet::Nature], &Default::default()).unwrap();
/// assert_eq!(fields[0].views.len(), corpus.names().len());
/// ```
///
/// # Errors
/// When an embedded record is faulty.
pub fn fields(
    corpus: &Corpus,
    facets: &[Facet],
    selection: &Selection,
) -> Result<Vec<Field>, AssembleError> {
    let properties = corpus.properties()?;
    let field = |facet: &Facet| Field {
        facet: *facet,
        views: properties
            .iter()
            .map(|entries| view_of(corpus, entries, *facet, selection))
            .collect(),
    };
    Ok(facets.iter().map(field).collect())
}
