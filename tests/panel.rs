//! Panels: the figures of an invented class against an independent computation, and what must hold of every panel.

use std::collections::BTreeMap;
use std::fs;

use crate::support::{kaoyi, root};
use kaoyi::claim::ValueId;
use kaoyi::tasting::{Attribute, Cup, Panel, Sheet, panel};
use pretty_assertions::assert_eq;
use proptest::prelude::*;
use serde_json::Value;

const CLASS: &str = "docs/examples/class/scores.csv";

fn near(found: &Value, expected: &Value, what: &str) {
    let (a, b) = (found.as_f64(), expected.as_f64());
    let close = a.zip(b).is_some_and(|(a, b)| (a - b).abs() < 1e-9);
    assert!(close, "{what}: {found}, expected {expected}");
}

fn named(list: &Value, key: impl Fn(&Value) -> bool) -> &Value {
    list.as_array()
        .unwrap()
        .iter()
        .find(|one| key(one))
        .unwrap()
}

/// `tests/published/panel.json`: computed by tests/published/panel_reference.py with numpy, statistics and krippendorff 0.9.0.
#[test]
fn the_figures_of_a_class_are_those_of_an_independent_computation() {
    let text = fs::read_to_string(root().join("tests/published/panel.json")).unwrap();
    let reference: Value = serde_json::from_str(&text).unwrap();
    for expected in reference["panels"].as_array().unwrap() {
        let herb = expected["herb"].as_str().unwrap();
        let found = kaoyi(&["taste", "panel", CLASS, "--herb", herb, "--json"]).json();
        for (id, figures) in expected["attributes"].as_object().unwrap() {
            let one = named(&found["attributes"], |one| {
                one["attribute"]["id"] == id.as_str()
            });
            for figure in ["n", "median", "deviation"] {
                near(&one[figure], &figures[figure], id);
            }
            for end in [0, 1] {
                near(&one["quartiles"][end], &figures["quartiles"][end], id);
                near(&one["range"][end], &figures["range"][end], id);
            }
        }
        let (agreement, wanted) = (&found["agreement"], &expected["agreement"]);
        for figure in ["alpha", "ordinal", "units", "scores"] {
            near(&agreement[figure], &wanted[figure], figure);
        }
        for end in [0, 1] {
            near(
                &agreement["without_one"][end],
                &wanted["without_one"][end],
                "without one",
            );
            // Other draws of ten attributes: the ends of the interval are only near.
            let apart = agreement["interval"][end].as_f64().unwrap()
                - wanted["interval_by_other_draws"][end].as_f64().unwrap();
            assert!(apart.abs() < 0.05, "{herb} {end}: {apart}");
        }
        tasters(&found, expected);
    }
}

fn tasters(found: &Value, expected: &Value) {
    for (taster, figures) in expected["tasters"].as_object().unwrap() {
        let one = named(&found["beside_others"], |one| {
            one["taster"] == taster.as_str()
        });
        for figure in ["n", "distance", "lean"] {
            near(&one[figure], &figures[figure], taster);
        }
        assert_eq!(one["outlying"], figures["outlying"], "{taster}");
    }
    for (taster, figures) in expected["repeats"]["tasters"].as_object().unwrap() {
        let one = named(&found["repeats"]["tasters"], |one| {
            one["taster"] == taster.as_str()
        });
        for figure in ["n", "within", "between"] {
            near(&one[figure], &figures[figure], taster);
        }
    }
    for figure in ["within", "between"] {
        near(
            &found["repeats"][figure],
            &expected["repeats"][figure],
            figure,
        );
    }
}

/// Of the class's two herbs: mint is named acrid by all 14 books, by none sweet; the panel is made to taste both. Chrysanthemum is
/// named sweet by 14 of 16 and bitter by 13 (`compare`). Warmth: mint is felt cold, on which the books are divided.
#[test]
fn the_panel_is_held_against_the_books() {
    let of = |herb: &str| kaoyi(&["taste", "panel", CLASS, "--herb", herb, "--json"]).json();
    let standing = |view: &Value, flavour: &str| {
        let flavours = &view["against_books"]["flavours"];
        let one = named(flavours, |one| one["value"]["id"] == flavour);
        one["standing"].as_str().unwrap().to_owned()
    };
    let mint = of("bohe");
    let found = ["acrid", "sweet", "bitter", "sour"].map(|flavour| standing(&mint, flavour));
    assert_eq!(
        found,
        [
            "agreed",
            "tasted-none-name",
            "tasted-some-name",
            "agreed-absent"
        ]
    );
    let warmth = &mint["against_books"]["warmth"];
    assert_eq!(
        (warmth["side"].as_str(), &warmth["agrees"]),
        (Some("cold"), &Value::Null)
    );
    let flower = of("juhua");
    let found = ["sweet", "bitter"].map(|flavour| standing(&flower, flavour));
    assert_eq!(found, ["agreed", "agreed"]);
    let books = kaoyi(&["profile", "juhua", "--facet", "flavour", "--json"]).json();
    let k = named(&books["profile"][0]["values"], |one| {
        one["value"]["id"] == "bitter"
    });
    let panel = named(&flower["against_books"]["flavours"], |one| {
        one["value"]["id"] == "bitter"
    });
    assert_eq!(
        (&panel["k"], &panel["n"]),
        (&k["k"], &k["n"]),
        "the same count of books"
    );
    let older = kaoyi(&[
        "taste", "panel", CLASS, "--herb", "juhua", "--until", "700", "--json",
    ])
    .json();
    assert!(older["against_books"]["flavours"][1]["n"].as_u64() < panel["n"].as_u64());
}

