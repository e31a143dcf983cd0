//! `find`: phrases in either script, several words, properties, filters, counts, paging, and what is refused.

use std::process::Command;

use crate::support::{kaoyi, text};
use kaoyi::claim::Facet;
use kaoyi::compare::{Selection, view};
use kaoyi::corpus::{Lookup, embedded};
use kaoyi::text::HanFolder;
use pretty_assertions::assert_eq;
use serde_json::Value;
use unicode_width::UnicodeWidthStr;

fn found(arguments: &[&str]) -> Value {
    let mut all = vec!["find"];
    all.extend(arguments);
    all.push("--json");
    kaoyi(&all).json()
}

fn ids(json: &Value) -> Vec<&str> {
    let herbs = json["herbs"].as_array().unwrap().iter();
    herbs
        .map(|one| one["herb"]["id"].as_str().unwrap())
        .collect()
}

/// The same question asked of the records one by one, without an index.
fn counted_by_hand(phrase: &str) -> (usize, usize) {
    let corpus = embedded().unwrap();
    let folder = HanFolder::new().unwrap();
    let letters = |text: &str| -> String {
        folder
            .fold(text)
            .chars()
            .filter(|c| c.is_alphanumeric() || *c == '□' || *c == '…')
            .collect()
    };
    let wanted = letters(phrase);
    let (mut sayings, mut herbs) = (0, 0);
    for herb in corpus.herbs().unwrap() {
        let all = herb.entries.iter().flat_map(|entry| &entry.sayings);
        let hits = all
            .filter_map(|saying| saying.wording.as_ref())
            .filter(|wording| letters(wording).contains(&wanted))
            .count();
        sayings += hits;
        herbs += usize::from(hits > 0);
    }
    (sayings, herbs)
}

#[test]
fn a_phrase_is_found_wherever_it_stands_in_either_script_and_with_variants() {
    for (phrase, same) in [
        ("发汗", "發汗"),
        ("辛甘", "辛、甘"),
        ("咳逆上气", "欬逆上氣"),
        ("汗", "汗"),
        ("味辛温无毒", "味辛溫無毒"),
        ("痹", "痺"),
    ] {
        let json = found(&[phrase, "--top", "0"]);
        let (sayings, herbs) = counted_by_hand(phrase);
        assert_eq!(json["sayings_found"], sayings, "{phrase}");
        let other = found(&[same, "--top", "0"]);
        assert_eq!(
            json["sayings_found"], other["sayings_found"],
            "{phrase} {same}"
        );
        // Herbs whose name answers come on top.
        assert!(
            json["herbs_found"].as_u64().unwrap() as usize >= herbs,
            "{phrase}"
        );
        let works: u64 = json["by_work"]
            .as_array()
            .unwrap()
            .iter()
            .map(|one| one["sayings"].as_u64().unwrap())
            .sum();
        assert_eq!(works as usize, sayings, "counts by work are whole");
    }
}

#[test]
fn the_marks_show_the_phrase() {
    let folder = HanFolder::new().unwrap();
    let json = found(&["欬逆", "--top", "30", "--script", "hant"]);
    let mut seen = 0;
    for herb in json["herbs"].as_array().unwrap() {
        for saying in herb["shown"].as_array().unwrap() {
            let wording: Vec<char> = saying["wording"].as_str().unwrap().chars().collect();
            let marks = saying["marks"].as_array().unwrap();
            assert!(!marks.is_empty());
            for mark in marks {
                let (from, to) = (
                    mark[0].as_u64().unwrap() as usize,
                    mark[1].as_u64().unwrap() as usize,
                );
                let marked: String = wording[from..to]
                    .iter()
                    .filter(|c| c.is_alphanumeric())
                    .collect();
                assert_eq!(folder.fold(&marked), folder.fold("欬逆"));
                seen += 1;
            }
        }
    }
    assert!(seen > 30);
    assert!(
        kaoyi(&["find", "发汗", "--top", "1"])
            .out
            .contains("‹发汗›")
    );
}

#[test]
fn names_come_before_wordings_and_exact_ones_first() {
    let json = found(&["薄荷", "--top", "40"]);
    assert_eq!(ids(&json)[0], "bohe");
    let ranks: Vec<Option<&str>> = json["herbs"]
        .as_array()
        .unwrap()
        .iter()
        .map(|one| one["name"].as_str())
        .collect();
    let first_without = ranks
        .iter()
        .position(Option::is_none)
        .unwrap_or(ranks.len());
    assert!(
        ranks[first_without..].iter().all(Option::is_none),
        "{ranks:?}"
    );
    assert!(found(&["bo he"])["herbs"][0]["herb"]["id"] == "bohe");
    assert!(found(&["Menthae Herba"])["herbs"][0]["herb"]["id"] == "bohe");
    let near = found(&["chrysantemum"]);
    assert_eq!(
        (&near["herbs"][0]["herb"]["id"], &near["herbs"][0]["name"]),
        (&"juhua".into(), &"near".into())
    );
}

