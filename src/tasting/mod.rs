//! What tasters found: one herb in one cup on one day, written down as scores, and a folder of such records. Nothing of it is
//! mixed into the claims of the books; it is held against them.

mod day;
mod record;
mod refusal;
mod score;

pub use day::Day;
pub use record::{Override, Scores, Tasting};
pub use refusal::{Refusal, refusal};
pub use score::{Celsius, Grams, Hours, Millilitres, RangeError, Score, Warmth};