/// The invented notebook of the examples: three tasters of mint, of whom A had the same thing twice.
#[test]
fn notebooks_records_and_tables_are_read_together() {
    let notebook = "docs/examples/notebook";
    let of = |files: &[&str]| {
        let arguments = [&["taste", "panel", "--herb", "bohe", "--json"], files].concat();
        kaoyi(&arguments).json()
    };
    let alone = of(&[notebook]);
    assert_eq!(
        (
            &alone["tasters"],
            alone["findings"].as_array().unwrap().len()
        ),
        (&3.into(), 0)
    );
    assert_eq!(alone["repeats"]["tasters"][0]["taster"], "A");
    let both = of(&[notebook, CLASS]);
    let counted = |view: &Value| view["read"]["counted"].as_u64().unwrap();
    assert_eq!(counted(&both), counted(&alone) + 24);
    assert_eq!(both["tasters"], 12, "A, B and C taste in both");
    let record = "docs/examples/notebook/mint-from-the-roof.yaml";
    assert_eq!(of(&[record])["read"]["files"], 1);
}

const ACRID: Attribute = Attribute::Flavour(ValueId(0));
const SWEET: Attribute = Attribute::Flavour(ValueId(1));

fn sheet(taster: &str, code: &str, scores: &[(Attribute, f64)]) -> Sheet {
    Sheet {
        taster: taster.to_owned(),
        cup: Cup {
            code: Some(code.to_owned()),
            ..Cup::default()
        },
        made: String::new(),
        scores: scores.iter().copied().collect(),
    }
}

fn figures(sheets: &[Sheet]) -> Panel {
    panel(&[ValueId(0), ValueId(1)], sheets)
}

/// Distances of A to E to the median of the other four, worked by hand: scores 1, 2, 3, 4 and 9 on one attribute give 2.5, 1.5, 0, 1.5 and 6.5;
/// their median is 1.5, the median distance to that 1, and 1.5 + 3·1 is passed by E alone.
#[test]
fn a_taster_far_from_all_others_is_told() {
    let scores = [("A", 1.0), ("B", 2.0), ("C", 3.0), ("D", 4.0), ("E", 9.0)];
    let sheets: Vec<Sheet> = scores
        .iter()
        .map(|(who, score)| sheet(who, "1", &[(ACRID, *score)]))
        .collect();
    let panel = figures(&sheets);
    let distances: Vec<f64> = panel
        .tasters
        .iter()
        .map(|one| one.distance.unwrap())
        .collect();
    assert_eq!(distances, [2.5, 1.5, 0.0, 1.5, 6.5]);
    let outlying: Vec<&str> = panel
        .tasters
        .iter()
        .filter(|one| one.outlying)
        .map(|one| one.taster.as_str())
        .collect();
    assert_eq!(outlying, ["E"]);
}

/// By hand: A's cups differ by 1 and 3, mean 2; B had one cup, which differs from A's by 1, 2, 0 and 1, mean 1.
#[test]
fn replicate_cups_are_compared_with_each_other_and_with_other_tasters() {
    let sheets = [
        sheet("A", "1", &[(ACRID, 4.0), (SWEET, 2.0)]),
        sheet("A", "2", &[(ACRID, 5.0), (SWEET, 5.0)]),
        sheet("B", "1", &[(ACRID, 5.0), (SWEET, 4.0)]),
    ];
    let repeats = figures(&sheets).repeats.unwrap();
    assert_eq!((repeats.within, repeats.between), (2.0, Some(1.0)));
    assert_eq!((repeats.tasters.len(), repeats.tasters[0].n), (1, 2));
    let mut other = sheets.clone();
    other[1].made = "another lot".to_owned();
    assert_eq!(
        figures(&other).repeats,
        None,
        "cups of two lots are no replicates"
    );
}

