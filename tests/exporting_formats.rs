//! TEI, JSON-LD, bibliographies and the workbook: whole, linked within themselves, and safe from what texts contain.

use std::collections::{BTreeMap, BTreeSet};
use std::io::{Cursor, Read};

use crate::exporting::{HOSTILE, hostile};
use crate::support::{kaoyi, text};
use biblatex::{Bibliography, ChunksExt};
use pretty_assertions::assert_eq;
use serde_json::Value;

fn export(format: &str, herbs: &[&str]) -> String {
    let run = kaoyi(&[&["export", format], herbs].concat());
    assert_eq!(run.code, 0, "{}", run.err);
    run.out
}

fn hostile_export(format: &str) -> String {
    let folder = hostile();
    export(format, &["circle-leaf", "--corpus", text(folder.path())])
}

fn named<'d>(document: &'d roxmltree::Document<'_>, name: &str) -> Vec<roxmltree::Node<'d, 'd>> {
    let all = document.root().descendants();
    all.filter(|node| node.tag_name().name() == name).collect()
}

#[test]
fn the_apparatus_has_the_readings_that_compare_has() {
    let tei = export("tei", &["bohe"]);
    let document = roxmltree::Document::parse(&tei).unwrap();
    let compared = kaoyi(&["compare", "bohe", "--json"]).json();
    for facet in ["flavour", "nature", "toxicity", "grade", "channel"] {
        let mut wanted: BTreeMap<BTreeSet<String>, BTreeSet<String>> = BTreeMap::new();
        for row in compared["witnesses"].as_array().unwrap() {
            let Some(stand) = row["stands"]
                .get(facet)
                .filter(|stand| !stand["line"].is_null())
            else {
                continue;
            };
            let values = stand["values"].as_array().unwrap().iter();
            let values = values.map(|value| format!("#{facet}.{}", value["id"].as_str().unwrap()));
            wanted
                .entry(values.collect())
                .or_default()
                .insert(format!("#work.{}", row["work"].as_str().unwrap()));
        }
        let apps = named(&document, "app").into_iter();
        let app = apps.into_iter().find(|app| {
            app.attributes()
                .any(|one| one.value() == format!("app.bohe.{facet}"))
        });
        let split = |node: &roxmltree::Node<'_, '_>, name: &str| -> BTreeSet<String> {
            node.attribute(name)
                .unwrap()
                .split(' ')
                .map(str::to_owned)
                .collect()
        };
        let mut found = BTreeMap::new();
        for node in app.into_iter().flat_map(|app| app.children()) {
            if ["rdg", "lem"].contains(&node.tag_name().name()) && node.attribute("type").is_none()
            {
                found.insert(split(&node, "ana"), split(&node, "wit"));
                let unanimous = wanted.len() == 1 && wanted.values().all(|works| works.len() > 1);
                assert_eq!(node.tag_name().name() == "lem", unanimous, "{facet}");
            }
        }
        assert_eq!(found, wanted, "{facet}");
    }
}

#[test]
fn every_pointer_of_the_apparatus_leads_to_an_id_that_is_there_once() {
    let tei = export("tei", &["bohe", "fuzi", "juhua"]);
    let document = roxmltree::Document::parse(&tei).unwrap();
    let mut ids = BTreeSet::new();
    for node in document.root().descendants() {
        for one in node.attributes().filter(|one| one.name() == "id") {
            assert!(ids.insert(format!("#{}", one.value())), "{}", one.value());
        }
    }
    for node in document.root().descendants() {
        for name in ["wit", "ana", "source", "target"] {
            let value = node.attribute(name).unwrap_or_default();
            let pointers = value.split(' ').filter(|one| one.starts_with('#'));
            assert!(pointers.into_iter().all(|one| ids.contains(one)), "{value}");
        }
    }
    assert!(tei.contains("aconitine") && tei.contains("prescribes nothing"));
}

#[test]
fn hostile_text_is_text_in_tei() {
    let tei = hostile_export("tei");
    let document = roxmltree::Document::parse(&tei).unwrap();
    assert!(named(&document, "script").is_empty() && named(&document, "b").is_empty());
    let terms: Vec<&str> = named(&document, "term")
        .iter()
        .filter_map(|node| node.text())
        .collect();
    assert_eq!(terms[0], HOSTILE);
    let wording = named(&document, "seg")
        .into_iter()
        .find(|node| node.attribute("type") == Some("wording"));
    assert_eq!(
        wording.unwrap().text(),
        Some("=1+1 <b>\"'{}\\&\u{fffd}"),
        "XML has no sign for U+0001"
    );
}

