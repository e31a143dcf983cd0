//! Actions by phrases: the longest phrase of the vocabulary at each place, with what is denied or
//! warned of kept apart.

use aho_corasick::{AhoCorasick, MatchKind};

use super::passage::{Glyph, LOST};
use super::sections::Zone;
use super::voice::Utterance;
use crate::claim::{Facet, PhraseFile, ValueId, Vocabulary};

/// Finds action phrases.
#[derive(Debug)]
pub(super) struct Actions {
    search: Option<AhoCorasick>,
    /// The actions of each phrase; none for phrases that state nothing.
    stated: Vec<Vec<ValueId>>,
    /// The actions that a part on properties states.
    motions: Vec<ValueId>,
}

/// A clause with the actions it states.
#[derive(Debug, PartialEq, Eq)]
pub(super) struct Found {
    pub actions: Vec<ValueId>,
    pub glyphs: Vec<Glyph>,
}

/// Words of a warning: what a clause with them names is not what the drug does.
const WARNINGS: [&str; 44] = [
    "忌",
    "禁用",
    "禁之",
    "者禁",
    "勿服",
    "勿用",
    "勿食",
    "勿轻",
    "勿久",
    "不可",
    "不宜",
    "慎",
    "非宜",
    "切勿",
    "误用",
    "误服",
    "误食",
    "休用",
    "莫服",
    "大非",
    "所戒",
    "戒之",
    "勿多",
    "不得",
    "勿投",
    "非其",
    "不堪",
    "难用",
    "多食",
    "多服",
    "过服",
    "过用",
    "久食",
    "过食",
    "过多",
    "反致",
    "恐",
    "须禁",
    "亦发",
    "亦生",
    "令人心",
    "令人烦",
    "令人吐",
    "令人泄",
];
/// What looks like a warning and praises.
const PRAISE: [&str; 7] = [
    "不可缺",
    "不可少",
    "不可无",
    "不可阙",
    "久食健",
    "久食轻",
    "久食不",
];
/// Words that open a condition which a warning closes: 若, 凡.
const CONDITIONS: [char; 10] = ['若', '凡', '惟', '但', '虽', '苟', '设', '如', '然', '倘'];
/// Words that open a clause on how an illness comes about, not on the drug.
const CAUSES: [char; 25] = [
    '若', '如', '因', '缘', '由', '夫', '何', '盖', '岂', '然', '倘', '而', '则', '却', '遂', '但',
    '虽', '令', '使', '不', '动', '久', '言', '致', '食',
];
/// Openings of a clause that argues, quotes a view or speaks of other drugs: what it names is not stated of this one.
const ARGUES: [&str; 22] = [
    "而不", "却少", "却不", "不知", "何以", "岂", "而无", "而何", "今之", "言此", "与其", "非若",
    "不若", "不如", "或疑", "或谓", "或问", "以佐", "无如", "夫人", "世人", "亦发",
];
/// What opens a dialogue on the drug, and what tells of a patient.
const QUESTIONS: [&str; 4] = ["或问", "或疑", "或谓", "客问"];
const STORIES: [&str; 12] = [
    "有人",
    "有一",
    "一妇",
    "一男子",
    "一人",
    "朝士",
    "曾治",
    "尝治",
    "尝见",
    "见一",
    "或曰",
    "答曰",
];
/// Words before a phrase that deny it, or tell that the drug brings the illness on: 發冷痢.
const DENIALS: [char; 16] = [
    '不', '非', '无', '未', '勿', '莫', '难', '岂', '弗', '发', '患', '耗', '致', '招', '损', '反',
];
/// Words of a recipe. Numbers with a measure are found by `prescribes`.
const RECIPE: [&str; 20] = [
    "为末",
    "为丸",
    "丸如",
    "丸服",
    "等分",
    "煎汤",
    "方用",
    "一方",
    "每服",
    "空心",
    "合和",
    "捣末",
    "末服",
    "酒服",
    "水服",
    "调服",
    "煎服",
    "方寸匕",
    "汤下",
    "去滓",
];
/// Words of flavour and heat: 大熱 and 酸澀 are properties, and 大熱 an illness only where it is governed.
const QUALITIES: &str = "大微甚热温酸涩甘辛苦咸淡";
const NUMBERS: &str = "一二三四五六七八九十半数每各几";
const MEASURES: &str = "两钱升斤合枚分";
/// Kinds of formula, and what ends a sentence on one: 建中湯用之.
const FORMULAS: &str = "汤丸散丹饮酒";
/// What opens a clause of names.
const NAMES: [&str; 8] = [
    "一名",
    "又名",
    "又一名",
    "亦名",
    "俗名",
    "俗呼",
    "别名",
    "即今",
];
/// What opens a clause on where a drug is used, which names the other drugs there: 入於補陰之藥.
const PLACED: &str = "入同用合佐诸必大";
/// Characters by which a phrase says what is done; the others name an illness.
const DEEDS: &str = "主治疗除去散破下止消解利通补益养安定清泻泄凉退降升坚强壮明聪润滋生长逐祛驱杀辟化行活调和理温暖开宣收敛涩固缩镇续接排催堕却劫禁塞实健添填乌黑轻延耐令使发透达引渗燥截断伐削攻荡涤拔托溃敷洗涂擦点贴吐平息宽快顺导舒疏悦泽美好宁";
/// Verbs under which illnesses are listed.
const GOVERNORS: &str = "主治疗除去止散消解破下却驱祛退逐理杀";
/// What the part on properties may state beside them.
const MOTIONS: [&str; 5] = ["ascends", "descends", "floats", "sinks", "guides-drugs"];

