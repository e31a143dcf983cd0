//! Names in every form, and misspelt: the right herb comes first.

use crate::support::kaoyi;
use kaoyi::corpus::{Corpus, HerbId};
use kaoyi::index::{Library, Words};
use pretty_assertions::assert_eq;

/// A query and the herb meant.
struct Query {
    typed: String,
    herb: String,
}

/// Misspellings, invented for this table: a letter too many, too few, wrong or out of its place, a character of the same
/// sound or shape.
const MISSPELT: [(&str, &str); 48] = [
    ("薄菏", "bohe"),
    ("bohhe", "bohe"),
    ("菊华", "juhua"),
    ("chrysantemum", "juhua"),
    ("crysanthemum", "juhua"),
    ("juhuaa", "juhua"),
    ("黄苓", "huangqin"),
    ("huangqn", "huangqin"),
    ("黃蓍", "huangqi"),
    ("astragulus", "huangqi"),
    ("人叁", "renshen"),
    ("ginsegn", "renshen"),
    ("甘中", "gancao"),
    ("licorise", "gancao"),
    ("liqorice", "gancao"),
    ("当鬼", "danggui"),
    ("dangui", "danggui"),
    ("柴狐", "chaihu"),
    ("chaihuu", "chaihu"),
    ("半下", "banxia"),
    ("banxai", "banxia"),
    ("pineliia", "banxia"),
    ("地皇", "gandihuang"),
    ("rehmania", "gandihuang"),
    ("麦门东", "maimendong"),
    ("maimendng", "maimendong"),
    ("黄莲", "huanglian"),
    ("huanglain", "huanglian"),
    ("茯灵", "fuling"),
    ("fulling", "fuling"),
    ("夏枯艹", "xiakucao"),
    ("xiakucoa", "xiakucao"),
    ("远誌", "yuanzhi"),
    ("yuanzi", "yuanzhi"),
    ("白止", "baizhi-b"),
    ("五味籽", "wuweizi"),
    ("schizandra", "wuweizi"),
    ("wuweizzi", "wuweizi"),
    ("桔更", "jiegeng"),
    ("jiegneg", "jiegeng"),
    ("藿相", "huoxiang"),
    ("连乔", "lianqiao"),
    ("forsithia", "lianqiao"),
    ("牛旁子", "niubangzi"),
    ("burdok", "niubangzi"),
    ("车钱子", "cheqianzi"),
    ("plantian", "cheqianzi"),
    ("蒲功英", "pugongying"),
];

/// Tone marks as numbers behind the syllables of a name, if it has one syllable a character.
fn numbered(corpus: &Corpus, id: HerbId) -> Option<String> {
    let marks: [(&str, char, char); 24] = [
        ("ā", 'a', '1'),
        ("á", 'a', '2'),
        ("ǎ", 'a', '3'),
        ("à", 'a', '4'),
        ("ē", 'e', '1'),
        ("é", 'e', '2'),
        ("ě", 'e', '3'),
        ("è", 'e', '4'),
        ("ī", 'i', '1'),
        ("í", 'i', '2'),
        ("ǐ", 'i', '3'),
        ("ì", 'i', '4'),
        ("ō", 'o', '1'),
        ("ó", 'o', '2'),
        ("ǒ", 'o', '3'),
        ("ò", 'o', '4'),
        ("ū", 'u', '1'),
        ("ú", 'u', '2'),
        ("ǔ", 'u', '3'),
        ("ù", 'u', '4'),
        ("ǖ", 'v', '1'),
        ("ǘ", 'v', '2'),
        ("ǚ", 'v', '3'),
        ("ǜ", 'v', '4'),
    ];
    let pinyin = &corpus.named(id).names.pinyin;
    let mut numbered = String::new();
    for c in pinyin.chars() {
        match marks.iter().find(|(mark, _, _)| mark.starts_with(c)) {
            Some((_, letter, tone)) => numbered.extend([*letter, *tone]),
            None => numbered.push(c),
        }
    }
    pinyin
        .is_ascii()
        .then_some(())
        .map_or(Some(numbered), |()| None)
}

