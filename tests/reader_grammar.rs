//! The grammar of property statements: every production of the guide, statements in the manner of many
//! books, and text that must not hurt.

use std::fs;

use crate::support::root;
use kaoyi::claim::{Facet, ValueId};
use kaoyi::corpus::{Corpus, embedded};
use kaoyi::reader::{Folder, Layout, ReadSaying, Reader, Speaker, articles};
use pretty_assertions::assert_eq;
use proptest::prelude::*;

fn read(reader: &Reader, text: &str) -> Vec<ReadSaying> {
    let text = format!("<篇名>薄荷\n内容：{text}\n");
    let [layout, ..] = Layout::known();
    let all = articles(&text, &layout);
    reader
        .read(&all[0], "bencao-gangmu", &layout, &mut Folder::new())
        .sayings
}

fn ids(corpus: &Corpus, facet: Facet, values: impl IntoIterator<Item = ValueId>) -> String {
    let scheme = corpus.vocabulary.scheme(facet);
    let ids: Vec<&str> = values
        .into_iter()
        .map(|value| scheme.value(value).id.as_str())
        .collect();
    ids.join(" ")
}

/// Flavour, nature, toxicity and channel of the work's own sayings under one scope and doubt.
fn summary(corpus: &Corpus, sayings: &[ReadSaying], which: &str) -> [String; 4] {
    let vocabulary = &corpus.vocabulary;
    let label =
        |saying: &ReadSaying| match (saying.doubt, saying.limit.part, saying.limit.preparation) {
            (Some(doubt), ..) => format!("doubt {doubt}"),
            (None, Some(part), _) => format!("part {}", vocabulary.parts.value(part).id),
            (None, None, Some(value)) => {
                format!("preparation {}", vocabulary.preparations.value(value).id)
            }
            (None, None, None) => String::new(),
        };
    let own: Vec<&ReadSaying> = sayings
        .iter()
        .filter(|saying| saying.by == Speaker::Work && label(saying) == which)
        .collect();
    let flavours = own
        .iter()
        .flat_map(|saying| saying.flavour.iter().map(|(value, _)| *value));
    let natures = own.iter().flat_map(|saying| saying.nature.clone());
    let toxicities = own.iter().filter_map(|saying| saying.toxicity);
    let channels = own.iter().flat_map(|saying| saying.channel.clone());
    [
        ids(corpus, Facet::Flavour, flavours),
        ids(corpus, Facet::Nature, natures),
        ids(corpus, Facet::Toxicity, toxicities),
        ids(corpus, Facet::Channel, channels),
    ]
}

#[test]
fn every_production_of_the_guide_reads_as_it_says() {
    let corpus = embedded().unwrap();
    let reader = Reader::new(&corpus).unwrap();
    let guide = fs::read_to_string(root().join("docs/reader.md")).unwrap();
    let table = guide.split("| text | flavour |").nth(1).unwrap();
    let mut rows = 0;
    for row in table
        .lines()
        .skip(2)
        .take_while(|line| line.starts_with('|'))
    {
        let cells: Vec<&str> = row.trim_matches('|').split('|').map(str::trim).collect();
        let [text, flavour, nature, toxicity, channel, which] = cells[..] else {
            panic!("{row}")
        };
        let found = summary(&corpus, &read(&reader, text), which);
        assert_eq!(found, [flavour, nature, toxicity, channel], "{text}");
        rows += 1;
    }
    assert!(rows >= 25, "{rows}");
}

