//! All schemes together, with the cautions, the thresholds and the measures.

use std::fmt;

use super::{Caution, Facet, MeasureFile, PairingFile, Scheme, Thresholds};

/// Everything that records may refer to beside works and herbs.
#[derive(Debug, Clone)]
pub struct Vocabulary {
    facets: [Scheme; 6],
    /// Degrees that a flavour may carry.
    pub degrees: Scheme,
    /// Parts to which a saying may be limited.
    pub parts: Scheme,
    /// Preparations to which a saying may be limited.
    pub preparations: Scheme,
    /// Cautions that an herb may bear.
    pub cautions: Vec<Caution>,
    /// Thresholds of verdicts and differences.
    pub thresholds: Thresholds,
    /// What holds between herbs.
    pub pairing: PairingFile,
    /// Units of weight and volume, and what they are held to weigh.
    pub measures: MeasureFile,
}

/// A vocabulary lacks a part that the program needs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum VocabularyError {
    /// No scheme has this `facet`.
    SchemeMissing(&'static str),
    /// There is no file of cautions.
    CautionsMissing,
    /// There is no file of thresholds.
    ThresholdsMissing,
    /// There is no file of what holds between herbs.
    PairingMissing,
    /// There is no file of measures.
    MeasuresMissing,
}

impl fmt::Display for VocabularyError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::SchemeMissing(facet) => write!(f, "no vocabulary file has `facet: {facet}`"),
            Self::CautionsMissing => f.write_str("the vocabulary has no cautions.yaml"),
            Self::ThresholdsMissing => f.write_str("the vocabulary has no thresholds.yaml"),
            Self::PairingMissing => f.write_str("the vocabulary has no pairing.yaml"),
            Self::MeasuresMissing => f.write_str("the vocabulary has no measures.yaml"),
        }
    }
}

impl std::error::Error for VocabularyError {}

impl Vocabulary {
    /// Puts a vocabulary together from the schemes of its files.
    ///
    /// # Errors
    /// When one of the nine schemes, the cautions, the thresholds, the measures or what holds between
    /// herbs is missing.
    pub fn new(
        mut schemes: Vec<Scheme>,
        cautions: Option<Vec<Caution>>,
        thresholds: Option<Thresholds>,
        pairing: Option<PairingFile>,
        measures: Option<MeasureFile>,
    ) -> Result<Self, VocabularyError> {
        let mut take = |facet: &'static str| {
            let place = schemes.iter().position(|scheme| scheme.facet() == facet);
            place
                .map(|place| schemes.swap_remove(place))
                .ok_or(VocabularyError::SchemeMissing(facet))
        };
        Ok(Self {
            facets: [
                take(Facet::Flavour.name())?,
                take(Facet::Nature.name())?,
                take(Facet::Toxicity.name())?,
                take(Facet::Grade.name())?,
                take(Facet::Channel.name())?,
                take(Facet::Action.name())?,
            ],
            degrees: take("degree")?,
            parts: take("part")?,
            preparations: take("preparation")?,
            cautions: cautions.ok_or(VocabularyError::CautionsMissing)?,
            thresholds: thresholds.ok_or(VocabularyError::ThresholdsMissing)?,
            pairing: pairing.ok_or(VocabularyError::PairingMissing)?,
            measures: measures.ok_or(VocabularyError::MeasuresMissing)?,
        })
    }

    /// The scheme of `facet`.
    #[must_use]
    pub fn scheme(&self, facet: Facet) -> &Scheme {
        &self.facets[facet as usize]
    }

    /// All schemes.
    pub fn schemes(&self) -> impl Iterator<Item = &Scheme> {
        let others = [&self.degrees, &self.parts, &self.preparations];
        self.facets.iter().chain(others)
    }

    /// The caution called `id`.
    #[must_use]
    pub fn caution(&self, id: &str) -> Option<&Caution> {
        self.cautions.iter().find(|caution| caution.id == id)
    }
}
