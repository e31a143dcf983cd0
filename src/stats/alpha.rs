//! Krippendorff's alpha: agreement among any number of witnesses, with missing statements.

/// Agreement beyond chance: 1 is perfect, 0 what chance would give, below 0 systematic disagreement.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Alpha {
    /// One minus the observed over the expected disagreement.
    pub value: f64,
    /// Mean difference within units.
    pub observed: f64,
    /// Mean difference between any two values.
    pub expected: f64,
    /// How many units have two values or more; the others say nothing of agreement.
    pub units: usize,
    /// How many values these units have.
    pub values: usize,
}

/// Why there is no coefficient.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Undefined {
    /// No unit has two values.
    NoPairs,
    /// All values are equal: there is nothing by which agreement could differ from chance.
    NoVariation,
}

/// How often each category was given, unit by unit. It is all that the coefficient asks of its units.
///
/// ```
/// let tally = kaoyi::stats::Tally::of([vec![2, 0, 2], vec![1]]);
/// assert_eq!(tally.units().next(), Some(&[(0, 1), (2, 2)][..]));
/// ```
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Tally {
    // Narrow numbers: millions of them are walked several times.
    counts: Vec<(u32, u32)>,
    ends: Vec<usize>,
}

/// The same units tallied whole and by the groups to which their values belong.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Tallies {
    /// All values.
    pub all: Tally,
    /// The values of each group.
    pub groups: Vec<Tally>,
}

impl Tallies {
    /// Counts in one pass. Each value is a category below `categories` and a group below `groups`.
    ///
    /// ```
    /// use kaoyi::stats::{Tallies, Tally};
    /// let tallies = Tallies::of([vec![(2, 0), (0, 1), (2, 1)]], 3, 2);
    /// assert_eq!(tallies.all, Tally::of([[2, 0, 2]]));
    /// assert_eq!(tallies.groups[1], Tally::of([[0, 2]]));
    /// ```
    #[must_use]
    pub fn of(
        units: impl IntoIterator<Item = impl IntoIterator<Item = (usize, usize)>>,
        categories: usize,
        groups: usize,
    ) -> Self {
        let mut tallies = vec![Tally::default(); groups + 1];
        // For each category how often it was given in this unit: in all, then by group.
        let width = groups + 1;
        let mut counts = vec![0_u32; categories * width];
        let mut given: Vec<usize> = Vec::new();
        for unit in units {
            for (category, group) in unit {
                let row = &mut counts[category * width..(category + 1) * width];
                if row[0] == 0 {
                    given.push(category);
                }
                row[0] += 1;
                row[group + 1] += 1;
            }
            given.sort_unstable();
            for category in given.drain(..) {
                let row = &mut counts[category * width..(category + 1) * width];
                for (tally, count) in tallies.iter_mut().zip(row) {
                    if *count > 0 {
                        tally.counts.push((category as u32, *count));
                        *count = 0;
                    }
                }
            }
            for tally in &mut tallies {
                tally.ends.push(tally.counts.len());
            }
        }
        let mut tallies = tallies.into_iter();
        Self {
            all: tallies.next().unwrap_or_default(),
            groups: tallies.collect(),
        }
    }
}

impl Tally {
    /// Counts the categories of each unit, which are given by place; any number of witnesses, missing ones left out.
    #[must_use]
    pub fn of(units: impl IntoIterator<Item = impl IntoIterator<Item = usize>>) -> Self {
        let mut this = Self::default();
        for unit in units {
            let from = this.counts.len();
            for category in unit {
                let known = this.counts[from..]
                    .iter_mut()
                    .find(|(one, _)| *one == category as u32);
                match known {
                    Some((_, count)) => *count += 1,
                    None => this.counts.push((category as u32, 1)),
                }
            }
            this.counts[from..].sort_unstable();
            this.ends.push(this.counts.len());
        }
        this
    }

    /// The units, each its categories in order with how often they were given.
    pub fn units(&self) -> impl Iterator<Item = &[(u32, u32)]> {
        let from = std::iter::once(0).chain(self.ends.iter().copied());
        from.zip(&self.ends)
            .map(|(from, to)| &self.counts[from..*to])
    }

    /// The unit at a place.
    #[must_use]
    pub fn unit(&self, place: usize) -> &[(u32, u32)] {
        let from = place.checked_sub(1).map_or(0, |before| self.ends[before]);
        &self.counts[from..self.ends[place]]
    }

