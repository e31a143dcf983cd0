//! Own tastings held against the books.

use schemars::JsonSchema;
use serde::Serialize;

use super::filter::FilterView;
use super::heed::HeedView;
use super::herb::HerbView;
use super::labels::{Labels, ValueRef, WorkRef};
use super::own::{OwnFigures, OwnView};
use super::panel_books::AgainstBooksView;
use crate::claim::Facet;
use crate::compare::Selection;
use crate::corpus::{Finding, Herb};
use crate::tasting::{
    Attribute, AttributeFigures, Change, Group, Own, Sides, Tasting, against_books, changes, sides,
};

/// What `kaoyi taste against HERB --json` writes.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct TasteAgainstView {
    /// Name and version of this format.
    pub format: &'static str,
    /// The herb.
    pub herb: HerbView,
    /// Which works were counted; `null` for all.
    pub filter: Option<FilterView>,
    /// The own tastings.
    pub own: OwnView,
    /// Flavour by flavour, and warmth beside nature.
    pub against: AgainstBooksView,
    /// What the books do not lead one to expect.
    pub surprising: SurprisingView,
    /// Where the tongue stands among the books.
    pub sides: SidesView,
    /// How the scores went with what was varied; empty where nothing was.
    pub changes: Vec<ChangeOfTaste>,
    /// Faults of the notebook; what is not at fault was used.
    pub findings: Vec<Finding>,
    /// Warnings, cautions and the notice.
    #[serde(flatten)]
    pub heed: HeedView,
    /// The works named here.
    pub works: Vec<WorkRef>,
}

/// What the books do not lead one to expect.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct SurprisingView {
    /// Flavours that were tasted and that no book names.
    pub tasted_unnamed: Vec<ValueRef>,
    /// Flavours that most books name and that were not tasted.
    pub named_untasted: Vec<ValueRef>,
    /// Whether few books stand on the side that was felt.
    pub warmth: bool,
}

/// Where the tongue stands among the books.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct SidesView {
    /// The flavours that count as tasted.
    pub tasted: Vec<ValueRef>,
    /// The stands on flavour, those nearest to what was tasted first.
    pub flavours: Vec<FlavourStandView>,
    /// The sides of the books on nature, where warmth was scored.
    pub natures: Vec<NatureSideView>,
}

/// A stand of books on flavour.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct FlavourStandView {
    /// The flavours.
    pub values: Vec<ValueRef>,
    /// The works that take it.
    pub works: Vec<String>,
    /// Its MASI distance to what was tasted, 0 (the same) to 1.
    pub distance: f64,
}

/// The works on one side of neutral.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct NatureSideView {
    /// `cold`, `neutral` or `warm`.
    pub side: &'static str,
    /// The works.
    pub works: Vec<String>,
    /// Whether what was felt lies on it.
    pub felt: bool,
}

/// Tastings set side by side by what was varied.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct ChangeOfTaste {
    /// `amount`, `hours` or `lot`.
    pub varied: &'static str,
    /// What was scored: ids of flavours, and the names of the others.
    pub attributes: Vec<String>,
    /// The groups, by value.
    pub groups: Vec<GroupView>,
    /// Tastings that do not tell it.
    pub untold: usize,
    /// What else differs among them, so that a difference may come from that.
    pub also: Vec<&'static str>,
}

/// The tastings with one value.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct GroupView {
    /// The value.
    pub value: String,
    /// How many tastings have it.
    pub n: usize,
    /// Of each attribute the figures; `null` where nobody scored it.
    pub figures: Vec<Option<OwnFigures>>,
}

impl TasteAgainstView {
    /// Holds tastings of `herb` against the chosen books; `None` where there are none.
    #[must_use]
    pub fn new(
        labels: &Labels<'_>,
        herb: &Herb,
        selection: &Selection,
        tastings: &[&Tasting],
        findings: Vec<Finding>,
    ) -> Option<Self> {
        let corpus = labels.corpus;
        let own = Own::new(corpus, tastings)?;
        let against = against_books(corpus, herb, selection, &own.attributes);
        let against = AgainstBooksView::new(labels, &against);
        let sides = sides(corpus, herb, selection, &own.attributes);
        let changes = changes(corpus, tastings);
        Some(Self {
            format: "kaoyi.taste-against/1",
            herb: HerbView::new(labels, herb),
            filter: FilterView::new(labels, selection),
            own: OwnView::new(labels, &own),
            surprising: SurprisingView::new(&against),
            sides: SidesView::new(labels, &sides),
            changes: changes
                .iter()
                .map(|change| ChangeOfTaste::new(labels, change))
                .collect(),
            against,
            findings,
            heed: HeedView::new(labels, herb),
            works: labels.named_works(),
        })
    }
}

impl SurprisingView {
    fn new(against: &AgainstBooksView) -> Self {
        let with = |standing: &str| {
            let found = against.flavours.iter();
            let found = found.filter(|one| one.standing == standing);
            found.map(|one| one.value.clone()).collect()
        };
        Self {
            tasted_unnamed: with("tasted-none-name"),
            named_untasted: with("named-not-tasted"),
            warmth: against.warmth.agrees == Some(false),
        }
    }
}

impl SidesView {
    fn new(labels: &Labels<'_>, sides: &Sides) -> Self {
        let values = |values: &[crate::claim::ValueId]| -> Vec<ValueRef> {
            let all = values.iter();
            all.map(|value| labels.value(Facet::Flavour, *value))
                .collect()
        };
        let flavours = sides.flavours.iter().map(|one| FlavourStandView {
            values: values(&one.values),
            works: labels.works(&one.works),
            distance: one.distance,
        });
        let natures = sides.natures.iter().map(|one| NatureSideView {
            side: one.side,
            works: labels.works(&one.works),
            felt: one.felt,
        });
        Self {
            tasted: values(&sides.tasted),
            flavours: flavours.collect(),
            natures: natures.collect(),
        }
    }
}

impl ChangeOfTaste {
    fn new(labels: &Labels<'_>, change: &Change) -> Self {
        let name = |attribute: &Attribute| match attribute {
            Attribute::Flavour(value) => labels.value(Facet::Flavour, *value).id,
            other => other.name().unwrap_or_default().to_owned(),
        };
        let group = |group: &Group| {
            let figures = change.attributes.iter().zip(&group.figures);
            let figures = figures.map(|(attribute, (n, figures))| {
                OwnFigures::new(&AttributeFigures {
                    attribute: *attribute,
                    n: *n,
                    figures: *figures,
                })
            });
            GroupView {
                value: group.value.clone(),
                n: group.n,
                figures: figures.collect(),
            }
        };
        Self {
            varied: change.varied.name(),
            attributes: change.attributes.iter().map(name).collect(),
            groups: change.groups.iter().map(group).collect(),
            untold: change.untold,
            also: change.also.iter().map(|one| one.name()).collect(),
        }
    }
}
