//! Mathematics only: distances, agreement, intervals, clustering, estimates. No herb in sight; what a figure means
//! for a witness is said in [`crate::compare`].

mod alpha;
mod bootstrap;
mod cluster;
mod distance;
mod interval;
mod kappa;
mod latent;
mod middle;
mod ordinal;
mod rank;

pub use alpha::{Alpha, Tallies, Tally, Undefined, alpha, ordinal_difference};
pub use bootstrap::{Bootstrap, bootstrap};
pub use cluster::{Merge, average_linkage};
pub use distance::{jaccard, masi, nominal};
pub use interval::{Interval, WilsonTerms, jeffreys, wilson, wilson_terms};
pub use kappa::{cohen_kappa, fleiss_kappa};
pub use latent::{Errors, Estimate, Vote, estimate};
pub use middle::{mean, median, median_absolute_deviation, quartiles};
pub use ordinal::{Spread, spread};
pub use rank::kendall_tau_b;
