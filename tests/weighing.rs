//! `weigh`: every published opinion as published, amounts exact, formulas, and input that must not hurt.

use std::fs;

use crate::support::{data, kaoyi, text};
use insta::assert_snapshot;
use kaoyi::claim::Quantity;
use kaoyi::corpus::{Corpus, FormulaHerb, FormulaRecord, embedded};
use kaoyi::measure::{Amount, Formula, Measures, PeriodId, ScaledFault, UnitId};
use kaoyi::text::{Exact, numeral};
use pretty_assertions::assert_eq;
use proptest::prelude::*;

fn corpus() -> Corpus {
    embedded().unwrap()
}

fn measures(corpus: &Corpus) -> Measures<'_> {
    Measures::new(&corpus.vocabulary.measures).unwrap()
}

fn unit(measures: &Measures<'_>, id: &str) -> UnitId {
    measures.units().find(|(_, unit)| unit.id == id).unwrap().0
}

fn period(measures: &Measures<'_>, id: &str) -> PeriodId {
    measures.period(id).unwrap()
}

fn exact(text: &str) -> Exact {
    numeral(text).unwrap()
}

/// How many of `wanted` the amount is.
fn holds(measures: &Measures<'_>, of: &str, amount: &str, wanted: &str) -> Option<Exact> {
    let amount = measures.amount(amount).unwrap();
    amount.in_unit(measures, period(measures, of), unit(measures, wanted))
}

