//! `weigh`: every published opinion as published, formulas, periods.

use crate::support::{data, kaoyi, text};
use kaoyi::corpus::{Corpus, embedded};
use kaoyi::measure::{Measures, PeriodId, UnitId};
use kaoyi::text::{Exact, numeral};
use pretty_assertions::assert_eq;
use unicode_width::UnicodeWidthStr;

pub fn corpus() -> Corpus {
    embedded().unwrap()
}

pub fn measures(corpus: &Corpus) -> Measures<'_> {
    Measures::new(&corpus.vocabulary.measures).unwrap()
}

pub fn unit(measures: &Measures<'_>, id: &str) -> UnitId {
    measures.units().find(|(_, unit)| unit.id == id).unwrap().0
}

pub fn period(measures: &Measures<'_>, id: &str) -> PeriodId {
    measures.period(id).unwrap()
}

pub fn exact(text: &str) -> Exact {
    numeral(text).unwrap()
}

/// How many of `wanted` the amount is.
pub fn holds(measures: &Measures<'_>, of: &str, amount: &str, wanted: &str) -> Option<Exact> {
    let amount = measures.amount(amount).unwrap();
    amount.in_unit(measures, period(measures, of), unit(measures, wanted))
}

/// Period, unit, least, figure, greatest, words of the source, year.
type Published = (
    &'static str,
    &'static str,
    &'static str,
    &'static str,
    &'static str,
    &'static str,
    Option<i32>,
);
const PUBLISHED: [Published; 18] = [
    // Li Shizhen, Bencao gangmu, preface (checked in a plain text); 3 g by the decree of 1979.
    ("han", "liang", "3", "3", "3", "Li Shizhen", Some(1578)),
    // Wu Chengluo, Zhongguo duliangheng shi, 1937; from memory.
    (
        "han",
        "liang",
        "13.92",
        "13.92",
        "13.92",
        "Wu Chengluo",
        Some(1937),
    ),
    // Ke Xuefan, 1983: a jin of 250 g; from memory.
    (
        "han",
        "liang",
        "125/8",
        "15.625",
        "250/16",
        "Ke Xuefan",
        Some(1983),
    ),
    // Qiu Guangming, Zhongguo lidai duliangheng kao, 1992: a jin of 220 to 222 g; from memory.
    (
        "han",
        "liang",
        "220/16",
        "13.8",
        "222/16",
        "Qiu Guangming",
        Some(1992),
    ),
    // Common practice, no source.
    ("han", "liang", "15", "15", "15", "no source", None),
    // Qiu Guangming, 1992; from memory.
    (
        "han",
        "sheng",
        "198",
        "200",
        "200.5",
        "Qiu Guangming",
        Some(1992),
    ),
    // Common practice, no source.
    ("han", "sheng", "200", "200", "200", "no source", None),
    // Qiu Guangming, 1992: a jin of about 661 g; the small liang is a third. From memory.
    (
        "tang",
        "liang",
        "41.3",
        "41.3",
        "41.3",
        "Qiu Guangming",
        Some(1992),
    ),
    (
        "tang",
        "liang",
        "413/30",
        "413/30",
        "413/30",
        "Qiu Guangming",
        Some(1992),
    ),
    // Qiu Guangming, 1992: a jin of about 640 g; from memory.
    (
        "song",
        "liang",
        "40",
        "640/16",
        "40",
        "Qiu Guangming",
        Some(1992),
    ),
    // Wu Chengluo, 1937; from memory.
    (
        "ming",
        "liang",
        "37.3",
        "37.3",
        "37.3",
        "Wu Chengluo",
        Some(1937),
    ),
    (
        "qing",
        "liang",
        "37.3",
        "37.3",
        "37.3",
        "Wu Chengluo",
        Some(1937),
    ),
    (
        "qing",
        "liang",
        "37.301",
        "37.301",
        "37.301",
        "Wu Chengluo",
        Some(1937),
    ),
    // Standard of 1930: a market jin of 500 g; from memory.
    (
        "china-1930",
        "liang",
        "31.25",
        "500/16",
        "31.25",
        "1930",
        Some(1930),
    ),
    // State Council of China, effective 1 January 1979; from memory.
    (
        "china-1979",
        "liang",
        "30",
        "30",
        "30",
        "State Council",
        Some(1979),
    ),
    // Statutes; from memory.
    (
        "japan",
        "qian",
        "3.75",
        "3.75",
        "3.75",
        "statute of 1891",
        Some(1891),
    ),
    ("taiwan", "liang", "37.5", "37.5", "37.5", "statute", None),
    (
        "hong-kong",
        "liang",
        "37.8",
        "37.8",
        "37.8",
        "statute",
        None,
    ),
];

#[test]
fn every_opinion_is_recorded_as_published() {
    let corpus = corpus();
    let measures = measures(&corpus);
    let all = measures.periods().flat_map(|id| {
        let of = measures.period_record(id).id.as_str();
        measures.opinions(id).iter().map(move |one| (of, one))
    });
    let found: Vec<_> = all.collect();
    assert_eq!(found.len(), PUBLISHED.len());
    for ((of, one), case) in found.into_iter().zip(PUBLISHED) {
        let (id, unit, least, value, greatest, source, year) = case;
        assert_eq!((of, one.record.unit.as_str()), (id, unit));
        assert_eq!(one.each.least, exact(least), "{case:?}");
        assert_eq!(one.each.value, exact(value), "{case:?}");
        assert_eq!(one.each.greatest, exact(greatest), "{case:?}");
        assert!(one.record.source.contains(source), "{case:?}");
        assert_eq!(one.record.year, year, "{case:?}");
    }
}

