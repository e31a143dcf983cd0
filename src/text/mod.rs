//! Folding of names, traditional and simplified script, and the nearest valid choice. What a record
//! holds is never changed by any of this: folding serves comparison, script serves display.

mod fold;
mod han;
mod nearest;
mod script;
mod variants;

pub use fold::fold;
pub use han::HanFolder;
pub use nearest::nearest;
pub use script::{Converter, Script, ScriptError};
