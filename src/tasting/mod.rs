//! What tasters found: one herb in one cup on one day, written down as scores, and a folder of such records. Nothing of it is
//! mixed into the claims of the books; it is held against them.

mod day;
mod edit;
mod field;
mod folder;
mod interview;
mod keep;
mod kept;
mod names;
mod notebook;
mod protocol;
mod read;
mod record;
mod refusal;
mod schema;
mod score;
mod write;

pub use day::Day;
pub use edit::with_fields;
pub use field::{Field, FieldError};
pub use folder::{PassedOver, UNDONE, Why};
pub use interview::{Question, questions};
pub use keep::{KeepError, add, replace, undo};
pub use names::ENDING;
pub use notebook::{Notebook, Noted, Sought};
pub use protocol::{LIMITS, PROTOCOL, PROTOCOL_SOURCE, Step};
pub use read::read_tasting;
pub use record::{Override, Scores, Tasting};
pub use refusal::{Refusal, refusal};
pub use schema::schema;
pub use score::{Celsius, Grams, Hours, Millilitres, RangeError, Score, Warmth};
pub use write::tasting_yaml;
