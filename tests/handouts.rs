//! Handouts: every figure as in the view, nothing unescaped, cautions on every page, languages told, questions with
//! their evidence.

use std::collections::HashSet;
use std::fs;
use std::path::Path;

use crate::support::{kaoyi, text};
use kaoyi::claim::Facet;
use kaoyi::corpus::{Lookup, embedded};
use kaoyi::report::handout::questions;
use kaoyi::report::view::{ComparisonView, Labels, NOTICE};
use kaoyi::text::Converter;
use pretty_assertions::assert_eq;
use roxmltree::{Document, Node};

/// A page as XML: its few void elements are closed first.
fn xml(page: &str) -> String {
    let page = page.strip_prefix("<!DOCTYPE html>").expect("an HTML page");
    let mut closed = String::new();
    for (place, part) in page.split("<meta ").enumerate() {
        if place == 0 {
            closed.push_str(part);
            continue;
        }
        closed.push_str("<meta ");
        closed.push_str(&part.replacen('>', "/>", 1));
    }
    closed.replace("<br>", "<br/>")
}

fn words(node: Node<'_, '_>) -> String {
    let texts = node.descendants().filter(Node::is_text);
    texts.filter_map(|node| node.text()).collect()
}

fn handout(arguments: &[&str]) -> String {
    let run = kaoyi(&[&["handout"], arguments].concat());
    assert_eq!(run.code, 0, "{}", run.err);
    run.out
}

#[test]
fn a_page_is_well_formed_names_no_id_twice_and_asks_for_nothing_from_elsewhere() {
    for arguments in [
        &["bohe"][..],
        &["juhua", "gancao", "--ruby"],
        &["fuzi", "--script", "hans"],
        &["--disputes", "nature", "--top", "4"],
    ] {
        let page = xml(&handout(arguments));
        let document = Document::parse(&page).unwrap();
        let mut ids = HashSet::new();
        for node in document.descendants() {
            let name = node.tag_name().name();
            assert!(
                !["script", "link", "img", "iframe"].contains(&name),
                "{name}"
            );
            assert!(node.attribute("src").is_none());
            let link = node.attribute("href").unwrap_or("#");
            assert!(link.starts_with('#'), "{link}");
            if let Some(id) = node.attribute("id") {
                assert!(ids.insert(id.to_owned()), "{id} twice");
            }
        }
        for node in document.descendants() {
            let named = [
                node.attribute("href")
                    .map(|link| link.trim_start_matches('#')),
                node.attribute("aria-labelledby"),
            ];
            for id in named.into_iter().flatten().flat_map(str::split_whitespace) {
                assert!(ids.contains(id), "{id} is nowhere");
            }
        }
        assert!(!page.contains("url(") && !page.contains("@import"));
    }
}

#[test]
fn headings_follow_in_order_and_tables_tell_their_heads() {
    let page = xml(&handout(&["juhua", "bohe"]));
    let document = Document::parse(&page).unwrap();
    let mut last = 0;
    for node in document.descendants() {
        let level = match node.tag_name().name() {
            "h1" => 1,
            "h2" => 2,
            "h3" => 3,
            "table" => {
                assert!(node.children().any(|child| child.has_tag_name("caption")));
                0
            }
            "th" => {
                assert!(matches!(node.attribute("scope"), Some("row" | "col")));
                0
            }
            _ => 0,
        };
        if level > 0 {
            assert!(level <= last + 1, "{}", words(node));
            last = level;
        }
    }
    assert_eq!(
        document
            .descendants()
            .filter(|node| node.has_tag_name("h1"))
            .count(),
        1
    );
}

#[test]
fn the_matrix_says_of_each_witness_what_the_view_says() {
    for herb in ["bohe", "juhua", "gancao", "fuzi", "renshen"] {
        let json = kaoyi(&["compare", herb, "--json"]).json();
        let page = xml(&handout(&[herb]));
        let document = Document::parse(&page).unwrap();
        let mut tables = document
            .descendants()
            .filter(|node| node.has_tag_name("table"));
        let body = tables
            .next()
            .unwrap()
            .descendants()
            .find(|node| node.has_tag_name("tbody"))
            .unwrap();
        let rows: Vec<Node<'_, '_>> = body.children().filter(Node::is_element).collect();
        let witnesses = json["witnesses"].as_array().unwrap();
        assert_eq!(rows.len(), witnesses.len(), "{herb}");
        for (row, witness) in rows.iter().zip(witnesses) {
            let cells: Vec<String> = row.children().filter(Node::is_element).map(words).collect();
            for facet in ["nature", "toxicity", "channel"] {
                if let Some(stand) = witness["stands"][facet]["text"].as_str() {
                    assert!(
                        cells.iter().any(|cell| cell.starts_with(stand)),
                        "{herb}: {stand}: {cells:?}"
                    );
                }
            }
            let stand = &witness["stands"]["flavour"];
            let counted = stand["values"].as_array().map_or(0, Vec::len);
            let said = cells
                .iter()
                .filter(|cell| matches!(cell.chars().next(), Some('●' | '◐' | '◉')));
            assert_eq!(said.count(), counted, "{herb}: {cells:?}");
        }
        for difference in json["differences"].as_array().unwrap() {
            for side in difference["sides"].as_array().unwrap() {
                let told = difference["kind"] != "by-scope" || !side["scope"].is_null();
                if told && difference["sides"].as_array().unwrap().len() > 1 {
                    let n = side["witnesses"].as_array().unwrap().len();
                    let noun = if n == 1 { "book" } else { "books" };
                    let words = format!("{} – {n} {noun}: ", side["label"].as_str().unwrap());
                    assert!(words_of(&document).contains(&words), "{herb}: {words}");
                }
            }
        }
    }
}

