//! Agreement coefficients, set distances, intervals, clustering, rankings and estimates against values published
//! elsewhere. Each case of `tests/published/agreement.json` names its source; where a print and a library differ, the
//! library's figure, at full precision, is expected.

use std::fs;

use crate::support::root;
use kaoyi::stats;
use pretty_assertions::assert_eq;
use serde_json::Value;

/// The cases of one measure.
fn cases(measure: &str) -> Vec<Value> {
    let text = fs::read_to_string(root().join("tests/published/agreement.json")).unwrap();
    let all: Vec<Value> = serde_json::from_str(&text).unwrap();
    let of_measure: Vec<Value> = all
        .into_iter()
        .filter(|case| case["measure"] == measure)
        .collect();
    assert!(!of_measure.is_empty(), "{measure}");
    assert!(
        of_measure
            .iter()
            .all(|case| case["source"].as_str().unwrap().len() > 8)
    );
    of_measure
}

fn near(case: &Value, what: &str, found: f64, expected: f64, tolerance: f64) {
    assert!(
        (found - expected).abs() <= tolerance,
        "{} {what}: {found}, expected {expected}",
        case["id"]
    );
}

fn floats(list: &Value) -> Vec<f64> {
    list.as_array()
        .unwrap()
        .iter()
        .map(|value| value.as_f64().unwrap())
        .collect()
}

fn counts(table: &Value) -> Vec<Vec<usize>> {
    let row = |row: &Value| floats(row).iter().map(|value| *value as usize).collect();
    table.as_array().unwrap().iter().map(row).collect()
}

/// Units of a table of coders by units, missing values left out, and the different values in order.
fn units(table: &Value) -> (Vec<Vec<usize>>, Vec<Value>) {
    let rows: Vec<&Vec<Value>> = table
        .as_array()
        .unwrap()
        .iter()
        .map(|row| row.as_array().unwrap())
        .collect();
    let mut values: Vec<Value> = rows
        .iter()
        .flat_map(|row| row.iter())
        .filter(|value| !value.is_null())
        .cloned()
        .collect();
    values.sort_by(|a, b| match (a.as_f64(), b.as_f64()) {
        (Some(a), Some(b)) => a.total_cmp(&b),
        _ => a.to_string().cmp(&b.to_string()),
    });
    values.dedup();
    let place = |value: &Value| values.iter().position(|one| one == value);
    let unit = |column: usize| rows.iter().filter_map(|row| place(&row[column])).collect();
    ((0..rows[0].len()).map(unit).collect(), values)
}

#[test]
fn krippendorffs_alpha_is_as_published() {
    for case in cases("krippendorff_alpha") {
        let (units, values) = units(&case["input"]["coders_by_units"]);
        let tally = stats::Tally::of(units);
        let ordinal = stats::ordinal_difference(&tally.marginals());
        let number = |place: usize| values[place].as_f64().unwrap();
        let of = |difference: &dyn Fn(usize, usize) -> f64| {
            stats::alpha(&tally, difference).map(|alpha| alpha.value)
        };
        let by_metric = [
            ("nominal", of(&|a, b| stats::nominal(&a, &b))),
            ("ordinal", of(&ordinal)),
            ("interval", of(&|a, b| (number(a) - number(b)).powi(2))),
            (
                "ratio",
                of(&|a, b| ((number(a) - number(b)) / (number(a) + number(b))).powi(2)),
            ),
        ];
        for (metric, found) in by_metric {
            match case["expected"].get(metric) {
                Some(Value::Null) => assert!(found.is_err(), "{} {metric}", case["id"]),
                Some(expected) => near(
                    &case,
                    metric,
                    found.unwrap(),
                    expected.as_f64().unwrap(),
                    1e-9,
                ),
                None => {}
            }
        }
    }
}

fn sets(values: &[Value]) -> Vec<Vec<String>> {
    let members = |set: &Value| {
        let mut members: Vec<String> = set
            .as_array()
            .unwrap()
            .iter()
            .map(ToString::to_string)
            .collect();
        members.sort();
        members
    };
    values.iter().map(members).collect()
}