#[test]
fn several_words_must_all_answer_in_one_saying_or_its_herbs_name_and_any_takes_one() {
    let both = found(&["薄荷", "头痛"]);
    assert_eq!(ids(&both), ["bohe"]);
    let all = found(&["头痛", "发汗", "--top", "1000", "--sayings", "1000"]);
    let any = found(&["头痛", "发汗", "--any", "--top", "0"]);
    let (first, second) = (
        found(&["头痛", "--top", "0"]),
        found(&["发汗", "--top", "0"]),
    );
    let count = |json: &Value| json["sayings_found"].as_u64().unwrap();
    assert_eq!(count(&any) + count(&all), count(&first) + count(&second));
    for herb in all["herbs"].as_array().unwrap() {
        for saying in herb["shown"].as_array().unwrap() {
            let wording = saying["wording"].as_str().unwrap();
            assert!(
                wording.contains("头痛") && wording.contains("发汗"),
                "{wording}"
            );
        }
    }
}

#[test]
fn filters_keep_to_works_years_and_herb() {
    let json = found(&[
        "寒",
        "--until",
        "700",
        "--herb",
        "danggui",
        "--sayings",
        "100",
    ]);
    let years: std::collections::HashMap<&str, i64> = json["works"]
        .as_array()
        .unwrap()
        .iter()
        .map(|work| (work["id"].as_str().unwrap(), work["year"].as_i64().unwrap()))
        .collect();
    assert_eq!(ids(&json), ["danggui"]);
    let shown = json["herbs"][0]["shown"].as_array().unwrap();
    assert!(
        !shown.is_empty()
            && shown
                .iter()
                .all(|saying| years[saying["work"].as_str().unwrap()] <= 700)
    );
    let by = found(&["寒", "--works", "本草綱目", "--top", "3"]);
    assert!(
        by["by_work"]
            .as_array()
            .unwrap()
            .iter()
            .all(|one| one["work"] == "bencao-gangmu")
    );
}

/// Sweet and warm by most, never called toxic, enters the lung: the columns give what the records give.
#[test]
fn properties_choose_herbs_as_counting_their_witnesses_does() {
    let json = found(&[
        "--flavour",
        "sweet",
        "--nature",
        "warm",
        "--channel",
        "lung",
        "--never",
        "toxic",
        "--top",
        "1000",
    ]);
    let corpus = embedded().unwrap();
    let share = |herb: &kaoyi::corpus::Herb, facet: Facet, ids: &[&str]| {
        let scheme = corpus.vocabulary.scheme(facet);
        let witnesses = view(&corpus, herb, facet, &Selection::default()).witnesses;
        let states = |one: &&kaoyi::compare::Witness| {
            one.values
                .iter()
                .any(|value| ids.contains(&scheme.value(*value).id.as_str()))
        };
        (witnesses.iter().filter(states).count(), witnesses.len())
    };
    let mut expected = Vec::new();
    for herb in corpus.herbs().unwrap() {
        let shares = [
            share(herb, Facet::Flavour, &["sweet"]),
            share(herb, Facet::Nature, &["warm", "slight-warm", "great-warm"]),
            share(herb, Facet::Channel, &["lung", "all-channels"]),
        ];
        let toxicity = view(&corpus, herb, Facet::Toxicity, &Selection::default());
        let toxic = toxicity
            .all()
            .flat_map(|one| &one.statements)
            .any(|one| one.values.iter().any(|(value, _)| value.index() > 0));
        if shares.iter().all(|(k, n)| *k > 0 && 3 * k >= 2 * n) && !toxic {
            expected.push(herb.id.clone());
        }
    }
    let mut found = ids(&json);
    found.sort_unstable();
    assert!(!expected.is_empty());
    assert_eq!(found, expected);
    for herb in json["herbs"].as_array().unwrap() {
        for backing in herb["backing"].as_array().unwrap() {
            let number = |name: &str| backing[name].as_u64().unwrap();
            assert!(
                number("j") <= number("m")
                    && number("m") <= number("n")
                    && number("j") <= number("k")
            );
        }
    }
}

