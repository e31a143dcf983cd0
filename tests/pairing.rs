//! `pair`: what herbs are together, by hand and by property; assumptions; balances; what is refused.

use std::collections::BTreeMap;

use crate::support::kaoyi;
use kaoyi::claim::{Facet, ValueId};
use kaoyi::corpus::embedded;
use kaoyi::pairing::{Aim, Change, Ingredient, Side, Taste, blend, reach};
use pretty_assertions::assert_eq;
use proptest::prelude::*;
use serde_json::Value;

fn pair(arguments: &[&str]) -> Value {
    kaoyi(&[&["pair"], arguments, &["--json"]].concat()).json()
}

fn shares(json: &Value) -> BTreeMap<String, f64> {
    let flavours = json["flavours"].as_array().unwrap().iter();
    flavours
        .map(|one| {
            let id = one["value"]["id"].as_str().unwrap().to_owned();
            (id, one["share"].as_f64().unwrap())
        })
        .collect()
}

fn near(a: f64, b: f64) -> bool {
    (a - b).abs() < 1e-9
}

/// The two herbs with amounts, the place and the word of the nature, and the shares of the flavours.
type Case = (
    &'static str,
    &'static str,
    f64,
    &'static str,
    &'static [(&'static str, f64)],
);

/// The five pairs that docs/methods.md works by hand, from the stands that `compare` shows. The amounts are those of the old
/// formulas of these two herbs, in liang (from memory: Shanghan lun; Danxi xinfa; Neiwai shang bianhuo lun).
#[test]
fn five_classical_pairs_are_as_worked_by_hand() {
    let cases: [Case; 5] = [
        (
            "桂枝=4",
            "甘草=2",
            13.0 / 45.0 + 1.0 / 198.0,
            "warm",
            &[("sweet", 5.0 / 9.0), ("acrid", 4.0 / 9.0)],
        ),
        (
            "甘草=4",
            "乾薑=2",
            1.0 / 99.0 + (121.0 / 9.0) / 54.0,
            "warm",
            &[("sweet", 2.0 / 3.0), ("acrid", 1.0 / 3.0)],
        ),
        (
            "芍藥=4",
            "甘草=4",
            f64::NAN,
            "",
            &[
                ("sweet", 9.0 / 17.0),
                ("sour", 7.5 / 34.0),
                ("bitter", 7.0 / 34.0),
                ("salty", 1.0 / 34.0),
                ("astringent", 0.5 / 34.0),
            ],
        ),
        (
            "黃連=6",
            "吳茱萸=1",
            (-6.0 * 14.625 / 19.0 + (125.0 / 9.0) / 19.0) / 7.0,
            "slight-cold",
            &[("bitter", 29.0 / 32.0), ("acrid", 3.0 / 32.0)],
        ),
        (
            "黃耆=5",
            "當歸=1",
            (5.0 * 37.0 / 180.0 + 83.0 / 240.0) / 6.0,
            "slight-warm",
            &[
                ("sweet", (5.0 + 37.0 / 75.0) / 6.0),
                ("acrid", 28.0 / 75.0 / 6.0),
                ("bitter", 10.0 / 75.0 / 6.0),
            ],
        ),
    ];
    for (one, other, nature, word, expected) in cases {
        let json = pair(&[one, other]);
        let found = shares(&json);
        assert_eq!(found.len(), expected.len(), "{one} {other}: {found:?}");
        for (flavour, share) in expected {
            assert!(near(found[*flavour], *share), "{one} {other}: {found:?}");
        }
        if !nature.is_nan() {
            let place = json["nature"]["place"].as_f64().unwrap();
            assert!(near(place, nature), "{one} {other}: {place} {nature}");
            assert_eq!(json["nature"]["value"]["id"], word, "{one} {other}");
        }
    }
}

