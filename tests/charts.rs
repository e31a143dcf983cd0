//! Drawings: they are XML, tell in words what they show, cut and overlap no label, and hold the figures of the view.

use std::fs;

use crate::support::{herbs_of_every_kind, kaoyi, text};
use kaoyi::claim::Facet;
use kaoyi::compare::Selection;
use kaoyi::corpus::{Corpus, Lookup, embedded};
use kaoyi::report::chart::{ChartKind, Drawing, Dress, Sheet, WIDTH, draw};
use kaoyi::report::view::{ComparisonView, Labels, OwnFigures, OwnFlavour, OwnView, ScalesView};
use kaoyi::text::Converter;
use pretty_assertions::assert_eq;
use proptest::prelude::*;

/// The comparison of an herb by the works of some years.
fn comparison(
    corpus: &Corpus,
    herb: &str,
    years: (Option<i32>, Option<i32>),
) -> (ComparisonView, ScalesView) {
    let Lookup::One(id) = corpus.find_herb(herb) else {
        panic!("{herb}")
    };
    let script = Converter::default();
    let labels = Labels::new(corpus, &script);
    let selection = Selection {
        since: years.0,
        until: years.1,
        ..Selection::default()
    };
    let herb = corpus.herb(id).unwrap();
    let view = ComparisonView::new(&labels, herb, &Facet::ALL, &selection);
    (view, ScalesView::new(&labels))
}

fn drawing(kind: ChartKind, view: &ComparisonView, scales: &ScalesView, facet: Facet) -> Drawing {
    draw(
        kind,
        &Sheet {
            comparison: view,
            scales,
            facet,
            own: None,
        },
    )
}

/// No label is cut off by the edge, and no two overlap.
fn sound(drawing: &Drawing, of: &str) {
    let labels = drawing.labels();
    for (place, label) in labels.iter().enumerate() {
        let inside = label.x >= -0.01
            && label.y >= -0.01
            && label.x + label.width <= WIDTH + 0.01
            && label.y + label.height <= drawing.height() + 10.0;
        assert!(inside, "{of}: cut off: {label:?}");
        for other in &labels[place + 1..] {
            assert!(!label.overlaps(other), "{of}: {label:?} over {other:?}");
        }
    }
}

#[test]
fn every_kind_of_every_herb_is_xml_with_title_and_description() {
    let corpus = embedded().unwrap();
    for herb in herbs_of_every_kind() {
        let (view, scales) = comparison(&corpus, &herb, (None, None));
        for kind in ChartKind::ALL {
            let drawing = drawing(kind, &view, &scales, Facet::Nature);
            sound(&drawing, &format!("{herb} {}", kind.name()));
            for dress in [Dress::Standalone, Dress::Inline, Dress::Resolved] {
                let svg = drawing.to_svg("a", dress);
                let document = roxmltree::Document::parse(&svg).unwrap();
                let root = document.root_element();
                assert_eq!(root.attribute("role"), Some("img"));
                assert_eq!(root.attribute("aria-labelledby"), Some("a-title a-desc"));
                assert!(root.attribute("viewBox").unwrap().starts_with("0 0 640 "));
                let told = |id: &str| {
                    let mut all = root.descendants();
                    let one = all.find(|node| node.attribute("id") == Some(id)).unwrap();
                    one.text().unwrap_or_default().trim().to_owned()
                };
                assert!(told("a-title").contains(&view.herb.name));
                assert!(!told("a-desc").is_empty(), "{herb} {}", kind.name());
            }
        }
    }
}

#[test]
fn han_text_is_marked_as_such_in_the_script_asked_for() {
    for (script, lang) in [("hant", "zh-Hant"), ("hans", "zh-Hans")] {
        let run = kaoyi(&["chart", "nature", "juhua", "--script", script]);
        let document = roxmltree::Document::parse(&run.out).unwrap();
        for node in document
            .descendants()
            .filter(|node| node.has_tag_name(("http://www.w3.org/2000/svg", "text")))
        {
            for part in node.descendants().filter(roxmltree::Node::is_text) {
                let han = part
                    .text()
                    .unwrap()
                    .chars()
                    .any(|c| ('\u{4e00}'..='\u{9fff}').contains(&c));
                let parent = part.parent().unwrap();
                let wanted = han.then_some(lang);
                assert_eq!(parent.attribute("lang"), wanted, "{:?}", part.text());
            }
        }
    }
}

#[test]
fn the_bars_and_the_scale_hold_the_figures_of_the_view() {
    let corpus = embedded().unwrap();
    for herb in ["bohe", "juhua", "gancao", "fuzi"] {
        let (view, scales) = comparison(&corpus, herb, (None, None));
        let json = kaoyi(&["compare", herb, "--json"]).json();
        let profiles = json["profile"].as_array().unwrap();
        let flavour = profiles
            .iter()
            .find(|one| one["facet"] == "flavour")
            .unwrap();
        let bars = drawing(ChartKind::Flavours, &view, &scales, Facet::Nature);
        let shown: Vec<&str> = bars
            .labels()
            .iter()
            .map(|label| label.text.as_str())
            .filter(|text| text.contains(" of "))
            .collect();
        let mut wanted: Vec<(usize, String)> = Vec::new();
        for one in flavour["values"].as_array().unwrap() {
            let place = scales
                .flavours
                .iter()
                .position(|value| value.id == one["value"]["id"]);
            wanted.push((place.unwrap(), format!("{} of {}", one["k"], one["n"])));
        }
        wanted.sort();
        let wanted: Vec<&str> = wanted.iter().map(|(_, words)| words.as_str()).collect();
        assert_eq!(
            shown
                .iter()
                .filter(|text| text.len() < 10)
                .copied()
                .collect::<Vec<_>>(),
            wanted
        );
        // Every stand on the nature that counts is one full mark, beside the three of the legend.
        let stands = json["witnesses"]
            .as_array()
            .unwrap()
            .iter()
            .filter_map(|row| row["stands"]["nature"]["values"].as_array());
        let marks: usize = stands.map(Vec::len).sum();
        let svg =
            drawing(ChartKind::Nature, &view, &scales, Facet::Nature).to_svg("n", Dress::Inline);
        let document = roxmltree::Document::parse(&svg).unwrap();
        let full = document.descendants().filter(|node| {
            matches!(
                node.attribute("class"),
                Some("k-cold" | "k-warm" | "k-open")
            )
        });
        assert_eq!(full.count(), marks + 3, "{herb}");
    }
}

