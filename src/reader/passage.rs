//! An article's text made ready for reading: simplified characters, one form of each punctuation
//! mark, wrapped lines joined, lost characters and marks of the transcription made visible.

use std::collections::HashMap;
use std::sync::LazyLock;

use super::layout::Layout;
use crate::text::{Converter, Script};

/// One character, with the one that was written and its place.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Glyph {
    /// The character by which it is read.
    pub read: char,
    /// The character as written.
    pub written: char,
    /// Its place in the text, in characters from 0.
    pub at: usize,
}

/// The end of a paragraph.
pub(super) const BREAK: char = '\n';
/// A mark of the transcription around a sub-heading or a note.
pub(super) const MARK: char = '\u{e000}';
/// A character that the transcription lacks.
pub(super) const LOST: char = '□';

/// Words for the same character, beside simplified script: our own list, common practice, no source.
const VARIANTS: [(char, char); 18] = [
    ('∶', '：'),
    (':', '：'),
    ('﹕', '：'),
    (',', '，'),
    ('﹐', '，'),
    (';', '；'),
    ('．', '。'),
    ('｡', '。'),
    ('(', '（'),
    (')', '）'),
    ('?', '？'),
    ('!', '！'),
    ('濇', '涩'),
    ('澁', '涩'),
    ('煖', '暖'),
    ('醎', '咸'),
    ('欬', '咳'),
    ('●', LOST),
];

/// Turns characters into the forms by which they are read, each looked up once.
#[derive(Default)]
pub struct Folder {
    hans: Converter,
    known: HashMap<char, char>,
}

static VARIANT: LazyLock<HashMap<char, char>> = LazyLock::new(|| VARIANTS.into_iter().collect());

impl Folder {
    /// A folder with the tables of simplified script; without them it folds punctuation only.
    #[must_use]
    pub fn new() -> Self {
        Self {
            hans: Converter::new(Script::Hans).unwrap_or_default(),
            known: HashMap::new(),
        }
    }

    fn fold(&mut self, c: char) -> char {
        if c.is_ascii() {
            return VARIANT.get(&c).copied().unwrap_or(c);
        }
        let hans = &self.hans;
        *self.known.entry(c).or_insert_with(|| {
            let c = VARIANT.get(&c).copied().unwrap_or(c);
            let mut simplified = [0; 4];
            let text = hans.convert(c.encode_utf8(&mut simplified)).into_owned();
            let mut chars = text.chars();
            match (chars.next(), chars.next()) {
                (Some(one), None) => one,
                _ => c,
            }
        })
    }
}

/// The article's characters, ready for reading.
pub(super) fn prepare(
    body: &str,
    start: usize,
    layout: &Layout,
    folder: &mut Folder,
) -> Vec<Glyph> {
    let lengths = body.lines().map(|line| line.chars().count());
    let mut page = Page {
        layout,
        folder,
        glyphs: Vec::with_capacity(body.len() / 3 + 1),
        width: lengths.max().unwrap_or(0),
        full: false,
        depth: 0,
        picture: false,
    };
    let mut at = start;
    let mut lines = body.split_inclusive('\n').peekable();
    while let Some(line) = lines.next() {
        let chars: Vec<char> = line.trim_end().chars().collect();
        page.line(&chars, at);
        page.end_line(&chars, at, lines.peek().copied());
        at += line.chars().count();
    }
    page.glyphs
}

/// The lines of one article on their way to glyphs.
struct Page<'p> {
    layout: &'p Layout,
    folder: &'p mut Folder,
    glyphs: Vec<Glyph>,
    /// Lines are broken at the width that the longest of them has.
    width: usize,
    /// Whether the line before reached the page's width.
    full: bool,
    /// How many brackets are open.
    depth: i32,
    /// Whether the caption of a picture is passed over.
    picture: bool,
}

