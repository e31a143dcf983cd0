//! Average-linkage clustering.

use kodama::{Method, linkage};

/// One step of a clustering: two clusters become one. The things themselves are the clusters 0 to n − 1; the cluster
/// that step `i` makes is n + i.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Merge {
    /// The two clusters.
    pub clusters: (usize, usize),
    /// The mean distance between their members.
    pub height: f64,
    /// How many things the new cluster has.
    pub size: usize,
}

/// Clusters `n` things by average linkage (UPGMA): the two clusters whose members are nearest on average become
/// one, until one is left. `distance` is asked for each pair once, the smaller place first. Of equal pairs the first met is
/// taken, so that heights above a tie may depend on the order of the things.
///
/// Source: R. R. Sokal and C. D. Michener, *University of Kansas Science Bulletin* 38 (1958), 1409–1438.
///
/// ```
/// let places: [f64; 3] = [0.0, 1.0, 5.0];
/// let merges = kaoyi::stats::average_linkage(3, |a, b| (places[a] - places[b]).abs());
/// assert_eq!((merges[0].height, merges[1].height), (1.0, 4.5));
/// ```
#[must_use]
pub fn average_linkage(n: usize, distance: impl Fn(usize, usize) -> f64) -> Vec<Merge> {
    if n < 2 {
        return Vec::new();
    }
    let mut condensed = Vec::with_capacity(n * (n - 1) / 2);
    for a in 0..n {
        for b in a + 1..n {
            condensed.push(distance(a, b));
        }
    }
    let tree = linkage(&mut condensed, n, Method::Average);
    tree.steps()
        .iter()
        .map(|step| Merge {
            clusters: (step.cluster1, step.cluster2),
            height: step.dissimilarity,
            size: step.size,
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::average_linkage;
    use pretty_assertions::assert_eq;
    use proptest::prelude::*;

    #[test]
    fn one_thing_alone_makes_no_step() {
        assert_eq!(average_linkage(0, |_, _| 0.0), []);
        assert_eq!(average_linkage(1, |_, _| 0.0), []);
    }

    proptest! {
        #[test]
        fn heights_rise_and_the_last_cluster_holds_all(places in prop::collection::vec(0.0f64..9.0, 2..12)) {
            let merges = average_linkage(places.len(), |a, b| (places[a] - places[b]).abs());
            prop_assert_eq!(merges.len(), places.len() - 1);
            prop_assert!(merges.windows(2).all(|pair| pair[0].height <= pair[1].height + 1e-12));
            prop_assert_eq!(merges.last().unwrap().size, places.len());
        }
    }
}
