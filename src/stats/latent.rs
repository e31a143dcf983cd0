//! Estimates of what is true from witnesses of unequal reliability, by expectation and maximisation.

/// One statement: `source` gives `item` the class `class`, all by place.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Vote {
    /// What is judged.
    pub item: usize,
    /// Who judges.
    pub source: usize,
    /// The class given.
    pub class: usize,
}

/// How the errors of a source are described.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Errors {
    /// Each source has its own rate for each pair of true and given class (Dawid and Skene 1979).
    Table,
    /// Each source has one rate of being right, and errs alike towards all other classes: for sources with few
    /// statements.
    OneRate,
}

/// What came of the estimate.
#[derive(Debug, Clone, PartialEq)]
pub struct Estimate {
    /// The share of each class.
    pub prevalence: Vec<f64>,
    /// For each source, for each true class, the probability of each class given.
    pub rates: Vec<Vec<Vec<f64>>>,
    /// For each item the probability of each class.
    pub posterior: Vec<Vec<f64>>,
    /// The logarithm of the likelihood of the observed votes.
    pub log_likelihood: f64,
    /// How many rounds it took.
    pub rounds: usize,
}

/// The estimate stops when no probability of a class changes by more than this in a round, or after [`ROUNDS`].
const CHANGE: f64 = 1e-13;
/// So many rounds at the most.
const ROUNDS: usize = 20_000;

/// Estimates the class of each of `items` items, the share of each of `classes` classes and the error rates of `sources`
/// sources. It starts from each item's own shares of votes, the authors' equation 3.1, and climbs to the nearest maximum of
/// the likelihood, which need not be the highest. Items without a vote take the shares of the classes. `None` without votes,
/// or with a vote out of range.
///
/// Source: A. P. Dawid and A. M. Skene, "Maximum likelihood estimation of observer error-rates using the EM
/// algorithm", *Applied Statistics* 28 (1979), 20–28.
///
/// ```
/// use kaoyi::stats::{Errors, Vote, estimate};
/// let vote = |item, source, class| Vote { item, source, class };
/// let votes = [vote(0, 0, 0), vote(0, 1, 0), vote(1, 0, 1), vote(1, 1, 1), vote(1, 2, 0)];
/// let found = estimate(&votes, 2, 3, 2, Errors::OneRate).unwrap();
/// assert!(found.posterior[1][1] > 0.5);
/// ```
#[must_use]
pub fn estimate(
    votes: &[Vote],
    items: usize,
    sources: usize,
    classes: usize,
    errors: Errors,
) -> Option<Estimate> {
    let within = |vote: &Vote| vote.item < items && vote.source < sources && vote.class < classes;
    if votes.is_empty() || !votes.iter().all(within) {
        return None;
    }
    let mut posterior = shares(votes, items, classes);
    let voted: Vec<bool> = posterior
        .iter()
        .map(|row| row.iter().sum::<f64>() > 0.0)
        .collect();
    let mut found: Option<Estimate> = None;
    for round in 1..=ROUNDS {
        let prevalence = prevalence(&posterior, &voted, classes);
        let rates = match errors {
            Errors::Table => tables(votes, &posterior, sources, classes),
            Errors::OneRate => one_rates(votes, &posterior, sources, classes),
        };
        let (next, log_likelihood) = expect(votes, items, &prevalence, &rates);
        let change = posterior.iter().flatten().zip(next.iter().flatten());
        let change = change.map(|(a, b)| (a - b).abs()).fold(0.0, f64::max);
        posterior = next;
        found = Some(Estimate {
            prevalence,
            rates,
            posterior: posterior.clone(),
            log_likelihood,
            rounds: round,
        });
        if change < CHANGE {
            break;
        }
    }
    found
}

/// Each item's shares of votes.
fn shares(votes: &[Vote], items: usize, classes: usize) -> Vec<Vec<f64>> {
    let mut shares = vec![vec![0.0; classes]; items];
    for vote in votes {
        shares[vote.item][vote.class] += 1.0;
    }
    shares.iter_mut().for_each(|row| scale(row));
    shares
}

/// Makes a row sum to one, unless it is empty.
fn scale(row: &mut [f64]) {
    let sum: f64 = row.iter().sum();
    if sum > 0.0 {
        row.iter_mut().for_each(|value| *value /= sum);
    }
}

fn prevalence(posterior: &[Vec<f64>], voted: &[bool], classes: usize) -> Vec<f64> {
    let mut sums = vec![0.0; classes];
    let of_voted = posterior.iter().zip(voted).filter(|(_, voted)| **voted);
    for (row, _) in of_voted {
        row.iter().zip(&mut sums).for_each(|(p, sum)| *sum += p);
    }
    scale(&mut sums);
    sums
}

