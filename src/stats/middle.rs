//! The middle of measured values, and how far they scatter round it.

/// The middle value, or the mean of the two middle ones; `None` of nothing.
///
/// ```
/// use kaoyi::stats::median;
/// assert_eq!(median(&[3.0, 1.0, 2.0]), Some(2.0));
/// assert_eq!(median(&[4.0, 1.0, 2.0, 3.0]), Some(2.5));
/// ```
#[must_use]
pub fn median(values: &[f64]) -> Option<f64> {
    let sorted = sorted(values);
    let upper = *sorted.get(sorted.len() / 2)?;
    let lower = *sorted.get(sorted.len().saturating_sub(1) / 2)?;
    Some(f64::midpoint(lower, upper))
}

/// First and third quartile: the values at the places ⌈n/4⌉ and ⌈3n/4⌉ in order of size; `None` of nothing.
///
/// Definition 1 of R. J. Hyndman and Y. Fan, "Sample quantiles in statistical packages", *The American Statistician*
/// 50 (1996), 361–365.
///
/// ```
/// assert_eq!(kaoyi::stats::quartiles(&[4.0, 1.0, 3.0, 2.0, 5.0]), Some((2.0, 4.0)));
/// ```
#[must_use]
pub fn quartiles(values: &[f64]) -> Option<(f64, f64)> {
    let sorted = sorted(values);
    let at = |quarters: usize| {
        let place = (quarters * sorted.len()).div_ceil(4);
        sorted.get(place.checked_sub(1)?).copied()
    };
    Some((at(1)?, at(3)?))
}

/// The median of the distances to the median, in the unit of the values and not scaled to any distribution; `None` of
/// nothing.
///
/// Source: F. R. Hampel, "The influence curve and its role in robust estimation", *Journal of the American
/// Statistical Association* 69 (1974), 383–393 (from memory).
///
/// ```
/// // Distances to the median 2 are 1, 1, 0, 0, 2, 4, 7; their middle is 1.
/// let values = [1.0, 1.0, 2.0, 2.0, 4.0, 6.0, 9.0];
/// assert_eq!(kaoyi::stats::median_absolute_deviation(&values), Some(1.0));
/// ```
#[must_use]
pub fn median_absolute_deviation(values: &[f64]) -> Option<f64> {
    let middle = median(values)?;
    let distances: Vec<f64> = values.iter().map(|value| (value - middle).abs()).collect();
    median(&distances)
}

/// The sum of the values through their number; `None` of nothing. The values are added in order of size, so that their
/// own order changes nothing, not even by rounding.
///
/// ```
/// assert_eq!(kaoyi::stats::mean(&[1.0, 2.0]), Some(1.5));
/// ```
#[must_use]
pub fn mean(values: &[f64]) -> Option<f64> {
    let sum: f64 = sorted(values).iter().sum();
    (!values.is_empty()).then(|| sum / values.len() as f64)
}

fn sorted(values: &[f64]) -> Vec<f64> {
    let mut sorted = values.to_vec();
    sorted.sort_by(f64::total_cmp);
    sorted
}

#[cfg(test)]
mod tests {
    use super::{mean, median, median_absolute_deviation, quartiles};
    use pretty_assertions::assert_eq;
    use proptest::prelude::*;

    #[test]
    fn of_nothing_there_is_no_middle() {
        assert_eq!(median(&[]), None);
        assert_eq!(quartiles(&[]), None);
        assert_eq!(median_absolute_deviation(&[]), None);
        assert_eq!(mean(&[]), None);
    }

    proptest! {
        #[test]
        fn order_changes_nothing(mut values in prop::collection::vec(-5.0_f64..5.0, 1..30)) {
            let all = |values: &[f64]| (median(values), quartiles(values), median_absolute_deviation(values), mean(values));
            let once = all(&values);
            values.reverse();
            prop_assert_eq!(once, all(&values));
        }

        #[test]
        fn the_quartiles_enclose_the_median(values in prop::collection::vec(-5.0_f64..5.0, 1..30)) {
            let (low, high) = quartiles(&values).unwrap();
            let middle = median(&values).unwrap();
            prop_assert!(low <= middle && middle <= high);
        }

        #[test]
        fn equal_values_do_not_scatter(value in -5.0_f64..5.0, n in 1_usize..20) {
            prop_assert_eq!(median_absolute_deviation(&vec![value; n]), Some(0.0));
        }
    }
}