#[test]
fn alpha_of_sets_is_as_published() {
    for case in cases("krippendorff_alpha_sets") {
        let (units, values) = units(&case["input"]["coders_by_units"]);
        let sets = sets(&values);
        let tally = stats::Tally::of(units);
        let of = |difference: &dyn Fn(usize, usize) -> f64| {
            stats::alpha(&tally, difference).unwrap().value
        };
        let expected = |metric: &str| case["expected"][metric].as_f64().unwrap();
        near(
            &case,
            "nominal",
            of(&|a, b| stats::nominal(&a, &b)),
            expected("exact_match"),
            1e-9,
        );
        near(
            &case,
            "jaccard",
            of(&|a, b| stats::jaccard(&sets[a], &sets[b])),
            expected("jaccard"),
            1e-9,
        );
        near(
            &case,
            "masi",
            of(&|a, b| stats::masi(&sets[a], &sets[b])),
            expected("masi"),
            1e-9,
        );
    }
}

#[test]
fn set_distances_are_as_published() {
    for case in cases("set_distance") {
        for pair in case["expected"].as_array().unwrap() {
            let sets = sets(&[pair["a"].clone(), pair["b"].clone()]);
            let expected = |metric: &str| pair[metric].as_f64().unwrap();
            near(
                &case,
                "jaccard",
                stats::jaccard(&sets[0], &sets[1]),
                expected("jaccard_distance"),
                1e-12,
            );
            near(
                &case,
                "masi",
                stats::masi(&sets[0], &sets[1]),
                expected("masi_distance"),
                1e-12,
            );
        }
    }
}

#[test]
fn fleiss_kappa_is_as_published() {
    for case in cases("fleiss_kappa") {
        let found = stats::fleiss_kappa(&counts(&case["input"]["counts_items_by_categories"]));
        match case["expected"]["kappa"].as_f64() {
            Some(expected) => near(&case, "kappa", found.unwrap(), expected, 1e-9),
            None => assert_eq!(found, None, "{}", case["id"]),
        }
    }
}

/// How far two categories disagree.
type Weight<'w> = Box<dyn Fn(usize, usize) -> f64 + 'w>;

