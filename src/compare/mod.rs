//! Witnesses side by side: who takes a stand, in how many lines of transmission, where they differ
//! and of which kind, and the consensus profile. Every result leads back to sayings; nothing here
//! knows how it will look. The rules are numbered in `docs/methods.md`.

mod actions;
mod affinity;
mod agreement;
mod answer;
mod consensus;
mod coverage;
mod criteria;
mod difference;
mod discord;
mod distance;
mod doubles;
mod grade;
mod lines;
mod outliers;
mod question;
mod reconcile;
mod relations;
mod reliability;
mod selection;
mod stands;
mod witness;

pub use actions::{Concept, OpposedPair, concepts, opposed_pairs};
pub use affinity::{Dependence, ENOUGH, FOUND, Pair, Shared, dependence, found_debts, pairs};
pub use agreement::{Agreement, PERIODS, Period, agreement};
pub use answer::{Answer, Reply, Verdict, ask};
pub use consensus::{Profile, Scaled, Severest, Support, Warner, profile};
pub use coverage::{Amount, Coverage, HerbCoverage, WorkCoverage, coverage};
pub use criteria::{Backing, By, Wanted};
pub use difference::{Difference, DifferenceKind, Side, SideLabel, Turning, by_stand, differences};
pub use discord::{Discord, Discords, FacetDiscord};
pub use distance::{COMPARABLE, SetDistance, distance, place_on_scale};
pub use doubles::{Double, LONG, SHARED, doubles};
pub use grade::{OldestGrade, oldest_grade};
pub use lines::{
    Debts, Descent, Lines, descents_of_support, lines, lines_along, lines_of_support, steps_to,
};
pub use outliers::{AGAINST, Alone, Outlier, outliers};
pub use question::{Question, QuestionError, parse_question};
pub use reconcile::{Reconciliation, reconcile};
pub use relations::{HerbRelations, RelationStatement, Relations, Ties};
pub use reliability::{Reliabilities, Weighted, WeightedValue};
pub use selection::Selection;
pub use stands::{Distances, Row, Stands, stands};
pub use witness::{FacetView, Statement, Witness, view, view_of};
