//! Names of drugs in a running text: a stretch is cut into names that the corpus knows, names in which a character is
//! lost, and, by itself between two pauses, a name that nobody knows.

use std::collections::HashSet;

use super::passage::{Glyph, LOST, written};
use crate::corpus::{Corpus, Headings};
use crate::text::HanFolder;

/// A name in a stretch of text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Named {
    /// The name as written.
    pub name: String,
    /// How it was recognised.
    pub how: Recognised,
}

/// How a name was recognised.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Recognised {
    /// An herb of the corpus bears it.
    Known,
    /// It can be a name.
    Plausible,
    /// It can be one long name or several short ones.
    Run,
    /// A character of it is lost.
    Lost,
}

/// The names of all drugs of a corpus.
#[derive(Debug)]
pub(super) struct DrugNames {
    known: HashSet<Vec<char>>,
    longest: usize,
}

/// Names of one character that stand for a drug wherever drugs are listed: our own list, common practice, no source.
/// Other names of one character are words as well (水, 蓄, 來).
const SHORT: &str =
    "术桂葱蒜韭薤蜜酒醋盐漆茗茶姜枣蟹艾橘芥菊葛麝犀酥豉椒芎荠葵汞铅藕柿梨藜榧楮桑芩芍锡铅铁";
/// Names under which the books list drugs, and which the corpus keeps under longer or several names, and waters and
/// other things that are no drug of an article: our own list, common practice, no source.
const LISTED: [&str; 46] = [
    "地黄",
    "门冬",
    "麦冬",
    "天冬",
    "僵蚕",
    "菟丝",
    "蛇床",
    "车前",
    "决明",
    "苁蓉",
    "柏实",
    "石苇",
    "栝蒌",
    "薯蓣",
    "矾石",
    "冷水",
    "咸水",
    "咸卤",
    "卤咸",
    "盐水",
    "元参",
    "黑参",
    "莨菪",
    "败酱",
    "石脂",
    "五石脂",
    "蠡实",
    "荔实",
    "蜒蚰",
    "蜚蠊",
    "齐蛤",
    "桑蛸",
    "螵蛸",
    "毒公",
    "须丸",
    "马间",
    "铁器",
    "山茱",
    "吴茱",
    "缩砂",
    "乌附",
    "雄附",
    "童溲",
    "麦句姜",
    "五参",
    "马目毒公",
];
/// The lengths of a name that nobody knows.
const PLAUSIBLE: std::ops::RangeInclusive<usize> = 2..=4;
/// What stands in no name of a drug that is not known: words of illness, of people, of time and place, particles.
const NO_NAME: &str = "不无有者也之其而则以于为若如与所故能可令使人病痛疮毒寒热温凉风湿燥邪气血虚实主治疗去除下利食服用入得反恶畏忌忍上中后前时日月年岁脉经脏腑肾肝脾肺胃膀肠心疾症证胎妇儿老少多久过及诸凡皆俱亦又并但非未勿须宜当乃即因致生助动伤损益补泻胀满呕吐汗渴咳喘泄痢痹痿惊悸痈疽肿瘀痰饮积聚虫劳倦烦闷咽喉目耳鼻口舌唇头身手足筋肤腰膝腹胁胸背死绝亡在此彼何是曰云名方法味性功力药言论一二三四五六七八九十百千升斤两钱共加和惟同莫见";
/// What joins two names.
const JOINS: &str = "及与并和暨、";

/// The weights of a cut: known names are cheap, the longest first.
const KNOWN: u32 = 10;
const JOINED: u32 = 5;
const PARTED: u32 = 22;
const LACKING: u32 = 30;

impl Named {
    /// Whether the name stands in the corpus, or would if it were whole.
    pub const fn is_sure(&self) -> bool {
        matches!(self.how, Recognised::Known | Recognised::Lost)
    }
}