#[test]
fn cohens_kappa_is_as_published() {
    for case in cases("cohen_kappa") {
        let table = counts(&case["input"]["table"]);
        let linear = |a: usize, b: usize| a.abs_diff(b) as f64;
        let of_table = |key: &str, a: usize, b: usize| case["input"][key][a][b].as_f64().unwrap();
        let weights: [(&str, Weight<'_>); 5] = [
            ("kappa", Box::new(|a, b| stats::nominal(&a, &b))),
            ("kappa_linear", Box::new(linear)),
            (
                "kappa_quadratic",
                Box::new(move |a, b| linear(a, b).powi(2)),
            ),
            (
                "kappa_custom",
                Box::new(|a, b| of_table("disagreement_weights", a, b)),
            ),
            (
                "kappa_asymmetric",
                Box::new(|a, b| of_table("asymmetric_disagreement_weights", a, b)),
            ),
        ];
        for (name, weight) in weights {
            if let Some(expected) = case["expected"].get(name) {
                let found = stats::cohen_kappa(&table, weight).unwrap();
                near(&case, name, found, expected.as_f64().unwrap(), 1e-9);
            }
        }
    }
}

#[test]
fn intervals_of_proportions_are_as_published() {
    for case in cases("proportion_interval") {
        let number = |key: &str| case["input"][key].as_u64().unwrap() as usize;
        let (k, n) = (number("x"), number("n"));
        for (name, found) in [
            ("wilson", stats::wilson(k, n)),
            ("jeffreys", stats::jeffreys(k, n)),
        ] {
            let (found, expected) = (found.unwrap(), floats(&case["expected"][name]));
            near(&case, name, found.low, expected[0], 1e-9);
            near(&case, name, found.high, expected[1], 1e-9);
        }
    }
    assert_eq!((stats::wilson(0, 0), stats::jeffreys(0, 0)), (None, None));
}

#[test]
fn average_linkage_joins_at_the_published_heights() {
    for case in cases("hierarchical_clustering") {
        let matrix: Vec<Vec<f64>> = case["input"]["distance_matrix"]
            .as_array()
            .unwrap()
            .iter()
            .map(floats)
            .collect();
        let merges = stats::average_linkage(matrix.len(), |a, b| matrix[a][b]);
        for (merge, expected) in merges.iter().zip(floats(&case["expected"]["heights"])) {
            near(&case, "height", merge.height, expected, 1e-9);
        }
    }
}

#[test]
fn kendalls_tau_b_is_as_published() {
    for case in cases("rank_correlation") {
        let found =
            stats::kendall_tau_b(&floats(&case["input"]["x"]), &floats(&case["input"]["y"]));
        match case["expected"]["tau_b"].as_f64() {
            Some(expected) => near(&case, "tau-b", found.unwrap(), expected, 1e-9),
            None => assert_eq!(found, None, "{}", case["id"]),
        }
    }
}

fn vote(item: usize, source: usize, class: &Value) -> Option<stats::Vote> {
    let class = class.as_u64()? as usize - 1;
    Some(stats::Vote {
        item,
        source,
        class,
    })
}

fn winners(estimate: &stats::Estimate) -> Vec<u64> {
    let best = |row: &Vec<f64>| {
        (0..row.len())
            .max_by(|a, b| row[*a].total_cmp(&row[*b]))
            .unwrap() as u64
            + 1
    };
    estimate.posterior.iter().map(best).collect()
}

fn classes(list: &Value) -> Vec<u64> {
    list.as_array()
        .unwrap()
        .iter()
        .map(|class| class.as_u64().unwrap())
        .collect()
}

#[test]
fn the_estimate_of_dawid_and_skene_reaches_their_solution() {
    let case = &cases("dawid_skene")[0];
    let mut votes = Vec::new();
    for (item, row) in case["input"]["responses_patient_observer_list"]
        .as_array()
        .unwrap()
        .iter()
        .enumerate()
    {
        for (source, given) in row.as_array().unwrap().iter().enumerate() {
            votes.extend(
                given
                    .as_array()
                    .unwrap()
                    .iter()
                    .filter_map(|class| vote(item, source, class)),
            );
        }
    }
    let found = stats::estimate(&votes, 45, 5, 4, stats::Errors::Table).unwrap();
    let expected = &case["expected"];
    near(
        case,
        "log likelihood",
        found.log_likelihood,
        expected["log_likelihood"].as_f64().unwrap(),
        1e-8,
    );
    for (found, expected) in found.prevalence.iter().zip(floats(&expected["prevalence"])) {
        near(case, "share", *found, expected, 1e-8);
    }
    for (source, table) in expected["rates"].as_array().unwrap().iter().enumerate() {
        for (truth, row) in table.as_array().unwrap().iter().enumerate() {
            for (class, expected) in floats(row).into_iter().enumerate() {
                near(
                    case,
                    "rate",
                    found.rates[source][truth][class],
                    expected,
                    1e-7,
                );
            }
        }
    }
    assert_eq!(winners(&found), classes(&expected["classes"]));
}

#[test]
fn the_estimate_with_one_rate_a_source_agrees_with_a_reference_library() {
    let case = &cases("dawid_skene")[1];
    let mut votes = Vec::new();
    for (source, row) in case["input"]["coders_by_units"]
        .as_array()
        .unwrap()
        .iter()
        .enumerate()
    {
        votes.extend(
            row.as_array()
                .unwrap()
                .iter()
                .enumerate()
                .filter_map(|(item, class)| vote(item, source, class)),
        );
    }
    let one = stats::estimate(&votes, 15, 6, 3, stats::Errors::OneRate).unwrap();
    let expected = &case["expected"]["one_coin"];
    near(
        case,
        "log likelihood",
        one.log_likelihood,
        expected["log_likelihood"].as_f64().unwrap(),
        1e-9,
    );
    for (source, skill) in floats(&expected["skill"]).into_iter().enumerate() {
        near(case, "skill", one.rates[source][0][0], skill, 1e-9);
    }
    assert_eq!(winners(&one), classes(&expected["map_class"]));
    let full = stats::estimate(&votes, 15, 6, 3, stats::Errors::Table).unwrap();
    let expected = &case["expected"]["full"];
    near(
        case,
        "log likelihood",
        full.log_likelihood,
        expected["log_likelihood"].as_f64().unwrap(),
        1e-8,
    );
    assert_eq!(winners(&full), classes(&expected["map_class"]));
}