    /// The same units under coarser categories: `category` gives the new one of each, and must not fall where the old ones rise.
    #[must_use]
    pub fn merged(&self, category: impl Fn(usize) -> usize) -> Self {
        let mut this = Self {
            counts: Vec::with_capacity(self.counts.len()),
            ends: Vec::with_capacity(self.ends.len()),
        };
        for unit in self.units() {
            let from = this.counts.len();
            for (one, count) in unit {
                let merged = category(*one as usize) as u32;
                match this.counts[from..].last_mut() {
                    Some((last, sum)) if *last == merged => *sum += count,
                    _ => this.counts.push((merged, *count)),
                }
            }
            this.ends.push(this.counts.len());
        }
        this
    }

    /// The tally of some of the units, by place; a place may come more than once.
    #[must_use]
    pub fn drawn(&self, places: impl IntoIterator<Item = usize>) -> Self {
        let mut this = Self::default();
        for place in places {
            this.counts.extend_from_slice(self.unit(place));
            this.ends.push(this.counts.len());
        }
        this
    }

    /// How often each category was given in units of at least two values, by its place.
    #[must_use]
    pub fn marginals(&self) -> Vec<usize> {
        let mut totals = vec![0; self.categories()];
        for unit in self.units().filter(|unit| values(unit) > 1) {
            for (category, count) in unit {
                totals[*category as usize] += *count as usize;
            }
        }
        totals
    }

    /// One more than the last category that was given.
    fn categories(&self) -> usize {
        let last = self.counts.iter().map(|(category, _)| category).max();
        last.map_or(0, |last| *last as usize + 1)
    }
}

/// How many values a unit has.
fn values(unit: &[(u32, u32)]) -> usize {
    unit.iter().map(|(_, count)| *count as usize).sum()
}

/// Krippendorff's alpha of tallied units under a difference between categories.
///
/// With n values in units of at least two, n_c of them of category c, and m_u in unit u, the observed
/// disagreement is the mean over all values of the mean difference to the other values of their unit,
/// (1/n) Σ_u Σ_{i≠j} δ(i, j) / (m_u − 1), and the expected one Σ_c Σ_k n_c n_k δ(c, k) / (n (n − 1)). For
/// nominal values δ is 0 or 1, for sets a distance as it is; metric differences are squared (see
/// [`ordinal_difference`]).
///
/// Source: K. Krippendorff, *Content Analysis*, 2nd ed. (2004), ch. 11; the same, *Computing Krippendorff's
/// Alpha-Reliability* (2011).
///
/// # Errors
/// When the formula is 0/0.
///
/// ```
/// use kaoyi::stats::{Tally, alpha, nominal};
/// // Two witnesses on ten units: Krippendorff 2011, section A.
/// let units = [[0, 1], [1, 1], [0, 1], [0, 0], [0, 0], [0, 1], [0, 0], [0, 0], [1, 0], [0, 0]];
/// let agreement = alpha(&Tally::of(units), |a, b| nominal(&a, &b)).unwrap();
/// assert!((agreement.value - 2.0 / 21.0).abs() < 1e-12);
/// ```
pub fn alpha(tally: &Tally, difference: impl Fn(usize, usize) -> f64) -> Result<Alpha, Undefined> {
    let mut totals = vec![0_usize; tally.categories()];
    let (mut observed, mut paired) = (0.0, 0);
    for unit in tally.units() {
        let values = values(unit);
        if values > 1 {
            for (category, count) in unit {
                totals[*category as usize] += *count as usize;
            }
            observed += between(unit, &difference) / (values - 1) as f64;
            paired += 1;
        }
    }
    let n: usize = totals.iter().sum();
    if n == 0 {
        return Err(Undefined::NoPairs);
    }
    let categories: Vec<(u32, u32)> = (0..)
        .zip(totals)
        .map(|(category, count)| (category, count as u32))
        .filter(|(_, count)| *count > 0)
        .collect();
    let n = n as f64;
    let expected = between(&categories, &difference) / (n * (n - 1.0));
    if expected == 0.0 {
        return Err(Undefined::NoVariation);
    }
    let observed = observed / n;
    Ok(Alpha {
        value: 1.0 - observed / expected,
        observed,
        expected,
        units: paired,
        values: n as usize,
    })
}

