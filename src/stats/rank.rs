//! Agreement of two rankings.

/// Kendall's tau-b of two rankings of the same things, ties allowed: from −1 (contrary) to 1 (the same order). `None`
/// where the lists differ in length, are shorter than two, or where one of them does not rank.
///
/// (P − Q) / √((P + Q + T_x)(P + Q + T_y)) with P pairs in the same order, Q in the contrary one, T tied in one list only.
/// Source: M. G. Kendall, "The treatment of ties in ranking problems", *Biometrika* 33 (1945), 239–251.
///
/// ```
/// let tau = kaoyi::stats::kendall_tau_b(&[12.0, 2.0, 1.0, 12.0, 2.0], &[1.0, 4.0, 7.0, 1.0, 0.0]).unwrap();
/// assert!((tau + 0.471404520791).abs() < 1e-9);
/// ```
#[must_use]
pub fn kendall_tau_b(x: &[f64], y: &[f64]) -> Option<f64> {
    if x.len() != y.len() {
        return None;
    }
    let (mut same, mut contrary, mut tied_x, mut tied_y) = (0_u64, 0_u64, 0_u64, 0_u64);
    for i in 0..x.len() {
        for j in i + 1..x.len() {
            let order = |list: &[f64]| list[i].partial_cmp(&list[j]);
            use std::cmp::Ordering::Equal;
            match (order(x)?, order(y)?) {
                (Equal, Equal) => {}
                (Equal, _) => tied_x += 1,
                (_, Equal) => tied_y += 1,
                (a, b) if a == b => same += 1,
                _ => contrary += 1,
            }
        }
    }
    let ordered = same + contrary;
    let scale = ((ordered + tied_x) as f64 * (ordered + tied_y) as f64).sqrt();
    (scale > 0.0).then(|| (same as f64 - contrary as f64) / scale)
}

#[cfg(test)]
mod tests {
    use super::kendall_tau_b;
    use pretty_assertions::assert_eq;
    use proptest::prelude::*;

    #[test]
    fn what_does_not_rank_has_no_coefficient() {
        assert_eq!(kendall_tau_b(&[], &[]), None);
        assert_eq!(kendall_tau_b(&[1.0, 1.0], &[1.0, 2.0]), None);
        assert_eq!(kendall_tau_b(&[1.0, f64::NAN], &[1.0, 2.0]), None);
        assert_eq!(kendall_tau_b(&[1.0], &[1.0, 2.0]), None);
    }

    proptest! {
        #[test]
        fn turning_one_ranking_round_turns_the_sign(pairs in prop::collection::vec((0_u8..9, 0_u8..9), 2..20)) {
            let x: Vec<f64> = pairs.iter().map(|pair| f64::from(pair.0)).collect();
            let y: Vec<f64> = pairs.iter().map(|pair| f64::from(pair.1)).collect();
            let turned: Vec<f64> = y.iter().map(|value| -value).collect();
            if let (Some(a), Some(b)) = (kendall_tau_b(&x, &y), kendall_tau_b(&x, &turned)) {
                prop_assert!((a + b).abs() < 1e-12 && (-1.0 - 1e-12..=1.0 + 1e-12).contains(&a));
            }
        }
    }
}
