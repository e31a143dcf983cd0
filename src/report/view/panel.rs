//! A panel: many tasters of one herb, and the books beside them.

use std::collections::BTreeSet;

use schemars::JsonSchema;
use serde::Serialize;

use super::filter::FilterView;
use super::heed::HeedView;
use super::herb::HerbView;
use super::labels::{Labels, WorkRef};
use super::panel_books::AgainstBooksView;
use super::panel_tasters::{RepeatsView, TasterView};
use crate::claim::{Facet, ValueId};
use crate::compare::Selection;
use crate::corpus::{Finding, Herb};
use crate::stats::Undefined;
use crate::tasting::{self, Agreement, Attribute, AttributeFigures, Gathered, Sheet, Tasting};

/// What `kaoyi taste panel --json` writes.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct PanelView {
    /// Name and version of this format.
    pub format: &'static str,
    /// The herb.
    pub herb: HerbView,
    /// What was read, and what could not be used.
    pub read: ReadView,
    /// How the cups were made.
    pub made: MadeView,
    /// How many tasters scored this herb.
    pub tasters: usize,
    /// How many cups are told apart, by lot, code and number.
    pub cups: usize,
    /// The figures of each attribute: flavours in the order of the vocabulary, then the others.
    pub attributes: Vec<AttributeView>,
    /// How far the tasters agree; `null` where that cannot be computed.
    pub agreement: Option<AgreementOfPanel>,
    /// Why there is no agreement.
    pub no_agreement: Option<String>,
    /// Each taster beside the others, in the order of their names.
    pub beside_others: Vec<TasterView>,
    /// Whether tasters repeat themselves; `null` where nobody had the same thing twice.
    pub repeats: Option<RepeatsView>,
    /// The panel against the books.
    pub against_books: AgainstBooksView,
    /// Which works were counted; `null` for all.
    pub filter: Option<FilterView>,
    /// All works named here, oldest first.
    pub works: Vec<WorkRef>,
    /// What is wrong in the files; the rest was used.
    pub findings: Vec<Finding>,
    /// Warnings, cautions and the notice.
    #[serde(flatten)]
    pub heed: HeedView,
}

/// What was read, and what could not be used.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
pub struct ReadView {
    /// Files.
    pub files: usize,
    /// Tastings of this herb that were counted.
    pub counted: usize,
    /// Tastings of other herbs in the same files.
    pub of_other_herbs: usize,
    /// Tastings of this herb that name no taster or score nothing known.
    pub not_counted: usize,
    /// Rows and records left out for a fault.
    pub left_out: usize,
    /// Rows in which nothing is scored.
    pub unfilled: usize,
    /// Files of notebook folders that were passed over: copies, conflicts, other names.
    pub passed_over: usize,
}

/// How the cups were made: what the tastings say, each once; what none says is empty.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct MadeView {
    /// The days, from first to last.
    pub dates: Vec<String>,
    /// The lots.
    pub lots: Vec<String>,
    /// The parts.
    pub parts: Vec<String>,
    /// The preparations.
    pub preparations: Vec<String>,
    /// The amounts in grams, least first.
    pub amounts: Vec<String>,
    /// The water in millilitres, least first.
    pub water: Vec<String>,
    /// The hours of steeping, fewest first.
    pub hours: Vec<String>,
}

/// An attribute, as an answer refers to it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct AttributeRef {
    /// A flavour's id, or `thickness`, `lingering`, `aroma`, `warmth`.
    pub id: String,
    /// The flavour's label in Han characters; `null` of what is no flavour.
    pub han: Option<String>,
    /// Its label in English.
    pub english: String,
}

impl AttributeRef {
    /// The attribute in words.
    #[must_use]
    pub fn new(labels: &Labels<'_>, attribute: Attribute) -> Self {
        let name = attribute.name().unwrap_or_default().to_owned();
        match attribute {
            Attribute::Flavour(value) => {
                let value = labels.value(Facet::Flavour, value);
                Self {
                    id: value.id,
                    han: Some(value.han),
                    english: value.english,
                }
            }
            _ => Self {
                id: name.clone(),
                han: None,
                english: name,
            },
        }
    }
}

/// The figures of an attribute, in points; all but `n` are `null` where nobody scored it.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct AttributeView {
    /// The attribute.
    pub attribute: AttributeRef,
    /// Tasters who scored it.
    pub n: usize,
    /// The median.
    pub median: Option<f64>,
    /// First and third quartile.
    pub quartiles: Option<(f64, f64)>,
    /// Lowest and highest.
    pub range: Option<(f64, f64)>,
    /// The median distance to the median.
    pub deviation: Option<f64>,
}

