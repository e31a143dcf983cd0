//! Views as text for a terminal of any width. Every line of data passes through [`Page`], which
//! wraps by display width and keeps control characters of foreign data away from the terminal.

mod actions;
mod affinity;
mod against;
mod answer;
mod cite;
mod comparison;
mod differences;
mod disputes;
mod evidence;
mod explain;
mod find;
mod findings;
mod identity;
mod name;
mod page;
mod pair;
mod profile;
mod reading;
mod state;
mod weighted;
mod working;
mod works;

pub use affinity::affinity;
pub use against::against;
pub use answer::answer;
pub use cite::cite;
pub use comparison::comparison;
pub use disputes::disputes;
pub use explain::explain;
pub use find::{best, find};
pub use findings::{codes, explanation, findings, first_findings};
pub use name::name;
pub use page::Page;
pub use pair::pair;
pub use profile::profile;
pub use reading::{entries, merged, reading_summary};
pub use state::state;
pub use works::{work, works};
