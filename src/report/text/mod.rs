//! Views as text for a terminal of any width. Every line of data passes through [`Page`], which
//! wraps by display width and keeps control characters of foreign data away from the terminal.

mod actions;
mod answer;
mod comparison;
mod differences;
mod evidence;
mod findings;
mod identity;
mod page;
mod profile;
mod reading;

pub use answer::answer;
pub use comparison::comparison;
pub use findings::{codes, explanation, findings, first_findings};
pub use page::Page;
pub use profile::profile;
pub use reading::{entries, merged, reading_summary};
