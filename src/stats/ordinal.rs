//! The middle and the spread of values on an ordered scale.

/// Median, quartiles and ends of values on an ordered scale, each a position on that scale.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Spread {
    /// Lowest position.
    pub lowest: usize,
    /// Median as the two middle positions: equal when the middle is one value.
    pub median: (usize, usize),
    /// First and third quartile, by nearest rank.
    pub quartiles: (usize, usize),
    /// Highest position.
    pub highest: usize,
}

/// The spread of `positions`; `None` when there are none.
///
/// On an ordered scale there is no half-way between two values, so an even count whose middle
/// values differ keeps both. Quartiles are by nearest rank: the value at place ⌈n/4⌉ and at place
/// ⌈3n/4⌉ of the sorted list (the "inverse of the empirical distribution function", definition 1
/// of Hyndman and Fan, *The American Statistician* 50 (1996), 361–365).
///
/// ```
/// let s = kaoyi::stats::spread(&[6, 3, 6, 4]).unwrap();
/// assert_eq!((s.lowest, s.median, s.quartiles, s.highest), (3, (4, 6), (3, 6), 6));
/// ```
#[must_use]
pub fn spread(positions: &[usize]) -> Option<Spread> {
    let mut sorted = positions.to_vec();
    sorted.sort_unstable();
    let n = sorted.len();
    let (lowest, highest) = (*sorted.first()?, *sorted.last()?);
    let rank = |numerator: usize| sorted[(numerator * n).div_ceil(4).max(1) - 1];
    Some(Spread {
        lowest,
        median: (sorted[(n - 1) / 2], sorted[n / 2]),
        quartiles: (rank(1), rank(3)),
        highest,
    })
}

#[cfg(test)]
mod tests {
    use super::spread;
    use pretty_assertions::assert_eq;
    use proptest::prelude::*;

    #[test]
    fn nothing_has_no_middle() {
        assert_eq!(spread(&[]), None);
    }

    proptest! {
        #[test]
        fn order_does_not_matter_and_the_parts_are_in_order(mut values in prop::collection::vec(0usize..12, 1..40)) {
            let once = spread(&values).unwrap();
            values.reverse();
            prop_assert_eq!(once, spread(&values).unwrap());
            prop_assert!(once.lowest <= once.quartiles.0 && once.quartiles.0 <= once.median.0);
            prop_assert!(once.median.0 <= once.median.1 && once.median.1 <= once.quartiles.1);
            prop_assert!(once.quartiles.1 <= once.highest);
            // At least a quarter of the values lie at or below the first quartile, and so on.
            let at_most = |limit: usize| values.iter().filter(|value| **value <= limit).count();
            prop_assert!(4 * at_most(once.quartiles.0) >= values.len());
            prop_assert!(2 * at_most(once.median.0) >= values.len());
            prop_assert!(4 * at_most(once.quartiles.1) >= 3 * values.len());
        }
    }
}
