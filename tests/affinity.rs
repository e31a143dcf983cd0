//! `affinity`: who agrees with whom, and who seems to follow whom.

use crate::support::kaoyi;
use pretty_assertions::assert_eq;
use serde_json::Value;
use unicode_width::UnicodeWidthStr;

fn number(value: &Value, key: &str) -> f64 {
    value[key].as_f64().unwrap()
}

#[test]
fn the_books_that_are_known_to_copy_come_first() {
    let json = kaoyi(&["affinity", "--json"]).json();
    let pairs: Vec<(&str, &str)> = json["pairs"]
        .as_array()
        .unwrap()
        .iter()
        .take(8)
        .map(|pair| {
            (
                pair["younger"].as_str().unwrap(),
                pair["older"].as_str().unwrap(),
            )
        })
        .collect();
    // 新修 was built on 集注, 擇要 selected from 綱目, 從新 revises 備要: their own prefaces, from memory.
    assert_eq!(pairs[0], ("xinxiu-bencao", "bencao-jing-jizhu"));
    assert_eq!(pairs[1], ("bencao-zeyao-gangmu", "bencao-gangmu"));
    assert!(
        pairs.contains(&("bencao-congxin", "bencao-beiyao")),
        "{pairs:?}"
    );
}

#[test]
fn figures_keep_within_their_bounds_and_pairs_stand_in_order() {
    let json = kaoyi(&["affinity", "--facet", "nature", "--shared", "15", "--json"]).json();
    let mut last = f64::INFINITY;
    for pair in json["pairs"].as_array().unwrap() {
        for key in ["agreement", "rate", "probability"] {
            assert!((0.0..=1.0).contains(&number(pair, key)), "{pair}");
        }
        assert!(number(pair, "same") <= number(pair, "shared") && number(pair, "shared") >= 15.0);
        assert!(number(pair, "rate") <= last);
        last = number(pair, "rate");
        for example in pair["examples"].as_array().unwrap() {
            assert_eq!(example["facet"], "nature");
            assert!(number(example, "chance") < 0.25);
        }
    }
    let matrix = json["matrix"].as_array().unwrap();
    for (a, row) in matrix.iter().enumerate() {
        for (b, value) in row.as_array().unwrap().iter().enumerate() {
            assert_eq!(value, &matrix[b][a], "the matrix is symmetric");
        }
        assert_eq!(row[a], 1.0);
    }
}

#[test]
fn one_work_is_shown_with_its_neighbours_and_examples() {
    let page = kaoyi(&["affinity", "從新"]).out;
    let nearest = page
        .split("NEAREST")
        .nth(1)
        .unwrap()
        .lines()
        .nth(3)
        .unwrap();
    assert!(nearest.contains("本草備要"), "{page}");
    assert!(
        page.contains("SEEMS TO FOLLOW") && page.contains("hardly another says"),
        "{page}"
    );
}

#[test]
fn pages_fit_their_width() {
    for args in [
        vec!["affinity"],
        vec!["affinity", "時珍"],
        vec!["affinity", "--facet", "flavour"],
    ] {
        let page = kaoyi(&args).out;
        let wide: Vec<&str> = page.lines().filter(|line| line.width() > 80).collect();
        assert_eq!(wide, Vec::<&str>::new(), "{args:?}");
    }
}

#[test]
fn works_that_share_too_little_are_said_to() {
    let run = kaoyi(&["affinity", "--shared", "100000"]);
    assert_eq!(run.code, 1);
    assert!(run.out.contains("No two works"), "{}", run.out);
}
