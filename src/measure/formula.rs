//! A formula: herbs with their amounts, their shares, and the whole scaled to so many grams a day.

use super::amount::Amount;
use super::units::{Measures, PeriodId, UnitId};
use crate::claim::Quantity;
use crate::corpus::{Code, Corpus, FormulaRecord, HERBS_LIMIT, HerbId, Lookup};
use crate::text::Exact;

/// A formula of which every herb and amount is understood.
#[derive(Debug, Clone)]
pub struct Formula {
    /// Its name.
    pub name: Option<String>,
    /// The period that it is written in; every period where none is told.
    pub period: Option<PeriodId>,
    /// Its herbs, in the order in which they were written.
    pub herbs: Vec<FormulaPart>,
}

/// One herb of a formula.
#[derive(Debug, Clone)]
pub struct FormulaPart {
    /// The herb.
    pub herb: HerbId,
    /// The name by which it was called.
    pub called: String,
    /// Its amount.
    pub amount: Amount,
}

/// Where in a formula a fault shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Spot {
    /// In its period.
    Period,
    /// In the list of herbs as a whole.
    Herbs,
    /// In the name of the herb at this place.
    Herb(usize),
    /// In the amount of the herb at this place.
    Amount(usize),
}

/// A fault of a formula.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FormulaFault {
    /// Where it shows.
    pub spot: Spot,
    /// What kind of fault.
    pub code: Code,
    /// What was found.
    pub found: String,
    /// What was expected.
    pub expected: String,
    /// The nearest valid choices.
    pub nearest: Vec<String>,
}

/// The parts of a formula as shares of its weight, and scaled.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Scaled {
    /// Of each herb its share of the weight of all; `None` for one that is given by volume.
    pub shares: Vec<Option<Exact>>,
}

/// Why a formula cannot be scaled.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum ScaledFault {
    /// No period knows all its units together.
    NoPeriod,
    /// The herb at this place is given by volume, whose weight is not on record.
    Volume(usize),
    /// The herb at this place has another share in another period.
    Differs(usize),
}

impl Formula {
    /// Understands a formula as written.
    ///
    /// # Errors
    /// With every fault, in the order of the formula.
    ///
    /// ```
    /// use kaoyi::{corpus, corpus::{FormulaHerb, FormulaRecord}, measure::{Formula, Measures}};
    /// let corpus = corpus::embedded().unwrap();
    /// let measures = Measures::new(&corpus.vocabulary.measures).unwrap();
    /// let herb = |herb: &str, amount: &str| FormulaHerb { herb: herb.into(), amount: amount.into() };
    /// let written = |herbs| FormulaRecord { name: None, period: Some("han".into()), herbs };
    /// let good = Formula::read(&corpus, &measures, &written(vec![herb("芍藥", "四兩"), herb("甘草", "四兩")]));
    /// assert_eq!(good.unwrap().herbs.len(), 2);
    /// let bad = Formula::read(&corpus, &measures, &written(vec![herb("nothing", "三碗"), herb("甘草", "0 liang")]));
    /// assert_eq!(bad.unwrap_err().len(), 3);
    /// ```
    pub fn read(
        corpus: &Corpus,
        measures: &Measures<'_>,
        written: &FormulaRecord,
    ) -> Result<Self, Vec<FormulaFault>> {
        let mut faults = Vec::new();
        let period = period(measures, written.period.as_deref(), &mut faults);
        let count = written.herbs.len();
        if count == 0 || count > HERBS_LIMIT {
            faults.push(FormulaFault {
                spot: Spot::Herbs,
                code: Code::WrongForm,
                found: format!("{count} herbs"),
                expected: format!("1 to {HERBS_LIMIT} herbs"),
                nearest: Vec::new(),
            });
            return Err(faults);
        }
        let mut herbs: Vec<FormulaPart> = Vec::new();
        let mut named: Vec<HerbId> = Vec::new();
        for (place, one) in written.herbs.iter().enumerate() {
            let herb = herb(corpus, &one.herb, place, &mut faults);
            if let Some(id) = herb
                && named.contains(&id)
            {
                let names = &corpus.named(id).names;
                faults.push(FormulaFault {
                    spot: Spot::Herb(place),
                    code: Code::DuplicateValue,
                    found: format!("`{}`, {} a second time", one.herb, names.hant),
                    expected: "each herb once".to_owned(),
                    nearest: Vec::new(),
                });
            }
            named.extend(herb);
            let amount = amount(measures, period, &one.amount, place, &mut faults);
            if let (Some(herb), Some(amount)) = (herb, amount) {
                let called = one.herb.clone();
                herbs.push(FormulaPart {
                    herb,
                    called,
                    amount,
                });
            }
        }
        if faults.is_empty() {
            Ok(Self {
                name: written.name.clone(),
                period,
                herbs,
            })
        } else {
            Err(faults)
        }
    }

    /// The amounts, in the order of the herbs.
    #[must_use]
    pub fn amounts(&self) -> Vec<Amount> {
        self.herbs.iter().map(|one| one.amount.clone()).collect()
    }

