//! An amount or a formula in grams and millilitres, period by period.

use schemars::JsonSchema;
use serde::Serialize;

use super::grade::GradeView;
use super::labels::{CautionView, Labels, NOTICE, WorkRef};
use super::profile::SeverestView;
use super::state::HerbRef;
use super::together::TogetherView;
use super::weighed::{FigureView, PeriodRef, WeighedView};
use crate::compare::Relations;
use crate::corpus::{AssembleError, Herb, HerbId};
use crate::measure::{Amount, Formula, Measures, NotOfPeriod, PeriodId, ScaledFault};
use crate::text::{Exact, fold};

/// What `kaoyi weigh --json` writes.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct WeighView {
    /// Name and version of this format.
    pub format: &'static str,
    /// The formula's name.
    pub name: Option<String>,
    /// What was asked: one amount, or those of a formula's herbs.
    pub asked: Vec<AskedAmount>,
    /// The formula scaled to so many grams, where that was asked.
    pub daily: Option<DailyView>,
    /// Period by period, oldest first.
    pub periods: Vec<WeighedView>,
    /// Periods that do not know a unit of what was asked.
    pub left_out: Vec<LeftOut>,
    /// Of a formula what must be known of its herbs together.
    pub together: TogetherView,
    /// Of each herb its grade and what must be heeded.
    pub herbs: Vec<HerbHeed>,
    /// What the program does not do.
    pub notice: &'static str,
    /// The works named here.
    pub works: Vec<WorkRef>,
}

/// An amount that was asked for.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct AskedAmount {
    /// The herb; `null` for an amount by itself.
    pub herb: Option<HerbRef>,
    /// What else bears the name by which the herb was called.
    pub notes: Vec<String>,
    /// The amount as understood: `1 liang 2 qian`.
    pub amount: String,
    /// The amount in Han characters, where it can be written so.
    pub han: Option<String>,
    /// Its parts: exact numbers with the ids of units.
    pub parts: Vec<(String, String)>,
}

/// A formula scaled to so many grams.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct DailyView {
    /// The grams of all herbs together.
    pub grams: FigureView,
    /// The herbs, in the order asked.
    pub herbs: Vec<ScaledHerb>,
}

/// An herb of a scaled formula.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct ScaledHerb {
    /// Its share of the weight of all.
    pub share: FigureView,
    /// Its grams.
    pub grams: FigureView,
}

/// A period that does not know a unit of what was asked.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct LeftOut {
    /// The period.
    pub period: PeriodRef,
    /// The unit.
    pub unit: String,
    /// The units that it knows.
    pub known: Vec<String>,
}

/// What must be heeded of an herb.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct HerbHeed {
    /// The herb.
    pub herb: HerbRef,
    /// Its grade by the oldest work that states one; empty where none does.
    pub grades: Vec<GradeView>,
    /// The most severe toxicity that any book states of it; empty when none calls it toxic.
    pub warnings: Vec<SeverestView>,
    /// Its cautions, grave ones first.
    pub cautions: Vec<CautionView>,
}

/// Why nothing was weighed.
#[derive(Debug)]
pub enum WeighError {
    /// An embedded record is faulty.
    Faulty(AssembleError),
    /// The period asked for does not know a unit.
    NotOfPeriod(NotOfPeriod),
    /// No period knows all units of what was asked.
    NoPeriod,
    /// The formula cannot be scaled.
    Scaled(ScaledFault),
}

impl From<AssembleError> for WeighError {
    fn from(error: AssembleError) -> Self {
        Self::Faulty(error)
    }
}

impl WeighView {
    /// One amount in a period, or in every period that knows its units.
    ///
    /// # Errors
    /// When the period, or every period, lacks one of them.
    pub fn of_amount(
        labels: &Labels<'_>,
        measures: &Measures<'_>,
        amount: &Amount,
        period: Option<PeriodId>,
    ) -> Result<Self, WeighError> {
        let periods = period.map_or_else(|| measures.periods().collect(), |one| vec![one]);
        let asked = AskedAmount::new(labels, measures, amount);
        let amounts = [amount.clone()];
        let mut view = Self::new(labels, vec![asked], None);
        view.weigh(labels, measures, &amounts, &periods, |_| Vec::new())?;
        Ok(view)
    }

