//! Finding an herb or a work by any of its names.

use crate::support::kaoyi;
use insta::assert_snapshot;
use kaoyi::corpus::{Lookup, WorkLookup, embedded};
use kaoyi::text::fold;
use pretty_assertions::assert_eq;

#[test]
fn an_herb_is_found_in_any_script_and_spelling() {
    let corpus = embedded().unwrap();
    let cases = [
        ("juhua", "juhua"),
        ("jú huā", "juhua"),
        ("ju2hua1", "juhua"),
        ("JuHua", "juhua"),
        ("菊花", "juhua"),
        ("甘菊花", "juhua"),
        ("chrysanthemum", "juhua"),
        ("Chrysanthemi Flos", "juhua"),
        ("黃連", "huanglian"),
        ("黄连", "huanglian"),
        ("ｂｏｈｅ", "bohe"),
        ("Mentha canadensis", "bohe"),
    ];
    for (typed, id) in cases {
        match corpus.find_herb(typed) {
            Lookup::One(found) => assert_eq!(corpus.named(found).id, id, "{typed}"),
            other => panic!("{typed}: {other:?}"),
        }
    }
}

#[test]
fn every_main_name_of_herbs_spread_over_the_corpus_finds_it() {
    let corpus = embedded().unwrap();
    for herb in corpus.names().iter().step_by(17) {
        let names = &herb.names;
        let main = [&herb.id, &names.hant, &names.hans, &names.pinyin];
        for name in main.into_iter().chain(&names.latin).chain(&names.english) {
            match corpus.find_herb(name) {
                // Several herbs may sound the same; then all of them are offered.
                Lookup::Many(found) if name == &names.pinyin => {
                    assert!(
                        found.iter().any(|one| corpus.named(*one).id == herb.id),
                        "{name}"
                    );
                }
                Lookup::One(found) => {
                    let found = corpus.named(found);
                    let sounds = name == &names.pinyin && found.id == fold(name);
                    assert!(found.id == herb.id || sounds, "{name}");
                }
                other => panic!("{name} of {}: {other:?}", herb.id),
            }
        }
    }
}

#[test]
fn an_unknown_herb_suggests_the_nearest() {
    assert_snapshot!(kaoyi(&["compare", "bohee"]).whole(), @"
    kaoyi: no herb here is called `bohee`; near to it:
      bohe  薄荷 bòhe, mint
    exit 2
    ");
}

#[test]
fn an_ambiguous_name_lists_its_candidates() {
    let ambiguous = crate::support::data("ambiguous");
    let run = kaoyi(&[
        "is",
        "香草",
        "sweet",
        "--corpus",
        crate::support::text(&ambiguous),
    ]);
    assert_snapshot!(run.whole(), @"
    kaoyi: `香草` is a name of 3 herbs:
      circle-basil  香葉草 xiāngyècǎo, circle basil
      circle-thyme  香苗草 xiāngmiáocǎo, circle thyme
      linglingxiang  零陵香 línglíngxiāng, fragrant loosestrife herb
    Ask by the id, the first word of a line.
    exit 2
    ");
}

#[test]
fn a_name_of_signs_only_or_of_any_length_does_no_harm() {
    let long = "薄".repeat(20_000);
    for name in ["", " ", "□", "—", "🌿", &long, "\u{202e}ehob"] {
        let run = kaoyi(&["is", name, "sweet"]);
        assert_eq!(run.code, 2, "{}", run.err);
        assert!(run.err.contains("no herb here is called"), "{}", run.err);
    }
}

#[test]
fn a_work_is_found_by_id_title_and_short_form() {
    let corpus = embedded().unwrap();
    for typed in [
        "bencao-gangmu",
        "本草綱目",
        "本草纲目",
        "Běncǎo gāngmù",
        "时珍",
        "時珍",
    ] {
        match corpus.find_work(typed) {
            WorkLookup::One(work) => assert_eq!(corpus.work(work).id, "bencao-gangmu", "{typed}"),
            other => panic!("{typed}: {other:?}"),
        }
    }
    let run = kaoyi(&["compare", "bohe", "--works", "bencao-gangmo"]);
    assert_snapshot!(run.whole(), @"
    kaoyi: no work is called `bencao-gangmo`; near to it:
      bencao-gangmu
    exit 2
    ");
}

#[test]
fn a_name_of_another_drug_too_is_answered_with_a_note() {
    let run = kaoyi(&["is", "龍腦薄荷", "acrid"]);
    assert_eq!(run.code, 0);
    assert!(
        run.err
            .starts_with("note: 龍腦薄荷 is a name of another drug too"),
        "{}",
        run.err
    );
}

#[test]
fn an_herb_that_is_not_there_gets_no_other_drug_for_an_answer() {
    for name in ["園中草", "园老", "籬草"] {
        let run = kaoyi(&["is", name, "sweet"]);
        assert!(
            run.code == 2 && !run.err.contains("near to it"),
            "{name}: {}",
            run.err
        );
    }
}
