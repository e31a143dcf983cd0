//! The list of works, one work with its coverage, and the state of the corpus.

use crate::support::{data, kaoyi, text};
use insta::assert_snapshot;
use kaoyi::compare::{AGAINST, Alone, coverage, doubles, outliers};
use kaoyi::corpus::{Corpus, HerbId, embedded, load_folder};
use pretty_assertions::assert_eq;
use unicode_width::UnicodeWidthStr;

/// The shipped corpus with an invented one beside it: eleven years' lessons on five herbs.
fn circle() -> Corpus {
    load_folder(&data("state")).unwrap().corpus.unwrap()
}

fn is_ours(corpus: &Corpus, herb: HerbId) -> bool {
    corpus.named(herb).id.starts_with("circle-")
}

#[test]
fn a_work_is_shown_with_what_it_says_carries_and_draws_on() {
    let folder = data("state");
    let run = kaoyi(&["works", "circle-two", "--corpus", text(&folder)]);
    assert_snapshot!(run.whole(), @"
    園課二 Yuánkè two · Garden Lessons two
    the study circle · 1902 · extant
    note      Invented.

    WHAT IS HELD OF IT
    read      4 entries, 2 reviewed (50 %); 1 doubtful of 10 sayings
    text      5 articles, statements found in 3; 2 clauses not understood
    says      11 claims on 4 herbs: flavour 2, nature 2, action 7

    CARRIES SAYINGS OF
    園老* 1

    DRAWS ON
    園課一* (1901)                its lessons follow the first year's

    IS DRAWN ON BY
    園課三* (1903)                it revises the second year's lessons
    exit 0
    ");
}

#[test]
fn the_list_tells_books_that_were_read_from_those_known_through_them() {
    let folder = data("state");
    let page = kaoyi(&["works", "--corpus", text(&folder)]).out;
    let (read, through) = page.split_once("KNOWN THROUGH THEM").unwrap();
    assert!(
        read.contains("circle-two") && !read.contains("circle-elder"),
        "{page}"
    );
    assert!(
        through.contains("circle-elder") && !through.contains("circle-two"),
        "{page}"
    );
}

#[test]
fn coverage_counts_each_claim_once_and_under_who_makes_it() {
    let corpus = embedded().unwrap();
    let coverage = coverage(&corpus).unwrap();
    let made: usize = coverage.works.iter().flat_map(|work| work.asserts).sum();
    let read: usize = coverage.works.iter().map(|work| work.articles.claims).sum();
    let of_herbs: usize = coverage.herbs.iter().map(|herb| herb.amount.claims).sum();
    assert_eq!((made, read), (read, of_herbs));
    assert_eq!(made, coverage.whole.claims);
    let carries: usize = coverage
        .works
        .iter()
        .flat_map(|work| work.carries.values())
        .sum();
    let carried: usize = coverage
        .works
        .iter()
        .flat_map(|work| work.carried_by.values())
        .sum();
    assert_eq!(carries, carried);
    assert!(carries > 10_000, "{carries}");
}

#[test]
fn one_witness_against_ten_is_an_outlier_and_against_nine_is_not() {
    let corpus = circle();
    let found = outliers(&corpus).unwrap();
    let alone: Vec<(&str, String, usize)> = found
        .iter()
        .filter(|one| is_ours(&corpus, one.herb))
        .map(|one| {
            let what = match &one.alone {
                Alone::States(value) => format!("states {}", value.0),
                Alone::LeavesOut(value) => format!("leaves out {}", value.0),
                Alone::Side(side) => side.clone(),
            };
            (corpus.named(one.herb).id.as_str(), what, one.against)
        })
        .collect();
    let expected = [
        ("circle-balm", "leaves out 0".to_owned(), AGAINST),
        ("circle-balm", "states 3".to_owned(), AGAINST),
        // The elder, whom the second year's lesson quotes on the nature alone, is one more.
        ("circle-balm", "cold".to_owned(), AGAINST + 1),
    ];
    assert_eq!(alone, expected);
}

#[test]
fn herbs_that_share_their_wordings_but_no_book_are_perhaps_one() {
    let corpus = circle();
    let found = doubles(&corpus).unwrap();
    let pairs: Vec<_> = found
        .iter()
        .filter(|one| is_ours(&corpus, one.herbs.0))
        .map(|one| {
            let name = |id| corpus.named(id).id.as_str();
            (
                name(one.herbs.0),
                name(one.herbs.1),
                one.shared,
                one.of,
                one.works_in_common,
            )
        })
        .collect();
    assert_eq!(pairs, [("circle-mallow", "circle-rose", 3, 3, 0)]);
}

#[test]
fn the_state_of_the_shipped_corpus_fits_the_page_and_says_what_to_do() {
    let page = kaoyi(&["check", "--report"]).out;
    let wide: Vec<&str> = page.lines().filter(|line| line.width() > 80).collect();
    assert_eq!(wide, Vec::<&str>::new());
    for heading in [
        "BY WORK",
        "HERBS BY THE NUMBER OF WORKS",
        "TO REVIEW NEXT",
        "DOUBTFUL SAYINGS",
        "PERHAPS ONE DRUG TWICE",
        "ALONE AGAINST TEN OR MORE",
        "IN ONE WORK ONLY",
    ] {
        assert!(page.contains(heading), "{heading}");
    }
}

#[test]
fn a_faulty_folder_is_reported_before_its_state() {
    let folder = data("check/unknown-value/channel");
    let run = kaoyi(&["check", text(&folder), "--report"]);
    assert!(
        run.code == 1 && run.out.contains("unknown-value"),
        "{}",
        run.whole()
    );
}