/// Sum of the differences over all ordered pairs of values of different categories.
fn between(counts: &[(u32, u32)], difference: &impl Fn(usize, usize) -> f64) -> f64 {
    let mut sum = 0.0;
    for (place, (a, of_a)) in counts.iter().enumerate() {
        for (b, of_b) in &counts[place + 1..] {
            let pairs = u64::from(*of_a) * u64::from(*of_b);
            sum += 2.0 * pairs as f64 * difference(*a as usize, *b as usize);
        }
    }
    sum
}

/// The squared difference of places on an ordered scale, for [`alpha`]: the number of values from the one
/// to the other, the two ends counted by half, squared. It depends on how often each place was given.
///
/// Source: K. Krippendorff, *Computing Krippendorff's Alpha-Reliability* (2011), ordinal metric.
pub fn ordinal_difference(marginals: &[usize]) -> impl Fn(usize, usize) -> f64 + use<> {
    let mut middles = Vec::with_capacity(marginals.len());
    let mut before = 0.0;
    for count in marginals {
        middles.push(before + *count as f64 / 2.0);
        before += *count as f64;
    }
    let middle = move |place: usize| middles.get(place).copied().unwrap_or(before);
    move |a, b| {
        let distance = middle(a) - middle(b);
        distance * distance
    }
}

#[cfg(test)]
mod tests {
    use super::{Tally, Undefined, alpha, ordinal_difference};
    use crate::stats::nominal;
    use pretty_assertions::assert_eq;
    use proptest::prelude::*;

    fn of_names(units: &[Vec<usize>]) -> Result<f64, Undefined> {
        let tally = Tally::of(units.iter().cloned());
        alpha(&tally, |a, b| nominal(&a, &b)).map(|alpha| alpha.value)
    }

    #[test]
    fn what_has_no_pairs_or_no_variation_has_no_coefficient() {
        assert_eq!(of_names(&[]), Err(Undefined::NoPairs));
        assert_eq!(of_names(&[vec![], vec![1]]), Err(Undefined::NoPairs));
        assert_eq!(
            of_names(&[vec![1, 1], vec![1, 1], vec![2]]),
            Err(Undefined::NoVariation)
        );
    }

    #[test]
    fn chance_agreement_is_near_nothing() {
        let mut random = fastrand::Rng::with_seed(7);
        let units: Vec<Vec<usize>> = (0..4000)
            .map(|_| vec![random.usize(..3), random.usize(..3)])
            .collect();
        assert!(of_names(&units).unwrap().abs() < 0.05);
    }

    fn units() -> impl Strategy<Value = Vec<Vec<usize>>> {
        prop::collection::vec(prop::collection::vec(0_usize..4, 0..5), 1..12)
    }

    proptest! {
        #[test]
        fn order_of_units_and_witnesses_does_not_matter(mut units in units()) {
            let once = of_names(&units);
            units.reverse();
            units.iter_mut().for_each(|unit| unit.reverse());
            match (once, of_names(&units)) {
                (Ok(a), Ok(b)) => prop_assert!((a - b).abs() < 1e-12),
                (a, b) => prop_assert_eq!(a, b),
            }
        }

        #[test]
        fn names_of_categories_do_not_matter(units in units()) {
            let renamed: Vec<Vec<usize>> = units.iter().map(|unit| unit.iter().map(|c| 9 - c).collect()).collect();
            match (of_names(&units), of_names(&renamed)) {
                (Ok(a), Ok(b)) => prop_assert!((a - b).abs() < 1e-12),
                (a, b) => prop_assert_eq!(a, b),
            }
        }

        #[test]
        fn it_is_at_most_one_and_one_for_perfect_agreement(units in units()) {
            let tally = Tally::of(units.clone());
            let ordinal = ordinal_difference(&tally.marginals());
            for value in [of_names(&units), alpha(&tally, ordinal).map(|alpha| alpha.value)].into_iter().flatten() {
                prop_assert!(value <= 1.0);
            }
            let agreed: Vec<Vec<usize>> = units.iter().map(|unit| vec![unit.first().copied().unwrap_or(0); unit.len()]).collect();
            if let Ok(value) = of_names(&agreed) {
                prop_assert_eq!(value, 1.0);
            }
        }
    }
}