/// How far the tasters agree.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct AgreementOfPanel {
    /// Krippendorff's alpha by points (interval metric).
    pub alpha: f64,
    /// The same by ranks (ordinal metric).
    pub ordinal: Option<f64>,
    /// The interval at 95 %; `null` where too few draws give a figure.
    pub interval: Option<(f64, f64)>,
    /// The lowest and highest alpha when one taster is left out.
    pub without_one: Option<(f64, f64)>,
    /// Units: an attribute of a cup that two tasters or more scored.
    pub units: usize,
    /// Attributes among them.
    pub attributes: usize,
    /// Scores in them.
    pub scores: usize,
}

impl PanelView {
    /// The panel of `tastings`, all of `herb`, out of what was gathered.
    #[must_use]
    pub fn new(
        labels: &Labels<'_>,
        herb: &Herb,
        selection: &Selection,
        gathered: &Gathered,
        tastings: &[&Tasting],
    ) -> Self {
        let scheme = labels.corpus.vocabulary.scheme(Facet::Flavour);
        let sheets: Vec<Sheet> = tastings
            .iter()
            .filter_map(|one| tasting::sheet(scheme, one))
            .collect();
        let flavours: Vec<ValueId> = scheme.ids().filter_map(|id| scheme.place(id)).collect();
        let panel = tasting::panel(&flavours, &sheets);
        let against = tasting::against_books(labels.corpus, herb, selection, &panel.attributes);
        let attributes = panel.attributes.iter();
        let beside = panel.tasters.iter();
        Self {
            format: "kaoyi.taste-panel/1",
            herb: HerbView::new(labels, herb),
            read: ReadView {
                files: gathered.files,
                counted: sheets.len(),
                of_other_herbs: gathered.tastings.len() - tastings.len(),
                not_counted: tastings.len() - sheets.len(),
                left_out: gathered.left_out,
                unfilled: gathered.unfilled,
                passed_over: gathered.passed_over.len(),
            },
            made: MadeView::new(tastings),
            tasters: panel.tasters.len(),
            cups: panel.cups.len(),
            attributes: attributes
                .map(|one| AttributeView::new(labels, one))
                .collect(),
            no_agreement: panel.agreement.as_ref().err().map(|why| match why {
                Undefined::NoPairs => "no cup was scored by two tasters".to_owned(),
                Undefined::NoVariation => "all scores are equal".to_owned(),
            }),
            agreement: panel.agreement.as_ref().ok().map(AgreementOfPanel::new),
            beside_others: beside.map(|one| TasterView::new(labels, one)).collect(),
            repeats: panel.repeats.as_ref().map(RepeatsView::new),
            against_books: AgainstBooksView::new(labels, &against),
            filter: FilterView::new(labels, selection),
            findings: gathered.findings.clone(),
            heed: HeedView::new(labels, herb),
            works: labels.named_works(),
        }
    }
}

impl MadeView {
    fn new(tastings: &[&Tasting]) -> Self {
        let words = |of: &dyn Fn(&Tasting) -> Option<String>| -> Vec<String> {
            let found: BTreeSet<String> = tastings.iter().filter_map(|one| of(one)).collect();
            found.into_iter().collect()
        };
        Self {
            dates: words(&|one| Some(one.date.to_string())),
            lots: words(&|one| one.lot.clone()),
            parts: words(&|one| one.part.clone()),
            preparations: words(&|one| one.preparation.clone()),
            amounts: measures(tastings.iter().filter_map(|one| one.amount)),
            water: measures(tastings.iter().filter_map(|one| one.water)),
            hours: measures(tastings.iter().filter_map(|one| one.hours)),
        }
    }
}

/// Measures in order of size, each once.
fn measures<M: Ord + ToString>(measures: impl Iterator<Item = M>) -> Vec<String> {
    let sorted: BTreeSet<M> = measures.collect();
    sorted.iter().map(M::to_string).collect()
}

impl AttributeView {
    fn new(labels: &Labels<'_>, of: &AttributeFigures) -> Self {
        let figures = of.figures;
        Self {
            attribute: AttributeRef::new(labels, of.attribute),
            n: of.n,
            median: figures.map(|one| one.median),
            quartiles: figures.map(|one| one.quartiles),
            range: figures.map(|one| (one.lowest, one.highest)),
            deviation: figures.map(|one| one.deviation),
        }
    }
}

impl AgreementOfPanel {
    fn new(agreement: &Agreement) -> Self {
        Self {
            alpha: agreement.alpha,
            ordinal: agreement.ordinal,
            interval: agreement.interval.map(|one| (one.low, one.high)),
            without_one: agreement.without_one,
            units: agreement.units,
            attributes: agreement.attributes,
            scores: agreement.scores,
        }
    }
}
