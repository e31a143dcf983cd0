//! Pairs that the trade forbids: all of both verses, in either order, under other names and in prepared forms; and cautions that
//! no flag removes.

use crate::support::kaoyi;
use pretty_assertions::assert_eq;

/// Zhang Congzheng, Rumen shiqin, 1228 (from memory), with names under which the drugs go.
const OPPOSITES: [(&[&str], &[&[&str]]); 3] = [
    (
        &["烏頭", "附子", "川烏", "草烏", "制附子", "天雄"],
        &[
            &["半夏", "法半夏", "薑半夏"],
            &["栝樓", "瓜蔞", "瓜蔞仁", "天花粉", "栝樓根"],
            &["貝母", "川貝母"],
            &["白蘞"],
            &["白及"],
        ],
    ),
    (
        &["甘草", "炙甘草", "gancao", "licorice"],
        &[&["海藻"], &["大戟"], &["甘遂"], &["芫花", "醋芫花"]],
    ),
    (
        &["藜蘆"],
        &[
            &["人參", "ginseng"],
            &["沙參", "北沙參"],
            &["丹參"],
            &["玄參"],
            &["苦參"],
            &["細辛"],
            &["芍藥", "白芍", "赤芍", "炒白芍"],
        ],
    ),
];

/// Liu Chun, Yijing xiaoxue, 1388 (from memory).
const FEARS: [(&[&str], &[&str]); 10] = [
    (&["硫黃", "石硫黃"], &["朴硝", "芒硝"]),
    (&["水銀"], &["砒霜"]),
    (&["狼毒"], &["密陀僧"]),
    (&["巴豆"], &["牽牛", "牽牛子", "黑丑"]),
    (&["丁香", "母丁香"], &["鬱金"]),
    (&["牙硝", "馬牙硝"], &["三稜", "三棱"]),
    (&["川烏"], &["犀角"]),
    (&["草烏"], &["犀角"]),
    (&["人參"], &["五靈脂", "醋五靈脂"]),
    (&["官桂", "肉桂"], &["赤石脂", "白石脂"]),
];

fn rules(one: &str, other: &str) -> Vec<String> {
    let run = kaoyi(&["pair", &format!("{one}=1"), &format!("{other}=1"), "--json"]);
    assert_eq!(run.code, 0, "{one} {other}: {}", run.err);
    let json = run.json();
    let forbidden = json["cautions"]["forbidden"].as_array().unwrap().iter();
    forbidden
        .map(|rule| rule["rule"].as_str().unwrap().to_owned())
        .collect()
}

fn assert_forbidden(one: &str, other: &str, rule: &str) {
    for (a, b) in [(one, other), (other, one)] {
        assert!(
            rules(a, b).iter().any(|found| found == rule),
            "{a} {b}: {rule}"
        );
    }
}

#[test]
fn the_eighteen_opposites_are_told_in_both_orders_under_every_name() {
    for (ones, groups) in OPPOSITES {
        for other in groups.iter().flat_map(|group| group.iter()) {
            assert_forbidden(ones[0], other, "eighteen-opposites");
        }
        for one in ones {
            assert_forbidden(one, groups[0][0], "eighteen-opposites");
        }
    }
}

#[test]
fn the_nineteen_fears_are_told_in_both_orders_under_every_name() {
    for (ones, others) in FEARS {
        for one in ones {
            for other in others {
                assert_forbidden(one, other, "nineteen-fears");
            }
        }
    }
}

#[test]
fn herbs_of_no_verse_are_not_forbidden_but_no_harmlessness_is_claimed() {
    assert_eq!(rules("薄荷", "菊花"), Vec::<String>::new());
    let page = kaoyi(&["pair", "薄荷=1", "菊花=1"]).out.replace('\n', " ");
    for told in ["no proof of harmlessness", "licensed practitioner"] {
        assert!(page.contains(told), "{page}");
    }
}

#[test]
fn an_absurd_amount_of_a_toxic_herb_is_warned_of_loudly() {
    let page = kaoyi(&["pair", "附子=500g", "甘草=3g"]).out;
    let told = page
        .lines()
        .filter(|line| line.starts_with("! 500 g of 附子"));
    assert_eq!(told.count(), 1, "{page}");
    assert!(page.contains("it can"), "{page}");
    let mild = kaoyi(&["pair", "薄荷=500g", "甘草=3g", "--json"]).json();
    assert_eq!(mild["cautions"]["loud"][0]["grave"], false);
    // Licorice bears a grave caution on pairs, which is no poison of its own.
    let much = kaoyi(&["pair", "薄荷=3g", "甘草=45g", "--json"]).json();
    assert_eq!(much["cautions"]["loud"], serde_json::json!([]));
    let usual = kaoyi(&["pair", "薄荷=3g", "甘草=3g", "--json"]).json();
    assert_eq!(usual["cautions"]["loud"], serde_json::json!([]));
}

#[test]
fn every_formula_shows_the_cautions_of_each_herb_whatever_is_asked() {
    for more in [
        &[][..],
        &["--until", "300"],
        &["--works", "本草綱目"],
        &["--count", "lines"],
    ] {
        let page = kaoyi(&[&["pair", "附子=3g", "半夏=3g"], more].concat()).out;
        for told in [
            "! 附子: contains aconitine",
            "十八反",
            "must not meet",
            "ask a\nlicensed practitioner",
        ] {
            assert!(page.contains(told), "{more:?} {told}: {page}");
        }
    }
}

#[test]
fn every_herb_of_a_forbidden_pair_bears_a_caution_that_tells_of_its_table() {
    let corpus = kaoyi::corpus::embedded().unwrap();
    let tables = &corpus.vocabulary.pairing.incompatible;
    let mut untold = Vec::new();
    for table in tables {
        let ids = table.groups.iter().flat_map(|group| {
            let against = group.against.iter().flat_map(|one| &one.herbs);
            group.herbs.iter().chain(against)
        });
        let told = |caution: &str| match table.id.as_str() {
            "eighteen-opposites" => {
                caution.starts_with("opposes-") || caution.ends_with("-opposites")
            }
            _ => caution.starts_with("fears-"),
        };
        for id in ids {
            let kaoyi::corpus::Lookup::One(herb) = corpus.find_herb(id) else {
                continue;
            };
            let herb = corpus.herb(herb).unwrap();
            let mut cautions = herb
                .cautions
                .iter()
                .map(|place| corpus.vocabulary.cautions[*place].id.as_str());
            if !cautions.any(told) {
                untold.push(format!("{id}: {}", table.id));
            }
        }
    }
    assert_eq!(untold, Vec::<String>::new());
}