impl DrugNames {
    /// The names of the herbs of `corpus`, and the by-names in the list of headings.
    pub fn new(corpus: &Corpus, headings: &Headings) -> Self {
        let folder = HanFolder::new().ok();
        let mut names = Self {
            known: HashSet::new(),
            longest: 0,
        };
        let mut put = |name: &str| {
            let han = |c: char| c >= '\u{2e80}' && c.is_alphabetic();
            if name.is_empty() || !name.chars().all(han) {
                return;
            }
            let folded = folder.as_ref().map(|folder| folder.fold(name));
            let chars: Vec<char> = folded.as_deref().unwrap_or(name).chars().collect();
            if chars.len() > 1 || SHORT.contains(chars[0]) {
                names.longest = names.longest.max(chars.len());
                names.known.insert(chars);
            }
        };
        for herb in corpus.names() {
            herb.all().for_each(&mut put);
        }
        headings.everywhere().for_each(&mut put);
        LISTED.into_iter().for_each(&mut put);
        for short in SHORT.chars() {
            put(&short.to_string());
        }
        names
    }

    /// The names that `glyphs` consist of; `None` where anything else is in them.
    pub fn all(&self, glyphs: &[Glyph]) -> Option<Vec<Named>> {
        if glyphs.is_empty() || glyphs.len() > 60 {
            return None;
        }
        let trimmed = trimmed(glyphs);
        self.cut_or_parted(glyphs)
            .or_else(|| self.cut_or_parted(trimmed))
            .or_else(|| plausible(trimmed).map(|name| vec![name]))
    }

    fn cut_or_parted(&self, glyphs: &[Glyph]) -> Option<Vec<Named>> {
        self.parted(glyphs).or_else(|| self.cut(glyphs))
    }

    /// Names between blanks: 半夏□栝蔞□白及. A blank that parts names stands between names that are known.
    fn parted(&self, glyphs: &[Glyph]) -> Option<Vec<Named>> {
        let pieces: Vec<&[Glyph]> = glyphs
            .split(|glyph| glyph.read == LOST)
            .filter(|piece| !piece.is_empty())
            .collect();
        if pieces.len() < 2 {
            return None;
        }
        let cut: Vec<Option<Vec<Named>>> = pieces.iter().map(|piece| self.cut(piece)).collect();
        let unknown = cut.iter().filter(|one| one.is_none()).count();
        if unknown > 0 && (pieces.len() < 3 || unknown * 3 > pieces.len()) {
            return None;
        }
        let named = pieces.iter().zip(cut);
        let named = named.map(|(piece, cut)| cut.or_else(|| Some(vec![plausible(piece)?])));
        Some(named.collect::<Option<Vec<_>>>()?.concat())
    }

    /// The cheapest cut into known names, joins and names in which a character is lost.
    fn cut(&self, glyphs: &[Glyph]) -> Option<Vec<Named>> {
        let text: Vec<char> = glyphs.iter().map(|glyph| glyph.read).collect();
        // What it costs to cut up to each place, and where the last piece begins and what it is.
        let mut best: Vec<Option<(u32, usize, Piece)>> = vec![None; text.len() + 1];
        best[0] = Some((0, 0, Piece::Join));
        for from in 0..text.len() {
            let Some((cost, ..)) = best[from] else {
                continue;
            };
            for to in from + 1..=text.len().min(from + self.longest.max(4)) {
                let Some((more, piece)) = self.piece(&text[from..to], from > 0 && to < text.len())
                else {
                    continue;
                };
                if best[to].is_none_or(|(known, ..)| cost + more < known) {
                    best[to] = Some((cost + more, from, piece));
                }
            }
        }
        let mut names = Vec::new();
        let mut to = text.len();
        while to > 0 {
            let (_, from, piece) = best[to]?;
            if let Piece::Name(how) = piece {
                names.push(Named {
                    name: written(&glyphs[from..to]),
                    how,
                });
            }
            to = from;
        }
        names.reverse();
        let known = names.iter().any(|one| one.how == Recognised::Known);
        let lost_alone = names.len() == 1 && PLAUSIBLE.contains(&text.len());
        (known || lost_alone).then_some(names)
    }

    /// What one piece of a cut is, and its cost.
    fn piece(&self, text: &[char], within: bool) -> Option<(u32, Piece)> {
        if self.known.contains(text) {
            return Some((KNOWN, Piece::Name(Recognised::Known)));
        }
        let lost = text.iter().filter(|c| **c == LOST).count();
        match (text, lost) {
            ([one], _) if within && JOINS.contains(*one) => Some((JOINED, Piece::Join)),
            ([LOST], _) if within => Some((PARTED, Piece::Join)),
            ([_, ..], 1) if (2..=3).contains(&text.len()) && !text.iter().any(no_name) => {
                let more = (text.len() as u32 - 2) * 15;
                Some((LACKING + more, Piece::Name(Recognised::Lost)))
            }
            _ => None,
        }
    }
}