#[test]
fn the_band_runs_from_every_herb_at_its_least_to_every_herb_at_its_most() {
    // Cinnamon twig is acrid by half at the least and wholly at the most, licorice sweet in every book.
    let json = pair(&["桂枝=4", "甘草=2"]);
    let bands: BTreeMap<&str, (f64, f64)> = json["flavours"]
        .as_array()
        .unwrap()
        .iter()
        .map(|one| {
            let band = (
                one["least"].as_f64().unwrap(),
                one["most"].as_f64().unwrap(),
            );
            (one["value"]["id"].as_str().unwrap(), band)
        })
        .collect();
    assert!(near(bands["acrid"].0, 1.0 / 3.0) && near(bands["acrid"].1, 2.0 / 3.0));
    assert!(near(bands["sweet"].0, 1.0 / 3.0) && near(bands["sweet"].1, 2.0 / 3.0));
}

#[test]
fn parts_grams_and_ratios_say_the_same() {
    let one = shares(&pair(&["桂枝=4", "甘草=2"]));
    assert_eq!(one, shares(&pair(&["桂枝=12g", "甘草=6g"])));
    assert_eq!(one, shares(&pair(&["桂枝", "甘草", "--parts", "2:1"])));
    assert_eq!(one, shares(&pair(&["甘草=1/2", "桂枝=1"])));
}

#[test]
fn assumptions_can_be_changed_and_are_told() {
    // Mint: 8 voices acrid, 5 acrid and bitter, 1 acrid and slightly bitter.
    let bitter = |arguments: &[&str]| {
        let json = pair(&[&["薄荷=1", "甘草=1"], arguments].concat());
        shares(&json)["bitter"] * 2.0
    };
    assert!(near(bitter(&[]), (2.5 + 1.0 / 3.0) / 14.0));
    assert!(near(bitter(&["--slight", "1"]), 3.0 / 14.0));
    let twice = pair(&["薄荷=1", "甘草=1", "--strength", "薄荷=2"]);
    assert!(near(shares(&twice)["sweet"], 1.0 / 3.0));
    assert_eq!(twice["herbs"][0]["strength"], 2.0);
    let lines = pair(&["薄荷=1", "甘草=1", "--count", "lines"]);
    assert!(lines["herbs"][0]["voices"].as_u64() < twice["herbs"][0]["voices"].as_u64());
    assert_eq!(lines["assumptions"]["count"], "lines");
}

#[test]
fn prepared_forms_are_looked_up_as_their_herb_and_told() {
    let json = pair(&["炙甘草=1", "薑半夏=1"]);
    assert_eq!(json["herbs"][0]["herb"]["id"], "gancao");
    assert_eq!(json["herbs"][0]["prepared"], "炙");
    assert_eq!(json["herbs"][1]["herb"]["id"], "banxia");
    let page = kaoyi(&["pair", "炙甘草=1", "薄荷=1"]).out;
    assert!(page.contains("炙甘草"), "{page}");
}

#[test]
fn a_balance_is_reached_at_the_amount_that_is_told() {
    let aim = "sweet-over-acrid";
    let told = kaoyi(&["pair", "桂枝=9g", "甘草=2g", "--aim", aim, "--json"]);
    assert_eq!(told.code, 1);
    let json = told.json();
    let change = &json["aim"]["changes"][1]["by_means"];
    assert_eq!(change["needs"], "more");
    // 9 g of cinnamon twig are 6 acrid and 3 sweet: 3 g of licorice make it even.
    assert!(near(change["amount"].as_f64().unwrap(), 3.0));
    let code = |licorice: &str| kaoyi(&["pair", "桂枝=9g", licorice, "--aim", aim]).code;
    assert_eq!(
        (code("甘草=3.01g"), code("甘草=3g"), code("甘草=2.99g")),
        (0, 1, 1)
    );
    let with = pair(&["桂枝=9g", "--with", "甘草", "--aim", "sweet>acrid"]);
    assert!(near(
        with["aim"]["changes"][1]["by_means"]["amount"]
            .as_f64()
            .unwrap(),
        3.0
    ));
    // More of an acrid herb never makes sweet outweigh acrid.
    let never = pair(&["薄荷=3g", "--with", "乾薑", "--aim", "sweet>acrid"]);
    assert_eq!(never["aim"]["changes"][1]["by_means"]["needs"], "never");
    let share = pair(&["薄荷=1", "甘草=1", "--aim", "sweet>60%"]);
    // Sweet is a half; with x of licorice to one of mint x / (1 + x) is 0.6 at 1.5.
    assert!(near(
        share["aim"]["changes"][1]["by_means"]["amount"]
            .as_f64()
            .unwrap(),
        1.5
    ));
}

