//! Witnesses side by side: who takes a stand, in how many lines of transmission, where they differ
//! and of which kind, and the consensus profile. Every result leads back to sayings; nothing here
//! knows how it will look. The rules are numbered in `docs/methods.md`.

mod actions;
mod answer;
mod consensus;
mod difference;
mod lines;
mod question;
mod selection;
mod witness;

pub use actions::{Concept, OpposedPair, concepts, opposed_pairs};
pub use answer::{Answer, Reply, Verdict, ask};
pub use consensus::{Profile, Scaled, Severest, Support, Warner, profile};
pub use difference::{Difference, DifferenceKind, Side, SideLabel, Turning, differences};
pub use lines::{Lines, lines, lines_of_support};
pub use question::{Question, QuestionError, parse_question};
pub use selection::Selection;
pub use witness::{FacetView, Statement, Witness, view};
