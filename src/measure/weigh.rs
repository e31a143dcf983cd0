//! Amounts in grams or millilitres by every opinion of a period.

use super::amount::Amount;
use super::units::{Measures, Opinion, PeriodId, Span, UnitId};
use crate::claim::Quantity;
use crate::text::Exact;

/// What the amounts come to by one opinion.
#[derive(Debug, Clone)]
pub struct ByOpinion<'m> {
    /// The opinion.
    pub opinion: &'m Opinion<'m>,
    /// Each amount in grams or millilitres; `None` for one of the other quantity.
    pub each: Vec<Option<Span>>,
    /// All of them together.
    pub total: Span,
}

/// From the least to the greatest of all opinions, the ends of their spans included.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Range {
    /// The least.
    pub least: Exact,
    /// The greatest.
    pub greatest: Exact,
}

/// What the amounts come to in one period.
#[derive(Debug, Clone)]
pub struct Weighed<'m> {
    /// The period.
    pub period: PeriodId,
    /// By each opinion on a quantity that is asked for, in the order of the record; empty where none is on record.
    pub opinions: Vec<ByOpinion<'m>>,
    quantities: Vec<Quantity>,
}

/// A period does not know a unit.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NotOfPeriod {
    /// The period.
    pub period: PeriodId,
    /// The place of the amount among those asked for.
    pub amount: usize,
    /// The unit.
    pub unit: UnitId,
    /// The units that the period knows.
    pub known: Vec<UnitId>,
}

impl<'v> Measures<'v> {
    /// Whether a period knows every unit of an amount, and divides them by each other.
    ///
    /// # Errors
    /// With the first unit that it does not know.
    pub fn fits(&self, period: PeriodId, amount: &Amount) -> Result<(), (UnitId, Vec<UnitId>)> {
        let known = self.units_of(period);
        let first = amount.parts.first().map(|(_, unit)| *unit);
        for (_, unit) in &amount.parts {
            let joined = first.is_some_and(|first| self.ratio(period, first, *unit).is_some());
            if !known.contains(unit) || !joined {
                return Err((*unit, known));
            }
        }
        Ok(())
    }

    /// What `amounts` come to in a period by every opinion.
    ///
    /// # Errors
    /// When the period does not know one of the units.
    pub fn weigh<'m>(
        &'m self,
        period: PeriodId,
        amounts: &[Amount],
    ) -> Result<Weighed<'m>, NotOfPeriod> {
        for (place, amount) in amounts.iter().enumerate() {
            self.fits(period, amount)
                .map_err(|(unit, known)| NotOfPeriod {
                    period,
                    amount: place,
                    unit,
                    known,
                })?;
        }
        let by = self.opinions(period).iter().filter_map(|opinion| {
            let of = |amount: &Amount| {
                let number = amount.in_unit(self, period, opinion.unit)?;
                Some(opinion.each.times(&number))
            };
            let each: Vec<Option<Span>> = amounts.iter().map(of).collect();
            let mut spans = each.iter().flatten();
            let first = spans.next()?.clone();
            let total = spans.fold(first, |sum, span| sum.plus(span));
            Some(ByOpinion {
                opinion,
                each,
                total,
            })
        });
        Ok(Weighed {
            period,
            opinions: by.collect(),
            quantities: amounts.iter().map(|amount| amount.quantity).collect(),
        })
    }
}

impl<'m> Weighed<'m> {
    /// The least and the greatest of all opinions on the amount at `place`; `None` where there is no opinion.
    #[must_use]
    pub fn range(&self, place: usize) -> Option<Range> {
        let spans = self
            .opinions
            .iter()
            .map(|one| one.each.get(place)?.as_ref());
        widest(spans.flatten())
    }

    /// The least and the greatest of all opinions on the sum of what is of this quantity.
    #[must_use]
    pub fn total(&self, quantity: Quantity) -> Option<Range> {
        widest(self.by(quantity).map(|one| &one.total))
    }

    /// The opinions on a quantity.
    pub fn by(&self, quantity: Quantity) -> impl Iterator<Item = &ByOpinion<'m>> {
        let of = move |one: &&ByOpinion<'m>| {
            let mut each = one.each.iter().zip(&self.quantities);
            each.any(|(span, other)| span.is_some() && *other == quantity)
        };
        self.opinions.iter().filter(of)
    }

    /// The commonest practice for a quantity, where one is on record.
    #[must_use]
    pub fn commonest(&self, quantity: Quantity) -> Option<&ByOpinion<'m>> {
        self.by(quantity).find(|one| one.opinion.record.commonest)
    }
}

/// The least and the greatest ends of spans.
fn widest<'s>(spans: impl Iterator<Item = &'s Span>) -> Option<Range> {
    let of = |span: &Span| Range {
        least: span.least.clone(),
        greatest: span.greatest.clone(),
    };
    spans.map(of).reduce(|all, one| Range {
        least: all.least.min(one.least),
        greatest: all.greatest.max(one.greatest),
    })
}
