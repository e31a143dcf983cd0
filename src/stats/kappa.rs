//! Kappa coefficients: agreement beyond chance of witnesses who each judge every unit.

/// Fleiss' kappa of `counts`, for each unit how many of the witnesses chose each category; every unit must have
/// the same number of witnesses, two at least. `None` where that fails or where all chose one category.
///
/// (P − P_e) / (1 − P_e) with P the mean share of agreeing pairs within units and P_e the sum of the squared shares of the
/// categories. Source: J. L. Fleiss, "Measuring nominal scale agreement among many raters", *Psychological Bulletin* 76
/// (1971), 378–382.
///
/// ```
/// // Two witnesses who agree on one unit of two.
/// let kappa = kaoyi::stats::fleiss_kappa(&[vec![2, 0], vec![1, 1]]).unwrap();
/// assert!((kappa + 1.0 / 3.0).abs() < 1e-12);
/// ```
#[must_use]
pub fn fleiss_kappa(counts: &[Vec<usize>]) -> Option<f64> {
    let raters: usize = counts.first()?.iter().sum();
    let categories = counts.first()?.len();
    let even = |unit: &Vec<usize>| unit.len() == categories && unit.iter().sum::<usize>() == raters;
    if raters < 2 || !counts.iter().all(even) {
        return None;
    }
    let units = counts.len() as f64;
    let pairs = (raters * (raters - 1)) as f64;
    let agreeing = |unit: &Vec<usize>| unit.iter().map(|n| n * n.saturating_sub(1)).sum::<usize>();
    let observed = counts.iter().map(agreeing).sum::<usize>() as f64 / (units * pairs);
    let share = |category: usize| {
        let chosen: usize = counts.iter().map(|unit| unit[category]).sum();
        chosen as f64 / (units * raters as f64)
    };
    let expected: f64 = (0..categories).map(share).map(|p| p * p).sum();
    (expected < 1.0).then(|| (observed - expected) / (1.0 - expected))
}

/// Cohen's kappa of a square table: how often the first witness gave the category of the row and the second that of the
/// column. `weight` tells how far two categories disagree, 0 for equal ones; with [`crate::stats::nominal`] it is the
/// unweighted kappa. `None` for a table that is not square or where no disagreement is expected.
///
/// One minus the observed over the expected weighted disagreement. Sources: J. Cohen, "A coefficient of agreement for
/// nominal scales", *Educational and Psychological Measurement* 20 (1960), 37–46; the same, "Weighted kappa",
/// *Psychological Bulletin* 70 (1968), 213–220.
///
/// ```
/// use kaoyi::stats::{cohen_kappa, nominal};
/// let table = [vec![75, 1, 4], vec![5, 4, 1], vec![0, 0, 10]]; // Fleiss 1981, table 13.1
/// let kappa = cohen_kappa(&table, |a, b| nominal(&a, &b)).unwrap();
/// assert!((kappa - 0.676470588).abs() < 1e-9);
/// ```
#[must_use]
pub fn cohen_kappa(table: &[Vec<usize>], weight: impl Fn(usize, usize) -> f64) -> Option<f64> {
    let size = table.len();
    if table.iter().any(|row| row.len() != size) {
        return None;
    }
    let rows: Vec<usize> = table.iter().map(|row| row.iter().sum()).collect();
    let columns: Vec<usize> = (0..size)
        .map(|column| table.iter().map(|row| row[column]).sum())
        .collect();
    let n: usize = rows.iter().sum();
    let (mut observed, mut expected) = (0.0, 0.0);
    for (a, row) in table.iter().enumerate() {
        for (b, count) in row.iter().enumerate() {
            let weight = weight(a, b);
            observed += weight * *count as f64 * n as f64;
            expected += weight * (rows[a] * columns[b]) as f64;
        }
    }
    (expected > 0.0).then(|| 1.0 - observed / expected)
}

#[cfg(test)]
mod tests {
    use super::{cohen_kappa, fleiss_kappa};
    use crate::stats::nominal;
    use pretty_assertions::assert_eq;
    use proptest::prelude::*;

    #[test]
    fn what_cannot_be_judged_has_no_coefficient() {
        assert_eq!(fleiss_kappa(&[]), None);
        assert_eq!(fleiss_kappa(&[vec![3, 0], vec![3, 0]]), None);
        assert_eq!(fleiss_kappa(&[vec![3, 0], vec![1, 1]]), None);
        assert_eq!(
            cohen_kappa(&[vec![4, 0], vec![0, 0]], |a, b| nominal(&a, &b)),
            None
        );
        assert_eq!(cohen_kappa(&[vec![1, 2]], |a, b| nominal(&a, &b)), None);
    }

    proptest! {
        #[test]
        fn the_order_of_categories_does_not_matter(cells in prop::collection::vec(0_usize..9, 9)) {
            let table: Vec<Vec<usize>> = cells.chunks(3).map(<[usize]>::to_vec).collect();
            let turned: Vec<Vec<usize>> = table.iter().rev().map(|row| row.iter().rev().copied().collect()).collect();
            let kappa = |table: &[Vec<usize>]| cohen_kappa(table, |a, b| nominal(&a, &b));
            match (kappa(&table), kappa(&turned)) {
                (Some(a), Some(b)) => prop_assert!((a - b).abs() < 1e-12 && a <= 1.0),
                (a, b) => prop_assert_eq!(a, b),
            }
        }
    }
}
