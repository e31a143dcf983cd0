//! Distances between two statements: names, places on a scale, sets.

/// 0 for equal values, 1 for different ones.
///
/// ```
/// assert_eq!(kaoyi::stats::nominal(&"cold", &"warm"), 1.0);
/// ```
#[must_use]
pub fn nominal<T: Eq>(a: &T, b: &T) -> f64 {
    if a == b { 0.0 } else { 1.0 }
}

/// The Jaccard distance of two sets, given as sorted lists without repetition: one minus the share of
/// members in common among all members. Two empty sets are equal, 0, by convention.
///
/// Source: P. Jaccard, "The distribution of the flora in the alpine zone", *New Phytologist* 11 (1912), 37–50.
///
/// ```
/// assert_eq!(kaoyi::stats::jaccard(&["acrid"], &["acrid", "bitter"]), 0.5);
/// ```
#[must_use]
pub fn jaccard<T: Ord>(a: &[T], b: &[T]) -> f64 {
    let common = common(a, b);
    let all = a.len() + b.len() - common;
    if all == 0 {
        return 0.0;
    }
    1.0 - common as f64 / all as f64
}

/// The MASI distance of two sets, given as sorted lists without repetition: one minus the Jaccard
/// similarity weighted by 1 for equal sets, 2/3 where one contains the other, 1/3 where they overlap
/// otherwise, 0 where they are disjoint. Two empty sets are equal, 0, by convention.
///
/// Source: R. Passonneau, "Measuring agreement on set-valued items (MASI) for semantic and pragmatic
/// annotation", *LREC* 2006.
///
/// ```
/// let distance = kaoyi::stats::masi(&["acrid"], &["acrid", "bitter"]);
/// assert!((distance - 2.0 / 3.0).abs() < 1e-12);
/// ```
#[must_use]
pub fn masi<T: Ord>(a: &[T], b: &[T]) -> f64 {
    if a == b {
        return 0.0;
    }
    let common = common(a, b);
    let all = a.len() + b.len() - common;
    let weight = if common == a.len() || common == b.len() {
        2.0 / 3.0
    } else {
        1.0 / 3.0
    };
    if common == 0 {
        return 1.0;
    }
    1.0 - weight * common as f64 / all as f64
}

/// How many members two sorted lists have in common.
fn common<T: Ord>(a: &[T], b: &[T]) -> usize {
    let (mut i, mut j, mut common) = (0, 0, 0);
    while let (Some(x), Some(y)) = (a.get(i), b.get(j)) {
        match x.cmp(y) {
            std::cmp::Ordering::Less => i += 1,
            std::cmp::Ordering::Greater => j += 1,
            std::cmp::Ordering::Equal => {
                common += 1;
                i += 1;
                j += 1;
            }
        }
    }
    common
}

#[cfg(test)]
mod tests {
    use super::{jaccard, masi};
    use proptest::prelude::*;

    fn set() -> impl Strategy<Value = Vec<u8>> {
        prop::collection::btree_set(0_u8..8, 0..6).prop_map(|set| set.into_iter().collect())
    }

    proptest! {
        #[test]
        fn set_distances_are_symmetric_and_between_0_and_1(a in set(), b in set()) {
            for distance in [jaccard, masi] {
                let d = distance(&a, &b);
                prop_assert_eq!(d, distance(&b, &a));
                prop_assert!((0.0..=1.0).contains(&d));
                prop_assert_eq!(d == 0.0, a == b);
            }
        }

        #[test]
        fn masi_is_never_nearer_than_jaccard(a in set(), b in set()) {
            prop_assert!(masi(&a, &b) >= jaccard(&a, &b) - 1e-12);
        }
    }
}
