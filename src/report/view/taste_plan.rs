//! A circle's plan.

use jiff::civil::DateTime;
use schemars::JsonSchema;
use serde::Serialize;

use super::differences::DifferenceView;
use super::labels::{CautionView, Labels, NOTICE};
use super::state::HerbRef;
use crate::claim::Facet;
use crate::compare::{self, DifferenceKind, Selection};
use crate::corpus::{Herb, HerbId};
use crate::tasting::{Every, LIMITS, Meeting};

/// What `kaoyi taste plan --json` writes.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct PlanView {
    /// Name and version of this format.
    pub format: &'static str,
    /// How often the circle meets: `week`, `2 weeks`.
    pub every: String,
    /// How many hours an herb steeps.
    pub hours: u8,
    /// The meetings, in order of time.
    pub meetings: Vec<MeetingView>,
    /// What holds for every tasting.
    pub limits: &'static str,
    /// What the program does not do.
    pub notice: &'static str,
}

/// One herb: steeped in the evening, tasted in the morning. Times are those of the clock on the wall, wherever that is.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct MeetingView {
    /// The herb.
    pub herb: HerbRef,
    /// Its English name.
    pub english: Option<String>,
    /// When it is steeped.
    pub steep: MomentView,
    /// When it is tasted.
    pub taste: MomentView,
    /// What the books dispute about its flavour, nature and toxicity.
    pub disputes: Vec<DisputedView>,
    /// Its cautions, grave ones first.
    pub cautions: Vec<CautionView>,
}

/// An event's beginning and end.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct MomentView {
    /// The day of the week, in English.
    pub weekday: String,
    /// The beginning: `2027-01-04T18:00:00`.
    pub from: String,
    /// The end.
    pub to: String,
}

/// One thing that the books dispute.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct DisputedView {
    /// The facet.
    pub facet: Facet,
    /// How the books differ.
    pub kind: DifferenceKind,
    /// The sides.
    pub sides: Vec<DisputedSide>,
}

/// Who stands on a side.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct DisputedSide {
    /// What they say.
    pub label: String,
    /// How many books.
    pub books: usize,
}

/// The facets of which a tasting can say something, and toxicity, of which it must not.
const FACETS: [Facet; 3] = [Facet::Flavour, Facet::Nature, Facet::Toxicity];

impl PlanView {
    /// The plan of these herbs, each at its meeting.
    #[must_use]
    pub fn new(
        labels: &Labels<'_>,
        herbs: &[(HerbId, &Herb)],
        meetings: &[Meeting],
        every: Every,
        hours: u8,
    ) -> Self {
        let both = herbs.iter().zip(meetings);
        Self {
            format: "kaoyi.taste-plan/1",
            every: every.to_string(),
            hours,
            meetings: both
                .map(|((id, herb), meeting)| MeetingView::new(labels, *id, herb, meeting))
                .collect(),
            limits: LIMITS,
            notice: NOTICE,
        }
    }
}

impl MeetingView {
    fn new(labels: &Labels<'_>, id: HerbId, herb: &Herb, meeting: &Meeting) -> Self {
        Self {
            herb: HerbRef::new(labels, id),
            english: herb.names.english.clone(),
            steep: MomentView::new(meeting.steep, meeting.steeped),
            taste: MomentView::new(meeting.taste, meeting.tasted),
            disputes: disputes(labels, herb),
            cautions: labels.cautions(herb),
        }
    }
}

impl MomentView {
    fn new(from: DateTime, to: DateTime) -> Self {
        Self {
            weekday: format!("{:?}", from.weekday()),
            from: from.to_string(),
            to: to.to_string(),
        }
    }
}

/// What the books dispute; what follows a part or preparation only is no dispute about the herb as such.
fn disputes(labels: &Labels<'_>, herb: &Herb) -> Vec<DisputedView> {
    let corpus = labels.corpus;
    let no_dispute = [
        DifferenceKind::Unanimous,
        DifferenceKind::Single,
        DifferenceKind::ByScope,
    ];
    let mut disputes = Vec::new();
    for facet in FACETS {
        let view = compare::view(corpus, herb, facet, &Selection::default());
        let differences = compare::differences(corpus, &view);
        let views = DifferenceView::all(labels, &view, &differences).into_iter();
        let disputed = views.filter(|one| !no_dispute.contains(&one.kind));
        disputes.extend(disputed.map(|one| {
            DisputedView {
                facet,
                kind: one.kind,
                sides: one
                    .sides
                    .iter()
                    .map(|side| DisputedSide {
                        label: side.label.clone(),
                        books: side.witnesses.len(),
                    })
                    .collect(),
            }
        }));
    }
    disputes
}
