//! What the shipped corpus promises.

use std::collections::HashSet;

use kaoyi::claim::Facet;
use kaoyi::compare::{Selection, view};
use kaoyi::corpus::{Kind, Origin, Status, check_embedded, embedded};
use pretty_assertions::assert_eq;

#[test]
fn the_shipped_corpus_is_without_a_fault() {
    let loaded = check_embedded().unwrap();
    let faults: Vec<String> = loaded
        .findings
        .iter()
        .take(20)
        .map(|one| {
            format!(
                "{}:{:?}:{:?} {} {}",
                one.file,
                one.line,
                one.column,
                one.code.name(),
                one.found
            )
        })
        .collect();
    assert_eq!(faults, Vec::<String>::new());
}

#[test]
fn what_is_read_quickly_at_start_is_what_was_checked() {
    let checked = check_embedded().unwrap().corpus.unwrap();
    let quick = embedded().unwrap();
    assert_eq!(
        format!("{:?}", checked.herbs()),
        format!("{:?}", quick.herbs())
    );
    assert_eq!(checked.vocabulary.thresholds, quick.vocabulary.thresholds);
    for facet in Facet::ALL {
        let ids = |corpus: &kaoyi::corpus::Corpus| -> Vec<String> {
            corpus
                .vocabulary
                .scheme(facet)
                .ids()
                .map(str::to_owned)
                .collect()
        };
        assert_eq!(ids(&checked), ids(&quick), "{facet}");
    }
    assert_eq!(
        format!("{:?}", checked.works()),
        format!("{:?}", quick.works())
    );
}

#[test]
fn it_holds_forty_herbs_and_enough_entries_and_claims() {
    let corpus = embedded().unwrap();
    let (entries, claims) = corpus.size();
    assert!(corpus.herbs().len() >= 40, "{}", corpus.herbs().len());
    assert!(entries >= 650, "{entries}");
    assert!(claims >= 16_000, "{claims}");
}

#[test]
fn every_herb_has_at_least_ten_witnesses_on_nature() {
    let corpus = embedded().unwrap();
    for herb in corpus.herbs() {
        let witnesses = view(&corpus, herb, Facet::Nature, &Selection::default())
            .witnesses
            .len();
        assert!(witnesses >= 10, "{}: {witnesses}", herb.id);
    }
}

#[test]
fn every_entry_was_compared_with_its_text_a_second_time() {
    let corpus = embedded().unwrap();
    for herb in corpus.herbs() {
        for entry in &herb.entries {
            assert_eq!(
                (entry.status, entry.origin),
                (Status::Reviewed, Origin::Shipped),
                "{}",
                herb.id
            );
            assert!(entry.at.is_some(), "{}: an entry without a place", herb.id);
        }
    }
}

#[test]
fn every_phrase_stands_under_an_action_that_is_there() {
    let vocabulary = embedded().unwrap().vocabulary;
    let actions = vocabulary.scheme(Facet::Action);
    for action in vocabulary.phrases.phrases.keys() {
        assert!(actions.place(action).is_some(), "{action}");
    }
}

#[test]
fn the_list_of_headings_names_works_that_are_there_and_each_case_once() {
    let path = crate::support::root().join("corpus/vocabulary/headings.yaml");
    let file: kaoyi::corpus::HeadingFile =
        serde_yaml::from_str(&std::fs::read_to_string(path).unwrap()).unwrap();
    let corpus = embedded().unwrap();
    let mut seen = HashSet::new();
    for heading in &file.headings {
        assert!(
            heading.herb.is_some()
                || !heading.drug
                || heading.uncertain.is_some()
                || !heading.only.is_empty(),
            "{heading:?}"
        );
        for article in &heading.only {
            let (work, ordinal) = article.split_once(':').unwrap();
            assert!(
                corpus.has_work(work) && ordinal.parse::<u32>().is_ok(),
                "{heading:?}"
            );
            assert!(
                seen.insert((heading.name.clone(), article.clone())),
                "{heading:?}"
            );
        }
        if heading.only.is_empty() {
            assert!(
                seen.insert((heading.name.clone(), String::new())),
                "{heading:?}"
            );
        }
    }
}

#[test]
fn its_herbs_are_of_every_substance_grade_and_toxicity() {
    let corpus = embedded().unwrap();
    let substances: HashSet<String> = corpus
        .herbs()
        .iter()
        .filter_map(|herb| Some(herb.substance?.id().to_owned()))
        .collect();
    for substance in ["plant", "mineral", "animal", "fungus"] {
        assert!(substances.contains(substance), "{substance}");
    }
    for facet in [Facet::Grade, Facet::Toxicity] {
        let scheme = corpus.vocabulary.scheme(facet);
        let views = corpus
            .herbs()
            .iter()
            .map(|herb| view(&corpus, herb, facet, &Selection::default()));
        let stated: HashSet<_> = views
            .flat_map(|view| view.witnesses)
            .flat_map(|witness| witness.values)
            .collect();
        assert_eq!(stated.len(), scheme.values().len(), "{facet}");
    }
}

#[test]
fn the_works_name_the_nineteen_books_read_and_those_they_quote() {
    let corpus = embedded().unwrap();
    let read: HashSet<_> = corpus
        .herbs()
        .iter()
        .flat_map(|herb| &herb.entries)
        .map(|entry| entry.work)
        .collect();
    assert!(read.len() >= 19, "{}", read.len());
    let kinds: HashSet<String> = corpus
        .works()
        .iter()
        .map(|work| format!("{:?}", work.kind))
        .collect();
    assert_eq!(kinds.len(), 4, "extant, reconstructed, lost, authority");
    assert!(
        corpus
            .works()
            .iter()
            .any(|work| work.kind == Kind::Authority && work.id == "shennong")
    );
}

#[test]
fn works_stand_in_order_of_time() {
    let corpus = embedded().unwrap();
    let years: Vec<i32> = corpus.works().iter().map(|work| work.date.to).collect();
    let mut sorted = years.clone();
    sorted.sort_unstable();
    assert_eq!(years, sorted);
}
