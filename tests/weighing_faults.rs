//! `weigh`: input that cannot be weighed is told with its place, all at once, and hurts nothing.

use std::fs;

use crate::support::{files_below, kaoyi, root, text};
use crate::weighing::{corpus, measures};
use insta::assert_snapshot;
use pretty_assertions::assert_eq;

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
            "a daily weight scales a formula",
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
        let err = run.err.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(err.contains(expected), "{args:?}: {}", run.whole());
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
    assert_snapshot!(run.whole(), @r#"
    kaoyi: the formula has faults; nothing was weighed:
      found `hann`, expected a period: han, six-dynasties, tang, song, ming, qing,
      china-1930, china-1979, japan, taiwan, hong-kong; near: han
      `芍藥=四碗`: found `碗` at character 2, expected a unit: jin, liang, qian,
      fen, zhu, dou, sheng, ge
      `licorise=0兩`: found `licorise`, expected an herb of the corpus; near: gancao
      `licorise=0兩`: found `0` at character 1, expected a number above zero
      `gancao`: found nothing at character 1, expected a number above zero before
      the unit: 3 liang, 三兩, 半斤, 1/2 jin
    Each herb as one word: 芍藥=四兩, "licorice=4 liang".
    exit 2
    "#);
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

/// What is written in the file of measures, what in its place, and the fault that it is.
const FAULTY: [(&str, &str, &str); 15] = [
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

#[test]
fn a_folder_of_ones_own_may_bring_other_measures_and_its_faults_are_found() {
    let folder = tempfile::tempdir().unwrap();
    let to = folder.path().join("vocabulary");
    fs::create_dir(&to).unwrap();
    for file in files_below(&root().join("corpus/vocabulary")) {
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
    for (from, into, code) in FAULTY {
        let yaml = shipped.replacen(from, into, 1);
        assert!(yaml != shipped, "{from}");
        fs::write(&measures, yaml).unwrap();
        let found = kaoyi(&["check", text(folder.path()), "--brief"]);
        assert!(
            found.out.contains("measures.yaml:"),
            "{into}: {}",
            found.whole()
        );
        assert!(found.out.contains(code), "{into}: {}", found.whole());
    }
    fs::remove_file(&measures).unwrap();
    let found = kaoyi(&["check", text(folder.path())]);
    assert!(found.out.contains("no measures.yaml"), "{}", found.whole());
}
