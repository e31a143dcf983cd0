//! Where an herb stands between cold and hot.

use super::assumptions::Assumptions;
use super::taste::voices;
use crate::claim::{Facet, Scheme, ValueId};
use crate::compare::{self, Selection, Witness};
use crate::corpus::{Corpus, Herb};

/// A place between the coldest (-1) and the hottest (1); 0 is neutral.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NaturePlace {
    /// The mean over the voices.
    pub mean: f64,
    /// The coldest voice.
    pub coldest: f64,
    /// The hottest voice.
    pub hottest: f64,
    /// How many voices there are.
    pub voices: usize,
}

/// The place of a nature: each side of neutral is divided into equal steps, so that the coldest is as far from it as the
/// hottest, though the scale has fewer words for cold.
fn place(scheme: &Scheme, value: ValueId) -> f64 {
    let neutral = neutral(scheme);
    let steps = if value.index() < neutral {
        neutral
    } else {
        scheme.values().len() - 1 - neutral
    };
    (value.index() as f64 - neutral as f64) / steps.max(1) as f64
}

fn neutral(scheme: &Scheme) -> usize {
    let neutral = scheme
        .values()
        .iter()
        .position(|value| value.side.as_deref() == Some("neutral"));
    neutral.unwrap_or(scheme.values().len() / 2)
}

/// The nature that stands nearest to a place; of two equally near the one nearer to neutral.
#[must_use]
pub fn nearest_nature(scheme: &Scheme, at: f64) -> ValueId {
    let all = (0..scheme.values().len()).map(|place| ValueId(place as u16));
    let off = |value: &ValueId| {
        let place = place(scheme, *value);
        // Rounding must not decide between two that are equally near.
        ((((place - at).abs()) * 1e9).round(), place.abs())
    };
    let nearest = all.min_by(|a, b| {
        let (a, b) = (off(a), off(b));
        a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1))
    });
    nearest.unwrap_or(ValueId(0))
}

/// The nature of an herb by the chosen works; `None` where no book states one.
#[must_use]
pub fn nature_of(
    corpus: &Corpus,
    herb: &Herb,
    assumptions: &Assumptions,
    selection: &Selection,
) -> Option<NaturePlace> {
    let view = compare::view(corpus, herb, Facet::Nature, selection);
    let scheme = corpus.vocabulary.scheme(Facet::Nature);
    let mean = |places: &[f64]| places.iter().sum::<f64>() / places.len() as f64;
    // A work that states two natures stands between them.
    let voice = |witness: &Witness| {
        let stated = witness.values.iter().map(|value| place(scheme, *value));
        mean(&stated.collect::<Vec<_>>())
    };
    let places = voices(corpus, &view, assumptions.counting, voice);
    (!places.is_empty()).then(|| NaturePlace {
        mean: mean(&places),
        coldest: places.iter().copied().fold(f64::INFINITY, f64::min),
        hottest: places.iter().copied().fold(f64::NEG_INFINITY, f64::max),
        voices: places.len(),
    })
}