#[test]
fn by_all_is_stricter_than_by_most_than_by_any_and_a_span_wider_than_a_value() {
    let count = |arguments: &[&str]| {
        let mut all = arguments.to_vec();
        all.extend(["--top", "0"]);
        found(&all)["herbs_found"].as_u64().unwrap()
    };
    let by = |share| count(&["--nature", "hot", "--by", share]);
    assert!(by("all") < by("most") && by("most") < by("any"));
    assert!(count(&["--nature", "warm..hot"]) > count(&["--nature", "warm"]));
    assert_eq!(
        count(&["--nature", "hot..warm"]),
        count(&["--nature", "warm..hot"])
    );
    let never = count(&["--flavour", "acrid", "--never", "toxic"]);
    assert!(never < count(&["--flavour", "acrid"]));
}

#[test]
fn pages_follow_each_other_without_gap_or_overlap() {
    let whole = found(&["发汗", "--top", "12"]);
    let mut pages = Vec::new();
    for skip in ["0", "4", "8"] {
        let page = found(&["发汗", "--top", "4", "--skip", skip]);
        pages.extend(ids(&page).into_iter().map(str::to_owned));
    }
    assert_eq!(pages, ids(&whole));
    let behind = found(&["发汗", "--skip", "100000"]);
    assert_eq!(
        (ids(&behind).len(), &behind["herbs_found"]),
        (0, &whole["herbs_found"])
    );
}

#[test]
fn what_cannot_be_looked_for_is_refused_with_the_next_step() {
    for (arguments, words) in [
        (vec!["find"], "nothing to look for"),
        (vec!["find", "，。"], "no character or letter"),
        (
            vec!["find", "--flavour", "swete"],
            "no flavour is called `swete`",
        ),
        (vec!["find", "--flavour", "sweet..sour"], "no span"),
        (vec!["find", "--never", "sweeeet"], "no facet has a value"),
        (
            vec!["find", "寒", "--since", "3000"],
            "no work lies in the years",
        ),
    ] {
        let run = kaoyi(&arguments);
        assert!(
            run.code == 2 && run.err.contains(words),
            "{arguments:?} {}",
            run.err
        );
    }
    let nothing = kaoyi(&["find", "蒸汽机车"]);
    assert_eq!(nothing.code, 1);
    assert!(
        nothing.out.contains("0 sayings on 0 herbs"),
        "{}",
        nothing.out
    );
}

#[test]
fn the_page_fits_and_shows_cautions_of_the_herbs_named() {
    let page = kaoyi(&["find", "杀虫", "--top", "20", "--explain"]).out;
    let wide: Vec<&str> = page.lines().filter(|line| line.width() > 80).collect();
    assert_eq!(wide, Vec::<&str>::new());
    assert!(
        page.contains("THE ORDER")
            && page.contains("CAUTIONS")
            && page.contains("prescribes nothing")
    );
}

#[test]
fn an_index_that_is_damaged_or_cannot_be_kept_is_made_anew() {
    let cache = tempfile::tempdir().unwrap();
    let find = |place: &std::path::Path| {
        let mut command = Command::new(env!("CARGO_BIN_EXE_kaoyi"));
        command
            .args(["find", "发汗", "--top", "2"])
            .env_clear()
            .env("XDG_CACHE_HOME", place);
        crate::support::Run::from(command.output().unwrap())
    };
    let right = find(cache.path()).out;
    // Each index made anew has files of other names: take the next of them each time.
    let files = || {
        let mut files = crate::support::files_below(cache.path());
        files.retain(|file| text(file).contains("words-"));
        files.sort_by_key(|file| file.extension().map(ToOwned::to_owned));
        files
    };
    let number = files().len();
    assert!(number > 5);
    for place in 0..number {
        let file = files().swap_remove(place);
        let bytes = std::fs::read(&file).unwrap();
        std::fs::write(&file, &bytes[..bytes.len() / 2]).unwrap();
        assert_eq!(
            find(cache.path()).out,
            right,
            "{} cut in half",
            file.display()
        );
    }
    let no_folder = tempfile::NamedTempFile::new().unwrap();
    let run = find(no_folder.path());
    assert_eq!(run.out, right);
    assert!(run.err.contains("made in memory"), "{}", run.err);
}

#[test]
fn herbs_of_ones_own_folder_are_found() {
    let folder = crate::support::data("state");
    let json = found(&["circle fennel", "--corpus", text(&folder)]);
    assert_eq!(ids(&json)[0], "circle-fennel");
    let Lookup::One(_) = embedded().unwrap().find_herb("bohe") else {
        panic!("mint is shipped")
    };
}
