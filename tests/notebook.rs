//! The form of a notebook: what is written is read again, faults have their places and the rest loads, copies are told.

use std::fs;
use std::path::Path;

use crate::notebook_commands::{example, names, notebook, run};
use crate::support::root;
use kaoyi::claim::{Facet, Scheme, Value, Vocabulary};
use kaoyi::corpus::{Code, embedded};
use kaoyi::tasting::{
    Day, Field, Notebook, Override, Score, Tasting, Warmth, Why, read_tasting, tasting_yaml,
    with_fields,
};
use pretty_assertions::assert_eq;
use proptest::prelude::*;

prop_compose! {
    fn words()(words in "\\PC{1,30}") -> String { words }
}

prop_compose! {
    fn lines()(lines in prop::collection::vec("\\PC{0,20}", 1..4)) -> String { lines.join("\n") }
}

prop_compose! {
    fn scored()(
        flavours in prop::collection::btree_map("[a-z-]{1,12}|\\PC{1,6}", 0..=20i32, 0..4),
        rest in prop::array::uniform3(prop::option::of(0..=20i32)),
        warmth in prop::option::of(-10..=10i32),
    ) -> kaoyi::tasting::Scores {
        let score = |steps| Score::of_steps(steps).unwrap();
        kaoyi::tasting::Scores {
            flavours: flavours.into_iter().map(|(id, steps)| (id, score(steps))).collect(),
            thickness: rest[0].map(score),
            lingering: rest[1].map(score),
            aroma: rest[2].map(score),
            warmth: warmth.map(|steps| Warmth::of_steps(steps).unwrap()),
        }
    }
}

