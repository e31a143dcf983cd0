//! Tables of claims: columns, ids, round trip, what a spreadsheet must not run.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;

use crate::support::{kaoyi, root, text};
use kaoyi::corpus::{Corpus, embedded};
use kaoyi::report::export::{CLAIMS, HERBS, Type, WORKS, guarded, unguarded};
use kaoyi::report::view::{ClaimsOf, Labels};
use kaoyi::text::{Converter, Script};
use pretty_assertions::assert_eq;
use proptest::prelude::*;
use serde_json::Value;

/// Words that mean something in some format: markup, formulas, TeX, JSON, control characters.
pub const HOSTILE: &str =
    r#"=cmd()|'/C calc'!A0 <script>alert("x")</script> & {\input{x}} \" ]]> % $ # _ ~ ^"#;

/// A folder with an herb and a work whose every text is hostile. The study circle of the teaching garden and its leaf are invented.
pub fn hostile() -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    let write = |name: &str, value: &Value| {
        let path = folder.path().join(name);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, serde_json::to_string(value).unwrap()).unwrap();
    };
    let work = serde_json::json!({
        "id": "circle-notes", "title": {"hant": HOSTILE, "pinyin": format!("+{HOSTILE}"), "english": format!("@{HOSTILE}")},
        "author": format!("A, {HOSTILE}"), "kind": "extant", "date": {"from": -44, "to": 1, "about": true},
        "note": format!("-{HOSTILE}\u{1}\u{7}"),
    });
    write("works/circle-notes.yaml", &work);
    let short = "=1+1 <b>\"'{}\\&\u{1}";
    let herb = serde_json::json!({
        "id": "circle-leaf",
        "names": {"hant": HOSTILE, "hans": HOSTILE, "pinyin": HOSTILE, "latin": HOSTILE, "english": format!("'{HOSTILE}")},
        "note": format!("line\r\nbreak\ttab {HOSTILE}"),
        "entries": [{
            "work": "circle-notes", "status": "read", "at": {"section": short, "heading": HOSTILE},
            "sayings": [
                {"flavour": ["sweet", {"bitter": "slight"}], "wording": short, "doubt": HOSTILE},
                {"scope": {"kind": short}, "nature": "warm", "wording": "\u{feff}\u{202e}=2"},
            ],
        }],
    });
    write("herbs/circle-leaf.yaml", &herb);
    folder
}

pub fn rows(table: &str) -> Vec<BTreeMap<String, String>> {
    let mut reader = csv::Reader::from_reader(table.as_bytes());
    reader.deserialize().map(Result::unwrap).collect()
}

/// A claim's cells, as they must be read back.
fn cells(corpus: &Corpus, herb: &str) -> Vec<BTreeMap<String, String>> {
    let script = Converter::new(Script::Recorded).unwrap();
    let labels = Labels::new(corpus, &script);
    let kaoyi::corpus::Lookup::One(id) = corpus.find_herb(herb) else {
        panic!("{herb}")
    };
    let claims = ClaimsOf::new(&labels, corpus.herb(id).unwrap()).all(&Default::default());
    let row = |claim| {
        CLAIMS
            .iter()
            .map(|one| (one.name.to_owned(), (one.of)(claim)))
            .collect()
    };
    claims.iter().map(row).collect()
}

#[test]
fn what_is_read_back_from_csv_is_what_was_written() {
    let corpus = embedded().unwrap();
    for herb in ["bohe", "juhua", "fuzi", "huanglian"] {
        let run = kaoyi(&["export", "csv", herb]);
        assert_eq!(rows(&run.out), cells(&corpus, herb), "{herb}");
        assert!(run.err.contains("prescribes nothing"), "{}", run.err);
    }
}

#[test]
fn csv_ends_its_lines_as_rfc_4180_says() {
    let run = kaoyi(&["export", "csv", "bohe"]);
    assert_eq!(
        run.out.matches('\n').count(),
        run.out.matches("\r\n").count()
    );
    assert!(run.out.ends_with("\r\n") && !run.out.starts_with('\u{feff}'));
}

#[test]
fn a_line_of_ndjson_has_the_columns_of_csv_and_passes_its_schema() {
    let run = kaoyi(&["export", "ndjson", "fuzi", "--until", "700"]);
    let schema = fs::read_to_string(root().join("schema/output/claim.schema.json")).unwrap();
    let schema = jsonschema::validator_for(&serde_json::from_str(&schema).unwrap()).unwrap();
    let columns: BTreeSet<&str> = CLAIMS.iter().map(|column| column.name).collect();
    let table = rows(&kaoyi(&["export", "csv", "fuzi", "--until", "700"]).out);
    assert_eq!(run.out.lines().count(), table.len());
    for (line, row) in run.out.lines().zip(table) {
        let claim: Value = serde_json::from_str(line).unwrap();
        assert!(schema.is_valid(&claim), "{line}");
        assert_eq!(
            claim
                .as_object()
                .unwrap()
                .keys()
                .map(String::as_str)
                .collect::<BTreeSet<_>>(),
            columns
        );
        assert_eq!(claim["claim"].as_str().unwrap(), row["claim"]);
        assert!(claim["by_to"].as_i64().unwrap() <= 700);
        assert!(
            claim["cautions"].to_string().contains("aconitine"),
            "{line}"
        );
    }
}

