//! What must be heeded of herbs together.

use num_traits::ToPrimitive;
use schemars::JsonSchema;
use serde::Serialize;

use super::heed::HeedView;
use super::labels::{CautionView, Labels};
use super::pair_old::most_grams;
use super::profile::SeverestView;
use super::state::HerbRef;
use super::together::TogetherView;
use crate::compare::Relations;
use crate::corpus::AssembleError;
use crate::measure::Measures;
use crate::pairing::{self, Formula, Loud, Member, Unit};

/// Pairs that the trade forbids, loud amounts, and the cautions of each herb.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct PairCautions {
    /// Forbidden pairs, and what the books say of two of the herbs.
    #[serde(flatten)]
    pub together: TogetherView,
    /// Amounts that call for a louder warning; none where amounts are parts.
    pub loud: Vec<LoudView>,
    /// What must be heeded of each herb, once each, those without anything left out.
    pub herbs: Vec<HerbCautions>,
}

/// A loud amount.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct LoudView {
    /// The herb.
    pub herb: HerbRef,
    /// How many grams were asked about; of units of old by the greatest of all opinions.
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
    pub fn new(
        labels: &Labels<'_>,
        relations: &Relations<'_>,
        measures: &Measures<'_>,
        formula: &Formula<'_>,
    ) -> Result<Self, AssembleError> {
        let corpus = labels.corpus;
        let herbs = formula.herbs();
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
        let grams = |member: &Member<'_>| match formula.unit {
            Unit::Grams => Some(member.amount),
            Unit::Parts => None,
            Unit::Old(_) => most_grams(measures, formula, member)?.to_f64(),
        };
        let loud = formula.members.iter();
        Ok(Self {
            together: TogetherView::new(labels, relations, &herbs)?,
            loud: loud
                .filter_map(|member| {
                    let grams = grams(member)?;
                    let found = pairing::loud(corpus, member.herb, grams)?;
                    let (grave, above) = match found {
                        Loud::Grave(above) => (true, above),
                        Loud::Any(above) => (false, above),
                    };
                    Some(LoudView {
                        herb: HerbRef::new(labels, corpus.place_of(member.herb)),
                        grams,
                        above,
                        grave,
                    })
                })
                .collect(),
            herbs: by_herb,
        })
    }
}
