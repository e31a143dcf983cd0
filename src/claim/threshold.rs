//! The thresholds behind verdict words and the kinds of difference, in one place and as data.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// A share as two whole numbers, so that comparing needs no rounding.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Share {
    /// Numerator.
    #[schemars(range(max = 1000))]
    pub part: usize,
    /// Denominator.
    #[schemars(range(min = 1, max = 1000))]
    pub of: usize,
}

impl Share {
    /// Whether `k` of `n` is at least this share.
    ///
    /// ```
    /// let two_thirds = kaoyi::claim::Share { part: 2, of: 3 };
    /// assert!(two_thirds.reached_by(6, 9) && !two_thirds.reached_by(5, 9));
    /// ```
    #[must_use]
    pub const fn reached_by(self, k: usize, n: usize) -> bool {
        k as u128 * self.of as u128 >= n as u128 * self.part as u128
    }

    /// Whether `k` of `n` is at most this share.
    #[must_use]
    pub const fn not_exceeded_by(self, k: usize, n: usize) -> bool {
        k as u128 * self.of as u128 <= n as u128 * self.part as u128
    }
}

/// The thresholds, as `corpus/vocabulary/thresholds.yaml` has them.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Thresholds {
    /// From this share of witnesses on the verdict is "mostly yes".
    pub mostly: Share,
    /// Up to this share of witnesses the verdict is "mostly no".
    pub mostly_not: Share,
    /// `over time`: at most this share of witnesses may stand on the wrong side of the turning point.
    pub turning_misfits: Share,
    /// `over time`: so many witnesses are needed before and after the turning point.
    #[schemars(range(min = 1))]
    pub turning_side: usize,
}
