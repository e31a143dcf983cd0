//! Marks and brackets within an article: sub-headings, 【氣味】, and what stands in （…）.

use super::channel;
use super::names::Speaker;
use super::passage::{BREAK, Glyph, MARK, written};
use super::sections::{self, Zone};
use super::voice::{BY_NAMES, Cutter, Utterance};
use crate::corpus::Scope;

impl Cutter<'_, '_> {
    /// \x…\x: a sub-heading, a word set off, or a line of keywords.
    pub(super) fn mark(&mut self, _: Glyph) {
        let from = self.at + 1;
        let close = self.glyphs[from..]
            .iter()
            .take(400)
            .position(|glyph| glyph.read == MARK);
        let Some(close) = close.map(|close| from + close) else {
            self.at += 1;
            return;
        };
        let inner: Vec<Glyph> = self.glyphs[from..close]
            .iter()
            .copied()
            .filter(|glyph| glyph.read != BREAK)
            .collect();
        let text: String = inner.iter().map(|glyph| glyph.read).collect();
        let text = text.trim_matches('□');
        if !self.after_stop() {
            self.buffer.extend(inner);
            self.at = close + 1;
            return;
        }
        let alone = self
            .glyphs
            .get(close + 1)
            .is_none_or(|next| next.read == BREAK);
        let heads = alone || sections::zone(text).is_some() || (self.voices.limit)(text).is_some();
        if !heads
            && text.chars().count() <= 8
            && !BY_NAMES.iter().any(|word| text.starts_with(word))
        {
            self.buffer.extend(inner);
            self.at = close + 1;
            return;
        }
        self.flush();
        self.at = close + 1;
        if let Some(zone) = sections::zone(text) {
            self.open_zone(zone);
        } else if BY_NAMES.iter().any(|word| text.starts_with(word))
            || text.chars().count() > 8
            || text.contains('。')
        {
            self.done.push(Utterance {
                speakers: vec![Speaker::Work],
                through: None,
                zone: self.zone,
                limit: self.limit.clone(),
                opening: false,
                summary: true,
                glyphs: inner,
                asides: Vec::new(),
            });
        } else {
            self.sub_heading(text, alone);
        }
    }

    fn sub_heading(&mut self, text: &str, alone: bool) {
        let known = (self.voices.limit)(text);
        if text.is_empty() || known.is_none() && !alone && self.zone != Zone::Statement {
            return;
        }
        self.limit = if self.voices.heading == text {
            Scope::default()
        } else {
            known.unwrap_or_else(|| Scope {
                kind: Some(text.to_owned()),
                ..Scope::default()
            })
        };
        self.open_zone(Zone::Statement);
        self.quoted = false;
    }

    pub(super) fn open_zone(&mut self, zone: Zone) {
        self.zone = zone;
        self.turns.clear();
        self.opening = true;
        self.editor = false;
        if self
            .glyphs
            .get(self.at)
            .is_some_and(|next| "：。".contains(next.read))
        {
            self.at += 1;
        }
    }

    /// 【氣味】 opens a part of the article; 〔證〕 is an editor's sign.
    pub(super) fn bracketed(&mut self, open: Glyph) {
        let closing = if open.read == '【' { '】' } else { '〕' };
        let from = self.at + 1;
        let Some(close) = self.glyphs[from..]
            .iter()
            .take(40)
            .position(|glyph| glyph.read == closing || glyph.read == BREAK)
        else {
            self.at += 1;
            return;
        };
        let text: String = self.glyphs[from..from + close]
            .iter()
            .map(|glyph| glyph.read)
            .collect();
        let at_start = self.after_stop();
        self.at = from + close + usize::from(self.glyphs[from + close].read == closing);
        if let Some(zone) = sections::zone(&text) {
            self.flush();
            self.open_zone(zone);
        } else if open.read == '【' && at_start {
            self.flush();
            if let Some(limit) = (self.voices.limit)(&text) {
                self.limit = limit;
                self.open_zone(Zone::Statement);
            } else if text.chars().count() <= 4 {
                self.open_zone(Zone::Discussion);
            }
        }
    }