/// Invented tastings of the study circle.
#[test]
fn own_tastings_are_laid_under_the_books_bars() {
    let corpus = embedded().unwrap();
    let (view, scales) = comparison(&corpus, "bohe", (None, None));
    let flavour = |id: &str, median: f64| {
        let found = scales.flavours.iter().find(|value| value.id == id);
        OwnFlavour {
            value: found.unwrap().clone(),
            figures: OwnFigures {
                n: 6,
                median,
                lowest: 0.5,
                highest: 9.0,
            },
        }
    };
    let own = OwnView {
        tastings: 6,
        tasters: vec!["A".to_owned(), "B".to_owned()],
        first: "2026-03-07".to_owned(),
        last: "2026-03-21".to_owned(),
        flavours: vec![flavour("acrid", 6.5), flavour("salty", 1.0)],
        others: Vec::new(),
    };
    let sheet = Sheet {
        comparison: &view,
        scales: &scales,
        facet: Facet::Nature,
        own: Some(&own),
    };
    let drawing = draw(ChartKind::Flavours, &sheet);
    sound(&drawing, "tasted");
    let texts: Vec<&str> = drawing
        .labels()
        .iter()
        .map(|label| label.text.as_str())
        .collect();
    for wanted in ["6.5 of 10", "1 of 10", "salty"] {
        assert!(texts.contains(&wanted), "{wanted}: {texts:?}");
    }
    assert!(
        drawing
            .description()
            .contains("acrid, tasted: median 6.5 of 10 in 6 tastings.")
    );
}

#[test]
fn a_drawing_is_written_to_the_file_that_is_named() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("mint.svg");
    let run = kaoyi(&["chart", "timeline", "mint", "bohe", "-o", text(&file)]);
    assert_eq!((run.code, run.out.as_str()), (0, ""), "{}", run.err);
    assert!(fs::read_to_string(&file).unwrap().starts_with("<svg"));
    let run = kaoyi(&[
        "chart",
        "timeline",
        "mint",
        "-o",
        text(&folder.path().join("mint.swg")),
    ]);
    assert_eq!(run.code, 2);
    assert!(
        run.err.contains("expected .svg or .png") && run.err.contains("Did you mean"),
        "{}",
        run.err
    );
    let run = kaoyi(&[
        "chart",
        "timeline",
        "mint",
        "-o",
        text(&folder.path().join("no/such.svg")),
    ]);
    assert!(
        run.code == 2 && run.err.contains("could not be written"),
        "{}",
        run.err
    );
}

#[test]
fn all_herbs_that_are_unknown_are_named_at_once() {
    let run = kaoyi(&["chart", "nature", "bohee", "juhuaa"]);
    assert_eq!(run.code, 2);
    assert!(
        run.err.contains("bohee") && run.err.contains("juhuaa"),
        "{}",
        run.err
    );
}

#[test]
fn a_choice_of_years_without_a_witness_is_told_and_not_drawn_empty() {
    let run = kaoyi(&["chart", "nature", "bohe", "--until", "100"]);
    assert!(
        run.code == 1 && run.out.contains("No work takes a stand here."),
        "{}",
        run.whole()
    );
}

#[cfg(feature = "png")]
#[test]
fn a_picture_of_points_needs_a_typeface_with_han_characters_and_says_which() {
    use kaoyi::report::chart::{Fonts, png};
    let corpus = embedded().unwrap();
    let (view, scales) = comparison(&corpus, "bohe", (None, None));
    let drawing = drawing(ChartKind::Nature, &view, &scales, Facet::Nature);
    let error = png(&drawing, Fonts::new()).unwrap_err().to_string();
    assert!(error.contains("fonts-noto-cjk"), "{error}");
}

#[cfg(not(feature = "png"))]
#[test]
fn without_the_feature_a_png_is_refused_with_the_way_to_get_it() {
    let run = kaoyi(&["chart", "nature", "bohe", "-o", "x.png"]);
    assert!(
        run.code == 2 && run.err.contains("--features png"),
        "{}",
        run.err
    );
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// Whatever works are chosen of whatever herb, no label is cut and no two overlap; and drawings put
    /// below each other stay sound.
    #[test]
    fn labels_never_overlap(herb in 0_usize..300, other in 0_usize..300, since in -200_i32..1700, years in 0_i32..1900, kind in 0_usize..6, facet in 0_usize..3) {
        let corpus = embedded().unwrap();
        let kind = ChartKind::ALL[kind];
        let facet = [Facet::Flavour, Facet::Nature, Facet::Toxicity][facet];
        let id = |place: usize| corpus.names()[place * 6].id.clone();
        let one = |place: usize| {
            let (view, scales) = comparison(&corpus, &id(place), (Some(since), Some(since + years)));
            drawing(kind, &view, &scales, facet)
        };
        let mut whole = one(herb);
        whole.put_below(&one(other));
        sound(&whole, &id(herb));
    }
}