fn words_of(document: &Document<'_>) -> String {
    words(document.root())
}

#[test]
fn a_page_without_a_second_reader_says_so() {
    let page = handout(&["baihuacai"]);
    assert!(page.contains("0 of 1 article compared with the text by a second reader"));
    assert!(
        page.contains("one voice"),
        "a single witness raises its question"
    );
}

#[test]
fn cautions_and_the_notice_stand_on_every_page_of_either_format() {
    for format in ["html", "md"] {
        let page = handout(&["fuzi", "--format", format]);
        assert!(
            page.contains("Grave: ") && page.contains(NOTICE),
            "{format}"
        );
        let json = kaoyi(&["compare", "fuzi", "--json"]).json();
        for caution in json["cautions"].as_array().unwrap() {
            let text = caution["text"].as_str().unwrap();
            let plain = text
                .split(|c: char| !c.is_ascii_alphabetic() && c != ' ')
                .next()
                .unwrap();
            assert!(page.contains(plain), "{format}: {text}");
        }
        let lesson = handout(&["--disputes", "nature", "--top", "3", "--format", format]);
        assert_eq!(
            lesson.matches("Check local law").count(),
            4,
            "each herb and the foot"
        );
    }
}

#[test]
fn a_lesson_has_the_herbs_of_the_ranking_in_its_order() {
    let page = xml(&handout(&["--disputes", "nature", "--top", "5"]));
    let document = Document::parse(&page).unwrap();
    let json = kaoyi(&["disputes", "--facet", "nature", "--top", "5", "--json"]).json();
    let wanted: Vec<&str> = json["disputes"]
        .as_array()
        .unwrap()
        .iter()
        .map(|one| one["herb"]["id"].as_str().unwrap())
        .collect();
    let articles = document
        .descendants()
        .filter(|node| node.has_tag_name("article"));
    let heads = articles.filter_map(|node| {
        node.descendants()
            .find(|node| node.has_tag_name("h2"))?
            .attribute("id")
    });
    assert_eq!(heads.collect::<Vec<_>>(), wanted);
    for one in json["disputes"].as_array().unwrap() {
        let discord = format!("{:.2}", one["discord"].as_f64().unwrap());
        assert!(words_of(&document).contains(&discord));
    }
}

#[test]
fn every_question_rests_on_works_of_the_record() {
    let corpus = embedded().unwrap();
    let script = Converter::default();
    let mut rules = HashSet::new();
    for herb in crate::support::herbs_of_every_kind() {
        let Lookup::One(id) = corpus.find_herb(&herb) else {
            panic!()
        };
        let labels = Labels::new(&corpus, &script);
        let view = ComparisonView::new(
            &labels,
            corpus.herb(id).unwrap(),
            &Facet::ALL,
            &Default::default(),
        );
        for question in questions(&view) {
            rules.insert(question.rule);
            assert!(question.text.contains('?'), "{}", question.text);
            assert!(!question.evidence.is_empty());
            for (_, works) in &question.evidence {
                for work in works {
                    assert!(view.works.iter().any(|one| one.id == *work), "{work}");
                }
            }
        }
    }
    assert!(rules.len() >= 8, "{rules:?}");
}

#[test]
fn names_are_marked_as_chinese_and_bear_pinyin_where_it_is_wished() {
    let plain = handout(&["bohe"]);
    assert!(!plain.contains("<ruby>") && plain.contains("<span lang=\"zh-Hant\">本草綱目</span>"));
    let ruby = handout(&["bohe", "--ruby"]);
    let wanted = "<ruby><span lang=\"zh-Hant\">本草綱目</span><rp> (</rp><rt lang=\"zh-Latn-pinyin\">Běncǎo gāngmù</rt><rp>)</rp></ruby>";
    assert!(ruby.contains(wanted));
    let hans = handout(&["bohe", "--script", "hans"]);
    assert!(hans.contains("<span lang=\"zh-Hans\">本草纲目</span>") && !hans.contains("本草綱目"));
}

