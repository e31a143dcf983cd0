//! YAML to checked records: the corpus that the program carries and the folders that users add, and
//! every fault in them with file, line and column. What the records say together is computed in
//! [`crate::compare`].

mod assemble;
mod bearers;
mod check;
mod code;
mod compiled;
mod content;
mod embedded;
mod finding;
mod formula;
mod headings;
mod keys;
mod load;
mod merge;
mod merge_files;
mod model;
mod names;
mod record;
mod relation;
mod schema;
mod shape;
mod single;
mod source;
mod store;
mod write;
mod yaml;

pub use assemble::AssembleError;
pub use bearers::Bearers;
pub use code::Code;
pub(crate) use compiled::{checksum, sum};
pub use content::{content_key, date, dated_key};
pub use embedded::{embedded, embedded_content};
pub use finding::Finding;
pub use formula::{FormulaFile, FormulaHerb, FormulaRecord, HERBS_LIMIT};
pub use headings::{HeadingFile, HeadingRecord, Headings, How};
pub use load::{Loaded, check_embedded, load_folder};
pub use merge::{MergeError, Merged, NewHerb, Target, merge};
pub use model::{
    Basis, Claim, Date, Debt, Entry, Herb, HerbId, Kind, Origin, Saying, Scope, Status, Substance,
    Work, WorkId,
};
pub use names::{Lookup, WorkLookup};
pub use record::{
    EntryRecord, FlavourRecord, NamesRecord, PlaceRecord, SayingRecord, ScopeRecord,
    SharedNameRecord, TextRecord, WORDING_LIMIT,
};
pub use relation::{Relation, RelationKind};
pub use schema::schemas;
pub(crate) use single::{Reading, Single, read_text};
pub use source::FILE_LIMIT;
pub use store::{Corpus, HerbNames, ReadingWords};
pub use write::entry_yaml;
pub(crate) use write::scalar;