impl Page<'_> {
    fn line(&mut self, chars: &[char], at: usize) {
        let mut place = 0;
        while let Some(c) = chars.get(place).copied() {
            let glyph = |read| Glyph {
                read,
                written: c,
                at: at + place,
            };
            match (c, chars.get(place + 1)) {
                ('\\', Some('x')) => {
                    self.glyphs.push(glyph(MARK));
                    place += 1;
                }
                ('\\', Some('r')) => {
                    self.picture = !self.picture;
                    place += 1;
                }
                _ if self.picture => {}
                (' ' | '\u{3000}' | '\t' | '\u{a0}', _) => {
                    let read = self.blank(chars, place);
                    self.glyphs.extend(read.map(glyph));
                }
                ('.', next) => {
                    // A full stop, unless it stands in a number or a file's name.
                    let ascii = next.is_some_and(char::is_ascii_alphanumeric);
                    self.glyphs.push(glyph(if ascii { '.' } else { '。' }));
                }
                _ => {
                    let read = self.folder.fold(c);
                    match read {
                        '（' | '〔' | '〈' | '［' => self.depth += 1,
                        '）' | '〕' | '〉' | '］' => self.depth = (self.depth - 1).max(0),
                        _ => {}
                    }
                    self.glyphs.push(glyph(read));
                }
            }
            place += 1;
        }
    }

    /// What a blank stands for: a lost character, a pause, or nothing.
    fn blank(&self, chars: &[char], place: usize) -> Option<char> {
        if chars[..place].iter().all(|c| c.is_whitespace()) {
            return None;
        }
        if !self.layout.blank_is_lost {
            return Some('，');
        }
        let next = chars.get(place + 1);
        let alone = !chars[place - 1].is_whitespace() && next.is_some_and(|c| !c.is_whitespace());
        let last = self.glyphs.last();
        let behind_sign = last.is_some_and(|last| "）〕〉】\u{e000}".contains(last.read));
        (chars[place] == ' ' && alone && !behind_sign).then_some(LOST)
    }

    /// Ends a line: joins it to the next, or ends a paragraph.
    fn end_line(&mut self, chars: &[char], at: usize, next: Option<&str>) {
        let signs = "。！？；）】〕〉》」』\u{e000}";
        let last = self.glyphs.last();
        let ended = last.is_some_and(|last| signs.contains(last.read));
        let short = chars.len() * 4 < self.width * 3;
        // A bracket that the transcription never closes ends with its paragraph.
        let next_opens = (ended || short) && next.is_some_and(opens_paragraph);
        // A short line that ends nowhere is a paragraph when it opens one, else what a page's width left over.
        let before = self.glyphs.len().checked_sub(chars.len() + 1);
        let opened = before.is_none_or(|before| self.glyphs[before].read == BREAK);
        // One or two characters that end nowhere are what a page's width left over.
        let rest = chars.len() <= 2 && !ended && self.full;
        self.full = chars.len() * 10 >= self.width * 9;
        let ends = !self.layout.wrapped
            || chars.is_empty()
            || next_opens
            || (self.depth == 0 && (ended || short && opened) && !rest);
        if !ends {
            return;
        }
        self.depth = 0;
        if last.is_some_and(|last| last.read != BREAK) {
            self.glyphs.push(Glyph {
                read: BREAK,
                written: '\n',
                at: at + chars.len(),
            });
        }
    }
}

/// Whether a line opens a part of an article, or a quotation of its own: 【主治】, 時珍曰.
fn opens_paragraph(line: &str) -> bool {
    let line = line.trim_start();
    line.starts_with(['【', '〔', '\\'])
        || line
            .chars()
            .take(7)
            .zip(line.chars().skip(1))
            .any(|pair| matches!(pair, ('曰' | '云', '∶' | '：' | ':')))
}

/// The characters of `glyphs` as written, without blanks and line breaks.
pub(super) fn written(glyphs: &[Glyph]) -> String {
    let mut text = String::with_capacity(glyphs.len() * 3);
    for glyph in glyphs {
        match glyph.read {
            BREAK | MARK => {}
            LOST => text.push(LOST),
            _ => text.push(glyph.written),
        }
    }
    text
}

#[cfg(test)]
mod tests {
    use super::{Folder, prepare, written};
    use crate::reader::Layout;
    use pretty_assertions::assert_eq;
    use proptest::prelude::*;

    fn read(body: &str) -> String {
        let [tags, ..] = Layout::known();
        let glyphs = prepare(body, 0, &tags, &mut Folder::new());
        glyphs.iter().map(|glyph| glyph.read).collect()
    }

    #[test]
    fn wrapped_lines_are_joined_and_paragraphs_kept() {
        assert_eq!(
            read("味辛、苦，氣溫，無毒。主治頭 \n痛。 \n一名蕃荷菜。"),
            "味辛、苦，气温，无毒。主治头痛。\n一名蕃荷菜。\n"
        );
    }

    #[test]
    fn a_blank_within_a_line_is_a_lost_character() {
        assert_eq!(read("断 疾，味辛"), "断□疾，味辛");
    }

    #[test]
    fn pictures_fall_away_and_marks_are_kept() {
        assert_eq!(
            read(r"\r薄荷\pj1.bmp\r味辛\x叶\x温"),
            "味辛\u{e000}叶\u{e000}温"
        );
    }

    proptest! {
        #[test]
        fn every_glyph_stands_where_it_says(body in "[味辛 （）。\\\\xr\n□a.]{0,80}") {
            let [tags, ..] = Layout::known();
            let glyphs = prepare(&body, 0, &tags, &mut Folder::new());
            let chars: Vec<char> = body.chars().collect();
            for glyph in &glyphs {
                if glyph.read != super::BREAK {
                    prop_assert_eq!(chars[glyph.at], glyph.written);
                }
            }
            let _ = written(&glyphs);
        }
    }
}