fn write(folder: &Path, name: &str, text: &str) {
    let path = folder.join(name);
    fs::create_dir_all(path.parent().unwrap()).unwrap();
    fs::write(path, text).unwrap();
}

/// An invented record whose every free text would like to be markup.
#[test]
fn what_a_record_holds_is_text_and_never_markup() {
    let folder = tempfile::tempdir().unwrap();
    let bad = "<script>alert('x')</script> \\\"q\\\" & | *b* ]]>";
    write(
        folder.path(),
        "works/circle-notes.yaml",
        &format!(
            "id: circle-notes\ntitle: {{hant: \"園<b>課&\", pinyin: \"{bad}\", english: \"{bad}\"}}\nauthor: \"{bad}\"\nkind: extant\ndate: {{to: 1901}}\nnote: \"{bad}\"\n"
        ),
    );
    write(
        folder.path(),
        "herbs/circle-leaf.yaml",
        &format!(
            "id: circle-leaf\nnames: {{hant: \"園<i>葉\", hans: \"园<i>叶\", pinyin: \"yuányè\", english: \"{bad}\"}}\npart: leaf\nsubstance: plant\n\
             note: \"{bad}\"\nentries:\n  - work: circle-notes\n    status: memory\n    sayings:\n      - {{flavour: [sweet], nature: warm, action: [ascends]}}\n      \
             - {{action: [descends], scope: {{kind: \"<u>白\"}}}}\n"
        ),
    );
    let corpus = text(folder.path()).to_owned();
    let page = handout(&["circle-leaf", "bohe", "--ruby", "--corpus", &corpus]);
    let closed = xml(&page);
    let document = Document::parse(&closed).unwrap();
    for name in ["script", "b", "i", "u"] {
        assert!(
            !document.descendants().any(|node| node.has_tag_name(name)),
            "{name}"
        );
    }
    assert!(words_of(&document).contains("<script>alert('x')</script> \"q\" & | *b* ]]>"));
    let run = kaoyi(&["chart", "actions", "circle-leaf", "--corpus", &corpus]);
    assert!(
        Document::parse(&run.out).is_ok() && !run.out.contains("<u>"),
        "{}",
        run.out
    );
    let page = handout(&["circle-leaf", "--format", "md", "--corpus", &corpus]);
    assert!(
        page.contains("&lt;script&gt;")
            && !page.contains("<script")
            && page.contains("\\| \\*b\\*"),
        "{page}"
    );
}

/// Invented tastings.
#[test]
fn own_tastings_are_shown_where_they_are_asked_for() {
    // The invented notebook of the study circle: six cups of mint, acrid by the median 6.75.
    let book = ["--notebook", "docs/examples/notebook"];
    for (format, row) in [("html", "6.75"), ("md", "| 辛 acrid | 6 | 6.75 | 4 | 8 |")] {
        let asked = ["handout", "薄荷", "--format", format];
        let without = kaoyi(&[&asked[..], &book].concat()).out;
        let with = kaoyi(&[&asked[..], &book, &["--tasted"]].concat()).out;
        assert!(!without.contains("Our own tastings"), "{format}");
        for wanted in ["Our own tastings", "not counted among the books", row] {
            assert!(with.contains(wanted), "{format}: {wanted}");
        }
    }
}

#[test]
fn the_ending_of_the_file_chooses_the_format_and_a_wrong_one_is_refused() {
    let folder = tempfile::tempdir().unwrap();
    let file = |name: &str| folder.path().join(name);
    for (name, start) in [("mint.html", "<!DOCTYPE html>"), ("mint.md", "# 薄荷")] {
        let run = kaoyi(&["handout", "薄荷", "-o", text(&file(name))]);
        assert_eq!((run.code, run.out.as_str()), (0, ""), "{}", run.err);
        assert!(fs::read_to_string(file(name)).unwrap().starts_with(start));
    }
    let run = kaoyi(&["handout", "薄荷", "-o", text(&file("mint.pdf"))]);
    assert!(
        run.code == 2 && run.err.contains("expected .html or .htm or .md"),
        "{}",
        run.err
    );
    let run = kaoyi(&["handout"]);
    assert_eq!(run.code, 2, "neither herb nor theme");
    let run = kaoyi(&["handout", "bohe", "--disputes", "nature"]);
    assert_eq!(run.code, 2, "both");
}
