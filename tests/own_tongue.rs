//! Own tastings beside the books: `taste against`, the last row of `compare` and `profile`, `pair --tasted`.

use std::fs;
use std::path::Path;

use crate::support::{kaoyi, text};
use pretty_assertions::assert_eq;
use serde_json::{Value, json};
use unicode_width::UnicodeWidthStr;

/// The invented notebook of the study circle.
const NOTEBOOK: &str = "docs/examples/notebook";

fn against(herb: &str, more: &[&str]) -> Value {
    let asked = ["taste", "against", herb, "--notebook", NOTEBOOK, "--json"];
    kaoyi(&[&asked, more].concat()).json()
}

#[test]
fn own_scores_stand_beside_the_books_flavour_by_flavour() {
    let json = against("bohe", &[]);
    // By hand from the six records: acrid 4, 5, 6.5, 7, 7.5, 8; sweet 0.5, 0.5, 1.5, 2, 2; warmth -2.5, -2, -2, -1, -1, 0.
    let of = |id: &str| {
        let flavours = json["against"]["flavours"].as_array().unwrap();
        let found = flavours.iter().find(|one| one["value"]["id"] == id);
        found.unwrap().clone()
    };
    assert_eq!(of("acrid")["median"], 6.75);
    assert_eq!(of("acrid")["standing"], "agreed");
    assert_eq!(of("sweet")["median"], 1.5);
    assert_eq!(of("sweet")["standing"], "tasted-none-name");
    assert_eq!(of("salty")["standing"], "unsaid");
    assert_eq!(json["against"]["warmth"]["median"], -1.5);
    assert_eq!(json["against"]["warmth"]["side"], "cold");
    let surprising = &json["surprising"]["tasted_unnamed"];
    assert_eq!(surprising.as_array().unwrap().len(), 1);
    assert_eq!(surprising[0]["id"], "sweet");
    assert_eq!(json["own"]["tasters"], json!(["A", "B", "C"]));
}

#[test]
fn the_tongue_stands_nearest_to_the_stand_that_shares_most() {
    // Tasted: acrid, sweet, bitter. MASI (Passonneau, LREC 2006): two of three in common, one contained in the other:
    // 1 - 2/3 · 2/3; one of three: 1 - 1/3 · 2/3.
    let json = against("bohe", &[]);
    let stands = json["sides"]["flavours"].as_array().unwrap();
    let distances: Vec<f64> = stands
        .iter()
        .map(|one| one["distance"].as_f64().unwrap())
        .collect();
    assert_eq!(distances.len(), 2);
    assert!((distances[0] - 5.0 / 9.0).abs() < 1e-12 && (distances[1] - 7.0 / 9.0).abs() < 1e-12);
    let felt: Vec<&Value> = json["sides"]["natures"]
        .as_array()
        .unwrap()
        .iter()
        .collect();
    let side = felt.iter().find(|one| one["felt"] == true).unwrap();
    assert_eq!(side["side"], "cold");
    assert!(
        side["works"]
            .as_array()
            .unwrap()
            .contains(&"bencao-beiyao".into())
    );
}

#[test]
fn what_was_varied_is_set_side_by_side_with_its_numbers_and_what_else_differs() {
    let json = against("bohe", &[]);
    let changes = json["changes"].as_array().unwrap();
    let amount = changes
        .iter()
        .find(|one| one["varied"] == "amount")
        .unwrap();
    let groups: Vec<(&str, u64)> = amount["groups"]
        .as_array()
        .unwrap()
        .iter()
        .map(|one| (one["value"].as_str().unwrap(), one["n"].as_u64().unwrap()))
        .collect();
    assert_eq!(groups, [("2 g", 1), ("3 g", 3), ("6 g", 2)]);
    assert_eq!(amount["also"], json!(["hours", "lot"]));
    let acrid = &amount["groups"][1]["figures"][0];
    assert_eq!(
        (
            &acrid["n"],
            &acrid["median"],
            &acrid["lowest"],
            &acrid["highest"]
        ),
        (&json!(3), &json!(6.5), &json!(5.0), &json!(7.0))
    );
    // One taster alone varied the amount together with hours and lot; nothing is made of what has one value.
    let one = against("bohe", &["--taster", "B"]);
    assert_eq!(one["changes"], json!([]));
    assert_eq!(one["own"]["tastings"], 1);
}

#[test]
fn own_tastings_are_the_last_row_and_never_counted() {
    for command in ["compare", "profile"] {
        let without = kaoyi(&[command, "bohe", "--json"]).json();
        let mut with = kaoyi(&[command, "bohe", "--notebook", NOTEBOOK, "--json"]).json();
        assert_eq!(without["own"], Value::Null);
        assert_eq!(with["own"]["tastings"], 6);
        with["own"] = Value::Null;
        assert_eq!(with, without, "{command}");
    }
    let run = kaoyi(&["compare", "bohe", "--notebook", NOTEBOOK]);
    let rows: Vec<&str> = run.out.lines().collect();
    let own = rows
        .iter()
        .position(|row| row.contains("6 own tastings"))
        .unwrap();
    assert!(rows[own - 1].contains("本草求真"), "{}", rows[own - 1]);
    assert!(rows[own + 1].contains("(not counted)"), "{}", rows[own + 1]);
}

