//! `find --best`: sayings one by one.

use crate::support::kaoyi;
use pretty_assertions::assert_eq;
use serde_json::Value;

/// All that is found herb by herb, set in the order of the scores, is what `--best` shows one by one.
#[test]
fn the_best_sayings_one_by_one_are_those_of_all_herbs_together() {
    for words in [
        vec!["味"],
        vec!["辛凉"],
        vec!["咳逆上气"],
        vec!["薄荷", "头痛"],
    ] {
        let with = |more: &[&str]| {
            let all = [&["find"], words.as_slice(), more, &["--json"]].concat();
            kaoyi(&all).json()
        };
        let by_herb = with(&["--top", "10000", "--sayings", "10000"]);
        let mut scores: Vec<f64> = by_herb["herbs"]
            .as_array()
            .unwrap()
            .iter()
            .flat_map(|herb| herb["shown"].as_array().unwrap())
            .map(|saying| saying["score"].as_f64().unwrap())
            .collect();
        scores.sort_by(|a, b| b.total_cmp(a));
        let score = |saying: &Value| saying["score"].as_f64().unwrap();
        let best = with(&["--best", "7"]);
        let second = with(&["--best", "4", "--skip", "3"]);
        assert_eq!(best["sayings_found"], by_herb["sayings_found"], "{words:?}");
        let sayings = best["sayings"].as_array().unwrap();
        let shown: Vec<f64> = sayings.iter().map(score).collect();
        assert_eq!(shown, scores[..scores.len().min(7)], "{words:?}");
        let after = &sayings[sayings.len().min(3)..];
        assert_eq!(second["sayings"].as_array().unwrap(), after, "{words:?}");
    }
}