impl Actions {
    /// The phrases of a vocabulary.
    pub fn new(vocabulary: &Vocabulary, file: &PhraseFile) -> Self {
        let scheme = vocabulary.scheme(Facet::Action);
        let mut phrases: Vec<&str> = Vec::new();
        let mut stated: Vec<Vec<ValueId>> = Vec::new();
        let mut places = std::collections::HashMap::new();
        for (action, list) in &file.phrases {
            let Some(action) = scheme.place(action) else {
                continue;
            };
            for phrase in list.iter().filter(|phrase| !phrase.is_empty()) {
                let place = *places.entry(phrase.as_str()).or_insert_with(|| {
                    phrases.push(phrase);
                    stated.push(Vec::new());
                    phrases.len() - 1
                });
                stated[place].push(action);
            }
        }
        for phrase in &file.nothing {
            if !phrase.is_empty() && !places.contains_key(phrase.as_str()) {
                phrases.push(phrase);
                stated.push(Vec::new());
            }
        }
        let search = AhoCorasick::builder()
            .match_kind(MatchKind::LeftmostLongest)
            .build(&phrases)
            .ok();
        let motions = MOTIONS.iter().filter_map(|id| scheme.place(id)).collect();
        Self {
            search,
            stated,
            motions,
        }
    }

    /// The clauses of an utterance that state actions.
    pub fn find(&self, utterance: &Utterance) -> Vec<Found> {
        let mut found = Vec::new();
        if matches!(utterance.zone, Zone::Aside | Zone::Description) {
            return found;
        }
        self.text(&utterance.glyphs, utterance.zone, &mut found);
        // Where a bracket was never closed, the aside has swallowed a part of the statement.
        let swallowed = utterance
            .asides
            .iter()
            .filter(|aside| aside.iter().any(|glyph| glyph.read == '（'));
        for aside in swallowed {
            self.text(aside, utterance.zone, &mut found);
        }
        found
    }

    fn text(&self, glyphs: &[Glyph], zone: Zone, found: &mut Vec<Found>) {
        for paragraph in glyphs.split(|glyph| glyph.read == '\n') {
            self.paragraph(paragraph, zone, found);
        }
    }

    fn paragraph(&self, glyphs: &[Glyph], zone: Zone, found: &mut Vec<Found>) {
        for sentence in glyphs.split(|glyph| glyph.read == '。') {
            let whole = read(sentence);
            if zone != Zone::Uses && QUESTIONS.iter().any(|word| whole.starts_with(word)) {
                // Question and answer fill the paragraph.
                return;
            }
            if zone != Zone::Uses && STORIES.iter().any(|word| whole.contains(word)) {
                continue;
            }
            // 何謂發汗？ asks, and 建中湯用之 speaks of a formula.
            let formula = whole
                .find("用之")
                .and_then(|place| whole[..place].chars().next_back())
                .is_some_and(|before| FORMULAS.contains(before));
            if zone == Zone::Uses || !formula && !whole.ends_with('？') {
                self.sentence(sentence, zone, found);
            }
        }
    }

