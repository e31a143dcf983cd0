//! What amounts come to in one period, opinion by opinion.

use schemars::JsonSchema;
use serde::Serialize;

use super::labels::Labels;
use crate::claim::{Known, OpinionRecord, Quantity};
use crate::measure::{Amount, ByOpinion, Measures, Opinion, PeriodId, Range, Span, Weighed};
use crate::text::{Exact, decimal, figure};

/// An exact number with the decimals in which it is shown.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct FigureView {
    /// The exact number, whole or a fraction: `375/8`.
    pub exact: String,
    /// As it is shown, rounded half away from zero: `46.875`.
    pub shown: String,
}

impl FigureView {
    /// A weight or volume.
    pub(super) fn new(number: &Exact) -> Self {
        Self {
            exact: number.to_string(),
            shown: figure(number),
        }
    }

    /// A share, shown in percent to one place.
    pub(super) fn share(number: &Exact) -> Self {
        Self {
            exact: number.to_string(),
            shown: decimal(&(number * Exact::from_integer(100.into())), 1),
        }
    }
}

/// A figure with the span that its source gives; without one all three are the same.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct SpanView {
    /// The figure itself.
    pub value: FigureView,
    /// The lower end.
    pub least: FigureView,
    /// The upper end.
    pub greatest: FigureView,
}

impl SpanView {
    fn new(span: &Span) -> Self {
        Self {
            value: FigureView::new(&span.value),
            least: FigureView::new(&span.least),
            greatest: FigureView::new(&span.greatest),
        }
    }
}

/// A period, as an answer refers to it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct PeriodRef {
    /// Its id.
    pub id: String,
    /// Its name in Han characters.
    pub name: String,
    /// Its name in English.
    pub english: String,
    /// The first year of its measures.
    pub from: Option<i32>,
    /// The last year of its measures.
    pub to: Option<i32>,
}

impl PeriodRef {
    /// The period at `id`.
    #[must_use]
    pub fn new(labels: &Labels<'_>, measures: &Measures<'_>, id: PeriodId) -> Self {
        let record = measures.period_record(id);
        Self {
            id: record.id.clone(),
            name: labels.han(&record.hant),
            english: record.english.clone(),
            from: record.from,
            to: record.to,
        }
    }
}

/// How many of a smaller unit a greater one holds.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct RelationView {
    /// The relation: `1 jin = 16 liang`.
    pub relation: String,
    /// Who says so.
    pub source: String,
    /// How it is known.
    pub known: Known,
}

/// What the amounts come to by one opinion.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct OpinionView {
    /// The unit's id.
    pub unit: String,
    /// Which of several measures of the period is meant.
    pub measure: Option<String>,
    /// `g` or `ml`.
    pub sign: &'static str,
    /// Grams or millilitres for one of the unit.
    pub each: SpanView,
    /// Each amount, in the order asked; `null` for one of the other quantity.
    pub amounts: Vec<Option<SpanView>>,
    /// All of them together.
    pub total: SpanView,
    /// Who says so, with the year.
    pub source: String,
    /// When it was published or took effect.
    pub year: Option<i32>,
    /// How it is known; `null` where there is no source.
    pub known: Option<Known>,
    /// Whether it is a practice rather than a finding or a law.
    pub practice: bool,
    /// Whether it is the commonest practice.
    pub commonest: bool,
    /// What it rests on.
    pub note: Option<String>,
}

impl OpinionView {
    fn new(labels: &Labels<'_>, measures: &Measures<'_>, by: &ByOpinion<'_>) -> Self {
        let Opinion { record, unit, each } = by.opinion;
        let amounts = by.each.iter();
        Self {
            unit: measures.unit(*unit).id.clone(),
            measure: record.measure.clone(),
            sign: measures.quantity(*unit).sign(),
            each: SpanView::new(each),
            amounts: amounts.map(|one| one.as_ref().map(SpanView::new)).collect(),
            total: SpanView::new(&by.total),
            source: labels.han(&cited(record)),
            year: record.year,
            known: record.known,
            practice: record.practice,
            commonest: record.commonest,
            note: record.note.as_ref().map(|note| labels.han(note)),
        }
    }
}

/// Source and year, the year once.
fn cited(record: &OpinionRecord) -> String {
    match record.year {
        Some(year) if !record.source.contains(&year.to_string()) => {
            format!("{}, {year}", record.source)
        }
        _ => record.source.clone(),
    }
}

