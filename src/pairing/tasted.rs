//! Own tastings in place of the books.

use super::nature::NaturePlace;
use super::taste::Taste;
use crate::claim::ValueId;

/// What own tastings say of an herb; each is a voice.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Tasted {
    /// How many tastings there are.
    pub tastings: usize,
    /// The flavours with their strengths, of each tasting that has any.
    pub flavours: Vec<Vec<(ValueId, f64)>>,
    /// Places between the coldest (-1) and the hottest (1), of each tasting that tells one.
    pub warmth: Vec<f64>,
}

impl Tasted {
    /// How they divide the herb among the flavours; `None` where none scored a flavour.
    ///
    /// ```
    /// use kaoyi::{claim::ValueId, pairing::Tasted};
    /// let flavours = vec![vec![(ValueId(0), 6.0), (ValueId(1), 2.0)]];
    /// let tasted = Tasted { tastings: 1, flavours, warmth: vec![-0.4] };
    /// assert_eq!(tasted.taste().unwrap().of(ValueId(0)).share, 0.75);
    /// assert_eq!(tasted.nature().unwrap().mean, -0.4);
    /// ```
    #[must_use]
    pub fn taste(&self) -> Option<Taste> {
        Some(Taste::from_voices(&self.flavours)).filter(|taste| taste.voices > 0)
    }

    /// Where they place it between cold and hot; `None` where none tells warmth.
    #[must_use]
    pub fn nature(&self) -> Option<NaturePlace> {
        (!self.warmth.is_empty()).then(|| NaturePlace {
            mean: self.warmth.iter().sum::<f64>() / self.warmth.len() as f64,
            coldest: self.warmth.iter().copied().fold(f64::INFINITY, f64::min),
            hottest: self
                .warmth
                .iter()
                .copied()
                .fold(f64::NEG_INFINITY, f64::max),
            voices: self.warmth.len(),
        })
    }
}
