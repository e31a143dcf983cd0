//! What is said of a drug beside other drugs: read from texts, written into records, checked, looked up both ways, shown.
//! The texts are invented; what the shipped corpus holds is stated from the editions named beside it.

use std::fs;
use std::path::Path;

use crate::support::{kaoyi, text};
use kaoyi::compare::{Relations, Ties};
use kaoyi::corpus::{Bearers, Corpus, HerbId, Lookup, RelationKind, embedded};
use kaoyi::reader::{Folder, Layout, ReadSaying, Reader, Speaker, articles};
use pretty_assertions::assert_eq;
use unicode_width::UnicodeWidthStr;

fn herb(corpus: &Corpus, name: &str) -> HerbId {
    match corpus.find_herb(name) {
        Lookup::One(herb) => herb,
        other => panic!("{name}: {other:?}"),
    }
}

fn read(work: &str, body: &str) -> Vec<ReadSaying> {
    let corpus = embedded().unwrap();
    let reader = Reader::new(&corpus).unwrap();
    let text = format!("<篇名>薄荷\n内容：{body}\n");
    let [layout, ..] = Layout::known();
    let all = articles(&text, &layout);
    let reading = reader.read(&all[0], work, &layout, &mut Folder::new());
    let sayings = reading.sayings.into_iter();
    sayings
        .filter(|saying| !saying.relations.is_empty())
        .collect()
}

/// Speaker, kind and drugs, and the doubt.
fn lines(sayings: &[ReadSaying]) -> Vec<String> {
    let line = |saying: &ReadSaying| {
        let by = match &saying.by {
            Speaker::Work => "itself",
            Speaker::Other(name) => name,
        };
        let drugs = saying
            .relations
            .iter()
            .map(|one| format!("{} {}", one.kind.id(), one.drug));
        let doubt = saying.doubt.map(|doubt| format!("; {doubt}"));
        format!(
            "{by}: {}{}",
            drugs.collect::<Vec<_>>().join(", "),
            doubt.unwrap_or_default()
        )
    };
    sayings.iter().map(line).collect()
}

#[test]
fn statements_are_given_to_whoever_has_the_word() {
    let found = read(
        "bencao-gangmu",
        "【气味】辛，温，无毒。\n之才曰：桔梗为之使。恶贯众。\n权曰：畏菊花。\n时珍曰：得酒良。\n【主治】恶疮。",
    );
    assert_eq!(
        lines(&found),
        [
            "leigong-yaodui: envoy 桔梗",
            "leigong-yaodui: averse-to 贯众",
            "yaoxing-lun: fears 菊花",
            "itself: well-with 酒"
        ]
    );
    assert_eq!(found[1].phrase, "恶贯众");
}

#[test]
fn brackets_are_the_authors_own_but_where_a_later_note_may_stand() {
    let body = "味辛，温。主头痛。生川谷。（桔梗为之使，恶贯众。）";
    assert_eq!(
        lines(&read("bencao-congxin", body)),
        ["itself: envoy 桔梗", "itself: averse-to 贯众"]
    );
    assert_eq!(
        lines(&read("mingyi-bielu", body)),
        [
            "itself: envoy 桔梗; in brackets, perhaps a later note",
            "itself: averse-to 贯众; in brackets, perhaps a later note"
        ]
    );
}

#[test]
fn a_verb_before_a_bracket_takes_the_drugs_in_it() {
    let found = read(
        "bencao-zeyao-gangmu",
        "【气味】辛温。无毒。\n【主治】头痛。 反（藜芦 甘草） 恶（贯众） 忌（铁器）",
    );
    assert_eq!(
        lines(&found),
        [
            "itself: opposes 藜芦, opposes 甘草",
            "itself: averse-to 贯众"
        ]
    );
}

#[test]
fn the_same_word_twice_is_one_statement_and_a_part_keeps_its_own() {
    let found = read(
        "bencao-congxin",
        "味辛，温。反藜芦。恶贯众。\n\\x叶\\x\n味甘，平。反藜芦。\n",
    );
    let scopes: Vec<(String, bool)> = found
        .iter()
        .map(|saying| (saying.relations[0].drug.clone(), saying.limit.is_whole()))
        .collect();
    assert_eq!(
        scopes,
        [
            ("藜芦".to_owned(), true),
            ("贯众".to_owned(), true),
            ("藜芦".to_owned(), false)
        ]
    );
    assert_eq!(
        lines(&read(
            "bencao-congxin",
            "味辛，温。反藜芦。主头痛。反藜芦。"
        )),
        ["itself: opposes 藜芦"]
    );
}

