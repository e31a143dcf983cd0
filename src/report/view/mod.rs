//! Results with their labels, ready to be written as JSON or printed. The JSON Schemas in
//! `schema/output` are generated from these types.

mod actions;
mod affinity;
mod against;
mod answer;
mod best;
mod cite;
mod claim;
mod comparison;
mod differences;
mod disputes;
mod error;
mod explain;
mod exported;
mod filter;
mod find;
mod findings;
mod heed;
mod herb;
mod labels;
mod name;
mod pair;
mod pair_aim;
mod pair_cautions;
mod profile;
mod reading;
mod state;
mod statement;
mod weighted;
mod work_entry;
mod working;
mod works;

use schemars::schema_for;
use serde_json::Value;

pub use actions::{ActionStatement, ConceptView, OpposedView, ReconciledView};
pub use affinity::{AffinityView, AskedOfWorks, ExampleView, MergeView, PairView, RecordedDebt};
pub use against::{ActionAgainst, AgainstView, SupportCell, ValueAgainst};
pub use answer::{AnswerView, ReplyView, SideCount, ValueAnswer};
pub use best::{BestView, FoundSaying, SayingOnHerb};
pub use cite::{CitationView, CiteView, CorpusView, saying_ids};
pub use claim::{ClaimView, ClaimsOf};
pub use comparison::{ComparisonView, StandView, WitnessRow};
pub use differences::{DifferenceView, SideView, TurningView};
pub use disputes::{AgreementView, Asked, DisputeView, DisputedFacet, DisputesView, PeriodView};
pub use error::ErrorView;
pub use explain::{ExpectationView, ExplainView, ShownView};
pub use exported::{ExportedFile, ExportedView};
pub use filter::FilterView;
pub use find::{BackingView, FacetCountView, FindView, FoundHerb, Shown, WantedView, WorkCount};
pub use findings::FindingsView;
pub use heed::{HeedView, ListedCautions};
pub use herb::{HerbView, SharedName};
pub use labels::{CautionView, Labels, NOTICE, ValueRef, WorkRef};
pub use name::{BearerView, HeadingView, NameView, NearView};
pub use pair::{
    AssumptionsView, FlavourShare, FormulaView, GradeView, HeldView, JointView, MemberView,
    MovesView, NatureView, OppositionView, SharedView,
};
pub use pair_aim::{AimView, ChangeView, NeededView};
pub use pair_cautions::{ForbiddenView, HerbCautions, LoudView, PairCautions};
pub use profile::{
    ActionSupport, FacetProfile, FoundDebt, ProfileView, SeverestView, SupportView, WarnerView,
};
pub use reading::{ReadFlavourView, ReadSayingView, ReadScopeView, ReadingView, UnreadView};
pub use state::{AloneView, DoubleView, HerbRef, HerbRow, OutlierView, SpreadView, StateView};
pub use statement::{StatedValue, StatementView};
pub use weighted::{ReliabilityView, WeightedValueView, WeightedView};
pub use work_entry::{ClaimDate, WorkEntry};
pub use working::{WorkedStand, WorkedValue, WorkingView};
pub use works::{AmountView, CarriedCount, DebtView, FacetCount, WorkRow, WorkView, WorksView};

/// File name and schema of every JSON document that the program writes.
#[must_use]
pub fn schemas() -> Vec<(&'static str, Value)> {
    let mut all = exported_schemas();
    all.extend([
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
            "output/disputes.schema.json",
            schema_for!(DisputesView).to_value(),
        ),
        (
            "output/affinity.schema.json",
            schema_for!(AffinityView).to_value(),
        ),
        ("output/best.schema.json", schema_for!(BestView).to_value()),
        (
            "output/explain.schema.json",
            schema_for!(ExplainView).to_value(),
        ),
        ("output/find.schema.json", schema_for!(FindView).to_value()),
        (
            "output/pair.schema.json",
            schema_for!(FormulaView).to_value(),
        ),
        ("output/name.schema.json", schema_for!(NameView).to_value()),
        (
            "output/against.schema.json",
            schema_for!(AgainstView).to_value(),
        ),
        (
            "output/state.schema.json",
            schema_for!(StateView).to_value(),
        ),
        (
            "output/works.schema.json",
            schema_for!(WorksView).to_value(),
        ),
        ("output/work.schema.json", schema_for!(WorkView).to_value()),
        (
            "output/error.schema.json",
            schema_for!(ErrorView).to_value(),
        ),
    ]);
    all
}

/// Those of what is written for other programs.
fn exported_schemas() -> Vec<(&'static str, Value)> {
    vec![
        ("output/cite.schema.json", schema_for!(CiteView).to_value()),
        (
            "output/claim.schema.json",
            schema_for!(ClaimView).to_value(),
        ),
        (
            "output/export.schema.json",
            schema_for!(ExportedView).to_value(),
        ),
    ]
}
