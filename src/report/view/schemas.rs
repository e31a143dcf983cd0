//! The schemas of what the program writes.

use schemars::{JsonSchema, schema_for};
use serde_json::Value;

use super::{
    AffinityView, AgainstView, AnswerView, BestView, CiteView, ClaimView, ComparisonView,
    DisputesView, ErrorView, ExplainView, ExportedView, FindView, FindingsView, FormView,
    FormulaView, NameView, PanelView, PlanView, ProfileView, ReadingView, StateView,
    TasteAgainstView, TastingView, TastingsView, WeighView, WorkView, WorksView,
};

/// File name and schema of every JSON document that the program writes.
#[must_use]
pub fn schemas() -> Vec<(&'static str, Value)> {
    vec![
        of::<CiteView>("output/cite.schema.json"),
        of::<ClaimView>("output/claim.schema.json"),
        of::<ExportedView>("output/export.schema.json"),
        of::<ComparisonView>("output/compare.schema.json"),
        of::<ProfileView>("output/profile.schema.json"),
        of::<AnswerView>("output/is.schema.json"),
        of::<ReadingView>("output/read.schema.json"),
        of::<FindingsView>("output/check.schema.json"),
        of::<DisputesView>("output/disputes.schema.json"),
        of::<AffinityView>("output/affinity.schema.json"),
        of::<BestView>("output/best.schema.json"),
        of::<ExplainView>("output/explain.schema.json"),
        of::<FindView>("output/find.schema.json"),
        of::<FormulaView>("output/pair.schema.json"),
        of::<NameView>("output/name.schema.json"),
        of::<AgainstView>("output/against.schema.json"),
        of::<StateView>("output/state.schema.json"),
        of::<WeighView>("output/weigh.schema.json"),
        of::<WorksView>("output/works.schema.json"),
        of::<WorkView>("output/work.schema.json"),
        of::<ErrorView>("output/error.schema.json"),
        of::<TastingView>("output/tasting.schema.json"),
        of::<TastingsView>("output/tastings.schema.json"),
        of::<TasteAgainstView>("output/taste-against.schema.json"),
        of::<PanelView>("output/taste-panel.schema.json"),
        of::<FormView>("output/taste-form.schema.json"),
        of::<PlanView>("output/taste-plan.schema.json"),
    ]
}

/// The schema of one kind of document under its file name.
fn of<T: JsonSchema>(name: &'static str) -> (&'static str, Value) {
    (name, schema_for!(T).to_value())
}
