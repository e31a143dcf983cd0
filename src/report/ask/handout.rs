//! Handouts: on the herbs that are named, or on those that the books dispute most.

use super::failure::Attempt;
use crate::claim::Facet;
use crate::compare::{Selection, SetDistance};
use crate::corpus::{Herb, Lookup};
use crate::index::Library;
use crate::report::handout::{Handout, HerbPart};
use crate::report::view::{
    Asked, BookView, ComparisonView, DisputesView, Labels, OwnView, ScalesView,
};
use crate::tasting::Own;

/// The fewest witnesses of an herb in a lesson, as in `disputes`.
const LEAST_WITNESSES: usize = 5;

/// What is asked of a handout.
pub(crate) struct HandoutAsked<'a, 'c> {
    /// The herbs; of a lesson those that the ranking gives.
    pub herbs: Vec<&'c Herb>,
    /// For a lesson, its facet and how many herbs it has.
    pub lesson: Option<(Facet, usize)>,
    /// Whose statements count.
    pub selection: Selection,
    /// Whether pinyin stands over names.
    pub ruby: bool,
    /// The own tastings of an herb that are shown beside the books.
    pub own: &'a dyn Fn(&Herb) -> Attempt<Option<Own>>,
}

/// The handout that is asked for.
pub(crate) fn handout<'c>(
    library: &'c Library,
    labels: &Labels<'c>,
    asked: HandoutAsked<'_, 'c>,
) -> Attempt<Handout> {
    let selection = &asked.selection;
    let (mut lesson, mut herbs) = (None, asked.herbs);
    if let Some((facet, top)) = asked.lesson {
        let view = disputes(library, labels, selection, facet, top)?;
        herbs = disputed(library, &view)?;
        lesson = Some(view);
    }
    // A lesson keeps to its theme.
    let theme = asked.lesson.map(|(facet, _)| vec![facet]);
    let facets = theme.unwrap_or_else(|| Facet::ALL.to_vec());
    let part = |herb: &&Herb| -> Attempt<HerbPart> {
        let own = (asked.own)(herb)?;
        Ok(HerbPart {
            comparison: ComparisonView::new(labels, herb, &facets, selection),
            own: own.map(|own| OwnView::new(labels, &own)),
        })
    };
    Ok(Handout {
        herbs: herbs.iter().map(part).collect::<Attempt<_>>()?,
        lesson,
        facet: asked.lesson.map_or(Facet::Nature, |(facet, _)| facet),
        scales: ScalesView::new(labels),
        books: BookView::named(labels),
        ruby: asked.ruby,
    })
}

fn disputes(
    library: &Library,
    labels: &Labels<'_>,
    selection: &Selection,
    facet: Facet,
    top: usize,
) -> Attempt<DisputesView> {
    let asked = Asked {
        facets: vec![facet],
        witnesses: LEAST_WITNESSES,
        top,
        kind: None,
        sets: SetDistance::Masi,
        intervals: false,
    };
    let stands = library.stands(&asked.facets)?;
    Ok(DisputesView::new(labels, &stands, selection, &asked)?)
}

/// The herbs of a ranking.
fn disputed<'c>(library: &'c Library, view: &DisputesView) -> Attempt<Vec<&'c Herb>> {
    let corpus = &library.corpus;
    let mut herbs = Vec::new();
    for one in &view.disputes {
        if let Lookup::One(id) = corpus.find_herb(&one.herb.id) {
            herbs.push(corpus.herb(id)?);
        }
    }
    Ok(herbs)
}