#[test]
fn linked_data_says_who_asserts_and_through_whom() {
    let document: Value = serde_json::from_str(&export("jsonld", &["bohe"])).unwrap();
    let nodes: BTreeMap<&str, &Value> = document["@graph"]
        .as_array()
        .unwrap()
        .iter()
        .map(|node| (node["@id"].as_str().unwrap(), node))
        .collect();
    assert_eq!(nodes.len(), document["@graph"].as_array().unwrap().len());
    // 千金方 on mint is known through 本草綱目 alone: `kaoyi compare bohe --facet nature` in README shows it.
    let claim = nodes["urn:x-kaoyi:claim:bohe/bencao-gangmu/544/2/nature/neutral"];
    assert_eq!(claim["attributedTo"], "urn:x-kaoyi:work:qianjin-fang");
    assert_eq!(claim["quotedFrom"], "urn:x-kaoyi:work:bencao-gangmu");
    assert_eq!(
        claim["through"],
        serde_json::json!(["urn:x-kaoyi:work:bencao-gangmu"])
    );
    let context = document["@context"].as_object().unwrap();
    for node in nodes.values() {
        for key in node
            .as_object()
            .unwrap()
            .keys()
            .filter(|key| !key.starts_with('@'))
        {
            assert!(
                context.contains_key(key),
                "{key} has no meaning in the context"
            );
        }
        for link in ["attributedTo", "quotedFrom", "through", "about"] {
            let ids = match &node[link] {
                Value::Array(ids) => ids.clone(),
                Value::Null => continue,
                one => vec![one.clone()],
            };
            assert!(
                ids.iter()
                    .all(|id| nodes.contains_key(id.as_str().unwrap())),
                "{node}"
            );
        }
    }
}

#[test]
fn hostile_text_is_text_in_linked_data() {
    let document: Value = serde_json::from_str(&hostile_export("jsonld")).unwrap();
    let nodes = document["@graph"].as_array().unwrap();
    let herb = nodes.iter().find(|node| node["@type"] == "Herb").unwrap();
    assert_eq!(herb["label"][0]["@value"], HOSTILE);
    for node in nodes {
        let id = node["@id"].as_str().unwrap();
        let plain = |sign: char| sign.is_ascii_alphanumeric() || ":/-%".contains(sign);
        assert!(id.chars().all(plain), "{id}");
    }
}

/// The fields of a work in the bibliography of all works.
fn bibliography() -> Bibliography {
    Bibliography::parse(&export("bibtex", &[])).unwrap()
}

#[test]
fn the_bibliography_is_read_by_a_library_and_names_every_work() {
    let read = bibliography();
    let corpus = kaoyi::corpus::embedded().unwrap();
    let keys: Vec<&str> = read.iter().map(|entry| entry.key.as_str()).collect();
    assert_eq!(
        keys,
        corpus
            .works()
            .iter()
            .map(|work| work.id.as_str())
            .collect::<Vec<_>>()
    );
    for (entry, work) in read.iter().zip(corpus.works()) {
        let title = entry.title().unwrap().format_verbatim();
        assert_eq!(
            title,
            format!("{} {} [{}]", work.pinyin, work.hant, work.english)
        );
        assert!(entry.date().is_ok(), "{}", work.id);
    }
    let authors = |key: &str| -> Vec<String> {
        let people = read.get(key).unwrap().author().unwrap_or_default();
        people.into_iter().map(|one| one.name).collect()
    };
    assert_eq!(
        authors("bencao-gangmu"),
        ["Li Shizhen"],
        "whole: which part is the family's is not recorded"
    );
    assert_eq!(authors("shiliao-bencao"), ["Meng Shen", "Zhang Ding"]);
    assert_eq!(authors("xinxiu-bencao"), ["Su Jing", "others"]);
    assert_eq!(authors("mingyi-bielu"), [""; 0], "unknown");
}

#[test]
fn dates_are_written_as_their_formats_count_years() {
    let text = export("bibtex", &[]);
    // ISO 8601-2:2019 (from memory): the year 0 is 1 BC, ~ means approximate, .. an open beginning.
    for (key, date) in [
        ("su-wen", "-0099~/0200~"),
        ("xinxiu-bencao", "0659"),
        ("bencao-gangmu", "1578/1596"),
        ("leigong", "../0239~"),
    ] {
        let entry = text
            .split("\n\n")
            .find(|one| one.contains(&format!("{{{key},")))
            .unwrap();
        assert!(entry.contains(&format!("  date = {{{date}}},")), "{entry}");
    }
    let items: Value = serde_json::from_str(&export("csl", &[])).unwrap();
    let issued = |id: &str| {
        let mut items = items.as_array().unwrap().iter();
        items.find(|item| item["id"] == id).unwrap()["issued"].clone()
    };
    // CSL 1.0.2 (from memory): negative years without a year 0, `circa` for rough dates.
    assert_eq!(
        issued("su-wen"),
        serde_json::json!({"date-parts": [[-100], [200]], "circa": true})
    );
    assert_eq!(
        issued("xinxiu-bencao"),
        serde_json::json!({"date-parts": [[659]]})
    );
    assert_eq!(
        issued("leigong"),
        serde_json::json!({"date-parts": [[239]], "circa": true, "literal": "by 239"})
    );
}