#[test]
fn whatever_is_wrong_is_told_at_once() {
    let run = kaoyi(&[
        "pair",
        "附子=-1g",
        "半夏=0",
        "無此藥=3g",
        "甘草",
        "薄荷=3貫",
    ]);
    assert_eq!(run.code, 2);
    for told in [
        "附子=-1g",
        "半夏=0",
        "無此藥",
        "`甘草` has no amount",
        "薄荷=3貫",
        "5 faults",
    ] {
        assert!(run.err.contains(told), "{told}: {}", run.err);
    }
    for (arguments, told) in [
        (
            vec!["薄荷=3g", "甘草=2"],
            "some amounts are in grams and some in parts",
        ),
        (vec!["薄荷", "甘草", "--parts", "2:1:1"], "has 3 numbers"),
        (vec!["薄荷", "甘草", "--parts", "2:x"], "number above 0"),
        (vec!["薄荷=nan"], "薄荷=nan"),
        (vec!["薄荷=1e30"], "薄荷=1e30"),
        (vec!["=3g"], "names no herb"),
        (vec!["薄荷=1/0"], "number above 0"),
        (vec!["薄荷=1", "--aim", "swete>acrid"], "sweet"),
        (vec!["薄荷=1", "--aim", "sweet"], "expected two flavours"),
        (vec!["薄荷=1", "--aim", "sweet>120%"], "none below 100"),
        (
            vec!["薄荷=1", "--strength", "甘草=2"],
            "is not among the herbs",
        ),
        (vec!["薄荷=1", "--slight", "0"], "above 0"),
        (vec![], "required"),
    ] {
        let run = kaoyi(&[&["pair"], arguments.as_slice()].concat());
        assert_eq!(run.code, 2, "{arguments:?}");
        let unwrapped = run.err.replace('\n', " ");
        assert!(unwrapped.contains(told), "{arguments:?}: {}", run.err);
    }
}

#[test]
fn herbs_without_a_flavour_are_left_out_and_named() {
    let corpus = embedded().unwrap();
    let without = corpus.herbs().unwrap().into_iter().find(|herb| {
        let taste = kaoyi::pairing::taste(&corpus, herb, &Default::default(), &Default::default());
        taste.voices == 0
    });
    let id = format!("{}=5", without.unwrap().id);
    let json = pair(&["甘草=1", &id]);
    assert_eq!(json["without_flavour"], serde_json::json!([1]));
    assert!(near(shares(&json)["sweet"], 1.0));
}

/// An herb with one to three flavours by one to four voices.
fn herb() -> impl Strategy<Value = Ingredient> {
    let voice = proptest::collection::vec(
        (0_u16..7, prop_oneof![Just(0.5), Just(1.0), Just(1.5)]),
        1..3,
    );
    let voices = proptest::collection::vec(voice, 1..4);
    (0.1..50.0_f64, voices).prop_map(|(amount, voices)| {
        let voices: Vec<Vec<(ValueId, f64)>> = voices
            .into_iter()
            .map(|voice| {
                voice
                    .into_iter()
                    .map(|(value, strength)| (ValueId(value), strength))
                    .collect()
            })
            .collect();
        Ingredient {
            amount,
            strength: 1.0,
            taste: Taste::from_voices(&voices),
            nature: None,
        }
    })
}

