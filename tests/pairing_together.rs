//! `pair` with units of old, and what the books say of herbs that are named together.

use crate::support::kaoyi;
use pretty_assertions::assert_eq;
use serde_json::{Value, json};
use unicode_width::UnicodeWidthStr;

fn pair(arguments: &[&str]) -> Value {
    kaoyi(&[&["pair"], arguments, &["--json"]].concat()).json()
}

#[test]
fn amounts_of_old_give_the_shares_of_their_ratio_whatever_a_liang_weighs() {
    // One jin is 16 liang, one liang 24 zhu (Hanshu, treatise on pitchpipes and the calendar; from memory).
    for (old, parts) in [
        (["桂枝=三兩", "甘草=二兩"], "3:2"),
        (["桂枝=半斤", "甘草=三兩半"], "8:3.5"),
        (["桂枝=12銖", "甘草=1 liang"], "12:24"),
    ] {
        let by_old = pair(&[old[0], old[1], "--period", "han"]);
        let by_parts = pair(&["桂枝", "甘草", "--parts", parts]);
        let shares = |json: &Value| -> Vec<(String, f64)> {
            let all = json["flavours"].as_array().unwrap().iter();
            let share = |one: &Value| {
                let id = one["value"]["id"].as_str().unwrap().to_owned();
                (id, one["share"].as_f64().unwrap())
            };
            all.map(share).collect()
        };
        for (one, other) in shares(&by_old).iter().zip(shares(&by_parts)) {
            assert_eq!(one.0, other.0);
            assert!(
                (one.1 - other.1).abs() < 1e-12,
                "{old:?}: {one:?} {other:?}"
            );
        }
        assert_eq!(by_old["period"]["id"], "han");
    }
}

#[test]
fn amounts_of_old_are_shown_in_grams_by_least_greatest_and_commonest() {
    // About 15 g for a liang of Eastern Han: common practice, no source. The least is a qian of 3 g for a liang, after
    // Li Shizhen; the greatest Ke Xuefan's 15.625 g (1983; from memory).
    let json = pair(&["桂枝=三兩", "甘草=二兩", "--period", "han"]);
    let grams = &json["herbs"][0]["old"]["grams"];
    assert_eq!(
        [
            &grams["least"]["shown"],
            &grams["greatest"]["shown"],
            &grams["commonest"]["shown"]
        ],
        ["9", "46.875", "45"]
    );
    assert_eq!(json["herbs"][0]["old"]["han"], "三兩");
    // No opinion on the liang of the Six Dynasties is on record: shares all the same, and no grams.
    let json = pair(&["桂枝=三兩", "甘草=二兩", "--period", "six-dynasties"]);
    assert_eq!(json["herbs"][0]["old"]["grams"], Value::Null);
    assert_eq!(json["cautions"]["loud"], json!([]));
}

#[test]
fn an_absurd_amount_of_old_is_warned_of_by_the_greatest_opinion() {
    let json = pair(&["附子=半斤", "甘草=一兩", "--period", "tang"]);
    let loud = &json["cautions"]["loud"][0];
    assert_eq!(
        (&loud["herb"]["id"], &loud["grave"]),
        (&"fuzi".into(), &true.into())
    );
    // Eight large liang of 41.3 g (Qiu Guangming, 1992; from memory).
    assert!((loud["grams"].as_f64().unwrap() - 330.4).abs() < 1e-9);
}

#[test]
fn what_is_wrong_with_amounts_of_old_is_told_at_once() {
    let run = kaoyi(&[
        "pair",
        "桂枝=三兩",
        "半夏=半升",
        "甘草=二lian",
        "薑=三",
        "--period",
        "han",
    ]);
    assert_eq!((run.code, run.out.as_str()), (2, ""));
    for words in ["`半夏=半升` is a volume", "near: liang", "`薑=三`"] {
        assert!(run.err.contains(words), "{words}: {}", run.err);
    }
    let run = kaoyi(&["pair", "桂枝=三錢", "甘草=三兩", "--period", "han"]);
    assert!(run.err.contains("a unit of Eastern Han"), "{}", run.err);
    let run = kaoyi(&["pair", "桂枝=三兩", "甘草=二兩", "--period", "hann"]);
    assert!(run.err.contains("han"), "{}", run.err);
    let run = kaoyi(&["pair", "桂枝=三兩", "甘草=二兩"]);
    assert!(run.err.contains("--period"), "{}", run.err);
}

/// What the books say against two herbs: the article of the first, and the word of it. They stand in 本草經集注 or in
/// one of the later books that repeat it (read in the plain texts of these books).
const AGAINST: [(&str, &str, &str); 5] = [
    ("甘遂", "甘草", "opposes"),
    ("人參", "藜蘆", "opposes"),
    ("細辛", "藜蘆", "opposes"),
    ("黃芩", "牡丹", "fears"),
    ("乾薑", "黃連", "averse-to"),
];

#[test]
fn what_the_books_say_against_two_herbs_stands_in_the_cautions_with_who_says_so() {
    for (one, other, kind) in AGAINST {
        for order in [[one, other], [other, one]] {
            let json = pair(&[&format!("{}=3g", order[0]), &format!("{}=3g", order[1])]);
            let said = json["cautions"]["said"].as_array().unwrap();
            let found = said
                .iter()
                .find(|said| said["kind"] == kind && said["one"]["name"] == one);
            let found = found.unwrap_or_else(|| panic!("{order:?}: {said:#?}"));
            assert_eq!(found["warns"], true);
            assert!(!found["works"].as_array().unwrap().is_empty());
            let wording = found["statements"][0]["wording"].as_str().unwrap();
            assert!(!wording.is_empty());
        }
    }
    let run = kaoyi(&["pair", "甘遂=1g", "甘草=3g"]);
    assert!(run.out.contains("! 甘遂 反 opposes 甘草: "), "{}", run.out);
}

#[test]
fn partners_are_told_apart_from_warnings_and_wherever_herbs_stand_together() {
    // 茯苓為之使 in the article on 人參; 得…良 in others (本草經集注, as its readers carry it).
    let json = pair(&["人參=3g", "茯苓=3g"]);
    let said = json["cautions"]["said"].as_array().unwrap();
    assert!(
        said.iter()
            .any(|one| one["kind"] == "envoy" && one["warns"] == false)
    );
    for arguments in [
        &["pair", "甘遂=1g", "甘草=3g"][..],
        &["weigh", "甘遂=一兩", "甘草=三兩", "--period", "han"],
        &["compare", "甘遂", "--against", "甘草"],
    ] {
        let run = kaoyi(arguments);
        for words in ["十八反", "must not meet", "反 opposes"] {
            assert!(run.out.contains(words), "{words}: {}", run.out);
        }
        let wide: Vec<&str> = run.out.lines().filter(|line| line.width() > 80).collect();
        assert_eq!(wide, Vec::<&str>::new());
    }
}

#[test]
fn cautions_do_not_follow_the_choice_of_works() {
    let json = pair(&["甘遂=1g", "甘草=3g", "--until", "100"]);
    assert!(!json["cautions"]["said"].as_array().unwrap().is_empty());
    assert!(!json["cautions"]["forbidden"].as_array().unwrap().is_empty());
}
