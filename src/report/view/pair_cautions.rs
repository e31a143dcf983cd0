//! What must be heeded of herbs together.

use schemars::JsonSchema;
use serde::Serialize;

use super::heed::HeedView;
use super::labels::{CautionView, Labels};
use super::profile::SeverestView;
use super::state::HerbRef;
use crate::corpus::AssembleError;
use crate::pairing::{self, Forbidden, Formula, Loud, Unit};

/// Pairs that the trade forbids, loud amounts, and the cautions of each herb.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct PairCautions {
    /// Pairs that a rule of the trade forbids.
    pub forbidden: Vec<ForbiddenView>,
    /// Amounts that call for a louder warning; none where amounts are parts.
    pub loud: Vec<LoudView>,
    /// What must be heeded of each herb, once each, those without anything left out.
    pub herbs: Vec<HerbCautions>,
}

/// A forbidden pair.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct ForbiddenView {
    /// The rule's id.
    pub rule: String,
    /// Its name in Han characters.
    pub han: String,
    /// Its name in English.
    pub english: String,
    /// Where it is published.
    pub source: String,
    /// The herb on its first side.
    pub one: HerbRef,
    /// What the rule calls it.
    pub one_as: String,
    /// The herb on the other side.
    pub other: HerbRef,
    /// What the rule calls it.
    pub other_as: String,
}

/// A loud amount.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct LoudView {
    /// The herb.
    pub herb: HerbRef,
    /// How many grams were asked about.
    pub grams: f64,
    /// From how many grams on the warning grows louder. Common practice, no source: no limit of safety.
    pub above: f64,
    /// Whether the herb bears a grave caution.
    pub grave: bool,
}

/// What must be heeded of one herb.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct HerbCautions {
    /// The herb.
    pub herb: HerbRef,
    /// Its cautions, grave ones first.
    pub cautions: Vec<CautionView>,
    /// The most severe toxicity that any book states of it.
    pub warnings: Vec<SeverestView>,
}

impl PairCautions {
    /// What must be heeded of a formula.
    ///
    /// # Errors
    /// When an embedded record is faulty.
    pub fn new(labels: &Labels<'_>, formula: &Formula<'_>) -> Result<Self, AssembleError> {
        let corpus = labels.corpus;
        let herbs = formula.herbs();
        let mut forbidden: Vec<ForbiddenView> = Vec::new();
        for pair in pairing::forbidden(corpus, &herbs) {
            let view = ForbiddenView::new(labels, &herbs, &pair);
            // An herb named twice is warned of once.
            if !forbidden.contains(&view) {
                forbidden.push(view);
            }
        }
        let mut by_herb: Vec<HerbCautions> = Vec::new();
        for herb in &herbs {
            let named = HerbRef::new(labels, corpus.place_of(herb));
            let HeedView {
                warnings, cautions, ..
            } = HeedView::new(labels, herb);
            let seen = by_herb.iter().any(|one| one.herb == named);
            let nothing = warnings.is_empty() && cautions.is_empty();
            if !seen && !nothing {
                by_herb.push(HerbCautions {
                    herb: named,
                    cautions,
                    warnings,
                });
            }
        }
        let in_grams = formula.unit == Unit::Grams;
        let loud = formula.members.iter().filter(|_| in_grams);
        Ok(Self {
            forbidden,
            loud: loud
                .filter_map(|member| {
                    let found = pairing::loud(corpus, member.herb, member.amount)?;
                    let (grave, above) = match found {
                        Loud::Grave(above) => (true, above),
                        Loud::Any(above) => (false, above),
                    };
                    Some(LoudView {
                        herb: HerbRef::new(labels, corpus.place_of(member.herb)),
                        grams: member.amount,
                        above,
                        grave,
                    })
                })
                .collect(),
            herbs: by_herb,
        })
    }
}

impl ForbiddenView {
    fn new(labels: &Labels<'_>, herbs: &[&crate::corpus::Herb], pair: &Forbidden<'_>) -> Self {
        let herb = |place: usize| HerbRef::new(labels, labels.corpus.place_of(herbs[place]));
        Self {
            rule: pair.rule.id.clone(),
            han: labels.han(&pair.rule.hant),
            english: pair.rule.english.clone(),
            source: pair.rule.source.clone(),
            one: herb(pair.one.0),
            one_as: labels.han(pair.one.1),
            other: herb(pair.other.0),
            other_as: labels.han(pair.other.1),
        }
    }
}
