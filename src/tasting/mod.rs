//! What tasters found: one herb in one cup on one day, written down as scores, and a folder of such records. Nothing of it is
//! mixed into the claims of the books; it is held against them.

mod blind;
mod cells;
mod changes;
mod day;
mod edit;
mod field;
mod folder;
mod gather;
mod interview;
mod keep;
mod kept;
mod names;
mod notebook;
mod own;
mod panel;
mod panel_agreement;
mod panel_books;
mod panel_sheets;
mod panel_tasters;
mod plan;
mod protocol;
mod read;
mod record;
mod refusal;
mod schema;
mod score;
mod sides;
mod table;
mod table_faults;
mod table_row;
mod write;

pub use blind::{MOST_CUPS, Serving, serve};
pub use changes::{Change, Group, Varied, changes};
pub use day::Day;
pub use edit::with_fields;
pub use field::{Field, FieldError};
pub use folder::{PassedOver, UNDONE, Why};
pub use gather::{ByHerb, Gathered, by_herb, gather};
pub use interview::{Question, questions};
pub use keep::{KeepError, add, replace, undo};
pub use names::ENDING;
pub use notebook::{Notebook, Noted, Sought};
pub use own::{Own, tasted};
pub use panel::{Attribute, AttributeFigures, Cup, Figures, Panel, Sheet, panel};
pub use panel_agreement::Agreement;
pub use panel_books::{
    AgainstBooks, FlavourAgainst, Standing, TASTED, WarmthAgainst, against_books,
};
pub use panel_sheets::sheet;
pub use panel_tasters::{
    Apart, OUTLYING_DEVIATIONS, OUTLYING_POINTS, Repeat, Repeats, TasterFigures,
};
pub use plan::{Every, EveryError, Meeting, meetings};
pub use protocol::{LIMITS, PROTOCOL, PROTOCOL_SOURCE, Step};
pub use read::read_tasting;
pub use record::{Override, Scores, Tasting};
pub use refusal::{Refusal, refusal};
pub use schema::schema;
pub use score::{Celsius, Grams, Hours, Millilitres, RangeError, Score, Warmth};
pub use sides::{SideOfNature, Sides, StandOfBooks, sides};
pub use table::{COLUMNS, SCORES, Table, read_table};
pub use write::tasting_yaml;
