//! Seeking a balance: how much of which herb makes one flavour outweigh another.

use std::fmt;

use super::blend::Ingredient;
use super::taste::Portion;
use crate::claim::{Facet, ValueId, Vocabulary};
use crate::text::nearest;

/// What a flavour is held against.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Side {
    /// Another flavour, so many times.
    Flavour(ValueId, f64),
    /// A share of the whole, 0 to 1.
    Share(f64),
}

/// A wanted balance.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Aim {
    /// The flavour.
    pub flavour: ValueId,
    /// Whether it shall be more than the other side, or less.
    pub more: bool,
    /// The other side.
    pub side: Side,
}

/// Words that are no aim.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum AimError {
    /// There is no comparison in them.
    NoComparison,
    /// A word is no flavour; near ones.
    NoFlavour(String, Vec<String>),
    /// A number is not one that can be asked for.
    NoNumber(String),
}

impl fmt::Display for AimError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoComparison => f.write_str(
                "expected two flavours with `>` or `<`, `-over-` or `-under-` between them",
            ),
            Self::NoFlavour(word, _) => write!(f, "`{word}` is no flavour"),
            Self::NoNumber(word) => write!(
                f,
                "`{word}` is no number above 0, and of a share none below 100"
            ),
        }
    }
}

impl std::error::Error for AimError {}

impl Aim {
    /// Understands `sweet>acrid`, `sweet-over-acrid`, `sweet>2*acrid`, `bitter<30%`, `bitter-under-30%`.
    ///
    /// # Errors
    /// When there is no comparison, a word is no flavour, or a number is out of range.
    ///
    /// ```
    /// use kaoyi::pairing::{Aim, Side};
    /// let corpus = kaoyi::corpus::embedded().unwrap();
    /// let aim = Aim::parse(&corpus.vocabulary, "sweet>2*acrid").unwrap();
    /// assert!(aim.more && matches!(aim.side, Side::Flavour(_, factor) if factor == 2.0));
    /// assert_eq!(Aim::parse(&corpus.vocabulary, "甘-over-2*辛").unwrap(), aim);
    /// assert!(Aim::parse(&corpus.vocabulary, "sweet").is_err());
    /// ```
    pub fn parse(vocabulary: &Vocabulary, words: &str) -> Result<Self, AimError> {
        let signs = [
            (">", true),
            ("<", false),
            ("-over-", true),
            ("-under-", false),
        ];
        let (left, more, right) = signs
            .into_iter()
            .find_map(|(sign, more)| {
                let (left, right) = words.split_once(sign)?;
                Some((left.trim(), more, right.trim()))
            })
            .ok_or(AimError::NoComparison)?;
        let flavour = flavour(vocabulary, left)?;
        let number = |word: &str, below: f64| {
            let number = word.trim().parse::<f64>().ok();
            number
                .filter(|number| *number > 0.0 && *number < below)
                .ok_or_else(|| AimError::NoNumber(word.to_owned()))
        };
        let side = if let Some(share) = right.strip_suffix('%') {
            Side::Share(number(share, 100.0)? / 100.0)
        } else if let Some((factor, other)) = right.split_once(['*', '×']) {
            Side::Flavour(
                self::flavour(vocabulary, other.trim())?,
                number(factor, 1e6)?,
            )
        } else {
            Side::Flavour(self::flavour(vocabulary, right)?, 1.0)
        };
        Ok(Self {
            flavour,
            more,
            side,
        })
    }

    /// How much a weight of 1 of an herb adds to the balance: above 0 towards the aim. `least` and `most` give a portion's
    /// bounds for the two sides.
    fn pull(&self, herb: &Ingredient, of: Reading) -> f64 {
        if herb.taste.voices == 0 {
            return 0.0;
        }
        let (for_it, against) = match (of, self.more) {
            (Reading::Mean, _) => (share as fn(&Portion) -> f64, share as fn(&Portion) -> f64),
            (Reading::Worst, true) => (least as fn(&Portion) -> f64, most as fn(&Portion) -> f64),
            (Reading::Worst, false) => (most as fn(&Portion) -> f64, least as fn(&Portion) -> f64),
        };
        let left = for_it(&herb.taste.of(self.flavour));
        let right = match self.side {
            Side::Flavour(other, factor) => factor * against(&herb.taste.of(other)),
            Side::Share(share) => share,
        };
        if self.more {
            left - right
        } else {
            right - left
        }
    }
}

fn share(portion: &Portion) -> f64 {
    portion.share
}

fn least(portion: &Portion) -> f64 {
    portion.least
}

fn most(portion: &Portion) -> f64 {
    portion.most
}

fn flavour(vocabulary: &Vocabulary, word: &str) -> Result<ValueId, AimError> {
    let scheme = vocabulary.scheme(Facet::Flavour);
    let called = scheme.values().iter().position(|value| {
        let mut names = [&value.id, &value.hant, &value.english]
            .into_iter()
            .chain(&value.hans)
            .chain(&value.also);
        names.any(|name| name == word)
    });
    called.map(|place| ValueId(place as u16)).ok_or_else(|| {
        let near = nearest(word, scheme.ids());
        AimError::NoFlavour(
            word.to_owned(),
            near.into_iter().map(str::to_owned).collect(),
        )
    })
}

/// Which of the books' readings is counted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Reading {
    /// The mean.
    Mean,
    /// For each herb that which is worst for the aim.
    Worst,
}

/// What must become of one herb's amount.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Change {
    /// Any amount will do.
    Any,
    /// More than so much.
    MoreThan(f64),
    /// Less than so much.
    LessThan(f64),
    /// No amount will do.
    Never,
}

/// Whether an aim is reached, and how it can be.
#[derive(Debug, Clone, PartialEq)]
pub struct Reach {
    /// Whether it is reached by the means.
    pub reached: bool,
    /// Whether it is reached whatever book is followed.
    pub surely: bool,
    /// For each herb, the others left as they are: what its amount must become by the means, and whatever book is followed.
    pub changes: Vec<(Change, Change)>,
}

/// How an aim can be reached by changing one herb's amount (rule 39): the balance is a sum over the herbs, so the amount
/// at which it turns is found at once.
#[must_use]
pub fn reach(aim: &Aim, herbs: &[Ingredient]) -> Reach {
    let balance = |of: Reading| -> f64 {
        let parts = herbs.iter().map(|herb| herb.weight() * aim.pull(herb, of));
        parts.sum()
    };
    let change = |place: usize, of: Reading| {
        let herb = &herbs[place];
        let others: f64 = herbs
            .iter()
            .enumerate()
            .filter(|(other, _)| *other != place)
            .map(|(_, herb)| herb.weight() * aim.pull(herb, of))
            .sum();
        let others = if others.abs() < TIE { 0.0 } else { others };
        let pull = herb.strength * aim.pull(herb, of);
        if pull > 0.0 && others <= 0.0 {
            Change::MoreThan(-others / pull)
        } else if pull < 0.0 && others > 0.0 {
            Change::LessThan(others / -pull)
        } else if others > 0.0 {
            Change::Any
        } else {
            Change::Never
        }
    };
    Reach {
        reached: balance(Reading::Mean) > TIE,
        surely: balance(Reading::Worst) > TIE,
        changes: (0..herbs.len())
            .map(|place| (change(place, Reading::Mean), change(place, Reading::Worst)))
            .collect(),
    }
}

/// Below this a balance is even but for rounding.
const TIE: f64 = 1e-9;
