//! What the shipped corpus promises.

use std::collections::HashSet;

use kaoyi::claim::Facet;
use kaoyi::compare::{Selection, view};
use kaoyi::corpus::{Corpus, Herb, Kind, Origin, Status, check_embedded, embedded};
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
        format!("{:?}", checked.herbs().unwrap()),
        format!("{:?}", quick.herbs().unwrap())
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
fn it_holds_the_repertoire_of_nineteen_books() {
    let corpus = embedded().unwrap();
    let (entries, claims) = corpus.size().unwrap();
    assert!(corpus.names().len() >= 800, "{}", corpus.names().len());
    assert!(entries >= 7_000, "{entries}");
    assert!(claims >= 45_000, "{claims}");
}

/// The herbs of which every entry was compared with its text by a second reader.
fn reviewed(corpus: &Corpus) -> Vec<&Herb> {
    let all = corpus.herbs().unwrap();
    let whole = |herb: &&Herb| {
        let mut entries = herb.entries.iter();
        entries.all(|entry| entry.status == Status::Reviewed)
    };
    all.into_iter().filter(whole).collect()
}

#[test]
fn a_hundred_and_twenty_herbs_are_reviewed_and_have_ten_witnesses_on_nature() {
    let corpus = embedded().unwrap();
    let witnesses = |herb: &&Herb| {
        view(&corpus, herb, Facet::Nature, &Selection::default())
            .witnesses
            .len()
    };
    let well_attested = reviewed(&corpus)
        .into_iter()
        .filter(|herb| witnesses(herb) >= 10)
        .count();
    assert!(well_attested >= 120, "{well_attested}");
}

#[test]
fn every_entry_is_shipped_and_has_its_place() {
    let corpus = embedded().unwrap();
    for herb in corpus.herbs().unwrap() {
        for entry in &herb.entries {
            assert_eq!(entry.origin, Origin::Shipped, "{}", herb.id);
            assert!(entry.status != Status::Memory, "{}", herb.id);
            assert!(entry.at.is_some(), "{}: an entry without a place", herb.id);
        }
    }
}

#[test]
fn herbs_of_eight_books_and_more_have_their_full_identity() {
    let corpus = embedded().unwrap();
    let mut counted = 0;
    for herb in corpus.herbs().unwrap() {
        let works: HashSet<_> = herb.entries.iter().map(|entry| entry.work).collect();
        if works.len() >= 8 {
            let missing = [
                ("latin", herb.names.latin.is_none()),
                ("english", herb.names.english.is_none()),
                ("part", herb.part.is_none()),
                ("substance", herb.substance.is_none()),
            ];
            let missing: Vec<&str> = missing
                .into_iter()
                .filter_map(|(name, missing)| missing.then_some(name))
                .collect();
            assert_eq!(missing, Vec::<&str>::new(), "{}", herb.id);
            counted += 1;
        }
    }
    assert!(counted >= 250, "{counted}");
}

#[test]
fn every_phrase_stands_under_an_action_that_is_there() {
    let corpus = embedded().unwrap();
    let actions = corpus.vocabulary.scheme(Facet::Action);
    for action in corpus.reading_words().unwrap().phrases.phrases.keys() {
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
    let herbs = corpus.herbs().unwrap();
    let substances: HashSet<String> = herbs
        .iter()
        .filter_map(|herb| Some(herb.substance?.id().to_owned()))
        .collect();
    for substance in ["plant", "mineral", "animal", "fungus"] {
        assert!(substances.contains(substance), "{substance}");
    }
    for facet in [Facet::Grade, Facet::Toxicity] {
        let scheme = corpus.vocabulary.scheme(facet);
        let views = herbs
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
        .unwrap()
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