/// Every form of the names of seventy herbs that most books treat.
fn queries(corpus: &Corpus) -> Vec<Query> {
    let herbs = corpus.herbs().unwrap();
    let mut treated: Vec<usize> = (0..herbs.len())
        .filter(|place| herbs[*place].names.latin.is_some())
        .collect();
    treated.sort_by_key(|place| std::cmp::Reverse(herbs[*place].entries.len()));
    let mut queries = Vec::new();
    // Of cinnamon and its forms no example is made.
    let known = treated
        .into_iter()
        .filter(|place| !herbs[*place].names.hant.contains('桂'));
    for place in known.take(70) {
        let herb = herbs[place];
        let names = &herb.names;
        let plain: String = kaoyi::text::fold(&names.pinyin);
        let mut forms = vec![
            names.hant.clone(),
            names.hans.clone(),
            names.pinyin.clone(),
            plain.to_uppercase(),
            format!("  {} ", names.pinyin),
        ];
        forms.extend(numbered(corpus, HerbId(place as u32)));
        forms.extend(
            names
                .latin
                .iter()
                .flat_map(|latin| [latin.clone(), latin.to_lowercase()]),
        );
        forms.extend(
            names
                .english
                .iter()
                .flat_map(|english| [english.clone(), english.to_uppercase()]),
        );
        forms.extend(names.also.first().cloned());
        forms.extend(herb.species.first().cloned());
        for typed in forms {
            queries.push(Query {
                typed,
                herb: herb.id.clone(),
            });
        }
    }
    queries.extend(MISSPELT.map(|(typed, herb)| Query {
        typed: typed.to_owned(),
        herb: herb.to_owned(),
    }));
    queries
}

/// At which place the herb meant stands, and what stands before it.
fn place(corpus: &Corpus, words: &Words, query: &Query) -> (Option<usize>, Vec<String>) {
    let found = words.named(corpus, &query.typed).unwrap();
    let ids: Vec<String> = found
        .iter()
        .map(|one| corpus.named(one.herb).id.clone())
        .collect();
    (
        ids.iter().position(|id| *id == query.herb),
        ids.into_iter().take(4).collect(),
    )
}

#[test]
fn the_right_herb_stands_first_and_always_among_three() {
    let library = Library::embedded(Some(&crate::support::cache().join("kaoyi"))).unwrap();
    let words = library.words().unwrap();
    let queries = queries(&library.corpus);
    let mut herbs: Vec<&str> = queries.iter().map(|one| one.herb.as_str()).collect();
    herbs.sort_unstable();
    herbs.dedup();
    assert!(
        queries.len() >= 150 && herbs.len() >= 60,
        "{} {}",
        queries.len(),
        herbs.len()
    );
    let (mut second, mut missed) = (Vec::new(), Vec::new());
    for query in &queries {
        match place(&library.corpus, &words, query) {
            (Some(0), _) => {}
            (Some(1 | 2), found) => {
                second.push(format!("{} {}: {found:?}", query.typed, query.herb))
            }
            (_, found) => missed.push(format!("{} {}: {found:?}", query.typed, query.herb)),
        }
    }
    assert_eq!(
        missed,
        Vec::<String>::new(),
        "of {}; not first {second:#?}",
        queries.len()
    );
    assert!(
        second.len() * 100 <= queries.len() * 2,
        "{} of {}: {second:#?}",
        second.len(),
        queries.len()
    );
}

#[test]
fn a_name_tells_who_bears_it_what_else_does_and_which_books_use_it() {
    let page = kaoyi(&["name", "甘菊"]).out;
    assert!(
        page.contains("菊花 júhuā") && page.contains("another name"),
        "{page}"
    );
    assert!(
        page.contains("BOOKS THAT HAVE AN ARTICLE UNDER IT") && page.contains("雷公炮製藥性解"),
        "{page}"
    );
    let shared = kaoyi(&["name", "雞蘇"]).out;
    assert!(shared.contains("another drug bears it too"), "{shared}");
    let unknown = kaoyi(&["name", "bohee"]);
    assert_eq!(unknown.code, 1);
    assert!(
        unknown.out.contains("No herb here is called") && unknown.out.contains("薄荷"),
        "{}",
        unknown.out
    );
}

#[test]
fn a_name_without_a_letter_is_refused() {
    let run = kaoyi(&["name", "、、"]);
    assert_eq!(run.code, 2);
    assert!(run.err.contains("no character or letter"), "{}", run.err);
}
