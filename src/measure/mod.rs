//! Weights and volumes of the old books: amounts read as exact fractions, and what they come to in grams or millilitres by
//! every published opinion. No opinion is preferred, and nothing is rounded here. The rule is number 36 in
//! `docs/methods.md`.
//!
//! ```
//! use kaoyi::{corpus, measure::Measures, text::numeral};
//! let corpus = corpus::embedded().unwrap();
//! let measures = Measures::new(&corpus.vocabulary.measures).unwrap();
//!
//! // Three liang of the Eastern Han: 9 to 46.875 g, as scholars have it.
//! let amount = measures.amount("三兩").unwrap();
//! let han = measures.period("Eastern Han").unwrap();
//! let weighed = measures.weigh(han, std::slice::from_ref(&amount)).unwrap();
//! let range = weighed.range(0).unwrap();
//! assert_eq!(range.least, numeral("9").unwrap());
//! assert_eq!(range.greatest, numeral("46.875").unwrap());
//! ```

mod amount;
mod formula;
mod units;
mod weigh;

pub use amount::{Amount, AmountFault};
pub use formula::{Formula, FormulaFault, FormulaPart, Scaled, ScaledFault, Spot};
pub use units::{MeasureError, Measures, Opinion, PeriodId, Span, UnitId, UnknownPeriod};
pub use weigh::{ByOpinion, NotOfPeriod, Range, Weighed};
