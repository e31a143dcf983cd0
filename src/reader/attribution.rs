//! Attributions: the words that hand a statement to another speaker. 元素曰：, 《別錄》：, 神農、岐伯：苦.

use super::names::{BEFORE_NAME, NO_NAMES, Names};
use super::passage::{Glyph, LOST};

/// How long the speaker keeps the word.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Reach {
    /// To the end of the sentence: 神農：苦。
    Sentence,
    /// To the next attribution, or the end of the paragraph: 元素曰.
    Paragraph,
}

/// An attribution at the start of a clause.
#[derive(Debug, PartialEq, Eq)]
pub(super) struct Attribution {
    /// The names, for reading.
    pub names: Vec<String>,
    /// The same names as written.
    pub written: Vec<String>,
    pub reach: Reach,
    /// Whether 謹按 or 按 opens it: what a book on other matters says of a land often follows.
    pub adduced: bool,
    /// Whether it names a book by its title.
    pub titled: bool,
    /// How many characters it takes.
    pub length: usize,
}

/// The verbs by which one is quoted.
const VERBS: &str = "云曰言谓";
/// The longest name that is taken for one without a table.
const LONGEST: usize = 7;

/// The attribution at the start of `glyphs`, if there is one.
pub(super) fn read(glyphs: &[Glyph], names: &Names) -> Option<Attribution> {
    let text: Vec<char> = glyphs.iter().take(48).map(|glyph| glyph.read).collect();
    let mut at = 0;
    let mut adduced = false;
    loop {
        let rest = &text[at..];
        let Some(word) = BEFORE_NAME.iter().find(|word| starts(rest, word)) else {
            break;
        };
        // 今 may open a name; a table knows better.
        if at == 0 && titled(rest, names).is_some() {
            break;
        }
        adduced |= word.ends_with('按');
        at += word.chars().count();
        if text.get(at) == Some(&'：') || text.get(at) == Some(&'，') {
            at += 1;
        }
    }
    let rest = &text[at..];
    let (found, length, reach) = book(rest)
        .or_else(|| listed(rest, names))
        .or_else(|| titled(rest, names))
        .or_else(|| person(rest))?;
    let mut from = at;
    let written = found
        .iter()
        .map(|name| {
            let length = name.chars().count();
            let place = (from..=at + length + 40)
                .find(|place| {
                    text.get(*place..place + length)
                        .is_some_and(|part| name.chars().eq(part.iter().copied()))
                })
                .unwrap_or(from);
            from = place + length;
            let end = (place + length).min(glyphs.len());
            super::passage::written(&glyphs[place.min(end)..end])
        })
        .collect();
    Some(Attribution {
        names: found,
        written,
        reach,
        adduced,
        titled: rest.iter().take(length).any(|c| *c == '》'),
        length: at + length,
    })
}

type Found = (Vec<String>, usize, Reach);

/// 《本經》云：, 《別錄》：, 《本經》主.
fn book(text: &[char]) -> Option<Found> {
    let open = text.iter().take(5).position(|c| *c == '《')?;
    if open > 0 {
        // 徐表《南州記》云: the author before the title.
        let author = text[..open]
            .iter()
            .all(|c| c.is_alphabetic() && !"见出引读载与同在及云曰".contains(*c));
        let (all, length, reach) = book(&text[open..]).filter(|_| author)?;
        return Some((all, open + length, reach));
    }
    let close = text.iter().take(20).position(|c| *c == '》')?;
    let title: String = text[1..close].iter().collect();
    let mut at = close + 1;
    // 《本草》第一又云, 《心》、《象》云.
    while text
        .get(at)
        .is_some_and(|c| "注又亦序例方论、中".contains(*c))
    {
        at += 1;
    }
    if text.get(at) == Some(&'《') {
        return book(&text[at..]).map(|(mut all, length, reach)| {
            all.insert(0, title);
            (all, at + length, reach)
        });
    }
    let verb = text.get(at).is_some_and(|c| VERBS.contains(*c));
    at += usize::from(verb);
    let colon = text
        .get(at)
        .is_some_and(|c| "：，".contains(*c) && (verb || *c == '：'));
    at += usize::from(colon);
    let governs = text.get(at) == Some(&'主') || starts(&text[at.min(text.len())..], "原文：");
    if !verb && !colon && !governs {
        return None;
    }
    if starts(&text[at.min(text.len())..], "原文：") {
        at += 3;
    }
    let reach = if verb || governs {
        Reach::Paragraph
    } else {
        Reach::Sentence
    };
    Some((vec![title], at, reach))
}

/// 神農、岐伯：苦 – known names before a colon, without a verb.
fn listed(text: &[char], names: &Names) -> Option<Found> {
    let colon = text.iter().take(40).position(|c| "：。；\n".contains(*c))?;
    if text[colon] != '：' || colon == 0 {
        return None;
    }
    let list = &text[..colon];
    let found = names
        .all_known(list)
        .or_else(|| (starts(list, "一经") && colon == 2).then(|| vec!["一经".to_owned()]))?;
    Some((found, colon + 1, Reach::Sentence))
}

/// 元素曰, 陶隱居云: a known name before a verb.
fn titled(text: &[char], names: &Names) -> Option<Found> {
    let verb = text.iter().take(24).position(|c| VERBS.contains(*c))?;
    if verb == 0 {
        return None;
    }
    let found = names.all_known(&text[..verb])?;
    let colon = text.get(verb + 1).is_some_and(|c| "：，".contains(*c));
    Some((found, verb + 1 + usize::from(colon), Reach::Paragraph))
}

/// 朱二允曰：– an unknown name of a few characters before a verb and a colon.
fn person(text: &[char]) -> Option<Found> {
    let verb = text
        .iter()
        .take(LONGEST + 1)
        .position(|c| VERBS.contains(*c))?;
    let name: String = text[..verb].iter().collect();
    let plain = text[..verb]
        .iter()
        .all(|c| c.is_alphabetic() || *c == LOST || *c == '子');
    let colon = text.get(verb + 1) == Some(&'：');
    if verb == 0 || !plain || NO_NAMES.contains(&name.as_str()) {
        return None;
    }
    let ends_like_verb = name.ends_with([
        '名', '谓', '所', '又', '或', '亦', '故', '号', '俗', '一', '呼', '不', '可', '之', '皆',
        '常', '者', '有',
    ]);
    (colon && !ends_like_verb).then(|| (vec![name], verb + 2, Reach::Paragraph))
}

fn starts(text: &[char], word: &str) -> bool {
    text.len() >= word.chars().count() && word.chars().zip(text).all(|(a, b)| a == *b)
}
