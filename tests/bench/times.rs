//! Sums over measured times.

use std::time::Duration;

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
