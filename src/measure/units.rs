//! The units and periods, ready to reckon with.

use std::collections::{HashMap, VecDeque};
use std::fmt;

use crate::claim::{MeasureFile, OpinionRecord, PeriodRecord, Quantity, UnitRecord};
use crate::text::{Exact, fold, nearest, numeral};

/// A unit's place in the file of measures.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct UnitId(pub usize);

/// A period's place in the file of measures.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct PeriodId(pub usize);

/// Measures that do not fit together; the check finds such faults first.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MeasureError(String);

impl fmt::Display for MeasureError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "the measures are faulty: {}", self.0)
    }
}

impl std::error::Error for MeasureError {}

/// No period bears the name.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct UnknownPeriod {
    /// Ids of periods with names near to it.
    pub nearest: Vec<String>,
}

/// A figure with the span that its source gives; without one all three are the same.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Span {
    /// The lower end.
    pub least: Exact,
    /// The figure itself.
    pub value: Exact,
    /// The upper end.
    pub greatest: Exact,
}

impl Span {
    /// So many times as much.
    #[must_use]
    pub fn times(&self, number: &Exact) -> Self {
        Self {
            least: &self.least * number,
            value: &self.value * number,
            greatest: &self.greatest * number,
        }
    }

    /// The two together.
    #[must_use]
    pub fn plus(&self, other: &Self) -> Self {
        Self {
            least: &self.least + &other.least,
            value: &self.value + &other.value,
            greatest: &self.greatest + &other.greatest,
        }
    }
}

/// What somebody holds a unit to weigh or to hold.
#[derive(Debug, Clone)]
pub struct Opinion<'v> {
    /// The opinion as recorded.
    pub record: &'v OpinionRecord,
    /// The unit.
    pub unit: UnitId,
    /// Grams or millilitres for one of it.
    pub each: Span,
}

/// One period: the units that hold each other, and the opinions.
#[derive(Debug)]
struct Period<'v> {
    /// From a unit to another, with how many of it one of the first is.
    steps: Vec<(UnitId, UnitId, Exact)>,
    opinions: Vec<Opinion<'v>>,
}

/// All units and periods.
#[derive(Debug)]
pub struct Measures<'v> {
    file: &'v MeasureFile,
    periods: Vec<Period<'v>>,
}

impl<'v> Measures<'v> {
    /// The measures of a vocabulary.
    ///
    /// # Errors
    /// When a figure is no number above zero or a unit is not there.
    pub fn new(file: &'v MeasureFile) -> Result<Self, MeasureError> {
        let places = file.units.iter().enumerate();
        let places: HashMap<&str, UnitId> = places
            .map(|(place, unit)| (unit.id.as_str(), UnitId(place)))
            .collect();
        let unit = |id: &str| {
            let place = places.get(id).copied();
            place.ok_or_else(|| MeasureError(format!("unknown unit `{id}`")))
        };
        let periods = file.periods.iter();
        let periods = periods
            .map(|record| period(record, &unit))
            .collect::<Result<_, _>>()?;
        Ok(Self { file, periods })
    }