#[test]
fn every_opinion_is_recorded_as_published() {
    // Period, unit, least, figure, greatest, words of the source, year.
    let published = [
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
    let corpus = corpus();
    let measures = measures(&corpus);
    let all = measures.periods().flat_map(|id| {
        let of = measures.period_record(id).id.as_str();
        measures.opinions(id).iter().map(move |one| (of, one))
    });
    let found: Vec<_> = all.collect();
    assert_eq!(found.len(), published.len());
    for ((of, one), case) in found.into_iter().zip(published) {
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

#[test]
fn bad_amounts_are_told_with_their_place_and_never_guessed() {
    let corpus = corpus();
    let measures = measures(&corpus);
    let long = "1 liang ".repeat(2000);
    let cases = [
        ("", 1, "a number above zero before the unit"),
        ("   ", 4, "a number above zero before the unit"),
        ("-3 liang", 1, "above zero"),
        ("負三兩", 1, "above zero"),
        ("0 liang", 1, "above zero"),
        ("零兩", 1, "above zero"),
        ("1/0 liang", 3, "above zero"),
        ("3", 2, "a unit: jin, liang"),
        ("一兩二", 4, "a unit: jin, liang"),
        ("兩", 1, "before the unit"),
        ("liang", 1, "before the unit"),
        ("3 linag", 3, "a unit"),
        ("三碗", 2, "a unit"),
        ("三兩二兩", 3, "each unit once"),
        ("三兩二升", 3, "weights alone or volumes alone"),
        ("1000001 liang", 1, "at most 1000000"),
        ("99999999999999999999999999 liang", 1, "at most 9 digits"),
        ("一百二兩", 4, "一百二十 or 一百零二"),
        ("nan liang", 1, "before the unit"),
        ("3 liang\u{0}", 8, "before the unit"),
        (long.as_str(), 65, "at most 64 characters"),
    ];
    for (text, at, expected) in cases {
        let fault = measures.amount(text).unwrap_err();
        assert_eq!(fault.at, at, "{text}: {fault}");
        assert!(fault.expected.contains(expected), "{text}: {fault}");
    }
    assert_eq!(measures.amount("3 linag").unwrap_err().nearest, ["liang"]);
}

#[test]
fn a_command_that_cannot_run_says_what_was_expected() {
    let cases: [(&[&str], &str); 15] = [
        (&["weigh"], "required"),
        (&["weigh", ""], "found nothing"),
        (&["weigh", "-3", "liang"], "above zero"),
        (&["weigh", "3", "pounds"], "a unit: jin"),
        (&["weigh", "3 liang", "--period", "sung"], "song"),
        (&["weigh", "3 liang", "--period", "nowhere"], "Periods: han"),
        (
            &["weigh", "3 qian", "--period", "han"],
            "a unit of Eastern Han: jin",
        ),
        (
            &["weigh", "3 liang", "--period", "japan"],
            "a unit of Japan: qian",
        ),
        (&["weigh", "1 zhu 1 qian"], "no period on record knows"),
        (
            &["weigh", "3 liang", "--daily", "9"],
            "--daily scales a formula",
        ),
        (&["weigh", "gancao=3 liang", "--daily", "-1"], "above zero"),
        (
            &["weigh", "gancao=3 liang", "--daily", "1e9"],
            "nothing more",
        ),
        (
            &["weigh", "banxia=半升", "gancao=3 liang", "--daily", "9"],
            "`banxia` is given by volume",
        ),
        (&["weigh", "--file", "no-such-file.yaml"], "cannot be read"),
        (&["weigh", "--file", "."], "a plain file"),
    ];
    for (args, expected) in cases {
        let run = kaoyi(args);
        assert_eq!(
            (run.code, run.out.as_str()),
            (2, ""),
            "{args:?}: {}",
            run.whole()
        );
        assert!(run.err.contains(expected), "{args:?}: {}", run.whole());
    }
}

#[test]
fn every_fault_of_a_formula_of_words_comes_at_once() {
    let run = kaoyi(&[
        "weigh",
        "芍藥=四碗",
        "licorise=0兩",
        "baishao=1 liang",
        "gancao",
        "--period",
        "hann",
    ]);
    assert_snapshot!(run.whole(), @"");
}

#[test]
fn every_fault_of_a_formula_file_comes_at_once_with_its_place() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("formula.yaml");
    let places = |yaml: &str| {
        fs::write(&file, yaml).unwrap();
        let run = kaoyi(&["weigh", "--file", text(&file), "--json"]);
        let error: serde_json::Value = serde_json::from_str(&run.err).unwrap();
        let findings = error["findings"].as_array().unwrap().iter();
        let place = |one: &serde_json::Value| {
            let code = one["code"].as_str().unwrap().to_owned();
            format!("{code} {}:{}", one["line"], one["column"])
        };
        (run.code, findings.map(place).collect::<Vec<_>>())
    };
    let faults = "period: hann\nherbs:\n  - {herb: bohee, amount: 三碗}\n  - {herb: 甘草, amount: 0 liang}\n  - {herb: gancao, amount: 1 liang}\n";
    let wanted = [
        "unknown-value 1:9",
        "unknown-herb 3:12",
        "bad-amount 3:27",
        "bad-amount 4:24",
        "duplicate-value 5:12",
    ];
    assert_eq!(places(faults), (2, wanted.map(str::to_owned).to_vec()));
    let misfit = "period: han\nherbs:\n  - {herb: 甘草, amount: 2 qian}\n";
    assert_eq!(places(misfit), (2, vec!["bad-amount 3:24".to_owned()]));
    let form = "peroid: han\nherbs:\n  - {herb: 甘草, amount: 3}\n  - {herb: bohe}\n";
    let wanted = ["unknown-key 1:1", "wrong-form 3:24", "missing-key 4:5"];
    assert_eq!(places(form), (2, wanted.map(str::to_owned).to_vec()));
    for (yaml, code) in [
        ("herbs: [\n", "yaml-syntax"),
        ("", "wrong-form"),
        ("herbs: []\n", "wrong-form"),
        ("a: &a 1\nherbs: *a\n", "yaml-budget"),
    ] {
        let (exit, places) = places(yaml);
        assert_eq!(exit, 2, "{yaml}");
        assert!(places[0].starts_with(code), "{yaml}: {places:?}");
    }
    let many = format!(
        "herbs:\n{}",
        "  - {herb: bohe, amount: 1 liang}\n".repeat(201)
    );
    assert_eq!(places(&many), (2, vec!["wrong-form 2:3".to_owned()]));
    fs::write(&file, b"\xff\xfe").unwrap();
    let run = kaoyi(&["weigh", "--file", text(&file)]);
    assert!(
        run.code == 2 && run.err.contains("UTF-8"),
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
    let formula = ["weigh", "gancao=1 liang", "shaoyao=1 fen", "--daily", "10"];
    // 芍藥 has no pinyin lookup trouble here: its id is asked for.
    let formula = formula.map(|word| {
        if word.starts_with("shaoyao") {
            "芍藥=1 fen"
        } else {
            word
        }
    });
    let run = kaoyi(&formula);
    assert!(
        run.code == 2 && run.err.contains("needs --period"),
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
fn a_folder_of_ones_own_may_bring_other_measures_and_its_faults_are_found() {
    let folder = tempfile::tempdir().unwrap();
    let to = folder.path().join("vocabulary");
    fs::create_dir(&to).unwrap();
    for file in crate::support::files_below(&crate::support::root().join("corpus/vocabulary")) {
        fs::copy(&file, to.join(file.file_name().unwrap())).unwrap();
    }
    let measures = to.join("measures.yaml");
    let shipped = fs::read_to_string(&measures).unwrap();
    let run = |yaml: &str, args: &[&str]| {
        fs::write(&measures, yaml).unwrap();
        kaoyi(&[args, &["--corpus", text(folder.path())]].concat())
    };
    let own = shipped.replace("value: \"13.92\"", "value: \"14\"");
    let json = run(&own, &["weigh", "2 liang", "--period", "han", "--json"]).json();
    assert_eq!(
        json["periods"][0]["opinions"][1]["total"]["value"]["exact"],
        "28"
    );
    let faulty = [
        ("value: \"13.92\"", "value: \"0\"", "wrong-form"),
        ("value: \"13.92\"", "value: \"-1\"", "wrong-form"),
        ("value: \"13.92\"", "value: 13.92", "wrong-form"),
        ("value: \"13.8\"", "value: \"14\"", "wrong-form"),
        ("holds: \"16\"", "holds: \"many\"", "wrong-form"),
        (
            "{unit: sheng, value: \"200\", least",
            "{unit: shang, value: \"200\", least",
            "unknown-value",
        ),
        ("of: zhu", "of: zhv", "unknown-value"),
        (
            "one: liang, holds: \"24\"",
            "one: sheng, holds: \"24\"",
            "wrong-form",
        ),
        (
            "one: dou, holds: \"10\", of: sheng",
            "one: sheng, holds: \"10\", of: ge",
            "duplicate-value",
        ),
        ("id: ge,", "id: dou,", "duplicate-id"),
        ("id: tang\n", "id: han\n", "duplicate-id"),
        ("also: [昇]", "also: [斗]", "duplicate-value"),
        (
            "practice: true, note",
            "practice: true, commonest: true, note",
            "duplicate-value",
        ),
        ("source: \"Ke Xuefan\"", "source: \"\"", "wrong-form"),
        ("  - id: japan", "  - id: Japan", "wrong-form"),
    ];
    for (from, into, code) in faulty {
        let yaml = shipped.replacen(from, into, 1);
        assert!(yaml != shipped, "{from}");
        fs::write(&measures, yaml).unwrap();
        let found = kaoyi(&["check", text(folder.path()), "--brief"]);
        assert!(
            found.out.contains(&format!("measures.yaml:")),
            "{into}: {}",
            found.whole()
        );
        assert!(found.out.contains(code), "{into}: {}", found.whole());
    }
    fs::remove_file(&measures).unwrap();
    let found = kaoyi(&["check", text(folder.path())]);
    assert!(found.out.contains("no measures.yaml"), "{}", found.whole());
}

#[test]
fn han_text_is_shown_in_the_script_asked_for() {
    let run = kaoyi(&["weigh", "芍药=三两", "--period", "东汉", "--script", "hans"]);
    assert!(run.out.contains("芍药 3 liang (三两)"), "{}", run.whole());
    assert!(run.out.contains("东汉"), "{}", run.whole());
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