#[test]
fn a_lone_taster_has_figures_and_no_agreement() {
    let panel = figures(&[sheet("A", "1", &[(ACRID, 4.0)])]);
    assert!(panel.agreement.is_err() && panel.tasters[0].distance.is_none());
    assert_eq!(panel.attributes[0].figures.unwrap().median, 4.0);
    assert_eq!(
        (panel.attributes[1].n, panel.attributes[1].figures),
        (0, None),
        "unsaid is not zero"
    );
}

fn sheets() -> impl Strategy<Value = Vec<Sheet>> {
    let score =
        prop::option::weighted(0.8, (0_i32..=20).prop_map(|halves| f64::from(halves) / 2.0));
    let one = (0_usize..6, 0_usize..3, prop::collection::vec(score, 4));
    prop::collection::vec(one, 1..24).prop_map(|all| {
        let mut cups: BTreeMap<(usize, usize), Sheet> = BTreeMap::new();
        for (taster, cup, scores) in all {
            let attributes = [ACRID, SWEET, Attribute::Aroma, Attribute::Thickness];
            let said = attributes
                .into_iter()
                .zip(scores)
                .filter_map(|(one, score)| Some((one, score?)));
            let scores: Vec<_> = said.collect();
            cups.insert(
                (taster, cup),
                sheet(
                    ["A", "B", "C", "D", "E", "F"][taster],
                    &cup.to_string(),
                    &scores,
                ),
            );
        }
        cups.into_values().collect()
    })
}

proptest! {
    // Each case draws two intervals.
    #![proptest_config(ProptestConfig::with_cases(40))]

    #[test]
    fn the_order_of_the_sheets_changes_nothing(sheets in sheets(), seed in 0_u64..1000) {
        let mut shuffled = sheets.clone();
        fastrand::Rng::with_seed(seed).shuffle(&mut shuffled);
        prop_assert_eq!(figures(&sheets), figures(&shuffled));
    }

    #[test]
    fn the_names_of_the_tasters_change_no_figure(sheets in sheets()) {
        let mut renamed = sheets.clone();
        for one in &mut renamed {
            one.taster = format!("taster {}", one.taster);
        }
        let (before, after) = (figures(&sheets), figures(&renamed));
        prop_assert_eq!(before.attributes, after.attributes);
        prop_assert_eq!(before.agreement, after.agreement);
        prop_assert_eq!(before.repeats.map(|one| one.within), after.repeats.map(|one| one.within));
    }

    #[test]
    fn a_unanimous_panel_has_no_spread_and_full_agreement(
        scores in prop::collection::vec(0_i32..=20, 4), tasters in 2_usize..7, cups in 1_usize..4
    ) {
        let attributes = [ACRID, SWEET, Attribute::Aroma, Attribute::Thickness];
        let said: Vec<_> = attributes.into_iter().zip(scores.iter().map(|halves| f64::from(*halves) / 2.0)).collect();
        let all = (0..tasters).flat_map(|taster| (0..cups).map(move |cup| (taster, cup)));
        let sheets: Vec<Sheet> = all.map(|(taster, cup)| sheet(&taster.to_string(), &cup.to_string(), &said)).collect();
        let panel = figures(&sheets);
        for one in panel.attributes.iter().filter_map(|one| one.figures) {
            prop_assert_eq!((one.deviation, one.highest - one.lowest), (0.0, 0.0));
        }
        prop_assert!(panel.tasters.iter().all(|one| !one.outlying && one.distance.unwrap_or_default() == 0.0));
        match panel.agreement {
            Ok(found) => prop_assert_eq!(found.alpha, 1.0),
            Err(_) => prop_assert!(said.iter().all(|(_, score)| *score == said[0].1), "all scores are equal"),
        }
        prop_assert!(panel.repeats.is_none_or(|one| one.within == 0.0));
    }

    #[test]
    fn what_a_taster_leaves_unsaid_moves_no_figure_of_the_others(sheets in sheets()) {
        let mut more = sheets.clone();
        more.push(sheet("silent on acrid", "0", &[(SWEET, 3.0)]));
        let acrid = |panel: &Panel| panel.attributes[0];
        prop_assert_eq!(acrid(&figures(&sheets)), acrid(&figures(&more)));
    }

    #[test]
    fn figures_lie_where_the_scores_lie(sheets in sheets()) {
        let panel = figures(&sheets);
        for one in panel.attributes.iter().filter_map(|one| one.figures) {
            prop_assert!(one.lowest <= one.quartiles.0 && one.quartiles.0 <= one.median);
            prop_assert!(one.median <= one.quartiles.1 && one.quartiles.1 <= one.highest);
            prop_assert!(one.deviation <= one.highest - one.lowest);
        }
        if let Ok(agreement) = panel.agreement {
            prop_assert!(agreement.alpha <= 1.0);
            prop_assert!(agreement.interval.is_none_or(|one| one.low <= one.high));
        }
    }
}