prop_compose! {
    fn tastings()(
        herb in words(),
        texts in prop::array::uniform7(prop::option::of(words())),
        amount in prop::option::of(1..10_000_000i32),
        water in prop::option::of(1..100_000_000i32),
        heat in prop::option::of(0..150_000i32),
        hours in prop::option::of(0..1_000_000i32),
        day in (1000..9999u16, 1..=12u8, 1..=28u8),
        fasting in prop::option::of(any::<bool>()),
        cup in prop::option::of(1..99u32),
        (scores, reason) in (scored(), prop::option::of(words())),
        (places, photos) in (prop::collection::vec(words(), 0..3), prop::collection::vec(words(), 0..3)),
        ways in prop::sample::subsequence(vec!["up", "down", "out", "in", "centre"], 0..4),
        prose in prop::option::of(lines()),
    ) -> Tasting {
        let mut tasting = Tasting::on(herb, Day::new(day.0, day.1, day.2).unwrap());
        let [part, preparation, lot, supplier, vessel, taster, code] = texts;
        tasting.part = part;
        tasting.preparation = preparation;
        tasting.lot = lot;
        tasting.supplier = supplier;
        tasting.vessel = vessel;
        tasting.taster = taster;
        tasting.code = code;
        tasting.amount = amount.and_then(kaoyi::tasting::Grams::of_steps);
        tasting.water = water.and_then(kaoyi::tasting::Millilitres::of_steps);
        tasting.temperature = heat.and_then(kaoyi::tasting::Celsius::of_steps);
        tasting.hours = hours.and_then(kaoyi::tasting::Hours::of_steps);
        tasting.fasting = fasting;
        tasting.cup = cup;
        tasting.scores = scores;
        tasting.places = places;
        tasting.photos = photos;
        Field::Direction.set(&mut tasting, &ways.join(",")).unwrap();
        tasting.words = prose;
        tasting.overridden = reason.map(|reason| Override { reason });
        tasting
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    #[test]
    fn what_is_written_is_read_again(tasting in tastings()) {
        prop_assert_eq!(read_like(&tasting_yaml(&tasting), &tasting), Ok(tasting));
    }

    #[test]
    fn a_tasting_as_json_is_read_again(tasting in tastings()) {
        let json = serde_json::to_string(&tasting).unwrap();
        prop_assert_eq!(serde_json::from_str::<Tasting>(&json).unwrap(), tasting);
    }

    #[test]
    fn changed_fields_are_changed_and_all_else_stays(before in tastings(), after in tastings()) {
        let mut wanted = before.clone();
        wanted.hours = after.hours;
        wanted.scores = after.scores.clone();
        wanted.words = after.words.clone();
        let text = with_fields(&tasting_yaml(&before), &wanted, &["hours", "scores", "words"]);
        prop_assert_eq!(read_like(&text, &wanted), Ok(wanted));
    }

    #[test]
    fn every_half_and_no_other_number_is_a_score(hundredths in -200..1200i32) {
        let number = f64::from(hundredths) / 100.0;
        let half = hundredths % 50 == 0 && (0..=1000).contains(&hundredths);
        prop_assert_eq!(Score::try_from(number).is_ok(), half);
        prop_assert_eq!(Warmth::try_from(number).is_ok(), hundredths % 50 == 0 && (-500..=500).contains(&hundredths));
    }

    #[test]
    fn no_text_makes_the_reader_panic(text in "(herb|date|scores|flavours|: |\\{|\\}|\n|- |[a-z0-9.\"]){0,30}") {
        let _ = read_tasting("any.yaml", &text, &embedded().unwrap().vocabulary);
    }
}

/// The shipped vocabulary with other flavours: a circle may use a scheme of its own.
fn vocabulary(flavours: impl Iterator<Item = String>) -> Vocabulary {
    let shipped = &embedded().unwrap().vocabulary;
    let mut schemes: Vec<Scheme> = shipped.schemes().cloned().collect();
    let mut file = shipped.scheme(Facet::Flavour).file().clone();
    let like = file.values[0].clone();
    file.values = flavours.map(|id| Value { id, ..like.clone() }).collect();
    schemes[0] = Scheme::new(file);
    let (cautions, thresholds) = (shipped.cautions.clone(), shipped.thresholds);
    Vocabulary::new(
        schemes,
        Some(cautions),
        Some(thresholds),
        Some(shipped.pairing.clone()),
        Some(shipped.measures.clone()),
    )
    .unwrap()
}

/// The tasting in `text`, whose flavours are those of `like`.
fn read_like(text: &str, like: &Tasting) -> Result<Tasting, String> {
    let flavours = like.scores.flavours.keys().cloned();
    read_tasting("one.yaml", text, &vocabulary(flavours))
        .map_err(|findings| format!("{findings:#?}"))
}

/// An invented notebook in which one file of six is without fault.
fn faulty_notebook() -> tempfile::TempDir {
    let faulty = "herb: bohe\ndate: 2026-02-30\namuont: 3\ntaster: 7\nscores:\n  flavours: {acrid: 11, sweet: 2.3}\n  \
                  warmth: -6\ndirection: [upp]\n";
    notebook(&[
        ("a.yaml", faulty),
        (
            "b.yaml",
            "herb: bohe\ndate: 2026-03-14\nscores: {flavours: {acrid: 6, bittr: 1}}\n",
        ),
        ("c.yaml", "herb: [bohe\n"),
        (
            "d.yaml",
            "herb: juhua\ndate: 2026-03-14\nscores: {flavours: {sweet: 4}}\n",
        ),
        (
            "e.yaml",
            "herb: juhua\ndate: 2026-03-14\ndate: 2026-03-15\n",
        ),
        ("f.yaml", ""),
    ])
}

#[test]
fn every_fault_of_a_file_is_told_with_its_place_and_the_rest_loads() {
    let folder = faulty_notebook();
    let (loaded, findings) = Notebook::open(folder.path());
    assert_eq!(
        loaded
            .all()
            .iter()
            .map(|one| one.id.as_str())
            .collect::<Vec<_>>(),
        ["d"]
    );
    let told: Vec<_> = findings
        .iter()
        .map(|one| {
            let file = Path::new(&one.file)
                .file_name()
                .unwrap()
                .to_str()
                .unwrap()
                .to_owned();
            let place = format!("{file}:{}:{}", one.line.unwrap(), one.column.unwrap());
            (place, one.code, one.found.clone(), one.nearest.join(" "))
        })
        .collect();
    let wanted = [
        ("a.yaml:2:7", Code::WrongForm, "`2026-02-30`", ""),
        ("a.yaml:3:1", Code::UnknownKey, "`amuont`", "amount"),
        ("a.yaml:4:9", Code::WrongForm, "`7`", "\"7\""),
        ("a.yaml:6:21", Code::WrongForm, "`11`", ""),
        ("a.yaml:6:32", Code::WrongForm, "`2.3`", ""),
        ("a.yaml:7:11", Code::WrongForm, "`-6`", ""),
        ("a.yaml:8:13", Code::WrongForm, "`upp`", "up"),
        ("b.yaml:3:31", Code::UnknownValue, "`bittr`", "bitter"),
        ("c.yaml:1:7", Code::Syntax, "", ""),
        ("e.yaml:3:1", Code::DuplicateKey, "`date` a second time", ""),
        ("f.yaml:1:1", Code::WrongForm, "nothing", ""),
    ];
    for (told, wanted) in told.iter().zip(&wanted) {
        // What the parser says of broken YAML is its own affair; where is not.
        let found = if told.1 == Code::Syntax {
            ""
        } else {
            told.2.as_str()
        };
        assert_eq!((told.0.as_str(), told.1, found, told.3.as_str()), *wanted);
    }
    assert_eq!(told.len(), wanted.len(), "{told:#?}");
    let listed = run(folder.path(), &["list"]);
    assert_eq!(listed.code, 1, "{}", listed.err);
    assert!(listed.out.contains("1 tasting in") && listed.err.contains("a.yaml:3:1"));
}

#[test]
fn copies_conflicts_and_strange_files_are_passed_over_and_told() {
    let one = "herb: bohe\ndate: 2026-03-14\ntaster: A\nphotos: [leaf.jpg]\n";
    let folder = notebook(&[
        ("2026-03-14-bohe-01kmpj800abc.yaml", one),
        ("copy of it.yaml", one),
        (
            "2026-03-14-bohe-01kmpj800abc.sync-conflict-20260315.yaml",
            "herb: bohe\ndate: 2026-03-15\n",
        ),
        (
            "2026-03-14-bohe-01kmpj800abc (1).yaml",
            "herb: faulty: here\n",
        ),
        (".kaoyi-x7Ab9q.tmp", "herb: bo"),
        ("other.yml", one),
        ("leaf.jpg", "a picture"),
        (".stignore", ""),
        ("README.md", "invented"),
    ]);
    fs::create_dir(folder.path().join("undone")).unwrap();
    fs::create_dir(folder.path().join("old")).unwrap();
    let (loaded, findings) = Notebook::open(folder.path());
    assert_eq!(
        (loaded.all().len(), findings.len(), loaded.files()),
        (1, 0, 2)
    );
    let told: Vec<_> = loaded
        .passed_over()
        .iter()
        .map(|one| (one.file.as_str(), one.why, one.counts.is_some()))
        .collect();
    assert_eq!(
        told,
        [
            (".kaoyi-x7Ab9q.tmp", Why::Unfinished, false),
            ("2026-03-14-bohe-01kmpj800abc (1).yaml", Why::Conflict, true),
            (
                "2026-03-14-bohe-01kmpj800abc.sync-conflict-20260315.yaml",
                Why::Conflict,
                true
            ),
            ("copy of it.yaml", Why::Copy, true),
            ("old", Why::Folder, false),
            ("other.yml", Why::Name, false),
        ]
    );
    let listed = run(folder.path(), &["list"]);
    assert!(listed.out.contains("PASSED OVER") && listed.out.contains("copy of it.yaml"));
    assert_eq!(listed.code, 0);
}

#[test]
fn names_of_herbs_are_looked_up_and_unknown_ones_keep_their_name() {
    let folder = notebook(&[
        ("a.yaml", "herb: 薄荷\ndate: 2026-03-14\n"),
        ("b.yaml", "herb: mint\ndate: 2026-03-15\n"),
        (
            "c.yaml",
            "herb: the blue one\ndate: 2026-03-16\nscores: {warmth: 1}\n",
        ),
    ]);
    let (loaded, _) = Notebook::open(folder.path());
    assert_eq!(loaded.of("bohe").count(), 2);
    assert!(!loaded.all()[2].known);
    let listed = run(folder.path(), &["list", "the blue one"]);
    assert!(listed.out.contains("the blue one ?"), "{}", listed.whole());
    assert_eq!(run(folder.path(), &["list", "no such herb"]).code, 2);
}

#[test]
fn the_invented_notebook_is_without_fault() {
    let (loaded, findings) = Notebook::open(&example());
    assert_eq!((findings.len(), loaded.passed_over().len()), (0, 0));
    assert_eq!(
        (loaded.of("bohe").count(), loaded.of("juhua").count()),
        (6, 4)
    );
    for name in names(&example()) {
        let text = fs::read_to_string(example().join(&name)).unwrap();
        assert!(text.starts_with("# Invented"), "{name}");
    }
    let page = run(&example(), &["list"]).out;
    assert!(
        page.lines()
            .all(|line| unicode_width::UnicodeWidthStr::width(line) <= 80),
        "{page}"
    );
    fs::remove_dir_all(example().join(".cache")).unwrap();
}

#[test]
fn the_template_in_the_guide_is_a_tasting() {
    let guide = fs::read_to_string(root().join("docs/notebook.md")).unwrap();
    let template = guide
        .split("```yaml\n")
        .nth(1)
        .unwrap()
        .split("```")
        .next()
        .unwrap();
    let vocabulary = &embedded().unwrap().vocabulary;
    let tasting = read_tasting("template.yaml", template, vocabulary).unwrap();
    // Every key of the record is shown.
    let shown = serde_json::to_value(&tasting).unwrap();
    let schema = kaoyi::tasting::schema(&embedded().unwrap()).1;
    let keys = |value: &serde_json::Value| {
        value
            .as_object()
            .unwrap()
            .keys()
            .cloned()
            .collect::<Vec<_>>()
    };
    let (mut shown, mut all) = (keys(&shown), keys(&schema["properties"]));
    shown.sort();
    all.sort();
    assert_eq!(shown, all);
}
