//! Mathematics only: intervals and the middle of ordered values. No herb in sight; what a figure
//! means for a witness is said in [`crate::compare`].

mod interval;
mod ordinal;

pub use interval::{Interval, wilson};
pub use ordinal::{Spread, spread};
