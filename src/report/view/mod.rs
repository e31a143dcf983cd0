//! Results with their labels, ready to be written as JSON or printed. The JSON Schemas in
//! `schema/output` are generated from these types.

mod actions;
mod answer;
mod comparison;
mod differences;
mod error;
mod filter;
mod findings;
mod heed;
mod herb;
mod labels;
mod profile;
mod reading;
mod statement;

use schemars::schema_for;
use serde_json::Value;

pub use actions::{ActionStatement, ConceptView, OpposedView};
pub use answer::{AnswerView, ReplyView, SideCount, ValueAnswer};
pub use comparison::{ComparisonView, StandView, WitnessRow};
pub use differences::{DifferenceView, SideView, TurningView};
pub use error::ErrorView;
pub use filter::FilterView;
pub use findings::FindingsView;
pub use heed::HeedView;
pub use herb::{HerbView, SharedName};
pub use labels::{CautionView, Labels, NOTICE, ValueRef, WorkRef};
pub use profile::{
    ActionSupport, FacetProfile, ProfileView, SeverestView, SupportView, WarnerView,
};
pub use reading::{ReadFlavourView, ReadSayingView, ReadScopeView, ReadingView, UnreadView};
pub use statement::{StatedValue, StatementView};

/// File name and schema of every JSON document that the program writes.
#[must_use]
pub fn schemas() -> Vec<(&'static str, Value)> {
    vec![
        (
            "output/compare.schema.json",
            schema_for!(ComparisonView).to_value(),
        ),
        (
            "output/profile.schema.json",
            schema_for!(ProfileView).to_value(),
        ),
        ("output/is.schema.json", schema_for!(AnswerView).to_value()),
        (
            "output/read.schema.json",
            schema_for!(ReadingView).to_value(),
        ),
        (
            "output/check.schema.json",
            schema_for!(FindingsView).to_value(),
        ),
        (
            "output/error.schema.json",
            schema_for!(ErrorView).to_value(),
        ),
    ]
}
