//! Many tasters of one herb: what each attribute comes to, and how much the tasters scatter.

use std::collections::{BTreeMap, BTreeSet};

use super::panel_agreement::{Agreement, agreement};
use super::panel_tasters::{Repeats, TasterFigures, repeats, taster_figures};
use crate::claim::ValueId;
use crate::stats::{self, Undefined};

/// What a taster scores.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Attribute {
    /// A flavour, 0 to 10.
    Flavour(ValueId),
    /// How thick the liquor is, 0 to 10.
    Thickness,
    /// How long the taste stays, 0 to 10.
    Lingering,
    /// How strong it smells, 0 to 10.
    Aroma,
    /// How warm (to 5) or cold (to -5) it is felt to be.
    Warmth,
}

impl Attribute {
    /// The attributes that are no flavours, in the order in which they are shown.
    pub const OTHERS: [Self; 4] = [Self::Thickness, Self::Lingering, Self::Aroma, Self::Warmth];

    /// The name of an attribute that is no flavour; a flavour is named by the vocabulary.
    #[must_use]
    pub const fn name(self) -> Option<&'static str> {
        match self {
            Self::Flavour(_) => None,
            Self::Thickness => Some("thickness"),
            Self::Lingering => Some("lingering"),
            Self::Aroma => Some("aroma"),
            Self::Warmth => Some("warmth"),
        }
    }

    /// The ends of its scale.
    #[must_use]
    pub const fn ends(self) -> (f64, f64) {
        match self {
            Self::Warmth => (-5.0, 5.0),
            _ => (0.0, 10.0),
        }
    }
}

/// Which cup was tasted: what is unsaid is alike in all cups.
#[derive(Debug, Clone, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct Cup {
    /// The lot.
    pub lot: Option<String>,
    /// The blind code on it.
    pub code: Option<String>,
    /// Its number among the replicates.
    pub number: Option<u32>,
}

/// One taster's scores of one cup. A score that is not in the map is unsaid, which is not zero.
#[derive(Debug, Clone, PartialEq)]
pub struct Sheet {
    /// Who tasted.
    pub taster: String,
    /// What was in the hand.
    pub cup: Cup,
    /// How it was made, as a key: two sheets are of replicate cups when their keys are equal.
    pub made: String,
    /// The scores.
    pub scores: BTreeMap<Attribute, f64>,
}

/// The figures of some scores.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Figures {
    /// The median, in points.
    pub median: f64,
    /// First and third quartile.
    pub quartiles: (f64, f64),
    /// The lowest.
    pub lowest: f64,
    /// The highest.
    pub highest: f64,
    /// The median distance to the median.
    pub deviation: f64,
}

/// What the tasters make of one attribute.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AttributeFigures {
    /// The attribute.
    pub attribute: Attribute,
    /// How many tasters scored it.
    pub n: usize,
    /// The figures of their scores, each taster's being the mean over their own cups; `None` where nobody scored it.
    pub figures: Option<Figures>,
}

/// A panel on one herb.
#[derive(Debug, Clone, PartialEq)]
pub struct Panel {
    /// How many sheets were counted.
    pub sheets: usize,
    /// The tasters, with how far each stands from the others, in the order of their names.
    pub tasters: Vec<TasterFigures>,
    /// The cups.
    pub cups: Vec<Cup>,
    /// The attributes: flavours in the order of the vocabulary, then the others.
    pub attributes: Vec<AttributeFigures>,
    /// How far the tasters agree.
    pub agreement: Result<Agreement, Undefined>,
    /// Whether tasters repeat themselves; `None` where nobody had the same thing twice.
    pub repeats: Option<Repeats>,
}

/// What a taster says of each attribute, all own cups taken together.
pub(super) type Voice = BTreeMap<Attribute, f64>;

/// The voice of every taster.
pub(super) fn voices(sheets: &[Sheet]) -> BTreeMap<&str, Voice> {
    let mut scores: BTreeMap<&str, BTreeMap<Attribute, Vec<f64>>> = BTreeMap::new();
    for sheet in sheets {
        let of_taster = scores.entry(&sheet.taster).or_default();
        for (attribute, score) in &sheet.scores {
            of_taster.entry(*attribute).or_default().push(*score);
        }
    }
    let voice = |all: BTreeMap<Attribute, Vec<f64>>| -> Voice {
        let means = all.into_iter();
        means
            .filter_map(|(attribute, scores)| Some((attribute, stats::mean(&scores)?)))
            .collect()
    };
    scores
        .into_iter()
        .map(|(taster, all)| (taster, voice(all)))
        .collect()
}

/// The figures of a panel: rules 42 to 45 of the methods. `flavours` are those of the vocabulary, in order. The order of
/// the sheets changes nothing.
///
/// ```
/// use kaoyi::claim::ValueId;
/// use kaoyi::tasting::{Attribute, Cup, Sheet, panel};
/// let acrid = Attribute::Flavour(ValueId(0));
/// let sheet = |taster: &str, score| Sheet {
///     taster: taster.to_owned(),
///     cup: Cup::default(),
///     made: String::new(),
///     scores: [(acrid, score)].into(),
/// };
/// let panel = panel(&[ValueId(0)], &[sheet("A", 3.0), sheet("B", 5.0), sheet("C", 4.5)]);
/// let figures = panel.attributes[0].figures.unwrap();
/// assert_eq!((figures.median, figures.deviation), (4.5, 0.5));
/// ```
#[must_use]
pub fn panel(flavours: &[ValueId], sheets: &[Sheet]) -> Panel {
    let voices = voices(sheets);
    let attributes = flavours.iter().map(|value| Attribute::Flavour(*value));
    let cups: BTreeSet<&Cup> = sheets.iter().map(|sheet| &sheet.cup).collect();
    Panel {
        sheets: sheets.len(),
        tasters: taster_figures(&voices),
        cups: cups.into_iter().cloned().collect(),
        attributes: attributes
            .chain(Attribute::OTHERS)
            .map(|attribute| attribute_figures(voices.values(), attribute))
            .collect(),
        agreement: agreement(sheets),
        repeats: repeats(sheets),
    }
}

/// What voices make of one attribute.
pub(super) fn attribute_figures<'v>(
    voices: impl Iterator<Item = &'v Voice>,
    attribute: Attribute,
) -> AttributeFigures {
    let scores: Vec<f64> = voices
        .filter_map(|voice| voice.get(&attribute).copied())
        .collect();
    AttributeFigures {
        attribute,
        n: scores.len(),
        figures: figures(&scores),
    }
}

/// The figures of some scores; `None` of none.
fn figures(scores: &[f64]) -> Option<Figures> {
    Some(Figures {
        median: stats::median(scores)?,
        quartiles: stats::quartiles(scores)?,
        lowest: scores.iter().copied().reduce(f64::min)?,
        highest: scores.iter().copied().reduce(f64::max)?,
        deviation: stats::median_absolute_deviation(scores)?,
    })
}