    /// A formula in its period or in every one, scaled to `daily` grams where that is asked.
    ///
    /// # Errors
    /// When its period, or every period, lacks a unit; when it cannot be scaled.
    pub fn of_formula(
        labels: &Labels<'_>,
        (measures, relations): (&Measures<'_>, &Relations<'_>),
        formula: &Formula,
        daily: Option<&Exact>,
    ) -> Result<Self, WeighError> {
        let amounts = formula.amounts();
        let asked = formula.herbs.iter().map(|part| AskedAmount {
            herb: Some(HerbRef::new(labels, part.herb)),
            notes: notes(labels, part.herb, &part.called),
            ..AskedAmount::new(labels, measures, &part.amount)
        });
        let name = formula.name.clone();
        let mut view = Self::new(labels, asked.collect(), name);
        let shares = |period| {
            let scaled = formula.shares(measures, period);
            scaled.map(|one| one.shares).unwrap_or_default()
        };
        view.weigh(
            labels,
            measures,
            &amounts,
            &formula.periods(measures),
            shares,
        )?;
        if let Some(grams) = daily {
            let scaled = formula
                .scaled(measures, grams)
                .map_err(WeighError::Scaled)?;
            let herb = |part: &Exact| ScaledHerb {
                share: FigureView::share(&(part / grams)),
                grams: FigureView::new(part),
            };
            view.daily = Some(DailyView {
                grams: FigureView::new(grams),
                herbs: scaled.iter().map(herb).collect(),
            });
        }
        let herbs = formula
            .herbs
            .iter()
            .map(|part| labels.corpus.herb(part.herb));
        let herbs: Vec<&Herb> = herbs.collect::<Result<_, _>>()?;
        view.together = TogetherView::new(labels, relations, &herbs)?;
        for (part, herb) in formula.herbs.iter().zip(herbs) {
            view.herbs.push(HerbHeed::new(labels, part.herb, herb));
        }
        view.works = labels.named_works();
        Ok(view)
    }

    fn new(labels: &Labels<'_>, asked: Vec<AskedAmount>, name: Option<String>) -> Self {
        Self {
            format: "kaoyi.weigh/1",
            name,
            asked,
            daily: None,
            periods: Vec::new(),
            left_out: Vec::new(),
            together: TogetherView::default(),
            herbs: Vec::new(),
            notice: NOTICE,
            works: labels.named_works(),
        }
    }

    /// Weighs in every period that knows the units; of one period alone a lack is an error.
    fn weigh(
        &mut self,
        labels: &Labels<'_>,
        measures: &Measures<'_>,
        amounts: &[Amount],
        periods: &[PeriodId],
        shares: impl Fn(PeriodId) -> Vec<Option<Exact>>,
    ) -> Result<(), WeighError> {
        for period in periods {
            match measures.weigh(*period, amounts) {
                Ok(weighed) => {
                    let shares = shares(*period);
                    let view = WeighedView::new(labels, measures, &weighed, amounts, &shares);
                    self.periods.push(view);
                }
                Err(lack) if periods.len() == 1 => return Err(WeighError::NotOfPeriod(lack)),
                Err(lack) => {
                    let known = lack.known.iter().map(|id| measures.unit(*id).id.clone());
                    self.left_out.push(LeftOut {
                        period: PeriodRef::new(labels, measures, *period),
                        unit: measures.unit(lack.unit).id.clone(),
                        known: known.collect(),
                    });
                }
            }
        }
        if self.periods.is_empty() {
            return Err(WeighError::NoPeriod);
        }
        Ok(())
    }
}

impl AskedAmount {
    fn new(labels: &Labels<'_>, measures: &Measures<'_>, amount: &Amount) -> Self {
        let parts = amount.parts.iter();
        Self {
            herb: None,
            notes: Vec::new(),
            amount: amount.words(measures),
            han: amount.han(measures).map(|han| labels.han(&han)),
            parts: parts
                .map(|(number, unit)| (number.to_string(), measures.unit(*unit).id.clone()))
                .collect(),
        }
    }
}

/// What else the name may mean by which an herb was called.
fn notes(labels: &Labels<'_>, id: HerbId, called: &str) -> Vec<String> {
    let named = labels.corpus.named(id);
    let key = fold(called);
    let mut notes = Vec::new();
    // What is written in Han characters has been told apart already.
    if key.is_ascii() {
        for other in labels.corpus.sounding(&key, id) {
            let other = labels.corpus.named(other);
            let name = labels.han(&other.names.hant);
            notes.push(format!("{name} sounds the same: ask for `{}`", other.id));
        }
    }
    let shared = named.names.shared.iter();
    for one in shared.filter(|one| fold(&one.name) == key) {
        let (name, note) = (labels.han(&one.name), labels.han(&one.note));
        notes.push(format!("{name} is a name of another drug too ({note})"));
    }
    notes
}

impl HerbHeed {
    fn new(labels: &Labels<'_>, id: HerbId, herb: &Herb) -> Self {
        Self {
            herb: HerbRef::new(labels, id),
            grades: GradeView::oldest(labels, herb),
            warnings: SeverestView::warnings(labels, herb),
            cautions: labels.cautions(herb),
        }
    }
}