#[test]
fn names_lead_to_herbs_by_either_script_by_byname_and_by_what_the_texts_made_of_them() {
    let corpus = embedded().unwrap();
    let bearers = Bearers::new(&corpus).unwrap();
    // 玄參 and 元參 are one drug under two emperors' taboos; 浓 stands for 厚 in the plain texts (common practice, no source).
    for (name, expected) in [
        ("甘遂", "gansui"),
        ("藜蘆", "lilu"),
        ("浓朴", "houpo"),
        ("白藓", "baixianpi"),
    ] {
        assert_eq!(bearers.of(name), [herb(&corpus, expected)], "{name}");
    }
    for name in ["黄□", "园苗溪石", ""] {
        assert_eq!(bearers.of(name), [], "{name}");
    }
}

/// The eighteen oppositions as the verse in 儒門事親 (13th c.) has them, without those whose names the plain texts lost; the list is
/// common practice, the drugs stand in the corpus under these ids.
const OPPOSED: [(&str, &[&str]); 2] = [
    ("gancao", &["haizao", "daji", "gansui", "yuanhua"]),
    (
        "lilu",
        &[
            "renshen", "danshen", "shashen", "kushen", "xuanshen", "xixin",
        ],
    ),
];

#[test]
fn the_oppositions_of_the_old_verse_stand_in_the_corpus() {
    let corpus = embedded().unwrap();
    let ties = Ties::new(&corpus).unwrap();
    let relations = Relations::new(&corpus, &ties);
    for (one, others) in OPPOSED {
        for other in others {
            let (a, b) = (herb(&corpus, one), herb(&corpus, other));
            let said = relations.between(a, b).unwrap();
            let opposed = said
                .iter()
                .filter(|one| one.kind == RelationKind::Opposes)
                .count();
            assert!(opposed >= 3, "{one} and {other}: {opposed}");
            assert_eq!(relations.between(b, a).unwrap().len(), said.len());
        }
    }
}

#[test]
fn every_statement_has_a_wording_of_bearable_length_and_a_known_speaker() {
    let corpus = embedded().unwrap();
    let mut statements = 0;
    for place in 0..corpus.herb_count() {
        let entries = corpus.related(HerbId(place as u32)).unwrap();
        for (entry, saying) in entries
            .iter()
            .flat_map(|entry| entry.sayings.iter().map(move |saying| (entry, saying)))
        {
            statements += saying.relations.len();
            let wording = saying.wording.as_deref().unwrap_or_default();
            assert!((1..=24).contains(&wording.chars().count()), "{wording}");
            assert!(saying.by <= entry.work, "{wording}");
            assert!(saying.claims.is_empty(), "{wording}");
        }
    }
    assert!(statements > 5000, "{statements}");
}

#[test]
fn what_was_read_only_says_so_beside_reviewed_statements() {
    let json = kaoyi(&["compare", "gansui", "--json"]).json();
    let group = &json["relations"]["own"][0];
    assert_eq!(
        (&group["kind"], &group["han"]),
        (&"opposes".into(), &"反".into())
    );
    let drug = &group["drugs"][0];
    assert_eq!(drug["herbs"], serde_json::json!(["gancao"]));
    let statements = drug["statements"].as_array().unwrap();
    assert!(statements.iter().all(|one| one["status"] == "read"));
    assert!(drug["works"].as_array().unwrap().len() >= 8);
    // The oldest statement that is not doubtful; 名醫別錄 has it in brackets.
    assert_eq!(drug["first"], "bencao-jing-jizhu");
}

#[test]
fn the_page_keeps_its_width_and_the_choice_of_works() {
    for arguments in [
        &["compare", "gancao"][..],
        &["compare", "xixin", "--evidence"],
        &["compare", "renshen", "--script", "hans"],
    ] {
        let run = kaoyi(arguments);
        assert!(run.out.contains("WITH OTHER DRUGS"), "{}", run.whole());
        let wide: Vec<&str> = run.out.lines().filter(|line| line.width() > 80).collect();
        assert_eq!(wide, Vec::<&str>::new());
    }
    let chosen = kaoyi(&["compare", "gansui", "--works", "bencao-mengquan", "--json"]).json();
    let works = &chosen["relations"]["own"][0]["drugs"][0]["works"];
    assert_eq!(works, &serde_json::json!(["bencao-mengquan"]));
    let facet = kaoyi(&["compare", "gansui", "--facet", "nature", "--json"]).json();
    assert_eq!(facet["relations"], serde_json::Value::Null);
}