    /// （…）: the authority behind a statement, the channel behind a name, or an aside.
    pub(super) fn aside(&mut self, open: Glyph) {
        let (inner, next) = self.inside(open.read);
        self.at = next;
        let text: Vec<char> = channel::chars(&inner);
        if self.attributes(&text, &inner) {
            return;
        }
        let organs: Vec<char> = text.iter().copied().filter(|c| *c != '。').collect();
        let read = channel::read(&organs).read;
        let names_organ = (1..=8).contains(&organs.len()) && read == organs.len();
        let mut behind = self.buffer.iter().rev().take(3);
        if names_organ && behind.any(|glyph| "阴阳明".contains(glyph.read)) {
            let inner = inner.iter().filter(|glyph| glyph.read != '。');
            self.buffer.extend(inner);
            return;
        }
        if self.lists_drugs() {
            self.buffer.extend(inner);
            self.stop(open);
            return;
        }
        if text.starts_with(&['专', '入']) {
            self.stop(open);
        }
        // 薄荷（辛，凉）: the statement itself stands in brackets.
        let words = "味气性其辛甘酸苦咸淡涩寒热温平凉冷毒有无大小微甚，、。";
        let states = text.len() > 1 && text.iter().all(|c| words.contains(*c));
        if states && self.zone == Zone::Statement && self.buffer.len() <= 8 && self.opening {
            self.stop(open);
            self.buffer.extend(inner);
            self.stop(open);
            return;
        }
        self.asides.push(inner);
    }

    /// Whether a bracket holds the drugs of a verb that stands by itself before it: 反（藜蘆）惡（防己）.
    fn lists_drugs(&self) -> bool {
        let Some((verb, before)) = self.buffer.split_last() else {
            return false;
        };
        "反恶畏使忌伏制".contains(verb.read)
            && before
                .last()
                .is_none_or(|stop| "，。；：\n□".contains(stop.read))
    }

    /// Whether what stands in brackets names the authority of the statement before it, which is then
    /// given to that authority.
    fn attributes(&mut self, text: &[char], inner: &[Glyph]) -> bool {
        let in_section = matches!(self.zone, Zone::Uses | Zone::Properties | Zone::Discussion);
        if !in_section || self.buffer.is_empty() || !self.turns.is_empty() {
            return false;
        }
        let bare: Vec<char> = text
            .iter()
            .copied()
            .filter(|c| !"《》。".contains(*c))
            .collect();
        let speakers = match bare.as_slice() {
            ['同', '上'] | ['上', '同'] => self.behind.clone(),
            _ => self.named_behind(text, &bare, inner),
        };
        if speakers.is_empty() {
            return false;
        }
        let glyphs = std::mem::take(&mut self.buffer);
        let asides = std::mem::take(&mut self.asides);
        self.behind.clone_from(&speakers);
        self.push(speakers, None, glyphs, asides);
        self.opening = false;
        let next = self.glyphs.get(self.at);
        self.at += usize::from(next.is_some_and(|next| "。，".contains(next.read)));
        true
    }

    /// The drug's name before its channels in brackets is a clause of its own.
    fn stop(&mut self, open: Glyph) {
        if !self.after_stop() {
            self.buffer.push(Glyph {
                read: '。', ..open
            });
        }
    }

    /// The speakers named behind a statement: （《別錄》）, （甄權）.
    fn named_behind(&self, text: &[char], bare: &[char], inner: &[Glyph]) -> Vec<Speaker> {
        if let Some(names) = self.voices.names.all_known(bare) {
            return names
                .iter()
                .map(|name| self.voices.names.speaker(name, name, self.voices.work))
                .collect();
        }
        let titled = text.first() == Some(&'《') && text.last() == Some(&'》') && text.len() <= 12;
        let name = written(inner).trim_matches(['《', '》']).to_owned();
        if titled {
            vec![Speaker::Other(name)]
        } else {
            Vec::new()
        }
    }

    /// What stands between a bracket and its fellow, and the place behind it.
    fn inside(&self, open: char) -> (Vec<Glyph>, usize) {
        let close = match open {
            '（' => '）',
            '〈' => '〉',
            _ => '］',
        };
        let mut depth = 0;
        for (place, glyph) in self.glyphs[self.at..].iter().enumerate() {
            if glyph.read == open {
                depth += 1;
            } else if glyph.read == close {
                depth -= 1;
                if depth == 0 {
                    let inner = self.glyphs[self.at + 1..self.at + place].iter().copied();
                    return (
                        inner.filter(|glyph| glyph.read != BREAK).collect(),
                        self.at + place + 1,
                    );
                }
            } else if "【\u{e000}".contains(glyph.read) || glyph.read == BREAK && place > 400 {
                break;
            }
        }
        // A bracket that is never closed reaches to the end of its paragraph.
        let end = self.glyphs[self.at..]
            .iter()
            .position(|glyph| glyph.read == BREAK)
            .map_or(self.glyphs.len(), |place| self.at + place);
        (self.glyphs[self.at + 1..end].to_vec(), end)
    }
}
