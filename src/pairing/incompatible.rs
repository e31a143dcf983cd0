//! Pairs that the trade forbids, and amounts that call for a louder warning.

use crate::claim::{IncompatibleRule, Severity};
use crate::corpus::{Corpus, Herb};

/// A forbidden pair among herbs.
#[derive(Debug, Clone)]
pub struct Forbidden<'c> {
    /// The rule that forbids it.
    pub rule: &'c IncompatibleRule,
    /// The herb on the rule's first side, by its place among those asked about, and what the rule calls it.
    pub one: (usize, &'c str),
    /// The herb on the other side.
    pub other: (usize, &'c str),
}

/// All forbidden pairs among herbs, in whatever order they are named, under whatever name or form.
///
/// ```
/// use kaoyi::{corpus, pairing};
/// let corpus = corpus::embedded().unwrap();
/// let herb = |name| match corpus.find_herb(name) {
///     corpus::Lookup::One(id) => corpus.herb(id).unwrap(),
///     _ => panic!(),
/// };
/// let found = pairing::forbidden(&corpus, &[herb("半夏"), herb("甘草"), herb("附子")]);
/// assert_eq!(found.len(), 1);
/// assert_eq!(found[0].rule.id, "eighteen-opposites");
/// assert_eq!((found[0].one, found[0].other), ((2, "烏頭"), (0, "半夏")));
/// ```
#[must_use]
pub fn forbidden<'c>(corpus: &'c Corpus, herbs: &[&Herb]) -> Vec<Forbidden<'c>> {
    let mut found = Vec::new();
    for rule in &corpus.vocabulary.pairing.incompatible {
        for group in &rule.groups {
            for side in &group.against {
                for (one, _) in among(herbs, &group.herbs) {
                    for (other, _) in among(herbs, &side.herbs) {
                        found.push(Forbidden {
                            rule,
                            one: (one, &group.name),
                            other: (other, &side.name),
                        });
                    }
                }
            }
        }
    }
    found
}

fn among<'h>(
    herbs: &'h [&Herb],
    ids: &'h [String],
) -> impl Iterator<Item = (usize, &'h Herb)> + 'h {
    let all = herbs.iter().enumerate();
    all.filter(|(_, herb)| ids.contains(&herb.id))
        .map(|(place, herb)| (place, *herb))
}

/// Why an amount calls for a louder warning.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Loud {
    /// The herb bears a grave caution for which it is never tasted, a poison and no rule on pairs or on pregnancy, and the amount is above what is loud for such.
    Grave(f64),
    /// The amount is above what is loud for any herb.
    Any(f64),
}

/// Whether so many grams of an herb call for a louder warning.
#[must_use]
pub fn loud(corpus: &Corpus, herb: &Herb, grams: f64) -> Option<Loud> {
    let amounts = corpus.vocabulary.pairing.amounts;
    let grave = |place: &usize| {
        let caution = corpus.vocabulary.cautions.get(*place);
        caution.is_some_and(|caution| caution.severity == Severity::Grave && !caution.tasted())
    };
    if grams > amounts.grave && herb.cautions.iter().any(grave) {
        Some(Loud::Grave(amounts.grave))
    } else if grams > amounts.any {
        Some(Loud::Any(amounts.any))
    } else {
        None
    }
}
