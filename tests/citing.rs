//! How the corpus and its claims are cited.

use std::fs;

use crate::exporting::{HOSTILE, hostile};
use crate::support::{kaoyi, root, text};
use biblatex::Bibliography;
use pretty_assertions::assert_eq;
use serde_json::Value;

const CLAIM: &str = "bohe/bencao-gangmu/544/2/nature/neutral";

#[test]
fn the_corpus_is_cited_by_version_date_and_key() {
    let view = kaoyi(&["cite", "--json"]).json();
    let corpus = &view["corpus"];
    let key = corpus["key"].as_str().unwrap();
    let citation = corpus["citation"].as_str().unwrap();
    for part in [
        env!("CARGO_PKG_VERSION"),
        corpus["date"].as_str().unwrap(),
        &key[..16],
    ] {
        assert!(citation.contains(part), "{citation}: {part}");
    }
    assert!(kaoyi(&["cite"]).out.contains(key));
}

#[test]
fn a_claim_is_cited_with_its_work_its_section_and_who_carries_it() {
    let run = kaoyi(&["cite", CLAIM]);
    let words = run.out.split_whitespace().collect::<Vec<_>>().join(" ");
    for part in [
        "Sun Simiao",
        "千金方",
        "c. 650–682",
        "quoted in Li Shizhen",
        "本草綱目",
        "no. 544",
        "思邈曰",
        CLAIM,
        "prescribes nothing",
    ] {
        assert!(words.contains(part), "{part}: {words}");
    }
    assert!(run.out.contains("1 claim in 1 saying"), "{}", run.out);
}

#[test]
fn the_beginning_of_an_id_names_all_claims_under_it() {
    let under = |word: &str| -> Vec<String> {
        let view = kaoyi(&["cite", word, "--json"]).json();
        let sayings = view["citations"].as_array().unwrap().clone();
        let claims = sayings
            .iter()
            .flat_map(|one| one["claims"].as_array().unwrap());
        claims
            .map(|claim| claim["claim"].as_str().unwrap().to_owned())
            .collect()
    };
    let saying = under("薄荷/bencao-gangmu/544/2");
    let end = |id: &str| format!("bohe/bencao-gangmu/544/2/{id}");
    assert_eq!(
        saying,
        [
            end("flavour/bitter"),
            end("flavour/acrid"),
            end("nature/neutral")
        ]
    );
    let table = kaoyi(&["export", "csv", "bohe"]).out;
    assert_eq!(under("bohe").len(), table.lines().count() - 1);
    let run = kaoyi(&["cite", "bohe/bencao-gangmu/54"]);
    assert_eq!(run.code, 2, "54 is no article though 544 begins with it");
}

#[test]
fn an_id_that_is_none_is_told_with_the_nearest() {
    let run = kaoyi(&["cite", "bohe/bencao-gangmu/544/2/nature/neutrale"]);
    assert_eq!(run.code, 2);
    assert!(run.err.contains(CLAIM), "{}", run.err);
    let run = kaoyi(&["cite", "bohe/nowhere"]);
    assert!(
        run.code == 2 && run.err.contains("bohe/xinxiu-bencao"),
        "{}",
        run.err
    );
    assert_eq!(kaoyi(&["cite", "bohee/xinxiu-bencao"]).code, 2);
}

#[test]
fn citations_are_read_by_a_library_as_entries_of_a_bibliography() {
    let run = kaoyi(&["cite", CLAIM, "--bibtex"]);
    let read = Bibliography::parse(&run.out).unwrap();
    let keys: Vec<&str> = read.iter().map(|entry| entry.key.as_str()).collect();
    assert_eq!(keys, ["kaoyi", "qianjin-fang", "bencao-gangmu", CLAIM]);
    assert!(run.err.contains("prescribes nothing"));
    let items: Value = serde_json::from_str(&kaoyi(&["cite", CLAIM, "--csl"]).out).unwrap();
    let ids: Vec<&str> = items
        .as_array()
        .unwrap()
        .iter()
        .map(|item| item["id"].as_str().unwrap())
        .collect();
    assert_eq!(ids, keys);
    assert_eq!(
        items[3]["container-title"],
        "Běncǎo gāngmù 本草綱目 [Systematic Materia Medica]"
    );
    assert_eq!(items[3]["author"][0]["literal"], "Sun Simiao");
}

#[test]
fn the_json_passes_its_schema_and_carries_the_cautions() {
    let view = kaoyi(&["cite", "fuzi", "--until", "500", "--json"]).json();
    let schema = fs::read_to_string(root().join("schema/output/cite.schema.json")).unwrap();
    let schema = jsonschema::validator_for(&serde_json::from_str(&schema).unwrap()).unwrap();
    assert!(schema.is_valid(&view));
    assert!(
        view["heed"]["fuzi"]["cautions"]
            .to_string()
            .contains("aconitine")
    );
    assert!(
        kaoyi(&["cite", "fuzi", "--until", "500"])
            .out
            .contains("aconitine")
    );
}

#[test]
fn hostile_text_is_cited_as_text() {
    let folder = hostile();
    let args = ["cite", "circle-leaf", "--corpus", text(folder.path())];
    let run = kaoyi(&[&args[..], &["--bibtex"]].concat());
    let read = Bibliography::parse(&run.out).unwrap();
    let keys: Vec<&str> = read.iter().map(|entry| entry.key.as_str()).collect();
    let saying = "circle-leaf/circle-notes/0";
    assert_eq!(
        keys,
        [
            "kaoyi",
            "circle-notes",
            &format!("{saying}/1"),
            &format!("{saying}/2/nature/warm")
        ]
    );
    assert!(!run.out.contains("{\\input"));
    let page = kaoyi(&args).out;
    assert!(!page.contains(['\u{1}', '\u{7}', '\u{202e}']), "{page:?}");
    let view = kaoyi(&[&args[..], &["--json"]].concat()).json();
    assert_eq!(view["works"][0]["title"], HOSTILE);
    assert_eq!(
        view["corpus"]["date"],
        Value::Null,
        "of a user's folder no date is known"
    );
}