fn by_value(herbs: &[Ingredient]) -> BTreeMap<u16, f64> {
    let corpus = embedded().unwrap();
    let flavours = blend(&corpus, herbs).flavours.into_iter();
    flavours.map(|one| (one.value.0, one.share)).collect()
}

fn alike(a: &BTreeMap<u16, f64>, b: &BTreeMap<u16, f64>) -> bool {
    a.len() == b.len() && a.iter().zip(b).all(|(a, b)| a.0 == b.0 && near(*a.1, *b.1))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn shares_sum_to_one_and_lie_in_their_bands(herbs in proptest::collection::vec(herb(), 1..6)) {
        let corpus = embedded().unwrap();
        let all = blend(&corpus, &herbs);
        let sum: f64 = all.flavours.iter().map(|one| one.share).sum();
        prop_assert!(near(sum, 1.0));
        for one in &all.flavours {
            prop_assert!(one.least <= one.share + 1e-12 && one.share <= one.most + 1e-12);
            prop_assert!(near(one.from.iter().sum::<f64>(), one.share));
        }
        let moves = all.moves;
        prop_assert!(near(moves.up_and_out + moves.down_and_in + moves.centre, 1.0));
    }

    #[test]
    fn scaling_and_order_change_nothing(herbs in proptest::collection::vec(herb(), 1..6), factor in 0.01..100.0_f64) {
        let before = by_value(&herbs);
        let mut changed = herbs;
        changed.reverse();
        for one in &mut changed {
            one.amount *= factor;
        }
        prop_assert!(alike(&before, &by_value(&changed)));
    }

    #[test]
    fn an_herb_with_itself_is_itself(one in herb(), more in 0.1..50.0_f64) {
        let alone = by_value(std::slice::from_ref(&one));
        let again = Ingredient { amount: more, ..one.clone() };
        prop_assert!(alike(&alone, &by_value(&[one, again])));
    }

    #[test]
    fn on_either_side_of_the_amount_told_the_balance_turns(
        herbs in proptest::collection::vec(herb(), 2..5),
        left in 0_u16..7,
        right in 0_u16..7,
    ) {
        let aim = Aim { flavour: ValueId(left), more: true, side: Side::Flavour(ValueId(right), 1.0) };
        for (place, (by_means, _)) in reach(&aim, &herbs).changes.into_iter().enumerate() {
            let reached = |amount: f64| {
                let mut herbs = herbs.clone();
                herbs[place].amount = amount;
                reach(&aim, &herbs).reached
            };
            match by_means {
                Change::MoreThan(amount) => {
                    prop_assert!(reached(amount * 1.001 + 0.001));
                    prop_assert!(amount < 0.01 || !reached(amount * 0.999));
                }
                Change::LessThan(amount) => {
                    prop_assert!(!reached(amount * 1.001 + 0.001));
                    prop_assert!(amount < 0.01 || reached(amount * 0.999));
                }
                Change::Any => prop_assert!(reached(0.1) && reached(1000.0)),
                Change::Never => prop_assert!(!reached(0.1) && !reached(1000.0)),
            }
        }
    }
}

/// A hot herb and a cold one, as cold as the other is hot by the rule.
#[test]
fn natures_of_both_sides_temper_each_other() {
    let corpus = embedded().unwrap();
    let scheme = corpus.vocabulary.scheme(Facet::Nature);
    let word = |at: f64| {
        let nearest = kaoyi::pairing::nearest_nature(scheme, at);
        scheme.value(nearest).id.as_str()
    };
    assert_eq!(
        [-1.0, -0.75, 0.0, 1.0 / 3.0, 1.0].map(word),
        ["great-cold", "cold", "neutral", "warm", "great-hot"]
    );
    let place = |arguments: &[&str]| pair(arguments)["nature"]["place"].as_f64().unwrap();
    let (hot, cold) = (place(&["附子=1"]), place(&["黃連=1"]));
    assert!(hot > 0.5 && cold < -0.5, "{hot} {cold}");
    assert!(near(place(&["附子=1", "黃連=3"]), (hot + 3.0 * cold) / 4.0));
}
