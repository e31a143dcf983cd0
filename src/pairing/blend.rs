//! What herbs are together: their tastes and natures, weighted by amount.

use std::collections::BTreeSet;

use super::nature::NaturePlace;
use super::taste::Taste;
use crate::claim::{Direction, Facet, ValueId};
use crate::corpus::Corpus;

/// One herb of a pair or formula.
#[derive(Debug, Clone, PartialEq)]
pub struct Ingredient {
    /// How much of it, in grams or parts, the same for all herbs of a formula.
    pub amount: f64,
    /// How strongly it tastes for its weight; 1 where nothing else is assumed.
    pub strength: f64,
    /// How it divides among the flavours.
    pub taste: Taste,
    /// Where it stands between cold and hot.
    pub nature: Option<NaturePlace>,
}

impl Ingredient {
    /// What it weighs in the arithmetic.
    #[must_use]
    pub fn weight(&self) -> f64 {
        self.amount * self.strength
    }
}

/// A flavour of a formula.
#[derive(Debug, Clone, PartialEq)]
pub struct BlendedFlavour {
    /// The flavour.
    pub value: ValueId,
    /// Its share of the whole, 0 to 1.
    pub share: f64,
    /// Its share with every herb at its least.
    pub least: f64,
    /// Its share with every herb at its most.
    pub most: f64,
    /// What of the share comes from each herb.
    pub from: Vec<f64>,
}

/// Which way the flavours of a formula move, by shares that sum to one where every flavour has a direction.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Moves {
    /// Up and out.
    pub up_and_out: f64,
    /// Down and in.
    pub down_and_in: f64,
    /// They hold the centre.
    pub centre: f64,
}

/// What herbs are together.
#[derive(Debug, Clone, PartialEq)]
pub struct Blend {
    /// The flavours, the greatest share first; none where no herb has a flavour.
    pub flavours: Vec<BlendedFlavour>,
    /// The herbs of which no flavour is known; they are left out of the shares.
    pub without_flavour: Vec<usize>,
    /// The place between cold and hot; `None` where no herb has a nature.
    pub nature: Option<NaturePlace>,
    /// The herbs of which no nature is known.
    pub without_nature: Vec<usize>,
    /// Which way the flavours move.
    pub moves: Moves,
}

/// Puts herbs together (rule 38).
///
/// ```
/// use kaoyi::{claim::ValueId, corpus, pairing::{Ingredient, Taste, blend}};
/// let corpus = corpus::embedded().unwrap();
/// let herb = |amount, flavour| Ingredient {
///     amount,
///     strength: 1.0,
///     taste: Taste::from_voices(&[vec![(flavour, 1.0)]]),
///     nature: None,
/// };
/// let (acrid, sweet) = (ValueId(0), ValueId(1));
/// let both = blend(&corpus, &[herb(1.0, acrid), herb(3.0, sweet)]);
/// assert_eq!((both.flavours[0].value, both.flavours[0].share), (sweet, 0.75));
/// ```
#[must_use]
pub fn blend(corpus: &Corpus, herbs: &[Ingredient]) -> Blend {
    let lacking = |known: &dyn Fn(&Ingredient) -> bool| -> Vec<usize> {
        (0..herbs.len())
            .filter(|place| !known(&herbs[*place]))
            .collect()
    };
    let flavours = flavours(herbs);
    Blend {
        moves: moves(corpus, &flavours),
        flavours,
        without_flavour: lacking(&|herb| herb.taste.voices > 0),
        nature: nature(herbs),
        without_nature: lacking(&|herb| herb.nature.is_some()),
    }
}

fn flavours(herbs: &[Ingredient]) -> Vec<BlendedFlavour> {
    let tasted = |herb: &&Ingredient| herb.taste.voices > 0 && herb.weight() > 0.0;
    let whole: f64 = herbs.iter().filter(tasted).map(Ingredient::weight).sum();
    let values: BTreeSet<ValueId> = herbs
        .iter()
        .filter(tasted)
        .flat_map(|herb| &herb.taste.portions)
        .map(|portion| portion.value)
        .collect();
    let of_value = |value: ValueId| {
        let part = |herb: &Ingredient, portion: f64| herb.weight() * portion / whole;
        let from: Vec<f64> = herbs
            .iter()
            .map(|herb| part(herb, herb.taste.of(value).share))
            .collect();
        let sum = |of: &dyn Fn(&Ingredient) -> f64| -> f64 {
            herbs.iter().map(|herb| part(herb, of(herb))).sum()
        };
        BlendedFlavour {
            value,
            share: from.iter().sum(),
            least: sum(&|herb| herb.taste.of(value).least),
            most: sum(&|herb| herb.taste.of(value).most),
            from,
        }
    };
    let mut flavours: Vec<BlendedFlavour> = values.into_iter().map(of_value).collect();
    flavours.sort_by(|a, b| b.share.total_cmp(&a.share).then(a.value.cmp(&b.value)));
    flavours
}

fn moves(corpus: &Corpus, flavours: &[BlendedFlavour]) -> Moves {
    let scheme = corpus.vocabulary.scheme(Facet::Flavour);
    let mut moves = Moves::default();
    for flavour in flavours {
        match scheme.value(flavour.value).direction {
            Some(Direction::Up | Direction::Out) => moves.up_and_out += flavour.share,
            Some(Direction::Down | Direction::In) => moves.down_and_in += flavour.share,
            Some(Direction::Centre) => moves.centre += flavour.share,
            None => {}
        }
    }
    moves
}

fn nature(herbs: &[Ingredient]) -> Option<NaturePlace> {
    let known: Vec<(f64, NaturePlace)> = herbs
        .iter()
        .filter(|herb| herb.weight() > 0.0)
        .filter_map(|herb| Some((herb.weight(), herb.nature?)))
        .collect();
    let whole: f64 = known.iter().map(|(weight, _)| weight).sum();
    let mean = |of: fn(&NaturePlace) -> f64| -> f64 {
        let parts = known.iter().map(|(weight, place)| weight * of(place));
        parts.sum::<f64>() / whole
    };
    (!known.is_empty()).then(|| NaturePlace {
        mean: mean(|place| place.mean),
        coldest: mean(|place| place.coldest),
        hottest: mean(|place| place.hottest),
        voices: known.iter().map(|(_, place)| place.voices).sum(),
    })
}
