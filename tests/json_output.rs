//! JSON: one document, true to its schema, for answers and for errors.

use crate::support::{herbs_of_every_kind, kaoyi, root};
use pretty_assertions::assert_eq;
use serde_json::Value;

/// The schema of a command's output, closed: an object may have no property that it does not name, so
/// that any silent addition fails here.
fn closed_schema(name: &str) -> Value {
    let path = root()
        .join("schema/output")
        .join(format!("{name}.schema.json"));
    let mut schema: Value = serde_json::from_str(&std::fs::read_to_string(path).unwrap()).unwrap();
    close(&mut schema);
    schema
}

fn close(schema: &mut Value) {
    match schema {
        Value::Object(map) => {
            if map.contains_key("properties") {
                map.insert("additionalProperties".to_owned(), Value::Bool(false));
            }
            map.values_mut().for_each(close);
        }
        Value::Array(items) => items.iter_mut().for_each(close),
        _ => {}
    }
}

fn assert_valid(name: &str, document: &Value) {
    let validator = jsonschema::validator_for(&closed_schema(name)).unwrap();
    let errors: Vec<String> = validator
        .iter_errors(document)
        .map(|error| format!("{} at {}", error, error.instance_path()))
        .collect();
    assert_eq!(errors, Vec::<String>::new(), "{name}");
}

#[test]
fn every_command_writes_what_its_schema_says_for_herbs_of_every_kind() {
    for herb in herbs_of_every_kind() {
        assert_valid("compare", &kaoyi(&["compare", &herb, "--json"]).json());
        assert_valid("profile", &kaoyi(&["profile", &herb, "--json"]).json());
        assert_valid(
            "is",
            &kaoyi(&[
                "is", &herb, "sweet", "warm", "toxic", "lung", "ascends", "--json",
            ])
            .json(),
        );
    }
    assert_valid("check", &kaoyi(&["check", "--json"]).json());
    assert_valid("state", &kaoyi(&["check", "--report", "--json"]).json());
    let class = "docs/examples/class/scores.csv";
    for herb in ["bohe", "juhua"] {
        let panel = kaoyi(&["taste", "panel", class, "--herb", herb, "--json"]);
        assert_valid("taste-panel", &panel.json());
    }
    let form = ["taste", "form", "bohe", "juhua", "--tasters", "3", "--json"];
    assert_valid("taste-form", &kaoyi(&form).json());
    let plan = ["taste", "plan", "bohe", "--from", "2027-01-04", "--json"];
    assert_valid("taste-plan", &kaoyi(&plan).json());
    assert_valid("disputes", &kaoyi(&["disputes", "--json"]).json());
    assert_valid("affinity", &kaoyi(&["affinity", "--json"]).json());
    for words in ["辛凉", "薄荷"] {
        assert_valid("find", &kaoyi(&["find", words, "--json"]).json());
        let best = kaoyi(&["find", words, "--best", "5", "--json"]);
        assert_valid("best", &best.json());
        assert_valid("name", &kaoyi(&["name", words, "--json"]).json());
    }
    for words in [
        &["3 liang"][..],
        &["1 sheng"],
        &["芍藥=四兩", "gancao=4 liang", "--daily", "9"],
    ] {
        let run = kaoyi(&[&["weigh", "--json"], words].concat());
        assert_valid("weigh", &run.json());
    }
    assert_valid("works", &kaoyi(&["works", "--json"]).json());
    assert_valid("work", &kaoyi(&["works", "時珍", "--json"]).json());
    assert_valid("check", &kaoyi(&["check", "nowhere", "--json"]).json());
}

#[test]
fn tastings_are_written_as_their_schemas_say() {
    let example = ["--notebook", "docs/examples/notebook", "--json"];
    let list = kaoyi(&[&["taste", "list"], &example[..]].concat()).json();
    assert_valid("tastings", &list);
    for one in list["tastings"].as_array().unwrap() {
        let show = ["taste", "show", one["id"].as_str().unwrap()];
        assert_valid("tasting", &kaoyi(&[&show, &example[..]].concat()).json());
    }
}

#[test]
fn every_work_that_a_document_names_is_in_its_list_of_works() {
    let document = kaoyi(&["compare", "juhua", "--json"]).json();
    let works: Vec<&str> = document["works"]
        .as_array()
        .unwrap()
        .iter()
        .map(|work| work["id"].as_str().unwrap())
        .collect();
    let rows = document["witnesses"].as_array().unwrap();
    let sides = document["differences"]
        .as_array()
        .unwrap()
        .iter()
        .flat_map(|one| one["sides"].as_array().unwrap());
    let named = rows.iter().map(|row| row["work"].as_str().unwrap());
    let named = named.chain(
        sides
            .flat_map(|side| side["witnesses"].as_array().unwrap())
            .map(|id| id.as_str().unwrap()),
    );
    for work in named {
        assert!(works.contains(&work), "{work}");
    }
}

#[test]
fn every_answer_about_an_herb_carries_cautions_and_the_notice() {
    for args in [
        vec!["compare", "fuzi"],
        vec!["profile", "fuzi"],
        vec!["is", "fuzi", "toxic"],
    ] {
        let mut json = args.clone();
        json.push("--json");
        let document = kaoyi(&json).json();
        assert!(
            !document["cautions"].as_array().unwrap().is_empty(),
            "{args:?}"
        );
        assert!(
            document["notice"].as_str().unwrap().contains("licensed"),
            "{args:?}"
        );
        let text = kaoyi(&args).out;
        assert!(
            text.contains("aconitine") && text.contains("prescribes nothing"),
            "{args:?}"
        );
    }
}

#[test]
fn errors_are_json_too() {
    let run = kaoyi(&["compare", "bohee", "--json"]);
    let error: Value = serde_json::from_str(&run.err).unwrap();
    assert_eq!((run.out.as_str(), run.code), ("", 2));
    assert_eq!(error["format"], "kaoyi.error/1");
    assert!(error["candidates"][0].as_str().unwrap().starts_with("bohe"));
}

#[test]
fn a_misuse_of_the_command_line_is_json_too() {
    let run = kaoyi(&["compare", "--json"]);
    let error: Value = serde_json::from_str(&run.err).unwrap();
    assert_eq!(
        (error["format"].as_str(), run.code),
        (Some("kaoyi.error/1"), 2)
    );
}

#[test]
fn json_is_never_coloured() {
    let run = kaoyi(&["compare", "bohe", "--json", "--color", "always"]);
    assert!(!run.out.contains('\u{1b}'));
}

#[test]
fn flags_that_do_not_fit_json_are_refused() {
    for flag in ["--wide", "--evidence"] {
        let run = kaoyi(&["compare", "bohe", "--json", flag]);
        assert_eq!(run.code, 2, "{flag}");
    }
}
