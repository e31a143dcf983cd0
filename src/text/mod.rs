//! Folding of names, traditional and simplified script, numerals, and the nearest valid choice. What a record
//! holds is never changed by any of this: folding serves comparison, script serves display.

mod decimal;
mod fold;
mod han;
mod han_number;
mod nearest;
mod numeral;
mod script;
mod variants;

pub use decimal::{decimal, figure};
pub use fold::fold;
pub use han::{HanFolder, is_han};
pub use han_number::han_numeral;
pub use nearest::nearest;
pub(crate) use numeral::Letters;
pub use numeral::{Exact, LARGEST, NumeralFault, numeral};
pub use script::{Converter, Script, ScriptError};