    /// Reads one sentence, clause by clause.
    fn sentence(&self, glyphs: &[Glyph], zone: Zone, found: &mut Vec<Found>) {
        let first = found.len();
        let mut governed = false;
        for clause in glyphs.split(|glyph| "，；：".contains(glyph.read)) {
            let text = read(clause);
            if WARNINGS.iter().any(|word| text.contains(word))
                && !PRAISE.iter().any(|word| text.contains(word))
            {
                // The condition before the warning goes with it.
                let opened = found[first..].iter().rposition(|one| {
                    one.glyphs
                        .first()
                        .is_some_and(|glyph| CONDITIONS.contains(&glyph.read))
                });
                if let Some(opened) = opened {
                    found.truncate(first + opened);
                }
            } else if zone != Zone::Uses && prescribes(&text) {
                governed = false;
            } else if !names(&text) {
                self.clause(clause, &text, zone, &mut governed, found);
                governed |= text.chars().any(|c| GOVERNORS.contains(c));
            }
        }
    }

    fn clause(
        &self,
        clause: &[Glyph],
        text: &str,
        zone: Zone,
        governed: &mut bool,
        found: &mut Vec<Found>,
    ) {
        let Some(search) = &self.search else { return };
        let mut actions = Vec::new();
        let opening = text.chars().next();
        let causes = zone != Zone::Uses && opening.is_some_and(|c| CAUSES.contains(&c))
            || text.ends_with("之人");
        let argues = zone != Zone::Uses && ARGUES.iter().any(|word| text.starts_with(word));
        for hit in search.find_iter(text) {
            let (before, phrase, behind) =
                (&text[..hit.start()], &text[hit.range()], &text[hit.end()..]);
            let denied = before
                .chars()
                .next_back()
                .is_some_and(|before| DENIALS.contains(&before));
            let deed = phrase.chars().next().is_some_and(|c| DEEDS.contains(c));
            let under = *governed
                || before
                    .chars()
                    .chain(phrase.chars().take(1))
                    .any(|c| GOVERNORS.contains(c));
            let kind = behind.strip_prefix('之').unwrap_or(behind);
            let placed =
                kind.starts_with(['药', '剂', '汤']) && opening.is_some_and(|c| PLACED.contains(c));
            let quality =
                zone != Zone::Uses && !under && phrase.chars().all(|c| QUALITIES.contains(c));
            let passing = !deed && (causes || zone == Zone::Discussion && !under);
            if denied || placed || quality || passing || argues || opening == Some('如') {
                continue;
            }
            *governed |= deed;
            for action in &self.stated[hit.pattern().as_usize()] {
                let fits = zone != Zone::Properties || self.motions.contains(action);
                if fits && !actions.contains(action) {
                    actions.push(*action);
                }
            }
        }
        if !actions.is_empty()
            && clause.iter().filter(|glyph| glyph.read == LOST).count() * 3 <= clause.len()
        {
            found.push(Found {
                actions,
                glyphs: clause.to_vec(),
            });
        }
    }
}

fn read(glyphs: &[Glyph]) -> String {
    glyphs.iter().map(|glyph| glyph.read).collect()
}

/// Whether a clause is part of a recipe: 煎服, 三兩.
fn prescribes(text: &str) -> bool {
    let measured = text
        .chars()
        .zip(text.chars().skip(1))
        .any(|(number, measure)| NUMBERS.contains(number) && MEASURES.contains(measure));
    measured || RECIPE.iter().any(|sign| text.contains(sign))
}

/// Whether a clause gives names of the drug, or its helper: 蒲為之使.
fn names(text: &str) -> bool {
    NAMES.iter().any(|word| text.starts_with(word))
        || text.ends_with("之使")
        || text.ends_with("为使")
}
