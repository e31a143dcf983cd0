//! Own tastings of one herb, taken together: each cup is a voice.

use std::collections::BTreeSet;

use super::day::Day;
use super::panel::{Attribute, AttributeFigures, Voice, attribute_figures};
use super::panel_sheets::scores_of;
use super::record::Tasting;
use crate::claim::{Facet, ValueId};
use crate::corpus::Corpus;
use crate::pairing::Tasted;

/// Own tastings of one herb.
#[derive(Debug, Clone, PartialEq)]
pub struct Own {
    /// How many there are.
    pub tastings: usize,
    /// Who tasted, in the order of their names; tastings without a name are not in it.
    pub tasters: Vec<String>,
    /// The day of the first.
    pub first: Day,
    /// The day of the last.
    pub last: Day,
    /// The figures of each attribute: flavours in the order of the vocabulary, then the others.
    pub attributes: Vec<AttributeFigures>,
}

impl Own {
    /// Tastings taken together; `None` of none.
    ///
    /// ```
    /// use kaoyi::{corpus, tasting::{Notebook, Own}};
    /// let corpus = corpus::embedded().unwrap();
    /// let (notebook, _) = Notebook::open(std::path::Path::new("docs/examples/notebook"));
    /// let tastings: Vec<_> = notebook.of("bohe").map(|noted| &noted.tasting).collect();
    /// let own = Own::new(&corpus, &tastings).unwrap();
    /// assert_eq!(own.tastings, tastings.len());
    /// assert!(own.first <= own.last);
    /// ```
    #[must_use]
    pub fn new(corpus: &Corpus, tastings: &[&Tasting]) -> Option<Self> {
        let scheme = corpus.vocabulary.scheme(Facet::Flavour);
        let voices: Vec<Voice> = tastings.iter().map(|one| scores_of(scheme, one)).collect();
        let flavours = (0..scheme.values().len()).map(|place| ValueId(place as u16));
        let attributes = flavours.map(Attribute::Flavour).chain(Attribute::OTHERS);
        let days = || tastings.iter().map(|one| one.date);
        let tasters: BTreeSet<&str> = tastings
            .iter()
            .filter_map(|one| one.taster.as_deref())
            .collect();
        Some(Self {
            tastings: tastings.len(),
            tasters: tasters.into_iter().map(str::to_owned).collect(),
            first: days().min()?,
            last: days().max()?,
            attributes: attributes
                .map(|attribute| attribute_figures(voices.iter(), attribute))
                .collect(),
        })
    }

    /// The figures of one attribute.
    #[must_use]
    pub fn of(&self, attribute: Attribute) -> Option<&AttributeFigures> {
        self.attributes
            .iter()
            .find(|one| one.attribute == attribute)
    }
}

/// What tastings say of an herb to the arithmetic of pairs: each cup is a voice, its scores the strengths of the flavours,
/// its warmth a place between coldest and hottest. `None` where no cup has a flavour or warmth.
#[must_use]
pub fn tasted(corpus: &Corpus, tastings: &[&Tasting]) -> Option<Tasted> {
    let scheme = corpus.vocabulary.scheme(Facet::Flavour);
    let mut tasted = Tasted {
        tastings: tastings.len(),
        ..Tasted::default()
    };
    for voice in tastings.iter().map(|one| scores_of(scheme, one)) {
        let flavours = voice
            .iter()
            .filter_map(|(attribute, score)| match attribute {
                Attribute::Flavour(value) if *score > 0.0 => Some((*value, *score)),
                _ => None,
            });
        let flavours: Vec<(ValueId, f64)> = flavours.collect();
        if !flavours.is_empty() {
            tasted.flavours.push(flavours);
        }
        let (_, hottest) = Attribute::Warmth.ends();
        let warmth = voice.get(&Attribute::Warmth);
        tasted.warmth.extend(warmth.map(|warmth| warmth / hottest));
    }
    (!tasted.flavours.is_empty() || !tasted.warmth.is_empty()).then_some(tasted)
}