#[test]
fn units_hold_each_other_as_their_period_has_it() {
    let corpus = corpus();
    let measures = measures(&corpus);
    let cases = [
        // Hanshu, treatise on pitchpipes and the calendar; from memory.
        ("han", "半斤", "liang", "8"),
        ("han", "1 jin", "liang", "16"),
        ("han", "1 liang", "zhu", "24"),
        ("han", "6 zhu", "liang", "1/4"),
        ("han", "1 dou", "sheng", "10"),
        ("han", "1 ge", "sheng", "1/10"),
        // Tao Hongjing, Bencao jing jizhu, preface (checked): six zhu a fen, four fen a liang.
        ("six-dynasties", "1 liang", "fen", "4"),
        ("six-dynasties", "1 fen", "zhu", "6"),
        // Songshi, treatise on pitchpipes and the calendar; from memory.
        ("song", "1 liang", "qian", "10"),
        ("song", "1 liang", "fen", "100"),
        ("qing", "1 jin", "qian", "160"),
        ("china-1979", "3 fen", "qian", "3/10"),
    ];
    for (of, amount, wanted, number) in cases {
        let found = holds(&measures, of, amount, wanted);
        assert_eq!(found, Some(exact(number)), "{of}: {amount} in {wanted}");
    }
    assert_eq!(holds(&measures, "han", "1 liang", "qian"), None);
    assert_eq!(holds(&measures, "han", "1 liang", "sheng"), None);
}

#[test]
fn three_liang_of_the_eastern_han_are_45_g_by_common_practice() {
    // About 15 g a liang, 3 liang about 45 g: common practice, no source.
    let run = kaoyi(&["weigh", "3", "liang", "--period", "han"]);
    let out = run.out.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        out.contains("From 9 to 46.875 g by 5 opinions; the commonest practice: 45 g (common practice, no source)."),
        "{}",
        run.whole()
    );
}

#[test]
fn a_formula_shows_shares_cautions_grades_and_that_nothing_is_prescribed() {
    let file = data("weighing").join("two-herbs.yaml");
    let run = kaoyi(&["weigh", "--file", text(&file), "--daily", "9"]);
    for words in [
        "two herbs: 芍藥 4 liang (四兩), 甘草 4 liang (四兩)",
        "SCALED TO 9 G A DAY",
        "芍藥 sháoyào  4 liang (四兩)  50 %   4.5 g",
        "given in larger amounts (common practice, no source)",
        "! 甘草: eighteen opposites",
        "prescribes nothing",
    ] {
        assert!(run.out.contains(words), "{words}: {}", run.whole());
    }
    let alone = kaoyi(&["weigh", "三兩"]).out;
    assert!(alone.contains("prescribes nothing"));
    // 附子 is of the lower grade in the oldest book (Shennong bencao jing; the shipped record).
    let strong = kaoyi(&["weigh", "fuzi=1 liang", "--period", "han"]).out;
    let strong = strong.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(strong.contains("so given in small amounts"), "{strong}");
    assert!(strong.contains("aconitine"), "{strong}");
}

#[test]
fn fen_of_a_liang_differ_between_periods_so_that_scaling_asks_for_one() {
    let formula = ["weigh", "gancao=1 liang", "芍藥=1 fen", "--daily", "10"];
    let run = kaoyi(&formula);
    assert!(
        run.code == 2 && run.err.replace('\n', " ").contains("needs a period"),
        "{}",
        run.whole()
    );
    // Tao Hongjing: a fen is a quarter of a liang, so the parts are 4 to 1; checked.
    let told = [&formula[..], &["--period", "six-dynasties", "--json"]].concat();
    let json = kaoyi(&told).json();
    assert_eq!(json["daily"]["herbs"][0]["grams"]["exact"], "8");
    assert_eq!(json["daily"]["herbs"][1]["grams"]["exact"], "2");
    assert_eq!(json["periods"][0]["opinions"].as_array().unwrap().len(), 0);
}

#[test]
fn periods_come_oldest_first_and_those_that_do_not_know_a_unit_are_named() {
    let json = kaoyi(&["weigh", "三錢", "--json"]).json();
    let ids = |key: &str| {
        let all = json[key].as_array().unwrap().iter();
        all.map(|one| one["period"]["id"].as_str().unwrap().to_owned())
            .collect::<Vec<_>>()
    };
    assert_eq!(ids("left_out"), ["han", "six-dynasties", "tang"]);
    let weighed = ids("periods");
    assert_eq!(weighed[..3], ["song", "ming", "qing"]);
    assert_eq!(weighed.len(), 8);
}

#[test]
fn han_text_is_shown_in_the_script_asked_for() {
    let run = kaoyi(&["weigh", "芍药=三两", "--period", "东汉", "--script", "hans"]);
    assert!(run.out.contains("芍药 3 liang (三两)"), "{}", run.whole());
    assert!(run.out.contains("东汉"), "{}", run.whole());
}

#[test]
fn no_line_is_wider_than_the_page() {
    let runs: [&[&str]; 3] = [
        &["weigh", "3 liang"],
        &["weigh", "一斤十五兩半", "--period", "han"],
        &[
            "weigh",
            "芍藥=九十九兩半",
            "banxia=半升",
            "天門冬=1 1/3 jin",
            "--period",
            "han",
        ],
    ];
    for args in runs {
        let out = kaoyi(args).out;
        let wide = out.lines().find(|line| line.width() > 80);
        assert_eq!(wide, None, "{args:?}");
    }
}
