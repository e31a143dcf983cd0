//! Folding of names, traditional and simplified script, and the nearest valid choice. What a record
//! holds is never changed by any of this: folding serves comparison, script serves display.

mod fold;
mod nearest;
mod script;

pub use fold::fold;
pub use nearest::nearest;
pub use script::{Converter, Script, ScriptError};
