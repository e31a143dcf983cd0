//! Confidence intervals for a proportion.

use schemars::JsonSchema;
use serde::Serialize;
use statrs::distribution::{Beta, ContinuousCDF};

/// The 97.5 % point of the standard normal distribution, for two-sided 95 % intervals.
const Z_95: f64 = 1.959_963_984_540_054;

/// A closed interval of proportions, each between 0 and 1.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
pub struct Interval {
    /// Lower end, 0 to 1.
    pub low: f64,
    /// Upper end, 0 to 1.
    pub high: f64,
}

/// The terms of a Wilson interval, (centre ± half) / scale: what one writes down on the way.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
pub struct WilsonTerms {
    /// The share k/n.
    pub p: f64,
    /// The 97.5 % point of the standard normal distribution.
    pub z: f64,
    /// p + z²/2n.
    pub centre: f64,
    /// z·√(p(1−p)/n + z²/4n²).
    pub half: f64,
    /// 1 + z²/n.
    pub scale: f64,
}

/// The terms of [`wilson`]; `None` where that is none.
///
/// ```
/// let terms = kaoyi::stats::wilson_terms(3, 7).unwrap();
/// let low = (terms.centre - terms.half) / terms.scale;
/// assert!((low - 0.158220).abs() < 1e-6);
/// ```
#[must_use]
pub fn wilson_terms(k: usize, n: usize) -> Option<WilsonTerms> {
    if n == 0 || k > n {
        return None;
    }
    let (k, n) = (k as f64, n as f64);
    let p = k / n;
    let z2 = Z_95 * Z_95;
    Some(WilsonTerms {
        p,
        z: Z_95,
        centre: p + z2 / (2.0 * n),
        half: Z_95 * (p * (1.0 - p) / n + z2 / (4.0 * n * n)).sqrt(),
        scale: 1.0 + z2 / n,
    })
}

/// The Wilson score interval at 95 % for `k` of `n`; `None` when there are no data or `k > n`.
///
/// With p = k/n and z = 1.959964 its ends are
/// (p + z²/2n ± z·√(p(1−p)/n + z²/4n²)) / (1 + z²/n).
/// Source: E. B. Wilson, "Probable inference, the law of succession, and statistical inference",
/// *Journal of the American Statistical Association* 22 (1927), 209–212.
///
/// ```
/// let three_of_seven = kaoyi::stats::wilson(3, 7).unwrap();
/// assert!((three_of_seven.low - 0.158220).abs() < 1e-6);
/// assert!((three_of_seven.high - 0.749542).abs() < 1e-6);
/// assert!(kaoyi::stats::wilson(0, 0).is_none());
/// ```
#[must_use]
pub fn wilson(k: usize, n: usize) -> Option<Interval> {
    let WilsonTerms {
        centre,
        half,
        scale,
        ..
    } = wilson_terms(k, n)?;
    // At k = 0 and k = n the ends are 0 and 1 exactly; rounding must not step over them.
    let low = if k == 0 { 0.0 } else { (centre - half) / scale };
    let high = if k == n { 1.0 } else { (centre + half) / scale };
    Some(Interval { low, high })
}

/// The equal-tailed Jeffreys interval at 95 % for `k` of `n`, the 2.5 % and 97.5 % points of the beta distribution with
/// parameters k + ½ and n − k + ½; at k = 0 the low end is 0, at k = n the high end 1. `None` when there are no data
/// or `k > n`.
///
/// Source: L. D. Brown, T. T. Cai and A. DasGupta, "Interval estimation for a binomial proportion", *Statistical
/// Science* 16 (2001), 101–133.
///
/// ```
/// let two_of_three = kaoyi::stats::jeffreys(2, 3).unwrap();
/// assert!((two_of_three.low - 0.176736).abs() < 1e-6);
/// assert!((two_of_three.high - 0.961252).abs() < 1e-6);
/// ```
#[must_use]
pub fn jeffreys(k: usize, n: usize) -> Option<Interval> {
    if n == 0 || k > n {
        return None;
    }
    let beta = Beta::new(k as f64 + 0.5, (n - k) as f64 + 0.5).ok()?;
    let low = if k == 0 { 0.0 } else { quantile(&beta, 0.025) };
    let high = if k == n { 1.0 } else { quantile(&beta, 0.975) };
    Some(Interval { low, high })
}

/// The point below which the share `p` of the distribution lies: halving until the ends meet, since the library's own
/// inverse stops after few digits.
fn quantile(beta: &Beta, p: f64) -> f64 {
    let (mut low, mut high) = (0.0, 1.0);
    for _ in 0..60 {
        let middle = (low + high) / 2.0;
        if beta.cdf(middle) < p {
            low = middle;
        } else {
            high = middle;
        }
    }
    (low + high) / 2.0
}

#[cfg(test)]
mod tests {
    use super::wilson;
    use pretty_assertions::assert_eq;
    use proptest::prelude::*;

    #[test]
    fn no_data_gives_no_interval() {
        assert_eq!(wilson(0, 0), None);
        assert_eq!(wilson(2, 1), None);
    }

    proptest! {
        #[test]
        fn the_interval_holds_the_proportion_and_stays_within_bounds(n in 1usize..500, part in 0.0f64..=1.0) {
            let k = (part * n as f64).floor() as usize;
            let interval = wilson(k, n).unwrap();
            let p = k as f64 / n as f64;
            prop_assert!(0.0 <= interval.low && interval.low <= p + 1e-12);
            prop_assert!(p <= interval.high + 1e-12 && interval.high <= 1.0);
        }

        #[test]
        fn successes_and_failures_mirror_each_other(n in 1usize..500, part in 0.0f64..=1.0) {
            let k = (part * n as f64).floor() as usize;
            let (a, b) = (wilson(k, n).unwrap(), wilson(n - k, n).unwrap());
            prop_assert!((a.low - (1.0 - b.high)).abs() < 1e-12);
            prop_assert!((a.high - (1.0 - b.low)).abs() < 1e-12);
        }
    }
}
