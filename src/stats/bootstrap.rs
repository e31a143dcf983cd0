//! Intervals by drawing the units again.

use super::Interval;

/// What came of drawing units again.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bootstrap {
    /// From the 2.5th to the 97.5th percentile of the figure over the draws.
    pub interval: Interval,
    /// In how many draws the figure could be computed.
    pub defined: usize,
}

/// The percentile interval at 95 % of a figure over `units`: they are drawn with replacement, as many as there are,
/// `draws` times, and `figure` is computed of each draw. `None` where it could be computed in fewer than nine draws of
/// ten, since an interval over the rest would flatter. `seed` fixes the draws: equal input gives equal intervals.
///
/// Source: B. Efron and R. J. Tibshirani, *An Introduction to the Bootstrap* (1993), ch. 13. Percentiles by nearest rank.
///
/// ```
/// let mean = |units: &[&f64]| Some(units.iter().copied().sum::<f64>() / units.len() as f64);
/// let interval = kaoyi::stats::bootstrap(&[1.0, 2.0, 3.0, 4.0], 1000, 1, mean).unwrap().interval;
/// assert!(interval.low < 2.5 && interval.high > 2.5);
/// ```
#[must_use]
pub fn bootstrap<T>(
    units: &[T],
    draws: usize,
    seed: u64,
    mut figure: impl FnMut(&[&T]) -> Option<f64>,
) -> Option<Bootstrap> {
    if units.is_empty() {
        return None;
    }
    let mut random = fastrand::Rng::with_seed(seed);
    let mut figures = Vec::with_capacity(draws);
    let mut draw: Vec<&T> = Vec::with_capacity(units.len());
    for _ in 0..draws {
        draw.clear();
        draw.extend((0..units.len()).map(|_| &units[random.usize(..units.len())]));
        figures.extend(figure(&draw).filter(|figure| figure.is_finite()));
    }
    if figures.is_empty() || figures.len() * 10 < draws * 9 {
        return None;
    }
    figures.sort_by(f64::total_cmp);
    let rank = |share: f64| figures[((share * figures.len() as f64).ceil() as usize).max(1) - 1];
    Some(Bootstrap {
        interval: Interval {
            low: rank(0.025),
            high: rank(0.975),
        },
        defined: figures.len(),
    })
}

#[cfg(test)]
mod tests {
    use super::bootstrap;
    use pretty_assertions::assert_eq;

    fn mean(units: &[&f64]) -> Option<f64> {
        Some(units.iter().copied().sum::<f64>() / units.len() as f64)
    }

    #[test]
    fn the_same_seed_gives_the_same_interval() {
        let units: Vec<f64> = (0..30).map(f64::from).collect();
        assert_eq!(
            bootstrap(&units, 500, 3, mean),
            bootstrap(&units, 500, 3, mean)
        );
    }

    #[test]
    fn equal_units_give_an_interval_of_no_width() {
        let interval = bootstrap(&[2.0, 2.0, 2.0], 100, 1, mean).unwrap().interval;
        assert_eq!((interval.low, interval.high), (2.0, 2.0));
    }

    #[test]
    fn a_figure_that_often_fails_has_no_interval() {
        let rarely = |units: &[&f64]| (*units[0] > 1.0).then_some(1.0);
        assert_eq!(bootstrap(&[0.0, 1.0, 2.0], 300, 1, rarely), None);
        assert_eq!(bootstrap(&[] as &[f64], 300, 1, mean), None);
    }

    /// The standard error of a mean of n values is s/√n; a percentile interval is about 1.96 of it to either side (central
    /// limit theorem; Efron and Tibshirani 1993, ch. 13, from memory).
    #[test]
    fn the_interval_of_a_mean_is_about_as_wide_as_the_normal_one() {
        let units: Vec<f64> = (0..400).map(|n| f64::from(n % 20)).collect();
        let interval = bootstrap(&units, 4000, 5, mean).unwrap().interval;
        let variance = units.iter().map(|x| (x - 9.5).powi(2)).sum::<f64>() / 400.0;
        let half = 1.96 * (variance / 400.0).sqrt();
        assert!(((interval.high - interval.low) / (2.0 * half) - 1.0).abs() < 0.1);
    }
}