#[test]
fn pages_with_own_tastings_keep_their_width() {
    for arguments in [
        &["taste", "against", "bohe"][..],
        &["taste", "against", "juhua", "--script", "hans"],
        &["compare", "juhua"],
        &["profile", "bohe"],
        &["pair", "薄荷=3g", "菊花=6g", "--tasted"],
    ] {
        let run = kaoyi(&[arguments, &["--notebook", NOTEBOOK]].concat());
        let wide: Vec<&str> = run.out.lines().filter(|line| line.width() > 80).collect();
        assert_eq!(wide, Vec::<&str>::new());
        assert!(run.out.contains("prescribes nothing"), "{}", run.out);
    }
}

fn notebook(tastings: &[(&str, &str)]) -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    for (name, tasting) in tastings {
        fs::write(folder.path().join(name), tasting).unwrap();
    }
    folder
}

fn pair(folder: &Path, herbs: &[&str]) -> Value {
    let asked = ["--tasted", "--notebook", text(folder), "--json"];
    kaoyi(&[&["pair"], herbs, &asked].concat()).json()
}

#[test]
fn a_pair_by_the_own_tongue_takes_its_scores_in_place_of_the_books() {
    // Invented: 薄荷 acrid 6, sweet 2 (three quarters and one quarter), warmth -2 of 5; licorice was not tasted.
    let folder = notebook(&[(
        "mint.yaml",
        "herb: 薄荷\ndate: 2026-03-07\ntaster: A\nscores: {flavours: {acrid: 6, sweet: 2}, warmth: -2}\n",
    )]);
    let alone = pair(folder.path(), &["薄荷=3g"]);
    let share = |json: &Value, id: &str| {
        let all = json["flavours"].as_array().unwrap();
        let found = all.iter().find(|one| one["value"]["id"] == id);
        found.unwrap()["share"].as_f64().unwrap()
    };
    assert!((share(&alone, "acrid") - 0.75).abs() < 1e-12);
    assert!((alone["nature"]["place"].as_f64().unwrap() + 0.4).abs() < 1e-12);
    // All books call licorice sweet: 3 g of ¾ acrid and ¼ sweet with 1 g sweet.
    let both = pair(folder.path(), &["薄荷=3g", "甘草=1g"]);
    assert!((share(&both, "acrid") - 2.25 / 4.0).abs() < 1e-12);
    assert!((share(&both, "sweet") - 1.75 / 4.0).abs() < 1e-12);
    assert_eq!(
        both["herbs"][0]["tasted"],
        json!({"tastings": 1, "flavour": 1, "warmth": 1})
    );
    assert_eq!(both["herbs"][1]["tasted"], Value::Null);
}

#[test]
fn what_the_tongue_left_unsaid_is_taken_from_the_books() {
    let folder = notebook(&[(
        "mint.yaml",
        "herb: bohe\ndate: 2026-03-07\nscores: {aroma: 8, warmth: 1}\n",
    )]);
    let by_tongue = pair(folder.path(), &["薄荷=3g"]);
    let by_books = kaoyi(&["pair", "薄荷=3g", "--json"]).json();
    assert_eq!(by_tongue["flavours"], by_books["flavours"]);
    assert!((by_tongue["nature"]["place"].as_f64().unwrap() - 0.2).abs() < 1e-12);
}

#[test]
fn a_faulty_record_is_told_and_the_rest_is_used() {
    let folder = notebook(&[
        (
            "good.yaml",
            "herb: bohe\ndate: 2026-03-07\nscores: {flavours: {acrid: 6}}\n",
        ),
        (
            "bad.yaml",
            "herb: bohe\ndate: 2026-03-07\nscores: {flavours: {acrid: 60}}\n",
        ),
    ]);
    let run = kaoyi(&[
        "taste",
        "against",
        "bohe",
        "--notebook",
        text(folder.path()),
    ]);
    assert_eq!(run.code, 1);
    assert!(run.err.contains("1 fault"), "{}", run.err);
    assert!(run.out.contains("1 own tasting"), "{}", run.out);
    let json = kaoyi(&[
        "compare",
        "bohe",
        "--notebook",
        text(folder.path()),
        "--json",
    ])
    .json();
    assert_eq!(json["own"]["tastings"], 1);
}

#[test]
fn without_tastings_it_says_so_and_names_the_next_step() {
    let run = kaoyi(&["taste", "against", "gancao", "--notebook", NOTEBOOK]);
    assert_eq!((run.code, run.out.as_str()), (2, ""));
    assert!(run.err.contains("kaoyi taste add"), "{}", run.err);
    let run = kaoyi(&["compare", "bohe", "--notebook", "no/such/folder"]);
    assert_eq!(run.code, 2);
    assert!(run.err.contains("no/such/folder"), "{}", run.err);
}