    /// The shares of the weight in a period; `None` where it does not know the units, or they do not hold each other.
    #[must_use]
    pub fn shares(&self, measures: &Measures<'_>, period: PeriodId) -> Option<Scaled> {
        let weights = || {
            let of = |part: &&FormulaPart| part.amount.quantity == Quantity::Weight;
            self.herbs.iter().filter(of)
        };
        let fits = |part: &FormulaPart| measures.fits(period, &part.amount).is_ok();
        if !self.herbs.iter().all(fits) {
            return None;
        }
        let unit = weights().find_map(|part| part.amount.parts.first().map(|(_, unit)| *unit));
        let Some(unit) = unit else {
            return Some(Scaled {
                shares: vec![None; self.herbs.len()],
            });
        };
        let number = |part: &FormulaPart| part.amount.in_unit(measures, period, unit);
        let mut total = Exact::from_integer(0.into());
        for part in weights() {
            total += number(part)?;
        }
        let share = |part: &FormulaPart| match part.amount.quantity {
            Quantity::Weight => number(part).map(|number| number / &total),
            Quantity::Volume => None,
        };
        Some(Scaled {
            shares: self.herbs.iter().map(share).collect(),
        })
    }

    /// Grams of each herb when the whole is scaled to `grams`. The opinions do not matter, since each leaves the proportions
    /// as they are.
    ///
    /// # Errors
    /// When an herb is given by volume, or the proportions differ between periods and none is told.
    pub fn scaled(
        &self,
        measures: &Measures<'_>,
        grams: &Exact,
    ) -> Result<Vec<Exact>, ScaledFault> {
        let volume = self
            .herbs
            .iter()
            .position(|part| part.amount.quantity == Quantity::Volume);
        if let Some(place) = volume {
            return Err(ScaledFault::Volume(place));
        }
        let mut shares: Option<Scaled> = None;
        for period in self.periods(measures) {
            let Some(here) = self.shares(measures, period) else {
                continue;
            };
            if let Some(other) = &shares {
                let mut pairs = here.shares.iter().zip(&other.shares);
                if let Some(place) = pairs.position(|(a, b)| a != b) {
                    return Err(ScaledFault::Differs(place));
                }
            }
            shares = Some(here);
        }
        let shares = shares.ok_or(ScaledFault::NoPeriod)?.shares;
        Ok(shares.iter().flatten().map(|share| share * grams).collect())
    }

    /// The period told, or all.
    #[must_use]
    pub fn periods(&self, measures: &Measures<'_>) -> Vec<PeriodId> {
        self.period
            .map_or_else(|| measures.periods().collect(), |period| vec![period])
    }
}

/// At most forty characters of what was written.
fn quoted(text: &str) -> String {
    let start: String = text.chars().take(40).collect();
    let more = if start.len() < text.len() { "…" } else { "" };
    format!("`{start}{more}`")
}

fn period(
    measures: &Measures<'_>,
    name: Option<&str>,
    faults: &mut Vec<FormulaFault>,
) -> Option<PeriodId> {
    let name = name?;
    let error = match measures.period(name) {
        Ok(period) => return Some(period),
        Err(error) => error,
    };
    let ids: Vec<&str> = measures
        .periods()
        .map(|id| measures.period_record(id).id.as_str())
        .collect();
    faults.push(FormulaFault {
        spot: Spot::Period,
        code: Code::UnknownValue,
        found: quoted(name),
        expected: format!("a period: {}", ids.join(", ")),
        nearest: error.nearest,
    });
    None
}

fn herb(
    corpus: &Corpus,
    name: &str,
    place: usize,
    faults: &mut Vec<FormulaFault>,
) -> Option<HerbId> {
    let ids = |herbs: &[HerbId]| {
        let ids = herbs.iter().map(|id| corpus.named(*id).id.clone());
        ids.collect::<Vec<_>>()
    };
    let (found, expected, nearest) = match corpus.find_herb(name) {
        Lookup::One(id) => return Some(id),
        Lookup::Many(herbs) => {
            let found = format!("`{name}`, a name of {} herbs", herbs.len());
            (found, "the id of one herb", ids(&herbs))
        }
        Lookup::None(near) => (quoted(name), "an herb of the corpus", ids(&near)),
    };
    faults.push(FormulaFault {
        spot: Spot::Herb(place),
        code: Code::UnknownHerb,
        found,
        expected: expected.to_owned(),
        nearest,
    });
    None
}

fn amount(
    measures: &Measures<'_>,
    period: Option<PeriodId>,
    text: &str,
    place: usize,
    faults: &mut Vec<FormulaFault>,
) -> Option<Amount> {
    let spot = Spot::Amount(place);
    let code = Code::BadAmount;
    let amount = match measures.amount(text) {
        Ok(amount) => amount,
        Err(fault) => {
            faults.push(FormulaFault {
                spot,
                code,
                found: format!("{} at character {}", fault.found, fault.at),
                expected: fault.expected,
                nearest: fault.nearest,
            });
            return None;
        }
    };
    let misfit = period.and_then(|period| Some((period, measures.fits(period, &amount).err()?)));
    if let Some((period, (unit, known))) = misfit {
        faults.push(FormulaFault {
            spot,
            code,
            found: format!("`{}`", measures.unit(unit).id),
            expected: measures.unit_of(period, &known),
            nearest: Vec::new(),
        });
    }
    Some(amount)
}

impl Measures<'_> {
    /// What may be used in a period: `a unit of Eastern Han: jin, liang, zhu`.
    #[must_use]
    pub fn unit_of(&self, period: PeriodId, known: &[UnitId]) -> String {
        let ids: Vec<&str> = known.iter().map(|id| self.unit(*id).id.as_str()).collect();
        format!(
            "a unit of {}: {}",
            self.period_record(period).english,
            ids.join(", ")
        )
    }
}