fn write(folder: &Path, name: &str, text: &str) {
    let path = folder.join(name);
    fs::create_dir_all(path.parent().unwrap()).unwrap();
    fs::write(path, text).unwrap();
}

const WORK: &str = "id: circle-notes\ntitle: {hant: 園課, pinyin: Yuánkè, english: Garden Lessons}\n\
                    author: the study circle\nkind: extant\ndate: {to: 1901}\n";

fn mint(sayings: &str) -> String {
    format!(
        "id: bohe\nentries:\n  - work: circle-notes\n    status: reviewed\n    sayings:\n{sayings}"
    )
}

#[test]
fn ones_own_statements_stand_both_ways_and_a_name_nobody_bears_is_kept() {
    let folder = tempfile::tempdir().unwrap();
    write(folder.path(), "works/circle-notes.yaml", WORK);
    let saying = "      - {relations: [{kind: opposes, drug: 藜蘆}, {kind: opposes, drug: 溪石}], status: read, wording: 反藜蘆、溪石}\n";
    write(folder.path(), "herbs/bohe.yaml", &mint(saying));
    assert_eq!(kaoyi(&["check", text(folder.path())]).code, 0);
    let of = |name: &str, side: &str| {
        let json = kaoyi(&["compare", name, "--corpus", text(folder.path()), "--json"]).json();
        let groups = json["relations"][side].as_array().unwrap().clone();
        let opposed = groups.into_iter().find(|one| one["kind"] == "opposes");
        opposed.unwrap()["drugs"].as_array().unwrap().clone()
    };
    let own: Vec<(String, usize)> = of("bohe", "own")
        .iter()
        .map(|one| {
            let name = one["name"].as_str().unwrap().to_owned();
            (name, one["herbs"].as_array().unwrap().len())
        })
        .collect();
    assert_eq!(own, [("藜蘆".to_owned(), 1), ("溪石".to_owned(), 0)]);
    let mint = of("lilu", "of_others");
    assert!(mint.iter().any(|one| one["herbs"][0] == "bohe"));
}

#[test]
fn faults_in_relations_are_found_where_they_stand() {
    let folder = tempfile::tempdir().unwrap();
    write(folder.path(), "works/circle-notes.yaml", WORK);
    let sayings = "      - {relations: [{kind: oposes, drug: 藜蘆}], wording: 反藜蘆}\n      \
                   - {relations: [{kind: fears, drug: 菊花}, {kind: fears, drug: 菊花}], wording: 畏菊花}\n      \
                   - {relations: [{kind: fears, drug: 貫眾}]}\n";
    write(folder.path(), "herbs/bohe.yaml", &mint(sayings));
    let run = kaoyi(&["check", text(folder.path())]);
    assert!(run.whole().contains("opposes"), "{}", run.whole());
    write(
        folder.path(),
        "herbs/bohe.yaml",
        &mint(&sayings.replace("oposes", "opposes")),
    );
    let run = kaoyi(&["check", text(folder.path())]);
    for code in ["duplicate-value", "no-wording"] {
        assert!(run.whole().contains(code), "{}", run.whole());
    }
}

#[test]
fn a_book_that_says_nothing_but_this_is_not_called_silent_and_words_are_found() {
    let folder = tempfile::tempdir().unwrap();
    write(folder.path(), "works/circle-notes.yaml", WORK);
    let saying = "      - {relations: [{kind: opposes, drug: 藜蘆}], wording: 反藜蘆與溪石}\n";
    write(folder.path(), "herbs/bohe.yaml", &mint(saying));
    let json = kaoyi(&["compare", "bohe", "--corpus", text(folder.path()), "--json"]).json();
    let rows = json["witnesses"].as_array().unwrap();
    assert!(rows.iter().all(|row| row["work"] != "circle-notes"));
    let run = kaoyi(&["find", "反藜蘆與溪石", "--corpus", text(folder.path())]);
    assert!(run.out.contains("opposes 藜蘆"), "{}", run.whole());
}
