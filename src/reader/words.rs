//! The words of property statements and what each is in the grammar. Values come from the
//! vocabulary; the small words between them are listed here.

use std::collections::HashMap;

use crate::claim::{Facet, Scheme, ValueId, Vocabulary};
use crate::text::{Converter, Script};

/// How strongly a value is said.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Degree {
    /// 微, 小, 稍 …
    Slight,
    /// 大, 甚, 極 …
    Great,
}

impl Degree {
    /// The word that records have for it.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::Slight => "slight",
            Self::Great => "great",
        }
    }
}

/// What a word is in a property statement.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Word {
    /// 味, 氣, 性, 氣味: announces values.
    Topic,
    /// A flavour.
    Flavour(ValueId),
    /// A nature, with its degree where it is one word with it.
    Nature(ValueId),
    /// A statement on toxicity.
    Toxicity(ValueId),
    /// 微, 大: before a value.
    Degree(Degree),
    /// 而, 且, 又: joins, and means nothing by itself.
    Join,
    /// 、 or a blank between values.
    Pause,
    /// Thickness, movement, yin and yang, smoothness: part of the statement, none of our facets.
    Quality,
    /// 也, 之品: closes a statement.
    Close,
    /// 不, 非: what follows is denied.
    Not,
    /// 一云, 或云: what follows is reported.
    Hedge,
    /// The drug itself: its heading, 其, 此物.
    Itself,
    /// A part of the plant, animal or stone.
    Part(ValueId),
    /// A preparation.
    Preparation(ValueId),
    /// 用, 者, 則: between a part or preparation and its values.
    Used,
    /// 入, 歸: a channel follows.
    Enter,
    /// A lost character.
    Lost,
    /// Anything else, one character.
    Other,
}

const TOPICS: [&str; 17] = [
    "气味", "性味", "味性", "其味", "其性", "其气", "味", "气", "性", "入口", "嚼之", "尝之",
    "味道", "禀性", "性质", "食之", "性气",
];
const SLIGHT: [&str; 9] = ["微", "小", "稍", "略", "少", "带", "微带", "微兼", "薄"];
const GREAT: [&str; 11] = [
    "大", "甚", "极", "至", "太", "最", "颇", "绝", "纯", "极其", "峻",
];
const JOINS: [&str; 23] = [
    "而", "且", "又", "亦", "复", "并", "及", "与", "兼", "虽", "俱", "皆", "则", "是", "乃", "为",
    "但", "惟", "本", "以", "之", "中之", "禀",
];
const CLOSES: [&str; 24] = [
    "也",
    "矣",
    "焉",
    "耳",
    "之品",
    "之物",
    "之药",
    "之味",
    "之性",
    "之气",
    "之剂",
    "之质",
    "之要药",
    "者",
    "品",
    "药",
    "所",
    "哉",
    "之属",
    "之类",
    "之也",
    "之极",
    "之至",
    "之姿",
];
const NEGATIONS: [&str; 8] = ["不", "非", "未", "勿", "莫", "岂", "何", "弗"];
const HEDGES: [&str; 14] = [
    "一云",
    "或云",
    "又云",
    "一曰",
    "或曰",
    "一作",
    "一说",
    "亦云",
    "有云",
    "或言",
    "或作",
    "一本作",
    "亦曰",
    "或谓",
];
const ITSELF: [&str; 13] = [
    "此物", "此药", "此草", "是物", "其物", "其", "此", "本品", "大抵", "又", "原", "盖", "夫",
];
const USED: [&str; 9] = ["用", "者", "则", "食", "服", "即", "之则", "食之", "品"];
const ENTERS: [&str; 12] = [
    "入", "归", "走", "专入", "兼入", "直入", "并入", "亦入", "又入", "专走", "行", "通行",
];
/// Characters of thickness, movement, yin and yang, and of qualities that are no facet of ours.
const QUALITIES: &str = "厚浓薄轻重清浊升降浮沉阴阳滑利燥润缓急烈峻涌泄守走敛散香臭腥腻膻骚降属火水木金土中可能有无体质色气之上下外内纯刚柔坚";
const QUALITY_WORDS: [&str; 18] = [
    "气味俱厚",
    "气味俱薄",
    "气味俱浓",
    "气味俱轻",
    "气味厚",
    "气味薄",
    "气厚",
    "味厚",
    "气薄",
    "味薄",
    "气浓",
    "味浓",
    "纯阳",
    "纯阴",
    "至阴",
    "至阳",
    "微阴",
    "微阳",
];
/// Other words by which a toxicity is stated, beside the labels of the vocabulary.
const TOXICITY: [(&str, &str); 17] = [
    ("不毒", "none"),
    ("亦无毒", "none"),
    ("并无毒", "none"),
    ("毫无毒", "none"),
    ("有小毒", "slight"),
    ("有微毒", "slight"),
    ("少毒", "slight"),
    ("有少毒", "slight"),
    ("稍有毒", "slight"),
    ("略有毒", "slight"),
    ("略有小毒", "slight"),
    ("有大毒", "great"),
    ("极毒", "great"),
    ("至毒", "great"),
    ("剧毒", "great"),
    ("有剧毒", "great"),
    ("甚毒", "great"),
];