    /// A unit as recorded.
    #[must_use]
    pub fn unit(&self, id: UnitId) -> &'v UnitRecord {
        &self.file.units[id.0]
    }

    /// All units.
    pub fn units(&self) -> impl Iterator<Item = (UnitId, &'v UnitRecord)> {
        (0..).map(UnitId).zip(&self.file.units)
    }

    /// What a unit measures.
    #[must_use]
    pub fn quantity(&self, id: UnitId) -> Quantity {
        self.unit(id).measures
    }

    /// A period as recorded.
    #[must_use]
    pub fn period_record(&self, id: PeriodId) -> &'v PeriodRecord {
        &self.file.periods[id.0]
    }

    /// All periods, oldest first.
    pub fn periods(&self) -> impl Iterator<Item = PeriodId> + use<> {
        (0..self.file.periods.len()).map(PeriodId)
    }

    /// The period called `name`: by id or by any of its names.
    ///
    /// # Errors
    /// When no period is called so; near ones are named.
    ///
    /// ```
    /// let corpus = kaoyi::corpus::embedded().unwrap();
    /// let measures = kaoyi::measure::Measures::new(&corpus.vocabulary.measures).unwrap();
    /// assert_eq!(measures.period("東漢"), measures.period("han"));
    /// assert_eq!(measures.period("sung").unwrap_err().nearest, ["song"]);
    /// ```
    pub fn period(&self, name: &str) -> Result<PeriodId, UnknownPeriod> {
        let key = fold(name);
        let bears = |record: &PeriodRecord| names(record).any(|one| fold(one) == key);
        let place = self.file.periods.iter().position(bears);
        if let Some(place) = place.filter(|_| !key.is_empty()) {
            return Ok(PeriodId(place));
        }
        let all = self.file.periods.iter().flat_map(names);
        let mut near: Vec<String> = Vec::new();
        for one in nearest(name, all) {
            let mut of = self.file.periods.iter();
            let id = of.find(|record| names(record).any(|other| other == one));
            near.extend(id.map(|record| record.id.clone()));
        }
        near.dedup();
        Err(UnknownPeriod { nearest: near })
    }

    /// The opinions of a period.
    #[must_use]
    pub fn opinions(&self, period: PeriodId) -> &[Opinion<'v>] {
        &self.periods[period.0].opinions
    }

    /// The units that a period knows: those that are divided or weighed in it.
    #[must_use]
    pub fn units_of(&self, period: PeriodId) -> Vec<UnitId> {
        let Period { steps, opinions } = &self.periods[period.0];
        let divided = steps.iter().map(|step| step.0);
        let mut units: Vec<UnitId> = divided.chain(opinions.iter().map(|one| one.unit)).collect();
        units.sort_unstable();
        units.dedup();
        units
    }

    /// How many of `to` one of `from` is in a period; `None` where the one does not hold the other.
    ///
    /// ```
    /// let corpus = kaoyi::corpus::embedded().unwrap();
    /// let measures = kaoyi::measure::Measures::new(&corpus.vocabulary.measures).unwrap();
    /// let unit = |id: &str| measures.units().find(|(_, unit)| unit.id == id).unwrap().0;
    /// let han = measures.period("han").unwrap();
    /// let zhu = measures.ratio(han, unit("jin"), unit("zhu")).unwrap();
    /// assert_eq!(zhu, kaoyi::text::numeral("384").unwrap());
    /// ```
    #[must_use]
    pub fn ratio(&self, period: PeriodId, from: UnitId, to: UnitId) -> Option<Exact> {
        let steps = &self.periods[period.0].steps;
        let mut reached: HashMap<UnitId, Exact> = HashMap::new();
        reached.insert(from, Exact::from_integer(1.into()));
        let mut next = VecDeque::from([from]);
        while let Some(unit) = next.pop_front() {
            let so_far = reached.get(&unit)?.clone();
            if unit == to {
                return Some(so_far);
            }
            for (_, other, holds) in steps.iter().filter(|step| step.0 == unit) {
                if !reached.contains_key(other) {
                    reached.insert(*other, &so_far * holds);
                    next.push_back(*other);
                }
            }
        }
        None
    }
}

/// The names of a period, its id first.
fn names(record: &PeriodRecord) -> impl Iterator<Item = &str> {
    let main = [
        &record.id,
        &record.hant,
        &record.hans,
        &record.pinyin,
        &record.english,
    ];
    main.into_iter().chain(&record.also).map(String::as_str)
}

fn period<'v>(
    record: &'v PeriodRecord,
    unit: &impl Fn(&str) -> Result<UnitId, MeasureError>,
) -> Result<Period<'v>, MeasureError> {
    let figure =
        |text: &str| numeral(text).map_err(|fault| MeasureError(format!("`{text}`: {fault}")));
    let mut steps = Vec::new();
    for relation in &record.relations {
        let (one, of) = (unit(&relation.one)?, unit(&relation.of)?);
        let holds = figure(&relation.holds)?;
        steps.push((of, one, holds.recip()));
        steps.push((one, of, holds));
    }
    let mut opinions = Vec::new();
    for opinion in &record.opinions {
        let value = figure(&opinion.value)?;
        let end = |text: &Option<String>| text.as_deref().map_or_else(|| Ok(value.clone()), figure);
        opinions.push(Opinion {
            record: opinion,
            unit: unit(&opinion.unit)?,
            each: Span {
                least: end(&opinion.least)?,
                greatest: end(&opinion.greatest)?,
                value,
            },
        });
    }
    Ok(Period { steps, opinions })
}