#[derive(Debug, Clone, Copy)]
enum Piece {
    Name(Recognised),
    Join,
}

fn no_name(c: &char) -> bool {
    NO_NAME.contains(*c)
}

/// A name that nobody knows, by itself.
fn plausible(glyphs: &[Glyph]) -> Option<Named> {
    let fits = |glyph: &Glyph| {
        let c = glyph.read;
        c == LOST || c.is_alphabetic() && c >= '\u{2e80}' && !no_name(&c)
    };
    let lost = glyphs.iter().filter(|glyph| glyph.read == LOST).count();
    let named = PLAUSIBLE.contains(&glyphs.len())
        && glyphs.iter().all(fits)
        && lost < glyphs.len()
        && lost < 2;
    named.then(|| Named {
        name: written(glyphs),
        how: match (lost, glyphs.len()) {
            (0, 4) => Recognised::Run,
            (0, _) => Recognised::Plausible,
            _ => Recognised::Lost,
        },
    })
}

/// Without blanks at the ends where something else is between, and without the words that close a list.
fn trimmed(glyphs: &[Glyph]) -> &[Glyph] {
    let mut glyphs = glyphs;
    for close in [
        "也", "耳", "等", "等药", "等物", "诸药", "莫入", "莫见", "勿用", "火",
    ] {
        let length = close.chars().count();
        let ends = glyphs.len() > length
            && glyphs[glyphs.len() - length..]
                .iter()
                .map(|glyph| glyph.read)
                .eq(close.chars());
        if ends {
            glyphs = &glyphs[..glyphs.len() - length];
        }
    }
    glyphs
}

#[cfg(test)]
mod tests {
    use std::sync::OnceLock;

    use super::super::passage::{Folder, Glyph, prepare, written};
    use super::DrugNames;
    use crate::corpus::embedded;
    use crate::reader::Layout;
    use pretty_assertions::assert_eq;
    use proptest::prelude::*;

    fn glyphs(text: &str) -> Vec<Glyph> {
        let [tags, ..] = Layout::known();
        let mut glyphs = prepare(text, 0, &tags, &mut Folder::new());
        glyphs.retain(|one| one.read != '\n');
        glyphs
    }

    fn names(drugs: &DrugNames, text: &str) -> Option<Vec<String>> {
        let all = drugs.all(&glyphs(text))?;
        Some(all.into_iter().map(|one| one.name).collect())
    }

    fn drugs() -> DrugNames {
        let corpus = embedded().unwrap();
        DrugNames::new(&corpus, &corpus.reading_words().unwrap().headings)
    }

    #[test]
    fn names_are_cut_where_the_longest_known_ones_end() {
        let drugs = drugs();
        for (text, expected) in [
            ("人参甘草防风犀角", vec!["人参", "甘草", "防风", "犀角"]),
            ("茯苓及甘草", vec!["茯苓", "甘草"]),
            ("菊花 玄参 牛膝", vec!["菊花", "玄参", "牛膝"]),
            ("浓朴白薇", vec!["浓朴", "白薇"]),
            ("郁金火", vec!["郁金"]),
            ("萤火", vec!["萤火"]),
        ] {
            let expected: Vec<String> = expected.into_iter().map(str::to_owned).collect();
            assert_eq!(names(&drugs, text), Some(expected), "{text}");
        }
        for text in ["寒热", "疮久不愈", "甘草者众人", "", "五六七"] {
            assert_eq!(names(&drugs, text), None, "{text}");
        }
    }

    static DRUGS: OnceLock<DrugNames> = OnceLock::new();

    proptest! {
        #[test]
        fn names_are_pieces_of_the_text_in_its_order(text in "[甘草人参及 黄疮石酒]{0,12}") {
            let drugs = DRUGS.get_or_init(drugs);
            let plain = written(&glyphs(&text));
            for name in names(drugs, &text).unwrap_or_default() {
                prop_assert!(plain.contains(&name), "{} in {}", name, plain);
            }
        }
    }
}
