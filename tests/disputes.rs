//! `disputes`: the ranking by discord, its filters, intervals, and the agreement on all herbs.

use crate::support::{data, kaoyi, text};
use kaoyi::claim::Facet;
use kaoyi::compare::{
    COMPARABLE, Discords, Row, Selection, SetDistance, agreement, distance, place_on_scale, stands,
};
use kaoyi::corpus::{Corpus, embedded, load_folder};
use kaoyi::stats::Undefined;
use pretty_assertions::assert_eq;
use unicode_width::UnicodeWidthStr;

fn circle() -> Corpus {
    load_folder(&data("state")).unwrap().corpus.unwrap()
}

/// Eleven invented books, ten of which call an herb acrid and warm and one bitter and cold: of 55 pairs of books ten
/// differ. Flavours: disjoint, 1. Natures: warm is place 6, cold place 1 of a scale of eleven, so 5/10. The elder makes
/// twelve witnesses on nature: 66 pairs, eleven of them 5/10 apart. Worked by hand.
#[test]
fn discord_is_the_mean_distance_of_two_books() {
    let corpus = circle();
    let stands = stands(&corpus, &[Facet::Flavour, Facet::Nature]).unwrap();
    let discords = Discords::new(&corpus, &stands, SetDistance::Masi);
    let all = discords.ranked(5);
    let balm = all
        .iter()
        .find(|one| corpus.named(one.herb).id == "circle-balm")
        .unwrap();
    let (flavour, nature) = (10.0 / 55.0, 11.0 * 0.5 / 66.0);
    assert!((balm.facets[0].mean - flavour).abs() < 1e-12);
    assert!((balm.facets[1].mean - nature).abs() < 1e-12);
    assert!((balm.mean - (flavour + nature) / 2.0).abs() < 1e-12);
    let interval = discords.interval(balm).unwrap().interval;
    assert!(interval.low <= balm.mean && balm.mean <= interval.high);
}

#[test]
fn warm_is_nearer_to_hot_than_to_cold() {
    let corpus = embedded().unwrap();
    let natures = corpus.vocabulary.scheme(Facet::Nature);
    let of = |id: &str| vec![natures.place(id).unwrap()];
    let apart = |a: &str, b: &str| distance(natures, SetDistance::Masi, &of(a), &of(b));
    assert!(apart("warm", "hot") < apart("warm", "cold"));
    assert!(apart("slight-warm", "warm") < apart("warm", "neutral"));
    assert_eq!(apart("great-cold", "great-hot"), 1.0);
    assert_eq!(place_on_scale(natures, &of("great-cold")), 0.0);
}

#[test]
fn a_ranking_keeps_to_what_is_asked() {
    for args in [
        vec![
            "disputes", "--facet", "nature", "--kind", "crossing", "--top", "7", "--json",
        ],
        vec![
            "disputes",
            "--kind",
            "over-time",
            "--until",
            "1600",
            "--witnesses",
            "3",
            "--json",
        ],
    ] {
        let json = kaoyi(&args).json();
        let disputes = json["disputes"].as_array().unwrap();
        assert!(!disputes.is_empty() && disputes.len() <= 20, "{args:?}");
        let least = json["least_witnesses"].as_u64().unwrap();
        let mut last = f64::INFINITY;
        for one in disputes {
            let discord = one["discord"].as_f64().unwrap();
            assert!(discord <= last, "{one}");
            last = discord;
            let facets = one["facets"].as_array().unwrap();
            assert!(
                facets
                    .iter()
                    .all(|facet| facet["witnesses"].as_u64().unwrap() >= least)
            );
            let kinds: Vec<&str> = facets
                .iter()
                .flat_map(|facet| facet["kinds"].as_array().unwrap())
                .map(|kind| kind.as_str().unwrap())
                .collect();
            assert!(
                kinds.contains(&args[args.iter().position(|arg| *arg == "--kind").unwrap() + 1]),
                "{one}"
            );
        }
    }
}

#[test]
fn nothing_to_rank_is_said_in_words() {
    let run = kaoyi(&["disputes", "--witnesses", "500"]);
    assert_eq!(run.code, 1);
    assert!(
        run.out.contains("No herb has a facet with 500 witnesses"),
        "{}",
        run.out
    );
    let run = kaoyi(&["disputes", "--until", "-500"]);
    let words = run.out.split_whitespace().collect::<Vec<_>>().join(" ");
    assert_eq!(run.code, 1);
    assert!(
        words.contains("no herb") && words.contains("two witnesses"),
        "{words}"
    );
    assert!(!words.contains("NaN"), "{words}");
}

#[test]
fn the_page_fits_and_shows_cautions() {
    let page = kaoyi(&["disputes", "--facet", "toxicity"]).out;
    let wide: Vec<&str> = page.lines().filter(|line| line.width() > 80).collect();
    assert_eq!(wide, Vec::<&str>::new());
    assert!(page.contains("CAUTIONS") && page.contains("prescribes nothing"));
}

#[test]
fn books_that_all_agree_leave_the_coefficient_undefined() {
    let corpus = circle();
    let all = stands(&corpus, &[Facet::Toxicity]).unwrap().remove(0);
    let oldest = Selection {
        until: Some(i32::MIN),
        ..Selection::default()
    };
    let nobody = all.chosen(&corpus, &oldest);
    let found = agreement(&corpus, &nobody, SetDistance::Masi, true);
    assert_eq!(found.graded, Err(Undefined::NoPairs));
    assert_eq!(found.interval, None);
    let folder = data("kinds");
    let json = kaoyi(&[
        "disputes",
        "--corpus",
        text(&folder),
        "--works",
        "circle-one,circle-two",
        "--json",
    ])
    .json();
    assert!(
        json["agreement"]
            .as_array()
            .unwrap()
            .iter()
            .all(|one| one["alpha"].is_null() == one["undefined"].is_string())
    );
}

#[test]
fn what_is_read_for_all_herbs_at_once_gives_the_same_stands() {
    let corpus = embedded().unwrap();
    for column in &stands(&corpus, &COMPARABLE).unwrap() {
        for (herb, rows) in corpus.herbs().unwrap().into_iter().zip(column.by_herb()) {
            let whole = kaoyi::compare::view(&corpus, herb, column.facet, &Default::default());
            let of_view: Vec<_> = whole
                .witnesses
                .iter()
                .map(|one| (one.work, one.stand()))
                .collect();
            let stand = |row: &Row| (row.work, column.kinds[row.kind as usize].clone());
            let of_column: Vec<_> = rows.iter().map(stand).collect();
            assert_eq!(of_column, of_view, "{} {}", herb.id, column.facet);
        }
    }
}

#[test]
fn a_folder_of_ones_own_is_ranked_too() {
    let folder = data("state");
    let json = kaoyi(&[
        "disputes",
        "--corpus",
        text(&folder),
        "--top",
        "2000",
        "--json",
    ])
    .json();
    let mut herbs = json["disputes"]
        .as_array()
        .unwrap()
        .iter()
        .map(|one| one["herb"]["id"].as_str().unwrap());
    assert!(herbs.any(|herb| herb == "circle-fennel"));
}