fn tables(
    votes: &[Vote],
    posterior: &[Vec<f64>],
    sources: usize,
    classes: usize,
) -> Vec<Vec<Vec<f64>>> {
    let mut tables = vec![vec![vec![0.0; classes]; classes]; sources];
    for vote in votes {
        for (truth, p) in posterior[vote.item].iter().enumerate() {
            tables[vote.source][truth][vote.class] += p;
        }
    }
    tables.iter_mut().flatten().for_each(|row| scale(row));
    tables
}

fn one_rates(
    votes: &[Vote],
    posterior: &[Vec<f64>],
    sources: usize,
    classes: usize,
) -> Vec<Vec<Vec<f64>>> {
    let (mut right, mut all) = (vec![0.0; sources], vec![0.0; sources]);
    for vote in votes {
        right[vote.source] += posterior[vote.item][vote.class];
        all[vote.source] += 1.0;
    }
    let table = |source: usize| {
        let rate = if all[source] > 0.0 {
            right[source] / all[source]
        } else {
            0.0
        };
        let wrong = (1.0 - rate) / classes.saturating_sub(1).max(1) as f64;
        let row = |truth: usize| {
            let cell = |class: usize| if class == truth { rate } else { wrong };
            (0..classes).map(cell).collect()
        };
        (0..classes).map(row).collect()
    };
    (0..sources).map(table).collect()
}

/// The probability of each class for each item, and the log likelihood of all votes.
fn expect(
    votes: &[Vote],
    items: usize,
    prevalence: &[f64],
    rates: &[Vec<Vec<f64>>],
) -> (Vec<Vec<f64>>, f64) {
    let prior: Vec<f64> = prevalence.iter().map(|p| p.ln()).collect();
    let mut logs = vec![prior; items];
    // A source makes many statements: its logarithms are taken once.
    let of_row = |row: &Vec<f64>| row.iter().map(|rate| rate.ln()).collect();
    let of_source = |table: &Vec<Vec<f64>>| table.iter().map(of_row).collect();
    let log_rates: Vec<Vec<Vec<f64>>> = rates.iter().map(of_source).collect();
    for vote in votes {
        for (truth, log) in logs[vote.item].iter_mut().enumerate() {
            *log += log_rates[vote.source][truth][vote.class];
        }
    }
    let mut likelihood = 0.0;
    for row in &mut logs {
        // The largest is taken out, so that many small factors do not vanish.
        let largest = row.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        row.iter_mut().for_each(|log| *log = (*log - largest).exp());
        likelihood += largest + row.iter().sum::<f64>().ln();
        scale(row);
    }
    (logs, likelihood)
}

#[cfg(test)]
mod tests {
    use super::{Errors, Vote, estimate};
    use pretty_assertions::assert_eq;

    fn vote((item, source, class): (usize, usize, usize)) -> Vote {
        Vote {
            item,
            source,
            class,
        }
    }

    #[test]
    fn no_votes_and_votes_out_of_range_give_no_estimate() {
        assert_eq!(estimate(&[], 2, 2, 2, Errors::Table), None);
        assert_eq!(estimate(&[vote((2, 0, 0))], 2, 2, 2, Errors::Table), None);
    }

    #[test]
    fn an_item_without_votes_takes_the_shares_of_the_classes() {
        let votes = [(0, 0, 1), (0, 1, 1), (1, 0, 1), (1, 1, 1)].map(vote);
        let found = estimate(&votes, 3, 2, 2, Errors::OneRate).unwrap();
        assert_eq!(found.posterior[2], found.prevalence);
    }

    #[test]
    fn a_source_that_is_mostly_alone_counts_less_than_two_that_agree() {
        let mut votes = Vec::new();
        for item in 0..10 {
            let truth = item % 2;
            votes.extend(
                [
                    (item, 0, truth),
                    (item, 1, truth),
                    (item, 2, (item + usize::from(item > 2)) % 2),
                ]
                .map(vote),
            );
        }
        let found = estimate(&votes, 10, 3, 2, Errors::OneRate).unwrap();
        assert!(found.rates[2][0][0] < 0.5 && found.rates[0][0][0] > 0.99);
    }

    #[test]
    fn the_order_of_votes_does_not_matter() {
        let mut votes = [
            (0, 0, 1),
            (0, 1, 0),
            (1, 0, 1),
            (1, 1, 1),
            (2, 0, 0),
            (2, 1, 0),
            (2, 2, 1),
        ]
        .map(vote);
        let once = estimate(&votes, 3, 3, 2, Errors::Table).unwrap();
        votes.reverse();
        let again = estimate(&votes, 3, 3, 2, Errors::Table).unwrap();
        assert!((once.log_likelihood - again.log_likelihood).abs() < 1e-9);
    }
}
