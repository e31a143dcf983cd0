//! A form to hand out to tasters, and the empty table in which their scores are gathered.

use schemars::JsonSchema;
use serde::Serialize;

use super::heed::HeedView;
use super::labels::{Labels, WorkRef};
use super::panel::AttributeRef;
use super::state::HerbRef;
use crate::claim::Facet;
use crate::corpus::{Herb, HerbId};
use crate::tasting::{Attribute, Day, LIMITS, PROTOCOL, Serving};

/// What `kaoyi taste form --json` writes.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct FormView {
    /// Name and version of this format.
    pub format: &'static str,
    /// Whether the herbs' names are kept off the forms.
    pub blind: bool,
    /// The steps of the protocol.
    pub steps: Vec<String>,
    /// What holds for every tasting.
    pub limits: &'static str,
    /// What is scored, in the order of the form.
    pub scales: Vec<ScaleView>,
    /// The ways in which it may be felt to move.
    pub directions: Vec<&'static str>,
    /// One form for each herb.
    pub forms: Vec<HerbForm>,
    /// The seed of codes and orders.
    pub seed: u64,
    /// Who is given which cup, in the order of tasting.
    pub rows: Vec<FormRow>,
    /// The works named here.
    pub works: Vec<WorkRef>,
}

/// What is scored, and from where to where.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct ScaleView {
    /// The attribute.
    pub attribute: AttributeRef,
    /// The lowest score.
    pub lowest: i8,
    /// The highest score.
    pub highest: i8,
}

/// The form of one herb.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct HerbForm {
    /// The herb.
    pub herb: HerbRef,
    /// Its English name.
    pub english: Option<String>,
    /// Its cups.
    pub cups: Vec<CupView>,
    /// Warnings, cautions and the notice.
    #[serde(flatten)]
    pub heed: HeedView,
}

/// A cup with its blind code.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct CupView {
    /// Its number among the herb's cups, from 1.
    pub cup: usize,
    /// The code.
    pub code: u16,
}

/// A cup that a taster is given.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct FormRow {
    /// The herb's id.
    pub herb: String,
    /// The taster, by a number that stands for a name.
    pub taster: String,
    /// The day, where it was told.
    pub date: Option<String>,
    /// The cup's code.
    pub code: u16,
    /// The cup's number among the herb's cups.
    pub cup: usize,
}

impl FormView {
    /// Forms for `herbs`, each with `cups` cups, served as `serving` has it: the cups of the first herb, then of the next.
    #[must_use]
    pub fn new(
        labels: &Labels<'_>,
        herbs: &[(HerbId, &Herb)],
        (serving, seed): (&Serving, u64),
        date: Option<Day>,
        blind: bool,
    ) -> Self {
        let cups = serving.codes.len() / herbs.len().max(1);
        let cup = |place: usize| CupView {
            cup: place % cups.max(1) + 1,
            code: serving.codes[place],
        };
        let form = |(place, (id, herb)): (usize, &(HerbId, &Herb))| HerbForm {
            herb: HerbRef::new(labels, *id),
            english: herb.names.english.clone(),
            cups: (place * cups..(place + 1) * cups).map(cup).collect(),
            heed: HeedView::new(labels, herb),
        };
        let digits = serving.orders.len().to_string().len().max(2);
        let mut rows = Vec::new();
        for (taster, order) in serving.orders.iter().enumerate() {
            rows.extend(order.iter().map(|place| FormRow {
                herb: herbs[place / cups.max(1)].1.id.clone(),
                taster: format!("T{:0digits$}", taster + 1),
                date: date.map(|date| date.to_string()),
                code: cup(*place).code,
                cup: cup(*place).cup,
            }));
        }
        Self {
            format: "kaoyi.taste-form/1",
            blind,
            steps: PROTOCOL
                .map(|step| format!("{}. {}", step.name, step.words))
                .to_vec(),
            limits: LIMITS,
            scales: scales(labels),
            directions: vec!["up", "down", "out", "in"],
            forms: herbs.iter().enumerate().map(form).collect(),
            seed,
            rows,
            works: labels.named_works(),
        }
    }
}

fn scales(labels: &Labels<'_>) -> Vec<ScaleView> {
    let scheme = labels.corpus.vocabulary.scheme(Facet::Flavour);
    let flavours = scheme.ids().filter_map(|id| scheme.place(id));
    let attributes = flavours.map(Attribute::Flavour).chain(Attribute::OTHERS);
    let scale = |attribute: Attribute| {
        let (lowest, highest) = match attribute {
            Attribute::Warmth => (-5, 5),
            _ => (0, 10),
        };
        ScaleView {
            attribute: AttributeRef::new(labels, attribute),
            lowest,
            highest,
        }
    };
    attributes.map(scale).collect()
}