/// Statements in the manner of books from the Han to the Qing that are not among the nineteen. From
/// memory of how such books phrase them; the drug is ours.
const MANNERS: [(&str, [&str; 4]); 30] = [
    (
        "气味甘平，无毒。主五脏邪气。",
        ["sweet", "neutral", "none", ""],
    ),
    (
        "气微寒，味甘，无毒。主补五脏，安精神。",
        ["sweet", "slight-cold", "none", ""],
    ),
    ("甘，平。补中益气，通经脉。", ["sweet", "neutral", "", ""]),
    (
        "味甘苦，性微寒。入足太阴、少阴经。功专补气。",
        ["sweet bitter", "slight-cold", "", "spleen kidney"],
    ),
    (
        "味甘微苦，微温，气味颇厚，阳中微阴，气虚血虚俱能补。",
        ["sweet bitter", "slight-warm", "", ""],
    ),
    (
        "味甘气平，生凉炙温，可升可降，善于解毒。",
        ["sweet", "neutral", "", ""],
    ),
    (
        "味大苦，大寒，性沉阴也，降也。",
        ["bitter", "great-cold", "", ""],
    ),
    (
        "味苦甘平，性微温，无毒。升也，阴中之阳也。其用有五：散肌表八风之邪。",
        ["bitter sweet", "neutral slight-warm", "none", ""],
    ),
    (
        "性寒，味苦。入心、肝二经。泻火。",
        ["bitter", "cold", "", "heart liver"],
    ),
    (
        "辛苦寒，有小毒。入胃、大肠。",
        ["acrid bitter", "cold", "slight", "stomach large-intestine"],
    ),
    (
        "苦辛微温，入手阳明、足太阴经。",
        ["bitter acrid", "slight-warm", "", "large-intestine spleen"],
    ),
    (
        "其味辛，其气温，其性无毒，入手太阴肺经。",
        ["acrid", "warm", "none", "lung"],
    ),
    ("甘咸平。滋阴。", ["sweet salty", "neutral", "", ""]),
    (
        "味甘，微寒，无毒。主消渴。一云性冷。",
        ["sweet", "slight-cold", "none", ""],
    ),
    (
        "性味甘平，入脾肺，补气。",
        ["sweet", "neutral", "", "spleen lung"],
    ),
    (
        "甘苦微凉。归肺、胃经。",
        ["sweet bitter", "cool", "", "lung stomach"],
    ),
    (
        "味甘平，入足阳明胃、足太阴脾、手太阴肺经。",
        ["sweet", "neutral", "", "stomach spleen lung"],
    ),
    ("温，味甘、酸，无毒。", ["sweet sour", "warm", "none", ""]),
    ("凉，甘苦。清热。", ["sweet bitter", "cool", "", ""]),
    (
        "味苦性寒有毒入肝脾二经。",
        ["bitter", "cold", "toxic", "liver spleen"],
    ),
    ("薄荷（辛，凉）散风热。", ["acrid", "cool", "", ""]),
    (
        "薄荷味辛性凉，入肺肝，散风热。",
        ["acrid", "cool", "", "lung liver"],
    ),
    (
        "【性味】辛，凉。【归经】入肺、肝经。",
        ["acrid", "cool", "", "lung liver"],
    ),
    (
        "〔气味〕辛，温，无毒。〔主治〕贼风伤寒。",
        ["acrid", "warm", "none", ""],
    ),
    ("味辛温无毒主贼风。", ["acrid", "warm", "none", ""]),
    ("辛而微苦，温而不燥。", ["acrid bitter", "warm", "", ""]),
    ("其叶似麻，味辛，温。主风。", ["acrid", "warm", "", ""]),
    (
        "禀天地清阳之气，味辛，气凉，无毒，入手太阴经。",
        ["acrid", "cool", "none", "lung"],
    ),
    ("甘草之甘，能缓诸药。川芎味辛，发散。", ["", "", "", ""]),
    (
        "味甘温，无毒。生者性寒，熟者性温。",
        ["sweet", "warm", "none", ""],
    ),
];

#[test]
fn statements_in_the_manner_of_other_books_are_understood() {
    let corpus = embedded().unwrap();
    let reader = Reader::new(&corpus).unwrap();
    for (text, expected) in MANNERS {
        assert_eq!(
            summary(&corpus, &read(&reader, text), ""),
            expected,
            "{text}"
        );
    }
}

#[test]
fn quoted_speakers_keep_their_words_to_themselves() {
    let corpus = embedded().unwrap();
    let reader = Reader::new(&corpus).unwrap();
    let by = |text: &str, by: &str| -> Vec<String> {
        let sayings = read(&reader, text);
        let said = sayings
            .iter()
            .filter(|one| one.by == Speaker::Other(by.to_owned()));
        said.map(|one| one.phrase.clone()).collect()
    };
    let text = "味苦，平。《别录》∶甘，温。元素曰∶味辛，气凉。神农、岐伯∶咸。主风。";
    assert_eq!(
        summary(&corpus, &read(&reader, text), ""),
        ["bitter", "neutral", "", ""].map(String::from)
    );
    assert_eq!(by(text, "mingyi-bielu"), ["甘，温"]);
    assert_eq!(by(text, "jiegu-zhenzhunang"), ["味辛，气凉"]);
    assert_eq!(by(text, "shennong"), ["咸"]);
    assert_eq!(by(text, "qibo"), ["咸"]);
    let behind = "【气味】辛，温。\n【主治】恶气（《别录》）。发汗（甄权）。";
    assert_eq!(by(behind, "mingyi-bielu"), ["恶气"]);
    assert_eq!(by(behind, "yaoxing-lun"), ["发汗"]);
}

proptest! {
    /// What the grammar's own words can be mixed to must neither panic nor point outside the text.
    #[test]
    fn any_mixture_of_its_words_is_read_without_harm(text in proptest::collection::vec(
        proptest::sample::select(vec![
            "味", "气", "性", "辛", "甘", "苦", "寒", "温", "平", "微", "大", "无毒", "有毒", "，", "。", "、", "：", "；", "入", "手", "足",
            "太阴", "阳明", "肺", "经", "药", "《别录》", "元素曰∶", "神农", "（", "）", "【气味】", "【", "】", "\\x", "\\r", " ", "\n", "□", "不", "一云", "根",
            "叶", "生", "熟", "者", "则", "薄荷", "发汗", "忌", "a", "\u{3000}", "〔", "〈", "𠀀",
        ]), 0..60)
    ) {
        let corpus = CORPUS.get_or_init(|| embedded().unwrap());
        let reader = Reader::new(corpus).unwrap();
        let text = format!("<目录>草部\n<篇名>薄荷\n内容：{}", text.concat());
        let [layout, ..] = Layout::known();
        let length = text.chars().count();
        for article in articles(&text, &layout) {
            let reading = reader.read(&article, "bencao-gangmu", &layout, &mut Folder::new());
            for saying in &reading.sayings {
                prop_assert!(saying.span.start <= saying.span.end && saying.span.end <= length);
            }
        }
    }
}

static CORPUS: std::sync::OnceLock<Corpus> = std::sync::OnceLock::new();