#[test]
fn every_claim_of_the_corpus_has_an_id_of_its_own() {
    let corpus = embedded().unwrap();
    let script = Converter::new(Script::Recorded).unwrap();
    let labels = Labels::new(&corpus, &script);
    let (mut ids, mut claims) = (BTreeSet::new(), 0);
    for herb in corpus.herbs().unwrap() {
        for claim in ClaimsOf::new(&labels, herb).all(&Default::default()) {
            claims += 1;
            let parts: Vec<&str> = claim.claim.split('/').collect();
            assert_eq!(
                (
                    parts[0],
                    parts[1],
                    parts[3],
                    parts[4],
                    parts[5],
                    parts.len()
                ),
                (
                    herb.id.as_str(),
                    claim.work.as_str(),
                    claim.saying.to_string().as_str(),
                    claim.facet.name(),
                    claim.value.as_str(),
                    6
                )
            );
            ids.insert(claim.claim);
        }
    }
    assert_eq!((ids.len(), claims), (claims, corpus.size().unwrap().1));
}

#[test]
fn a_second_article_under_one_place_has_an_id_of_its_own() {
    let folder = hostile();
    let path = folder.path().join("herbs/circle-leaf.yaml");
    let mut herb: Value = serde_json::from_str(&fs::read_to_string(&path).unwrap()).unwrap();
    let mut second = herb["entries"][0].clone();
    second["at"]["heading"] = "another".into();
    herb["entries"].as_array_mut().unwrap().push(second);
    fs::write(&path, herb.to_string()).unwrap();
    let run = kaoyi(&[
        "export",
        "csv",
        "circle-leaf",
        "--corpus",
        text(folder.path()),
    ]);
    let ids: Vec<String> = rows(&run.out)
        .into_iter()
        .map(|mut row| row.remove("claim").unwrap())
        .collect();
    let wanted = ["0/1/flavour/sweet", "0/1/flavour/bitter", "0/2/nature/warm"];
    let again = [
        "0-2/1/flavour/sweet",
        "0-2/1/flavour/bitter",
        "0-2/2/nature/warm",
    ];
    let whole: Vec<String> = wanted
        .iter()
        .chain(&again)
        .map(|id| format!("circle-leaf/circle-notes/{id}"))
        .collect();
    assert_eq!(ids, whole, "{}", run.err);
}

#[test]
fn no_cell_of_csv_begins_like_a_formula_unless_it_is_asked_for() {
    let folder = hostile();
    let args = [
        "export",
        "csv",
        "circle-leaf",
        "--corpus",
        text(folder.path()),
    ];
    let starts = |cell: &str| cell.starts_with(['=', '+', '-', '@', '\t', '\r']);
    let guarded_rows = rows(&kaoyi(&args).out);
    let raw_rows = rows(&kaoyi(&[&args[..], &["--raw"]].concat()).out);
    assert_eq!(guarded_rows.len(), 3);
    for (row, raw) in guarded_rows.iter().zip(&raw_rows) {
        for column in &CLAIMS {
            let (cell, raw) = (&row[column.name], &raw[column.name]);
            let number = column.kind != Type::Text;
            assert!(number || !starts(cell), "{}: {cell}", column.name);
            assert_eq!(
                if number { cell } else { unguarded(cell) },
                raw,
                "{}",
                column.name
            );
        }
        assert_eq!(
            (raw["hant"].as_str(), raw["by_from"].as_str()),
            (HOSTILE, "-44")
        );
    }
}

#[test]
fn the_whole_shipped_corpus_needs_no_guard_but_has_it() {
    let corpus = embedded().unwrap();
    for herb in corpus.herbs().unwrap() {
        for name in [&herb.names.hant, &herb.names.hans, &herb.names.pinyin] {
            assert_eq!(guarded(name), *name);
        }
    }
}

proptest! {
    #[test]
    fn a_guarded_text_is_given_back(text in "\\PC*|[=+@'\t\r-].*") {
        let kept = guarded(&text);
        prop_assert_eq!(unguarded(&kept), text.as_str());
    }
}

#[test]
fn the_page_on_exports_names_every_column() {
    let page = fs::read_to_string(root().join("docs/export.md")).unwrap();
    let columns = CLAIMS.iter().map(|one| (one.name, one.about));
    let columns = columns.chain(WORKS.iter().map(|one| (one.name, one.about)));
    for (name, about) in columns.chain(HERBS.iter().map(|one| (one.name, one.about))) {
        assert!(
            page.contains(&format!("| `{name}` |")) && page.contains(about),
            "{name}: {about}"
        );
    }
}
