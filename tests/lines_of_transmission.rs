//! Lines of transmission, on the invented notebooks: two draws on one; four on three and two; six on
//! five.

use crate::support::data;
use kaoyi::claim::Facet;
use kaoyi::compare::{Selection, concepts, lines, profile, view};
use kaoyi::corpus::{Corpus, Herb, Lookup, load_folder};
use pretty_assertions::assert_eq;

fn corpus() -> Corpus {
    load_folder(&data("kinds")).unwrap().corpus.unwrap()
}

fn case<'c>(corpus: &'c Corpus, name: &str) -> &'c Herb {
    let Lookup::One(herb) = corpus.find_herb(&format!("case-{name}")) else {
        panic!("{name}")
    };
    corpus.herb(herb).unwrap()
}

#[test]
fn a_work_that_repeats_an_ancestor_is_in_its_line() {
    let corpus = corpus();
    let flavour = view(
        &corpus,
        case(&corpus, "lines"),
        Facet::Flavour,
        &Selection::default(),
    );
    // one, two (repeats one, in another order), three, four, five, six (repeats five).
    // Four has two descents that say the same, one step away each: it joins the older work's line,
    // which is that of two, and the independent lines of one and three stay two.
    assert_eq!(lines(&corpus, &flavour).line_of, [0, 0, 1, 0, 2, 2]);
    assert_eq!(lines(&corpus, &flavour).count, 3);
}

#[test]
fn a_link_that_differs_does_not_break_the_line_to_an_older_ancestor() {
    let corpus = corpus();
    let nature = view(
        &corpus,
        case(&corpus, "lines"),
        Facet::Nature,
        &Selection::default(),
    );
    // two says cool; four says warm as three does, one step away, and as one does, two steps away.
    assert_eq!(lines(&corpus, &nature).line_of, [0, 1, 2, 2, 3, 3]);
}

#[test]
fn witnesses_and_lines_are_counted_side_by_side() {
    let corpus = corpus();
    let nature = view(
        &corpus,
        case(&corpus, "lines"),
        Facet::Nature,
        &Selection::default(),
    );
    let profile = profile(&corpus, &nature);
    let scheme = corpus.vocabulary.scheme(Facet::Nature);
    let warm = profile
        .supports
        .iter()
        .find(|support| scheme.value(support.value).id == "warm")
        .unwrap();
    assert_eq!((warm.k, warm.n, warm.j, warm.m), (5, 6, 3, 4));
    assert_eq!(corpus.work(warm.by[0]).id, "circle-one");
}

#[test]
fn an_action_is_supported_by_those_who_repeat_no_supporter() {
    let corpus = corpus();
    let actions = view(
        &corpus,
        case(&corpus, "lines"),
        Facet::Action,
        &Selection::default(),
    );
    let sweating = &concepts(&corpus, &actions)[0];
    assert_eq!((sweating.witnesses.len(), sweating.lines), (3, 1));
}

#[test]
fn one_witness_with_two_carriers_counts_once_and_shows_that_they_differ() {
    let corpus = corpus();
    let nature = view(
        &corpus,
        case(&corpus, "carriers"),
        Facet::Nature,
        &Selection::default(),
    );
    let by_id = |id: &str| {
        nature
            .witnesses
            .iter()
            .find(|one| corpus.work(one.work).id == id)
            .unwrap()
    };
    let one = by_id("circle-one");
    assert_eq!((one.values.len(), one.carriers_differ()), (2, true));
    let five = by_id("circle-five");
    assert_eq!(
        five.values.len(),
        1,
        "a doubtful statement does not count beside a firm one"
    );
    assert_eq!(
        by_id("circle-two").values.len(),
        1,
        "a doubtful statement counts where it is the only one"
    );
}

#[test]
fn an_article_that_is_silent_on_a_facet_is_no_denial() {
    let corpus = corpus();
    let toxicity = view(
        &corpus,
        case(&corpus, "unanimous"),
        Facet::Toxicity,
        &Selection::default(),
    );
    assert!(toxicity.witnesses.is_empty());
    assert_eq!(toxicity.silent.len(), 2);
}

#[test]
fn choosing_works_makes_none_independent() {
    let corpus = corpus();
    let work = |id: &str| corpus.work_place(id).unwrap();
    // five and six are one line; so are one and two, by whose stands four joins them.
    for (chosen, count) in [
        (vec!["circle-two", "circle-four"], 1),
        (vec!["circle-five", "circle-six"], 1),
        (vec!["circle-three", "circle-four"], 2),
    ] {
        let works = chosen.iter().map(|id| work(id)).collect();
        let selection = Selection {
            works,
            ..Selection::default()
        };
        let flavour = view(&corpus, case(&corpus, "lines"), Facet::Flavour, &selection);
        assert_eq!(lines(&corpus, &flavour).count, count, "{chosen:?}");
    }
}

#[test]
fn the_shortest_chain_of_carriers_counts() {
    let corpus = kaoyi::corpus::embedded().unwrap();
    let Lookup::One(herb) = corpus.find_herb("jiegeng") else {
        panic!()
    };
    let flavour = view(
        &corpus,
        corpus.herb(herb).unwrap(),
        Facet::Flavour,
        &Selection::default(),
    );
    let huangdi = flavour
        .witnesses
        .iter()
        .find(|one| corpus.work(one.work).id == "huangdi")
        .unwrap();
    // 吳普 itself gives 鹹; 綱目, which has it from 吳普, gives 辛、鹹.
    let shortest = huangdi.counted().map(|one| one.carriers.len()).max();
    assert_eq!((huangdi.values.len(), shortest), (1, Some(1)));
    assert!(huangdi.carriers_differ());
}
