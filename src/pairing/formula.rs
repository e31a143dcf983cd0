//! A pair or formula whose herbs are known.

use super::assumptions::Assumptions;
use super::blend::Ingredient;
use super::given::Unit;
use super::nature::nature_of;
use super::taste::taste;
use super::tasted::Tasted;
use crate::compare::Selection;
use crate::corpus::{Corpus, Herb};
use crate::measure::{Amount, PeriodId};

/// An herb of a formula.
#[derive(Debug, Clone)]
pub struct Member<'c> {
    /// The herb.
    pub herb: &'c Herb,
    /// Of a prepared form what stood before the name: the books' record is that of the herb as such.
    pub prepared: Option<String>,
    /// How much; 0 of an herb that may be added.
    pub amount: f64,
    /// How that was written in units of old.
    pub written: Option<Amount>,
    /// How strongly it tastes for its weight.
    pub strength: f64,
    /// Own tastings that stand in place of the books.
    pub tasted: Option<Tasted>,
}

/// Herbs with amounts in one unit.
#[derive(Debug, Clone)]
pub struct Formula<'c> {
    /// The herbs, in the order in which they are named.
    pub members: Vec<Member<'c>>,
    /// In what their amounts are counted.
    pub unit: Unit,
    /// The period whose units they are, where they are units of old.
    pub period: Option<PeriodId>,
    /// What the arithmetic assumes.
    pub assumptions: Assumptions,
    /// Whose statements count.
    pub selection: Selection,
}

impl<'c> Formula<'c> {
    /// The herbs.
    #[must_use]
    pub fn herbs(&self) -> Vec<&'c Herb> {
        self.members.iter().map(|member| member.herb).collect()
    }

    /// The herbs with what the books give them.
    #[must_use]
    pub fn ingredients(&self, corpus: &Corpus) -> Vec<Ingredient> {
        let (assumptions, selection) = (&self.assumptions, &self.selection);
        let ingredient = |member: &Member<'_>| {
            let own = member.tasted.as_ref();
            let by_books = || taste(corpus, member.herb, assumptions, selection);
            let nature = own.and_then(Tasted::nature);
            Ingredient {
                amount: member.amount,
                strength: member.strength,
                taste: own.and_then(Tasted::taste).unwrap_or_else(by_books),
                nature: nature.or_else(|| nature_of(corpus, member.herb, assumptions, selection)),
            }
        };
        self.members.iter().map(ingredient).collect()
    }
}
