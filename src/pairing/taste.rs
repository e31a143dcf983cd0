//! How the voices of the books divide one herb among the flavours.

use std::collections::BTreeMap;

use super::assumptions::{Assumptions, Counting};
use crate::claim::{Facet, ValueId};
use crate::compare::{self, FacetView, Selection, Witness};
use crate::corpus::{Corpus, Herb};

/// One flavour's portion of an herb, 0 to 1.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Portion {
    /// The flavour.
    pub value: ValueId,
    /// The mean over the voices.
    pub share: f64,
    /// The portion by the voice that gives it least; 0 where one leaves the flavour out.
    pub least: f64,
    /// The portion by the voice that gives it most.
    pub most: f64,
}

/// An herb divided among the flavours.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Taste {
    /// How many voices there are; 0 where no book states a flavour, and then there are no portions.
    pub voices: usize,
    /// The portions, in the order of the vocabulary; they sum to one.
    pub portions: Vec<Portion>,
}

impl Taste {
    /// The portion of a flavour; nothing of it where no voice names it.
    #[must_use]
    pub fn of(&self, value: ValueId) -> Portion {
        let found = self.portions.iter().find(|portion| portion.value == value);
        found.copied().unwrap_or(Portion {
            value,
            share: 0.0,
            least: 0.0,
            most: 0.0,
        })
    }

    /// A taste from the flavours and strengths that each voice states. A voice that states none is left out.
    ///
    /// ```
    /// use kaoyi::{claim::ValueId, pairing::Taste};
    /// let (acrid, sweet) = (ValueId(0), ValueId(1));
    /// let taste = Taste::from_voices(&[vec![(acrid, 1.0)], vec![(acrid, 1.0), (sweet, 1.0)]]);
    /// assert_eq!(taste.of(acrid).share, 0.75);
    /// assert_eq!((taste.of(sweet).least, taste.of(sweet).most), (0.0, 0.5));
    /// ```
    #[must_use]
    pub fn from_voices(voices: &[Vec<(ValueId, f64)>]) -> Self {
        let sum =
            |voice: &[(ValueId, f64)]| voice.iter().map(|(_, strength)| strength).sum::<f64>();
        let heard: Vec<&Vec<(ValueId, f64)>> =
            voices.iter().filter(|voice| sum(voice) > 0.0).collect();
        let mut portions: BTreeMap<ValueId, Vec<f64>> = BTreeMap::new();
        for (number, voice) in heard.iter().enumerate() {
            for (value, strength) in *voice {
                let of_value = portions
                    .entry(*value)
                    .or_insert_with(|| vec![0.0; heard.len()]);
                of_value[number] += strength / sum(voice);
            }
        }
        let portion = |(value, of_value): (ValueId, Vec<f64>)| Portion {
            value,
            share: of_value.iter().sum::<f64>() / heard.len() as f64,
            least: of_value.iter().copied().fold(f64::INFINITY, f64::min),
            most: of_value.iter().copied().fold(0.0, f64::max),
        };
        Self {
            voices: heard.len(),
            portions: portions.into_iter().map(portion).collect(),
        }
    }
}

/// The taste of an herb by the chosen works.
///
/// ```
/// use kaoyi::{corpus, pairing};
/// let corpus = corpus::embedded().unwrap();
/// let corpus::Lookup::One(licorice) = corpus.find_herb("甘草") else { panic!() };
/// let herb = corpus.herb(licorice).unwrap();
/// let taste = pairing::taste(&corpus, herb, &Default::default(), &Default::default());
/// let whole: f64 = taste.portions.iter().map(|portion| portion.share).sum();
/// assert!((whole - 1.0).abs() < 1e-12);
/// ```
#[must_use]
pub fn taste(
    corpus: &Corpus,
    herb: &Herb,
    assumptions: &Assumptions,
    selection: &Selection,
) -> Taste {
    let view = compare::view(corpus, herb, Facet::Flavour, selection);
    let degrees = &corpus.vocabulary.degrees;
    let (slight, great) = (degrees.place("slight"), degrees.place("great"));
    let strength = |witness: &Witness, value: ValueId| match witness.degree(value) {
        Some(degree) if Some(degree) == slight => assumptions.slight,
        Some(degree) if Some(degree) == great => assumptions.great,
        _ => 1.0,
    };
    let voice = |witness: &Witness| {
        let values = witness.values.iter();
        values
            .map(|value| (*value, strength(witness, *value)))
            .collect::<Vec<_>>()
    };
    Taste::from_voices(&voices(corpus, &view, assumptions.counting, voice))
}

/// What each voice says: of a line of transmission its oldest member speaks for all.
pub(super) fn voices<V>(
    corpus: &Corpus,
    view: &FacetView,
    counting: Counting,
    voice: impl Fn(&Witness) -> V,
) -> Vec<V> {
    let line_of = match counting {
        Counting::Works => (0..view.witnesses.len()).collect(),
        Counting::Lines => compare::lines(corpus, view).line_of,
    };
    let mut heard: Vec<usize> = Vec::new();
    let mut voices = Vec::new();
    for (witness, line) in view.witnesses.iter().zip(line_of) {
        if !heard.contains(&line) {
            heard.push(line);
            voices.push(voice(witness));
        }
    }
    voices
}
