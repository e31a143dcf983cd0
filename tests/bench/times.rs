//! What the benches share: the sizes asked for, and sums over measured times.

use std::time::Duration;

/// The numbers of claims named on the command line; a million where there is none.
pub fn sizes() -> Vec<usize> {
    let words = std::env::args().filter_map(|word| word.parse().ok());
    let sizes: Vec<usize> = words.collect();
    if sizes.is_empty() {
        vec![1_000_000]
    } else {
        sizes
    }
}

pub fn ratio(one: Duration, other: Duration) -> f64 {
    one.as_secs_f64() / other.as_secs_f64()
}

pub fn median(times: Vec<Duration>) -> Duration {
    part(&times, 0.5)
}

/// The time that so great a share of the times does not exceed.
pub fn part(times: &[Duration], share: f64) -> Duration {
    let mut times = times.to_vec();
    times.sort();
    times[((times.len() as f64 * share) as usize).min(times.len() - 1)]
}
