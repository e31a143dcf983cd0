//! What is computed once and kept: a corpus folder as one file, the stands on all herbs as columns. Everything here is
//! derived from the YAML records, lies in the user's cache folder under a key of their content, is written beside and
//! renamed into place, and is made anew when it is missing, outdated or damaged. Without a cache folder all is computed
//! in memory.

mod columns;
mod facets;
mod find;
mod kept;
mod key;
mod library;
mod named;
mod numbers;
mod query;
mod seal;
mod search;
mod shelf;
mod stamp;
mod tokens;
mod words;

pub use facets::FacetCount;
pub use find::{Hits, Search};
pub(crate) use kept::{read as read_kept, write as write_kept};
pub(crate) use key::name_of;
pub use key::{settled_stamp, stamp_of_folder};
pub use library::{Library, Opened};
pub use named::{NameRank, Named};
pub use search::{Answers, Asked, Best, Found, HerbFound, SayingFound};
pub use shelf::Shelf;
pub use stamp::Stamp;
pub use tokens::places_of;
pub use words::{Words, WordsError};
