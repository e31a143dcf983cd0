//! `weigh`: amounts in every manner of writing, and arithmetic that stays exact.

use crate::support::kaoyi;
use crate::weighing::{corpus, exact, holds, measures, period, unit};
use kaoyi::claim::Quantity;
use kaoyi::corpus::{Corpus, FormulaHerb, FormulaRecord};
use kaoyi::measure::{Amount, Formula, ScaledFault};
use pretty_assertions::assert_eq;
use proptest::prelude::*;

#[test]
fn a_third_of_a_liang_three_times_is_a_liang() {
    let corpus = corpus();
    let measures = measures(&corpus);
    let third = holds(&measures, "han", "三分之一兩", "liang").unwrap();
    assert_eq!(
        third,
        holds(&measures, "han", "1/3 liang", "liang").unwrap()
    );
    assert_eq!(&third + &third + &third, exact("1"));
    // Grams stay exact too: Ke Xuefan's 15.625 g make 125/24 of a third.
    let json = kaoyi(&["weigh", "1/3 liang", "--period", "han", "--json"]).json();
    assert_eq!(
        json["periods"][0]["opinions"][2]["total"]["value"]["exact"],
        "125/24"
    );
    assert_eq!(
        json["periods"][0]["opinions"][2]["total"]["value"]["shown"],
        "5.208"
    );
}

#[test]
fn amounts_are_read_in_every_manner() {
    let corpus = corpus();
    let measures = measures(&corpus);
    let cases: [(&str, &[(&str, &str)]); 25] = [
        ("三兩", &[("3", "liang")]),
        ("三两", &[("3", "liang")]),
        ("3 liang", &[("3", "liang")]),
        ("3liang", &[("3", "liang")]),
        ("３兩", &[("3", "liang")]),
        ("叁兩", &[("3", "liang")]),
        ("3 ounces", &[("3", "liang")]),
        ("liǎng半", &[("3/2", "liang")]),
        ("兩半", &[("3/2", "liang")]),
        ("三兩半", &[("7/2", "liang")]),
        ("一斤半", &[("3/2", "jin")]),
        ("半斤", &[("1/2", "jin")]),
        ("斤半", &[("3/2", "jin")]),
        ("一兩二錢", &[("1", "liang"), ("2", "qian")]),
        ("一兩兩錢", &[("1", "liang"), ("2", "qian")]),
        ("一斤半兩", &[("1", "jin"), ("1/2", "liang")]),
        ("二分", &[("2", "fen")]),
        ("两钱", &[("2", "qian")]),
        ("兩兩", &[("2", "liang")]),
        ("兩升半", &[("5/2", "sheng")]),
        ("廿四銖", &[("24", "zhu")]),
        ("½ jin", &[("1/2", "jin")]),
        ("1 1/2 catties", &[("3/2", "jin")]),
        ("2.5 qián 3 fēn", &[("2.5", "qian"), ("3", "fen")]),
        (" 十二 銖 ", &[("12", "zhu")]),
    ];
    for (text, parts) in cases {
        let amount = measures
            .amount(text)
            .unwrap_or_else(|fault| panic!("{text}: {fault}"));
        let parts = parts
            .iter()
            .map(|(number, id)| (exact(number), unit(&measures, id)));
        assert_eq!(amount.parts, parts.collect::<Vec<_>>(), "{text}");
    }
}

/// A formula of the herbs at these places, each with so many zhu.
fn formula(corpus: &Corpus, zhu: &[(usize, u32)]) -> Option<Formula> {
    let herbs = zhu.iter().map(|(place, amount)| FormulaHerb {
        herb: corpus.names()[*place].id.clone(),
        amount: format!("{amount} zhu"),
    });
    let written = FormulaRecord {
        name: None,
        period: Some("han".to_owned()),
        herbs: herbs.collect(),
    };
    Formula::read(corpus, &measures(corpus), &written).ok()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn amounts_go_there_and_back(jin in 1_u64..9999, liang in 1_u64..9999, below in 1_u64..999) {
        let corpus = corpus();
        let measures = measures(&corpus);
        let amount = measures.amount(&format!("{jin} jin {liang}/{below} liang")).unwrap();
        prop_assert_eq!(&measures.amount(&amount.words(&measures)).unwrap(), &amount);
        if let Some(han) = amount.han(&measures) {
            prop_assert_eq!(measures.amount(&han).unwrap(), amount);
        }
    }

    #[test]
    fn twice_the_amount_weighs_twice_by_every_opinion(number in 1_u32..100_000, below in 1_u32..1000) {
        let corpus = corpus();
        let measures = measures(&corpus);
        let weigh = |number: u32| {
            let amount: Amount = measures.amount(&format!("{number}/{below} liang")).unwrap();
            let weighed = measures.weigh(period(&measures, "han"), &[amount]).unwrap();
            weighed.opinions.iter().map(|one| one.total.clone()).collect::<Vec<_>>()
        };
        let twice: Vec<_> = weigh(number).iter().map(|one| one.times(&exact("2"))).collect();
        prop_assert_eq!(weigh(number * 2), twice);
    }

    #[test]
    fn the_order_of_a_formula_changes_nothing(amounts in prop::collection::btree_map(0_usize..1500, 1_u32..1000, 1..12), turn in 0_usize..12) {
        let corpus = corpus();
        let measures = measures(&corpus);
        let mut zhu: Vec<(usize, u32)> = amounts.into_iter().collect();
        let before = formula(&corpus, &zhu).unwrap();
        let count = zhu.len();
        zhu.rotate_left(turn % count);
        let after = formula(&corpus, &zhu).unwrap();
        let han = period(&measures, "han");
        let total = |formula: &Formula| measures.weigh(han, &formula.amounts()).unwrap().total(Quantity::Weight);
        prop_assert_eq!(total(&before), total(&after));
        let mut grams = before.scaled(&measures, &exact("9")).unwrap();
        grams.rotate_left(turn % count);
        prop_assert_eq!(&grams, &after.scaled(&measures, &exact("9")).unwrap());
        prop_assert_eq!(grams.iter().fold(exact("1") - exact("1"), |sum, one| sum + one), exact("9"));
    }

    #[test]
    fn no_words_make_it_panic(text in "[0-9./ 一二三十百半分之兩錢斤升銖a-z-]{0,16}|\\PC{0,70}") {
        let corpus = corpus();
        let _ = measures(&corpus).amount(&text);
    }
}

#[test]
fn a_formula_by_volume_cannot_be_scaled_to_grams() {
    let corpus = corpus();
    let measures = measures(&corpus);
    let mut made = formula(&corpus, &[(0, 24), (1, 24)]).unwrap();
    made.herbs[1].amount = measures.amount("半升").unwrap();
    assert_eq!(
        made.scaled(&measures, &exact("9")),
        Err(ScaledFault::Volume(1))
    );
}