/// What the commonest practice gives.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct CommonestView {
    /// Grams or millilitres.
    pub figure: FigureView,
    /// Who says so.
    pub source: String,
}

/// What all opinions give for the sum of the amounts of one quantity.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct QuantityRange {
    /// `g` or `ml`.
    pub sign: &'static str,
    /// How many opinions there are.
    pub opinions: usize,
    /// The least.
    pub least: FigureView,
    /// The greatest.
    pub greatest: FigureView,
    /// The commonest practice, where one is on record.
    pub commonest: Option<CommonestView>,
}

/// What all opinions give for one amount.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct AmountRange {
    /// Its share of the weight of all; `null` for a volume.
    pub share: Option<FigureView>,
    /// `g` or `ml`.
    pub sign: &'static str,
    /// The least; `null` where there is no opinion on its unit.
    pub least: Option<FigureView>,
    /// The greatest.
    pub greatest: Option<FigureView>,
    /// By the commonest practice, where one is on record.
    pub commonest: Option<FigureView>,
}

/// What the amounts come to in one period.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct WeighedView {
    /// The period.
    pub period: PeriodRef,
    /// How the units of what was asked hold each other.
    pub relations: Vec<RelationView>,
    /// By each published opinion; empty where none is on record.
    pub opinions: Vec<OpinionView>,
    /// From the least to the greatest of all together, weight before volume.
    pub ranges: Vec<QuantityRange>,
    /// From the least to the greatest of each amount, in the order asked.
    pub amounts: Vec<AmountRange>,
}

impl WeighedView {
    pub(super) fn new(
        labels: &Labels<'_>,
        measures: &Measures<'_>,
        weighed: &Weighed<'_>,
        amounts: &[Amount],
        shares: &[Option<Exact>],
    ) -> Self {
        let both = [Quantity::Weight, Quantity::Volume];
        let asked = |quantity: &Quantity| amounts.iter().any(|one| one.quantity == *quantity);
        let asked: Vec<Quantity> = both.into_iter().filter(asked).collect();
        let ranges = asked.iter().filter_map(|of| range(labels, weighed, *of));
        let opinions = weighed.opinions.iter();
        let each = amounts.iter().enumerate().map(|(place, amount)| {
            let range = weighed.range(place);
            let common = weighed.commonest(amount.quantity);
            let common = common.and_then(|one| one.each.get(place)?.as_ref());
            let share = shares.get(place).and_then(Option::as_ref);
            AmountRange {
                share: share.map(FigureView::share),
                sign: amount.quantity.sign(),
                least: range.as_ref().map(|one| FigureView::new(&one.least)),
                greatest: range.as_ref().map(|one| FigureView::new(&one.greatest)),
                commonest: common.map(|span| FigureView::new(&span.value)),
            }
        });
        Self {
            period: PeriodRef::new(labels, measures, weighed.period),
            relations: relations(measures, weighed.period, &asked),
            ranges: ranges.collect(),
            amounts: each.collect(),
            opinions: opinions
                .map(|one| OpinionView::new(labels, measures, one))
                .collect(),
        }
    }
}

fn range(labels: &Labels<'_>, weighed: &Weighed<'_>, quantity: Quantity) -> Option<QuantityRange> {
    let Range { least, greatest } = weighed.total(quantity)?;
    let commonest = weighed.commonest(quantity);
    Some(QuantityRange {
        sign: quantity.sign(),
        opinions: weighed.by(quantity).count(),
        least: FigureView::new(&least),
        greatest: FigureView::new(&greatest),
        commonest: commonest.map(|one| CommonestView {
            figure: FigureView::new(&one.total.value),
            source: labels.han(&cited(one.opinion.record)),
        }),
    })
}

/// The relations between units of these quantities.
fn relations(
    measures: &Measures<'_>,
    period: PeriodId,
    quantities: &[Quantity],
) -> Vec<RelationView> {
    let quantity = |id: &str| {
        let mut units = measures.units();
        units
            .find(|(_, unit)| unit.id == id)
            .map(|(_, unit)| unit.measures)
    };
    let all = measures.period_record(period).relations.iter();
    let asked = all.filter(|one| quantity(&one.one).is_some_and(|of| quantities.contains(&of)));
    let view = |one: &crate::claim::RelationRecord| RelationView {
        relation: format!("1 {} = {} {}", one.one, one.holds, one.of),
        source: one.source.clone(),
        known: one.known,
    };
    asked.map(view).collect()
}