#[test]
fn hostile_text_is_text_in_the_bibliography() {
    let text = hostile_export("bibtex");
    let read = Bibliography::parse(&text).unwrap();
    assert_eq!(
        read.iter()
            .map(|entry| entry.key.as_str())
            .collect::<Vec<_>>(),
        ["circle-notes"],
        "{text}"
    );
    assert!(!text.contains("{\\input") && !text.contains('\u{1}'));
    let (open, close) = (text.matches('{').count(), text.matches('}').count());
    assert_eq!(open, close, "braces that BibTeX counts");
    let items: Value = serde_json::from_str(&hostile_export("csl")).unwrap();
    assert_eq!(items[0]["title-short"], HOSTILE);
    // -44 to 1: from 44 BC to AD 1.
    assert!(text.contains("date = {-0043~/0001~}"), "{text}");
}

#[test]
fn works_that_the_herbs_do_not_name_are_left_out() {
    let items: Value = serde_json::from_str(&export("csl", &["bohe", "--until", "700"])).unwrap();
    let ids: Vec<&str> = items
        .as_array()
        .unwrap()
        .iter()
        .map(|item| item["id"].as_str().unwrap())
        .collect();
    assert!(
        ids.contains(&"xinxiu-bencao") && ids.contains(&"bencao-gangmu"),
        "the carrier too: {ids:?}"
    );
    assert!(!ids.contains(&"bencao-beiyao"), "{ids:?}");
}

/// The files of a workbook.
fn workbook(args: &[&str]) -> BTreeMap<String, String> {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("book.xlsx");
    let run = kaoyi(&[&["export", "xlsx", "-o", text(&path)], args].concat());
    assert_eq!(run.code, 0, "{}", run.err);
    let mut archive = zip::ZipArchive::new(Cursor::new(std::fs::read(&path).unwrap())).unwrap();
    let mut files = BTreeMap::new();
    for place in 0..archive.len() {
        let mut file = archive.by_index(place).unwrap();
        let name = file.name().unwrap().into_owned();
        let mut text = String::new();
        file.read_to_string(&mut text).unwrap();
        files.insert(name, text);
    }
    files
}

#[test]
fn no_cell_of_the_workbook_is_a_formula_or_a_link() {
    let folder = hostile();
    let files = workbook(&["circle-leaf", "--corpus", text(folder.path())]);
    let sheets: Vec<&String> = files
        .iter()
        .filter(|(name, _)| name.contains("worksheets/"))
        .map(|(_, text)| text)
        .collect();
    assert_eq!(sheets.len(), 5);
    let mut texts = Vec::new();
    for sheet in sheets {
        let document = roxmltree::Document::parse(sheet).unwrap();
        assert!(named(&document, "f").is_empty() && named(&document, "hyperlink").is_empty());
        texts.extend(
            named(&document, "t")
                .iter()
                .filter_map(|node| node.text())
                .map(str::to_owned),
        );
    }
    assert!(
        texts.iter().any(|text| text == HOSTILE),
        "as it is, without an apostrophe: {texts:?}"
    );
    assert!(texts.iter().any(|text| text.contains("prescribes nothing")));
}

#[test]
fn the_matrix_marks_the_witnesses_that_state_a_flavour() {
    let files = workbook(&["bohe"]);
    let sheet = roxmltree::Document::parse(&files["xl/worksheets/sheet4.xml"]).unwrap();
    let mut marks = BTreeMap::new();
    for row in named(&sheet, "row").into_iter().skip(1) {
        let cells: Vec<&str> = row
            .descendants()
            .filter(|node| node.tag_name().name() == "t")
            .filter_map(|node| node.text())
            .collect();
        let marked = cells.iter().filter(|cell| cell.starts_with('×')).count();
        marks.insert(cells[2].to_owned(), marked);
    }
    let compared = kaoyi(&["compare", "bohe", "--json"]).json();
    let mut wanted = BTreeMap::new();
    for row in compared["witnesses"].as_array().unwrap() {
        let stand = &row["stands"]["flavour"];
        for value in stand["values"]
            .as_array()
            .into_iter()
            .flatten()
            .filter(|_| !stand["line"].is_null())
        {
            *wanted
                .entry(value["english"].as_str().unwrap().to_owned())
                .or_insert(0) += 1;
        }
    }
    assert_eq!(marks, wanted);
}
