//! Tastings as the sheets of a panel.

use std::collections::BTreeMap;

use super::panel::{Attribute, Cup, Sheet, Voice};
use super::record::Tasting;
use crate::claim::Scheme;

/// The sheet of a tasting; `None` where it names no taster or scores nothing that `flavours` and the other attributes
/// know, since neither can be set beside others.
///
/// ```
/// use kaoyi::{claim::Facet, corpus, tasting::{Attribute, sheet}};
/// let corpus = corpus::embedded().unwrap();
/// let flavours = corpus.vocabulary.scheme(Facet::Flavour);
/// let written = r#"{"herb": "bohe", "date": "2026-03-14", "taster": "A", "scores": {"aroma": 7}}"#;
/// let sheet = sheet(flavours, &serde_json::from_str(written).unwrap()).unwrap();
/// assert_eq!(sheet.scores, [(Attribute::Aroma, 7.0)].into());
/// ```
#[must_use]
pub fn sheet(flavours: &Scheme, tasting: &Tasting) -> Option<Sheet> {
    let scores = scores_of(flavours, tasting);
    let taster = tasting.taster.clone()?;
    (!scores.is_empty()).then(|| Sheet {
        taster,
        cup: Cup {
            lot: tasting.lot.clone(),
            code: tasting.code.clone(),
            number: tasting.cup,
        },
        made: made(tasting),
        scores,
    })
}

/// The scores of a tasting; flavours that `flavours` does not know are left out.
pub(super) fn scores_of(flavours: &Scheme, tasting: &Tasting) -> Voice {
    let mut scores: BTreeMap<Attribute, f64> = BTreeMap::new();
    for (flavour, score) in &tasting.scores.flavours {
        if let Some(value) = flavours.place(flavour) {
            scores.insert(Attribute::Flavour(value), score.value());
        }
    }
    let of = &tasting.scores;
    let others = [
        (Attribute::Thickness, of.thickness),
        (Attribute::Lingering, of.lingering),
        (Attribute::Aroma, of.aroma),
    ];
    for (attribute, score) in others {
        scores.extend(score.map(|score| (attribute, score.value())));
    }
    scores.extend(of.warmth.map(|warmth| (Attribute::Warmth, warmth.value())));
    scores
}

/// All that makes two cups of an herb the same thing, as a key.
fn made(tasting: &Tasting) -> String {
    let Tasting {
        part,
        preparation,
        lot,
        amount,
        water,
        vessel,
        temperature,
        hours,
        ..
    } = tasting;
    format!(
        "{part:?} {preparation:?} {lot:?} {amount:?} {water:?} {vessel:?} {temperature:?} {hours:?}"
    )
}
