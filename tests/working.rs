//! `--explain`, `--weighted` and `--found-lines`: what leads to a figure, and what is offered beside it.

use std::collections::BTreeMap;

use crate::support::{herbs_of_every_kind, kaoyi};
use kaoyi::claim::Facet;
use kaoyi::compare::{
    COMPARABLE, Debts, ENOUGH, Reliabilities, Selection, SetDistance, found_debts, lines,
    lines_along, pairs, stands, view,
};
use kaoyi::corpus::{Lookup, embedded};
use pretty_assertions::assert_eq;
use serde_json::Value;
use unicode_width::UnicodeWidthStr;

fn texts(value: &Value) -> Vec<&str> {
    let all = value.as_array().unwrap().iter();
    all.map(|one| one.as_str().unwrap()).collect()
}

/// The figures of the card follow from the working by counting.
#[test]
fn every_figure_can_be_counted_from_its_working() {
    for herb in herbs_of_every_kind().into_iter().take(12) {
        let json = kaoyi(&["profile", &herb, "--explain", "--json"]).json();
        let shown: BTreeMap<&str, &Value> = json["profile"]
            .as_array()
            .unwrap()
            .iter()
            .map(|one| (one["facet"].as_str().unwrap(), one))
            .collect();
        for working in json["working"].as_array().unwrap() {
            let Some(profile) = shown.get(working["facet"].as_str().unwrap()) else {
                continue;
            };
            let stands = working["stands"].as_array().unwrap();
            let begins = stands.iter().filter(|one| one["repeats"].is_null()).count();
            assert_eq!(profile["witnesses"], stands.len(), "{herb}");
            assert_eq!(profile["lines"], begins, "{herb}: each line is begun once");
            let supports = profile["values"].as_array().unwrap();
            for (support, value) in supports.iter().zip(working["values"].as_array().unwrap()) {
                assert_eq!(support["value"], value["value"]);
                assert_eq!(support["k"], texts(&value["by"]).len(), "{herb}");
                assert_eq!(support["j"], value["lines"].as_array().unwrap().len());
                if let (Some(low), Some(scale)) =
                    (support["low"].as_f64(), value["wilson"]["scale"].as_f64())
                {
                    let term = |name: &str| value["wilson"][name].as_f64().unwrap();
                    let again = (term("centre") - term("half")) / scale;
                    assert!((low - again).abs() < 1e-12, "{herb} {low} {again}");
                }
            }
        }
    }
}

#[test]
fn a_witness_repeats_an_older_one_of_the_same_stand_and_line() {
    let json = kaoyi(&["compare", "huangqi", "--explain", "--json"]).json();
    let mut repeated = 0;
    for working in json["working"].as_array().unwrap() {
        let stands = working["stands"].as_array().unwrap();
        for (place, stand) in stands.iter().enumerate() {
            if let Some(older) = stand["repeats"].as_str() {
                let model = stands[..place]
                    .iter()
                    .find(|one| one["work"] == older)
                    .unwrap();
                assert_eq!(
                    (&model["values"], &model["line"]),
                    (&stand["values"], &stand["line"])
                );
                repeated += 1;
            }
        }
    }
    assert!(repeated > 10, "{repeated}");
}

#[test]
fn the_working_fits_the_page_and_names_formula_and_rules() {
    let page = kaoyi(&[
        "profile",
        "juhua",
        "--explain",
        "--weighted",
        "--found-lines",
    ])
    .out;
    let wide: Vec<&str> = page.lines().filter(|line| line.width() > 80).collect();
    assert_eq!(wide, Vec::<&str>::new());
    for words in [
        "THE WORKING",
        "begins line 1",
        "z = 1.959964",
        "median place",
        "WEIGHTED BY RELIABILITY",
        "rule 33",
    ] {
        assert!(page.contains(words), "{words}\n{page}");
    }
    let plain = kaoyi(&["profile", "juhua"]).out;
    assert!(!plain.contains("WORKING") && !plain.contains("WEIGHTED") && !plain.contains("found"));
}

#[test]
fn an_herb_of_which_nobody_speaks_in_the_years_asked_has_no_working() {
    let run = kaoyi(&[
        "profile",
        "juhua",
        "--until",
        "-3000",
        "--explain",
        "--weighted",
    ]);
    assert_eq!(run.code, 1);
    assert!(
        run.out.contains("No work takes a stand") && !run.out.contains("NaN"),
        "{}",
        run.out
    );
}

#[test]
fn the_sides_of_a_scale_share_one_certainty() {
    let corpus = embedded().unwrap();
    let nature = &stands(&corpus, &[Facet::Nature]).unwrap()[0];
    let reliabilities = Reliabilities::new(&corpus, nature);
    for herb in herbs_of_every_kind() {
        let Lookup::One(id) = corpus.find_herb(&herb) else {
            panic!("{herb}")
        };
        let Some(weighted) = reliabilities.of(id) else {
            continue;
        };
        let sum: f64 = weighted.values.iter().map(|one| one.probability).sum();
        assert!((sum - 1.0).abs() < 1e-9, "{herb} {sum}");
        let mut shares = weighted.witnesses.iter();
        assert!(shares.all(|(_, share)| (0.0..=1.0).contains(share)));
    }
}

/// Where all books agree the estimate says the same, whoever they are.
#[test]
fn what_all_books_say_the_estimate_says_too() {
    let json = kaoyi(&[
        "profile",
        "bohe",
        "--facet",
        "flavour",
        "--weighted",
        "--json",
    ])
    .json();
    let values = json["weighted"][0]["values"].as_array().unwrap();
    let acrid = values
        .iter()
        .find(|one| one["value"]["id"] == "acrid")
        .unwrap();
    assert!(acrid["probability"].as_f64().unwrap() > 0.99);
}

#[test]
fn found_debts_lead_from_a_younger_work_to_an_older_one_and_only_join_lines() {
    let corpus = embedded().unwrap();
    let stands = stands(&corpus, &COMPARABLE).unwrap();
    let found = found_debts(&corpus, &pairs(&corpus, &stands, ENOUGH, SetDistance::Masi));
    assert!(!found.is_empty() && found.iter().all(|(younger, older)| older < younger));
    let debts = Debts::recorded(&corpus).and(found);
    for herb in corpus.herbs().unwrap().into_iter().step_by(40) {
        for facet in COMPARABLE {
            let view = view(&corpus, herb, facet, &Selection::default());
            let (recorded, both) = (lines(&corpus, &view), lines_along(&debts, &view));
            assert!(both.count <= recorded.count, "{} {facet}", herb.id);
        }
    }
}
