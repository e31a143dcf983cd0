//! Each kind of difference, on an invented corpus made to show it: what holds, what does not, and
//! who stands on which side.

use crate::support::data;
use kaoyi::claim::Facet;
use kaoyi::compare::{Difference, DifferenceKind, Selection, differences, view};
use kaoyi::corpus::{Corpus, Lookup, load_folder};
use pretty_assertions::assert_eq;

fn corpus() -> Corpus {
    let loaded = load_folder(&data("kinds")).unwrap();
    assert_eq!(loaded.findings, vec![]);
    loaded.corpus.unwrap()
}

fn found(corpus: &Corpus, case: &str, facet: Facet) -> Vec<Difference> {
    let Lookup::One(herb) = corpus.find_herb(&format!("case-{case}")) else {
        panic!("{case}")
    };
    let view = view(
        corpus,
        corpus.herb(herb).unwrap(),
        facet,
        &Selection::default(),
    );
    differences(corpus, &view)
}

fn kinds(corpus: &Corpus, case: &str, facet: Facet) -> Vec<&'static str> {
    found(corpus, case, facet)
        .iter()
        .map(|difference| difference.kind.word())
        .collect()
}

/// The notebooks on each side: `one three | five`.
fn sides(corpus: &Corpus, difference: &Difference) -> String {
    let name = |work| {
        corpus
            .work(work)
            .id
            .trim_start_matches("circle-")
            .to_owned()
    };
    let side = |witnesses: &[_]| {
        witnesses
            .iter()
            .map(|work| name(*work))
            .collect::<Vec<_>>()
            .join(" ")
    };
    difference
        .sides
        .iter()
        .map(|one| side(&one.witnesses))
        .collect::<Vec<_>>()
        .join(" | ")
}

#[test]
fn each_case_shows_its_kinds_and_no_other() {
    let corpus = corpus();
    let cases: [(&str, Facet, &[&str]); 24] = [
        ("unanimous", Facet::Flavour, &["unanimous"]),
        ("unanimous", Facet::Nature, &["unanimous"]),
        ("unanimous", Facet::Toxicity, &[]),
        ("single", Facet::Flavour, &["single witness"]),
        ("nested", Facet::Flavour, &["nested"]),
        ("mixed", Facet::Flavour, &["mixed"]),
        ("graded", Facet::Nature, &["graded"]),
        ("graded", Facet::Toxicity, &["graded"]),
        ("graded-by-degree", Facet::Flavour, &["unanimous", "graded"]),
        ("crossing", Facet::Flavour, &["mixed", "crossing"]),
        ("crossing", Facet::Nature, &["crossing"]),
        ("crossing", Facet::Toxicity, &["crossing"]),
        ("scope-own", Facet::Nature, &["unanimous", "by scope"]),
        ("scope-unheard", Facet::Flavour, &["unanimous", "by scope"]),
        ("scope-same", Facet::Flavour, &["single witness"]),
        ("turning", Facet::Nature, &["crossing", "over time"]),
        ("wavering", Facet::Nature, &["crossing"]),
        ("opposed", Facet::Action, &[]),
        ("lines", Facet::Nature, &["crossing"]),
        ("toxic-part", Facet::Toxicity, &[]),
        ("scope-only", Facet::Nature, &["by scope"]),
        ("degrees", Facet::Flavour, &["unanimous", "graded"]),
        ("flavour-turn", Facet::Flavour, &["nested", "over time"]),
        ("one-sided", Facet::Flavour, &["nested"]),
    ];
    for (case, facet, expected) in cases {
        assert_eq!(kinds(&corpus, case, facet), expected, "{case} {facet}");
    }
}

#[test]
fn the_sides_name_their_witnesses() {
    let corpus = corpus();
    let one = |case: &str, facet, kind| {
        let all = found(&corpus, case, facet);
        sides(
            &corpus,
            all.iter()
                .find(|difference| difference.kind == kind)
                .unwrap(),
        )
    };
    assert_eq!(
        one("nested", Facet::Flavour, DifferenceKind::Nested),
        "one | three | five"
    );
    assert_eq!(
        one("crossing", Facet::Nature, DifferenceKind::Crossing),
        "three | five | one"
    );
    assert_eq!(
        one("crossing", Facet::Flavour, DifferenceKind::Crossing),
        "one | three"
    );
    assert_eq!(
        one("scope-own", Facet::Nature, DifferenceKind::ByScope),
        "one three | one"
    );
    assert_eq!(
        one("scope-unheard", Facet::Flavour, DifferenceKind::ByScope),
        "one three | five"
    );
    assert_eq!(
        one("graded-by-degree", Facet::Flavour, DifferenceKind::Graded),
        "one | three"
    );
}

#[test]
fn a_turn_names_where_it_is_and_who_stands_against_it() {
    let corpus = corpus();
    let all = found(&corpus, "turning", Facet::Nature);
    let turn = all
        .iter()
        .find(|difference| difference.kind == DifferenceKind::OverTime)
        .unwrap();
    let turning = turn.turning.as_ref().unwrap();
    assert_eq!(sides(&corpus, turn), "one two three | five six seven eight");
    // `four` is neutral: it fits neither side, so the turn is named by the first that turned.
    assert_eq!(corpus.work(turning.first_of_later).id, "circle-five");
    assert_eq!(
        turning
            .against
            .iter()
            .map(|work| corpus.work(*work).id.as_str())
            .collect::<Vec<_>>(),
        ["circle-four"]
    );
}

#[test]
fn a_turn_has_fewer_misfits_than_either_side_and_no_date_on_both() {
    let corpus = kaoyi::corpus::embedded().unwrap();
    for herb in corpus.herbs().unwrap() {
        for facet in [Facet::Flavour, Facet::Nature, Facet::Toxicity] {
            let view = view(&corpus, herb, facet, &Selection::default());
            for turn in differences(&corpus, &view)
                .iter()
                .filter(|one| one.kind == DifferenceKind::OverTime)
            {
                let date = |work: &_| corpus.work(*work).date;
                let last = turn.sides[0]
                    .witnesses
                    .iter()
                    .map(|work| date(work).to)
                    .max();
                let later = turn.sides[1].witnesses.iter().map(|work| date(work).from);
                assert!(
                    later.into_iter().all(|from| from > last),
                    "{} {facet}",
                    herb.id
                );
                let against = &turn.turning.as_ref().unwrap().against;
                assert!(
                    turn.sides
                        .iter()
                        .all(|side| side.witnesses.len() > against.len()),
                    "{} {facet}",
                    herb.id
                );
            }
        }
    }
}
