//! The card and the one-line answer, with their exit codes.

use crate::support::{data, kaoyi, text};
use insta::assert_snapshot;
use kaoyi::claim::Facet;
use kaoyi::compare::{Question, Selection, ask, profile, view};
use pretty_assertions::assert_eq;

fn first_line(args: &[&str]) -> (String, i32) {
    let run = kaoyi(args);
    let answer: String = run
        .out
        .lines()
        .take_while(|line| !line.starts_with("  "))
        .collect::<Vec<_>>()
        .join(" ");
    (answer, run.code)
}

/// A page as one line, so that a phrase is found wherever it was wrapped.
fn unwrapped(page: &str) -> String {
    page.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn one_question_gets_one_line_with_counts_and_the_first_witness() {
    assert_snapshot!(format!("{:?}", first_line(&["is", "juhua", "sweet"])), @r#"("菊花 júhuā, 甘 sweet: mostly yes. 14 of 16 witnesses in 5 of 6 lines, first 名醫別錄 (c. 220–450).", 0)"#);
    assert_snapshot!(format!("{:?}", first_line(&["is", "bohe", "warm"])), @r#"("薄荷 bòhe, 溫 warm: disputed. 6 of 15 witnesses in 1 of 5 lines, first 新修本草 (659).", 1)"#);
    assert_snapshot!(format!("{:?}", first_line(&["is", "bohe", "salty"])), @r#"("薄荷 bòhe, 鹹 salty: no. 0 of 14 witnesses in 0 of 4 lines.", 1)"#);
    assert_snapshot!(format!("{:?}", first_line(&["is", "bohe", "promotes-sweating"])), @r#"("薄荷 bòhe, 發汗 promotes sweating: yes. 9 works in 4 lines say so, first 藥性論 (c. 600–650); none states an opposed action of the herb as such.", 0)"#);
    assert_snapshot!(format!("{:?}", first_line(&["is", "bohe", "upper"])), @r#"("薄荷 bòhe, 上品 upper grade: silent. No work here speaks of it for the herb as such.", 1)"#);
}

#[test]
fn the_whole_answer_names_both_sides_and_the_silent() {
    assert_snapshot!(kaoyi(&["is", "juhua", "sweet"]).whole(), @"
    菊花 júhuā, 甘 sweet: mostly yes. 14 of 16 witnesses in 5 of 6 lines, first
    名醫別錄 (c. 220–450).
      say so      sweet: 名醫別錄 (c. 220–450), 刪繁本草 (c. 740–907) ?, 得配本草
                  (1761); bitter, sweet: 本草經集注 (c. 494–510), 新修本草 (659),
                  用藥法象 (c. 1202–1251), 湯液本草 (1298), 本草綱目 (1578–1596),
                  本草備要 (1682–1694), 本草從新 (1757); sweet, slightly bitter:
                  本草蒙筌 (1559–1565), 雷公炮製藥性解 (1622), 本草新編 (1687);
                  acrid, sweet, bitter: 本草求真 (1769)
      others      bitter: 神農本草經 (c. 1–200), 本草擇要綱目 (1679)
      limited     sweet (黃菊): 本經逢原 (1695)
      silent      食療本草, 本草衍義
      pairing     it slows and harmonises by itself; adding more sweet tempers an
                  acrid partner further

    CAUTIONS
    · may cause reactions in those allergic to the daisy family (from memory)
    Kaoyi reports what books say and prescribes nothing. Check local law and ask a
    licensed practitioner before any use.
    exit 0
    ");
}

#[test]
fn a_value_is_understood_in_any_of_its_words() {
    for word in ["warm", "溫", "温", "wēn", "Warm", "nature:warm"] {
        let answer = kaoyi(&["is", "bohe", word, "--json"]).json();
        assert_eq!(answer["answers"][0]["value"]["id"], "warm", "{word}");
    }
}

#[test]
fn asking_for_a_value_counts_its_degrees_and_asking_for_a_degree_does_not_count_the_value() {
    let folder = data("kinds");
    let ask = |value: &str| {
        let json = kaoyi(&[
            "is",
            "case-graded",
            value,
            "--json",
            "--corpus",
            text(&folder),
        ])
        .json();
        (
            json["answers"][0]["k"].as_u64().unwrap(),
            json["answers"][0]["n"].as_u64().unwrap(),
        )
    };
    assert_eq!(ask("warm"), (2, 3));
    assert_eq!(ask("slight-warm"), (1, 3));
    assert_eq!(ask("toxic"), (3, 3));
    assert_eq!(ask("toxicity:none"), (0, 3));
}

#[test]
fn exit_codes_are_0_for_yes_1_for_any_other_answer_2_for_none() {
    let folder = data("kinds");
    let code = |herb: &str, values: &[&str]| {
        let mut args = vec!["is", herb, "--corpus", text(&folder)];
        args.extend(values);
        kaoyi(&args).code
    };
    assert_eq!(code("case-unanimous", &["acrid"]), 0, "yes");
    assert_eq!(code("case-unanimous", &["acrid", "warm"]), 0, "yes to both");
    assert_eq!(code("case-unanimous", &["acrid", "sweet"]), 1, "yes and no");
    assert_eq!(code("case-unanimous", &["sweet"]), 1, "no");
    assert_eq!(code("case-unanimous", &["toxic"]), 1, "silent");
    assert_eq!(code("case-crossing", &["acrid"]), 1, "disputed");
    assert_eq!(
        code("case-opposed", &["promotes-sweating"]),
        0,
        "mostly yes: two say so, one of them also the contrary"
    );
    assert_eq!(code("case-opposed", &["releases-exterior"]), 1, "silent");
    assert_eq!(code("nobody", &["acrid"]), 2);
    assert_eq!(code("case-unanimous", &["tasty"]), 2);
    assert_eq!(code("case-unanimous", &[]), 2);
}

#[test]
fn an_action_is_set_against_its_opposites() {
    let folder = data("kinds");
    let json = kaoyi(&[
        "is",
        "case-opposed",
        "promotes-sweating",
        "--json",
        "--corpus",
        text(&folder),
    ])
    .json();
    let answer = &json["answers"][0];
    assert_eq!(
        (answer["k"].as_u64(), answer["n"].as_u64()),
        (Some(2), Some(3))
    );
    assert_eq!(answer["no"][0]["text"], "stops sweating");
    assert_eq!(
        answer["silent"].as_array().unwrap().len(),
        0,
        "of an action silence means nothing"
    );
}

#[test]
fn a_warning_on_a_part_alone_is_shown_everywhere() {
    let folder = data("kinds");
    for command in ["profile", "compare"] {
        let out = unwrapped(&kaoyi(&[command, "case-toxic-part", "--corpus", text(&folder)]).out);
        assert!(
            out.contains("most severe here greatly toxic by 園課三* (seed)"),
            "{out}"
        );
        assert!(
            out.contains("in the books: called greatly toxic by 園課三* (seed)"),
            "{out}"
        );
    }
}

#[test]
fn an_unknown_value_suggests_the_nearest() {
    assert_snapshot!(kaoyi(&["is", "bohe", "swet"]).whole(), @"
    kaoyi: no facet has a value `swet`; near to it:
      sweet
    exit 2
    ");
}

#[test]
fn the_card_shows_support_middle_and_cautions() {
    let out = unwrapped(&kaoyi(&["profile", "gancao"]).out);
    for words in [
        "CONSENSUS PROFILE",
        "median neutral",
        "most severe here toxic by 本經逢原 (中心黑者)",
        "CAUTIONS",
        "potassium",
        "eighteen opposites",
    ] {
        assert!(out.contains(words), "{words}\n{out}");
    }
}

#[test]
fn the_most_severe_toxicity_is_always_shown() {
    let out = unwrapped(&kaoyi(&["profile", "fuzi"]).out);
    assert!(out.contains("most severe here greatly toxic by"), "{out}");
}

#[test]
fn a_value_is_asked_for_in_simplified_characters_as_well() {
    for (word, id) in [
        ("发汗", "promotes-sweating"),
        ("清热", "clears-heat"),
        ("热", "hot"),
        ("肾", "kidney"),
    ] {
        let json = kaoyi(&["is", "bohe", word, "--json"]).json();
        assert_eq!(json["answers"][0]["value"]["id"], id, "{word}");
    }
}

#[test]
fn the_books_word_on_poison_is_never_given_as_a_safety_test() {
    for herb in crate::support::herbs_of_every_kind() {
        let out = kaoyi(&["is", &herb, "nontoxic", "toxic", "warm", "acrid"]).out;
        assert!(!out.contains("or taste it"), "{herb}");
    }
    let run = kaoyi(&["is", "xixin", "nontoxic"]);
    assert!(
        run.out.contains("no safety test: heed the cautions below"),
        "{}",
        run.out
    );
    let run = kaoyi(&["is", "lianqiao", "toxic"]);
    assert!(
        run.out.contains("some book warns") && run.out.contains("called toxic by 雷公 (root)"),
        "{}",
        run.out
    );
}

#[test]
fn profile_and_question_agree_on_every_value_with_a_verdict() {
    let corpus = kaoyi::corpus::embedded().unwrap();
    for herb in corpus.herbs().unwrap() {
        for facet in Facet::ALL
            .into_iter()
            .filter(|facet| *facet != Facet::Action)
        {
            let view = view(&corpus, herb, facet, &Selection::default());
            for support in profile(&corpus, &view).supports {
                if let Some(verdict) = support.verdict {
                    let question = Question {
                        facet,
                        value: support.value,
                    };
                    let answer = ask(&corpus, herb, question, &Selection::default());
                    let counts = (answer.yes.len(), answer.j, answer.m, answer.verdict);
                    assert_eq!(
                        counts,
                        (support.k, support.j, support.m, verdict),
                        "{} {facet}",
                        herb.id
                    );
                }
            }
        }
    }
}

#[test]
fn a_choice_of_works_is_said_with_the_answer() {
    let run = kaoyi(&["is", "juhua", "sweet", "--until", "500"]);
    assert!(
        run.out.contains("only  works finished in 500 or earlier"),
        "{}",
        run.out
    );
    let json = kaoyi(&["profile", "juhua", "--until", "500", "--json"]).json();
    assert_eq!(json["filter"]["until"], 500);
}

#[test]
fn all_twelve_channels_answer_for_each_of_the_twelve_and_no_other() {
    let ask = |value: &str| {
        let json = kaoyi(&["is", "fuzi", value, "--json"]).json();
        json["answers"][0]["k"].as_u64().unwrap()
    };
    let all = ask("all-channels");
    assert!(all > 5 && ask("channel:kidney") >= all);
    assert!(ask("gate-of-life") < all && ask("governing-vessel") == 0);
}
