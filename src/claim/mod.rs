//! The facets and their values: what a source can say of an herb. Values, labels, order, opposites
//! and thresholds are data (`corpus/vocabulary`); this folder gives them a shape and compact ids.

mod caution;
mod facet;
mod measures;
mod pairing;
mod phrases;
mod scheme;
mod threshold;
mod vocabulary;

pub use caution::{Caution, CautionFile, Severity};
pub use facet::Facet;
pub use measures::{
    Known, MeasureFile, OpinionRecord, PeriodRecord, Quantity, RelationRecord, UnitRecord,
};
pub use pairing::{
    Doctrine, IncompatibleGroup, IncompatibleRule, IncompatibleSide, LoudAmounts, PairingFile,
};
pub use phrases::PhraseFile;
pub use scheme::{Direction, Scale, Scheme, SchemeFile, Value, ValueId};
pub use threshold::{Share, Thresholds};
pub use vocabulary::{Vocabulary, VocabularyError};
