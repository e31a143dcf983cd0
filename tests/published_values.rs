//! Values published elsewhere; the source stands beside each.

use kaoyi::claim::Facet;
use kaoyi::corpus::embedded;
use kaoyi::stats::{spread, wilson};
use pretty_assertions::assert_eq;

/// R. G. Newcombe, "Two-sided confidence intervals for the single proportion", *Statistics in
/// Medicine* 17 (1998), 857–872, Table I, score method without continuity correction, four decimals;
/// the figures from memory.
#[test]
fn wilson_intervals_agree_with_newcombe_1998() {
    let table = [
        (81, 263, 0.2553, 0.3662),
        (15, 148, 0.0624, 0.1605),
        (0, 20, 0.0, 0.1611),
        (1, 29, 0.0061, 0.1718),
    ];
    for (k, n, low, high) in table {
        let interval = wilson(k, n).unwrap();
        assert_eq!(
            (round(interval.low), round(interval.high)),
            (low, high),
            "{k}/{n}"
        );
    }
}

/// Computed with statsmodels 0.15.0, `proportion_confint(method="wilson")`, six decimals.
#[test]
fn wilson_intervals_agree_with_a_reference_library() {
    let table = [
        (0, 1, 0.0, 0.793451),
        (1, 1, 0.206549, 1.0),
        (1, 2, 0.094531, 0.905469),
        (2, 3, 0.207660, 0.938508),
        (0, 5, 0.0, 0.434482),
        (1, 5, 0.036224, 0.624465),
        (2, 5, 0.117621, 0.769276),
        (5, 5, 0.565518, 1.0),
        (3, 7, 0.158220, 0.749542),
        (7, 9, 0.452589, 0.936775),
        (9, 9, 0.700855, 1.0),
    ];
    for (k, n, low, high) in table {
        let interval = wilson(k, n).unwrap();
        assert!(
            (interval.low - low).abs() < 5e-7,
            "{k}/{n}: {}",
            interval.low
        );
        assert!(
            (interval.high - high).abs() < 5e-7,
            "{k}/{n}: {}",
            interval.high
        );
    }
}

/// R. J. Hyndman and Y. Fan, *The American Statistician* 50 (1996), 361–365, definition 1 (the inverse
/// of the empirical distribution function), the definition from memory, worked by hand for 1, 2, … n.
#[test]
fn quartiles_are_those_of_hyndman_and_fan_definition_1() {
    for (n, first, third) in [
        (1, 1, 1),
        (4, 1, 3),
        (5, 2, 4),
        (7, 2, 6),
        (8, 2, 6),
        (10, 3, 8),
    ] {
        let values: Vec<usize> = (1..=n).collect();
        assert_eq!(spread(&values).unwrap().quartiles, (first, third), "1..{n}");
    }
    assert_eq!(spread(&[1, 2, 3, 4]).unwrap().median, (2, 3));
    assert_eq!(spread(&[1, 2, 3, 4, 5]).unwrap().median, (3, 3));
}

fn round(value: f64) -> f64 {
    (value * 1e4).round() / 1e4
}

/// Huangdi neijing Suwen, ch. 22: 辛散, 酸收, 甘緩, 苦堅, 鹹軟. From memory.
#[test]
fn what_each_flavour_does_is_what_suwen_22_says() {
    let corpus = embedded().unwrap();
    let flavours = corpus.vocabulary.scheme(Facet::Flavour);
    let said = [
        ("acrid", "辛散"),
        ("sour", "酸收"),
        ("sweet", "甘緩"),
        ("bitter", "苦堅"),
        ("salty", "鹹軟"),
    ];
    for (flavour, words) in said {
        let value = flavours.value(flavours.place(flavour).unwrap());
        assert_eq!(value.does_hant.as_deref(), Some(words));
    }
}

/// Order from coldest to hottest: common practice, no source.
#[test]
fn natures_stand_in_the_customary_order() {
    let corpus = embedded().unwrap();
    let natures: Vec<&str> = corpus
        .vocabulary
        .scheme(Facet::Nature)
        .values()
        .iter()
        .map(|v| v.hant.as_str())
        .collect();
    assert_eq!(
        natures,
        [
            "大寒", "寒", "微寒", "涼", "平", "微溫", "溫", "大溫", "微熱", "熱", "大熱"
        ]
    );
}

/// Opposed actions: common practice, no source.
#[test]
fn customary_opposites_are_opposed_both_ways() {
    let corpus = embedded().unwrap();
    let actions = corpus.vocabulary.scheme(Facet::Action);
    let place = |han: &str| {
        let place = actions.values().iter().position(|value| value.hant == han);
        actions
            .place(&actions.values()[place.expect(han)].id)
            .unwrap()
    };
    let pairs = [
        ("發汗", "止汗"),
        ("利小便", "縮小便"),
        ("通便", "止瀉"),
        ("活血", "止血"),
        ("破血", "止血"),
        ("升陽", "降氣"),
        ("散", "收"),
        ("墮胎", "安胎"),
        ("下乳", "回乳"),
        ("潤燥", "燥濕"),
        ("補", "瀉"),
        ("安神", "醒睡"),
        ("清熱", "溫"),
    ];
    for (one, other) in pairs {
        assert!(
            actions.opposed(place(one), place(other)) && actions.opposed(place(other), place(one)),
            "{one} {other}"
        );
    }
}
