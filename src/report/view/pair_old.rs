//! What an amount of a formula in units of old comes to.

use schemars::JsonSchema;
use serde::Serialize;

use super::labels::Labels;
use super::weighed::FigureView;
use crate::claim::Quantity;
use crate::measure::Measures;
use crate::pairing::{Formula, Member};
use crate::text::Exact;

/// An amount in units of old.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct OldAmountView {
    /// The amount as understood: `1 jin 2 liang`.
    pub words: String,
    /// The amount in Han characters, where it can be written so.
    pub han: Option<String>,
    /// Its grams by the opinions on record; `null` where none is.
    pub grams: Option<OldGrams>,
}

/// Grams by the opinions on record.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct OldGrams {
    /// By the least of all opinions.
    pub least: FigureView,
    /// By the greatest of all opinions.
    pub greatest: FigureView,
    /// By the commonest practice; `null` where none is on record.
    pub commonest: Option<FigureView>,
}

impl OldAmountView {
    pub(super) fn new(
        measures: &Measures<'_>,
        formula: &Formula<'_>,
        member: &Member<'_>,
        labels: &Labels<'_>,
    ) -> Option<Self> {
        let (written, period) = (member.written.as_ref()?, formula.period?);
        let weighed = measures.weigh(period, std::slice::from_ref(written)).ok()?;
        let commonest = weighed.commonest(Quantity::Weight);
        let commonest = commonest.map(|one| FigureView::new(&one.total.value));
        let grams = weighed.range(0).map(|range| OldGrams {
            least: FigureView::new(&range.least),
            greatest: FigureView::new(&range.greatest),
            commonest,
        });
        Some(Self {
            words: written.words(measures),
            han: written.han(measures).map(|han| labels.han(&han)),
            grams,
        })
    }
}

/// The most that a member may weigh: its grams, of an amount of old by the greatest of all opinions; `None` where the
/// amounts are parts, or no opinion is on record.
pub(super) fn most_grams(
    measures: &Measures<'_>,
    formula: &Formula<'_>,
    member: &Member<'_>,
) -> Option<Exact> {
    let (written, period) = (member.written.as_ref()?, formula.period?);
    let weighed = measures.weigh(period, std::slice::from_ref(written)).ok()?;
    weighed.range(0).map(|range| range.greatest)
}
