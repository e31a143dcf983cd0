//! Blind codes for cups, and the order in which each taster is given them.

/// The codes have three digits, so that none of them reads like a rank (common practice, no source).
const CODES: std::ops::RangeInclusive<u16> = 100..=999;

/// The most cups that can be told apart by three digits and still be handed out.
pub const MOST_CUPS: usize = 40;

/// Who is given which cup: rows in the order of tasting.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Serving {
    /// The code of each cup, in the order of the cups; all different.
    pub codes: Vec<u16>,
    /// For each taster the places of the cups, in the order in which this taster is given them.
    pub orders: Vec<Vec<usize>>,
}

/// Codes and orders, fixed by `seed`: for at most [`MOST_CUPS`] cups. Every cup has one code for all tasters, so that their
/// scores of it can be compared; each taster has an order of their own, so that no cup is always the first.
///
/// ```
/// let serving = kaoyi::tasting::serve(2, 3, 7);
/// assert_eq!(serving, kaoyi::tasting::serve(2, 3, 7), "the same seed, the same codes");
/// assert_eq!((serving.codes.len(), serving.orders.len()), (2, 3));
/// assert!(serving.codes[0] != serving.codes[1]);
/// ```
#[must_use]
pub fn serve(cups: usize, tasters: usize, seed: u64) -> Serving {
    let mut random = fastrand::Rng::with_seed(seed);
    let mut codes = Vec::new();
    while codes.len() < cups.min(MOST_CUPS) {
        let code = random.u16(CODES);
        if !codes.contains(&code) {
            codes.push(code);
        }
    }
    let mut order = || {
        let mut places: Vec<usize> = (0..codes.len()).collect();
        random.shuffle(&mut places);
        places
    };
    let orders = (0..tasters).map(|_| order()).collect();
    Serving { codes, orders }
}

#[cfg(test)]
mod tests {
    use super::{MOST_CUPS, serve};
    use pretty_assertions::assert_eq;
    use proptest::prelude::*;
    use std::collections::HashSet;

    #[test]
    fn more_cups_than_can_be_handed_out_end_at_the_most() {
        assert_eq!(serve(1000, 1, 1).codes.len(), MOST_CUPS);
    }

    proptest! {
        #[test]
        fn every_taster_is_given_every_cup_once(cups in 0_usize..12, tasters in 0_usize..20, seed in 0_u64..500) {
            let serving = serve(cups, tasters, seed);
            let codes: HashSet<_> = serving.codes.iter().collect();
            prop_assert_eq!((codes.len(), serving.orders.len()), (cups, tasters));
            for mut order in serving.orders {
                order.sort_unstable();
                prop_assert_eq!(order, (0..cups).collect::<Vec<_>>());
            }
        }
    }
}