/// All words, longest first at each opening character.
#[derive(Debug)]
pub(super) struct Words {
    by_first: HashMap<char, Vec<(Vec<char>, Word)>>,
}

impl Words {
    /// The words of a vocabulary.
    pub fn new(vocabulary: &Vocabulary, hans: &Converter) -> Self {
        let mut words = Self {
            by_first: HashMap::new(),
        };
        for (list, word) in [
            (&TOPICS[..], Word::Topic),
            (&SLIGHT, Word::Degree(Degree::Slight)),
            (&GREAT, Word::Degree(Degree::Great)),
            (&JOINS, Word::Join),
            (&CLOSES, Word::Close),
            (&NEGATIONS, Word::Not),
            (&HEDGES, Word::Hedge),
            (&ITSELF, Word::Itself),
            (&USED, Word::Used),
            (&ENTERS, Word::Enter),
            (&QUALITY_WORDS, Word::Quality),
        ] {
            for text in list {
                words.add(text, word.clone());
            }
        }
        words.add("、", Word::Pause);
        words.add("□", Word::Lost);
        words.add_scheme(vocabulary.scheme(Facet::Flavour), hans, Word::Flavour);
        words.add_scheme(vocabulary.scheme(Facet::Nature), hans, Word::Nature);
        words.add_scheme(vocabulary.scheme(Facet::Toxicity), hans, Word::Toxicity);
        words.add_scheme(&vocabulary.parts, hans, Word::Part);
        words.add_scheme(&vocabulary.preparations, hans, Word::Preparation);
        let natures = vocabulary.scheme(Facet::Nature);
        for (text, id) in [
            ("平和", "neutral"),
            ("和平", "neutral"),
            ("清凉", "cool"),
            ("温和", "warm"),
            ("中和", "neutral"),
        ] {
            if let Some(value) = natures.place(id) {
                words.add(text, Word::Nature(value));
            }
        }
        for (text, id) in TOXICITY {
            if let Some(value) = vocabulary.scheme(Facet::Toxicity).place(id) {
                words.add(text, Word::Toxicity(value));
            }
        }
        for list in words.by_first.values_mut() {
            list.sort_by_key(|(text, _)| std::cmp::Reverse(text.len()));
        }
        words
    }

    fn add_scheme(&mut self, scheme: &Scheme, hans: &Converter, word: fn(ValueId) -> Word) {
        for (place, value) in scheme.values().iter().enumerate() {
            let id = ValueId(place as u16);
            let labels = std::iter::once(&value.hant)
                .chain(&value.hans)
                .chain(&value.also);
            for label in labels.filter(|label| !label.is_ascii()) {
                self.add(&hans.convert(label), word(id));
            }
        }
    }

    /// The first meaning of a word stays.
    fn add(&mut self, text: &str, word: Word) {
        let chars: Vec<char> = text.chars().collect();
        let Some(first) = chars.first() else { return };
        let list = self.by_first.entry(*first).or_default();
        if !list.iter().any(|(known, _)| *known == chars) {
            list.push((chars, word));
        }
    }

    /// The longest word at the start of `text` and its length in characters.
    pub fn longest(&self, text: &[char]) -> (Word, usize) {
        let Some(first) = text.first() else {
            return (Word::Other, 1);
        };
        let found = self
            .by_first
            .get(first)
            .and_then(|list| list.iter().find(|(word, _)| text.starts_with(word)));
        match found {
            Some((chars, word)) => (word.clone(), chars.len()),
            None if QUALITIES.contains(*first) => (Word::Quality, 1),
            None => (Word::Other, 1),
        }
    }
}

/// A nature with a degree before it: the value of the scheme that is that degree, else the plain one.
pub(super) fn with_degree(natures: &Scheme, base: ValueId, degree: Option<Degree>) -> ValueId {
    let Some(degree) = degree else { return base };
    let sign = match degree {
        Degree::Slight => '微',
        Degree::Great => '大',
    };
    let plain = &natures.value(base).id;
    natures
        .values()
        .iter()
        .position(|value| value.degree_of.as_deref() == Some(plain) && value.hant.starts_with(sign))
        .map_or(base, |place| ValueId(place as u16))
}

/// The tables of simplified script.
pub(super) fn simplified() -> Converter {
    Converter::new(Script::Hans).unwrap_or_default()
}
