//! What is computed once and kept: a corpus folder as one file, the stands on all herbs as columns. Everything here is
//! derived from the YAML records, lies in the user's cache folder under a key of their content, is written beside and
//! renamed into place, and is made anew when it is missing, outdated or damaged. Without a cache folder all is computed
//! in memory.

mod columns;
mod key;
mod library;
mod shelf;

pub use library::{Library, Opened};
pub use shelf::Shelf;
