//! Who speaks where: an article cut into utterances, each with its speaker, its zone and the part it
//! is about, with asides in brackets taken out. The work's own voice and what it quotes part here.

use super::attribution::{self, Reach};
use super::names::{Names, Speaker};
use super::passage::{BREAK, Glyph, MARK};
use super::sections::{self, Zone};
use crate::corpus::Scope;

/// A stretch of text in one voice.
#[derive(Debug, Clone)]
pub(super) struct Utterance {
    /// Who speaks; several where a statement is given to several at once.
    pub speakers: Vec<Speaker>,
    /// Who carries the statement between its speaker and the work.
    pub through: Option<Speaker>,
    pub zone: Zone,
    /// The part or kind that a sub-heading names.
    pub limit: Scope,
    /// Whether it opens a paragraph or a quotation, where bare values stand.
    pub opening: bool,
    /// Whether it is a line of keywords and by-names that the transcription marks.
    pub summary: bool,
    pub glyphs: Vec<Glyph>,
    /// Asides in brackets, without the brackets.
    pub asides: Vec<Vec<Glyph>>,
}

/// What the cutter needs to know.
pub(super) struct Voices<'v> {
    pub names: &'v Names,
    /// The id of the work that is read.
    pub work: &'v str,
    /// The heading in simplified characters.
    pub heading: &'v str,
    /// What a sub-heading limits the text to.
    pub limit: &'v dyn Fn(&str) -> Option<Scope>,
}

/// A speaker who has the word.
#[derive(Debug, Clone)]
pub(super) struct Turn {
    speakers: Vec<Speaker>,
    reach: Reach,
    /// Whether the work takes the word again at the first property statement.
    returns: bool,
}

const STOPS: &str = "，。；：！？\n";
/// Openings of a paragraph in which the author discusses.
const DISCUSSION: [&str; 14] = [
    "发明",
    "按：",
    "按，",
    "谟按",
    "愚按",
    "余按",
    "谨案",
    "谨按：",
    "或问",
    "或疑",
    "或曰",
    "附记",
    "又按",
    "论曰",
];
/// Openings of a paragraph of an editor, who is no speaker of the work.
const EDITOR: [&str; 3] = ["案：", "〔附〕", "校："];
/// What opens a line of by-names.
pub(super) const BY_NAMES: [&str; 9] = [
    "一名", "俗", "即", "又名", "古名", "本作", "亦名", "原名", "又作",
];

pub(super) struct Cutter<'c, 'v> {
    pub(super) voices: &'c Voices<'v>,
    pub(super) glyphs: &'c [Glyph],
    pub(super) at: usize,
    pub(super) done: Vec<Utterance>,
    pub(super) buffer: Vec<Glyph>,
    pub(super) asides: Vec<Vec<Glyph>>,
    pub(super) turns: Vec<Turn>,
    pub(super) zone: Zone,
    pub(super) limit: Scope,
    pub(super) opening: bool,
    /// Whether a quotation has opened a paragraph of the article already.
    pub(super) quoted: bool,
    /// Whether an editor speaks.
    pub(super) editor: bool,
    /// Who was named last behind a statement.
    pub(super) behind: Vec<Speaker>,
}

impl Voices<'_> {
    /// Cuts the article's glyphs into utterances.
    pub fn cut(&self, glyphs: &[Glyph]) -> Vec<Utterance> {
        let mut cutter = Cutter {
            voices: self,
            glyphs,
            at: 0,
            done: Vec::new(),
            buffer: Vec::new(),
            asides: Vec::new(),
            turns: Vec::new(),
            zone: Zone::Statement,
            limit: Scope::default(),
            opening: true,
            quoted: false,
            editor: false,
            behind: Vec::new(),
        };
        cutter.paragraph();
        while let Some(glyph) = glyphs.get(cutter.at).copied() {
            cutter.step(glyph);
        }
        cutter.flush();
        cutter.done
    }
}

impl Cutter<'_, '_> {
    fn rest(&self, length: usize) -> String {
        let end = (self.at + length).min(self.glyphs.len());
        self.glyphs[self.at..end]
            .iter()
            .map(|glyph| glyph.read)
            .collect()
    }

    /// Whether the place that is read follows a stop.
    pub(super) fn after_stop(&self) -> bool {
        self.buffer
            .last()
            .is_none_or(|last| STOPS.contains(last.read))
    }

    fn step(&mut self, glyph: Glyph) {
        match glyph.read {
            BREAK => self.end_of_paragraph(),
            MARK => self.mark(glyph),
            '【' | '〔' => self.bracketed(glyph),
            '（' | '〈' | '［' => self.aside(glyph),
            _ => {
                if self.after_stop() && self.takes_the_word() {
                    return;
                }
                self.buffer.push(glyph);
                self.at += 1;
                if glyph.read == '。' {
                    self.end_of_sentence();
                }
            }
        }
    }

    /// Whether another speaker, or the work itself, takes the word here.
    fn takes_the_word(&mut self) -> bool {
        let ahead = self.rest(6);
        if ["又曰：", "又云：", "又言："]
            .iter()
            .any(|word| ahead.starts_with(word))
            && !self.turns.is_empty()
        {
            self.at += 3;
            return true;
        }
        let returns = self.turns.last().is_some_and(|turn| turn.returns) && !self.buffer.is_empty();
        if returns && opens_statement(&ahead) {
            self.flush();
            self.turns.clear();
            self.opening = true;
            return false;
        }
        let Some(found) = attribution::read(&self.glyphs[self.at..], self.voices.names) else {
            return false;
        };
        self.flush();
        let speakers: Vec<Speaker> = found
            .names
            .iter()
            .zip(&found.written)
            .map(|(name, written)| self.voices.names.speaker(name, written, self.voices.work))
            .collect();
        let unknown = found
            .names
            .iter()
            .all(|name| self.voices.names.work(name).is_none());
        let returned = self.turns.last().is_some_and(|turn| turn.returns);
        if found.reach == Reach::Paragraph
            || self
                .turns
                .last()
                .is_some_and(|turn| turn.reach == Reach::Sentence)
        {
            let keep = usize::from(
                found.reach == Reach::Sentence
                    && self
                        .turns
                        .first()
                        .is_some_and(|turn| turn.reach == Reach::Paragraph),
            );
            self.turns.truncate(keep);
        }
        self.turns.push(Turn {
            speakers,
            reach: found.reach,
            returns: (found.adduced || unknown && found.titled || returned)
                && self.zone == Zone::Statement,
        });
        self.opening = true;
        self.at += found.length;
        true
    }

    fn end_of_sentence(&mut self) {
        if self
            .turns
            .last()
            .is_some_and(|turn| turn.reach == Reach::Sentence)
        {
            self.flush();
            self.turns.pop();
            self.opening = false;
        }
    }

    fn end_of_paragraph(&mut self) {
        self.flush();
        self.at += 1;
        let quoted = self.turns.iter().any(|turn| turn.reach == Reach::Paragraph);
        if self.zone == Zone::Statement {
            self.quoted |= quoted;
            self.turns.clear();
        } else if self.zone == Zone::Discussion {
            self.turns.retain(|turn| turn.reach == Reach::Paragraph);
        } else {
            self.turns.clear();
        }
        self.opening = true;
        self.paragraph();
    }

    /// What the opening of a paragraph tells of its zone: 性味：, 按：, 案：.
    fn paragraph(&mut self) {
        let headed = self.rest(5);
        if let Some((word, _)) = headed.split_once('：')
            && let Some(zone) = sections::zone(word)
            && zone != Zone::Discussion
        {
            self.at += word.chars().count();
            self.open_zone(zone);
            return;
        }
        let ahead = self.rest(6);
        self.editor = EDITOR.iter().any(|word| ahead.starts_with(word))
            || self.editor && !ahead.starts_with(['\u{e000}', '【', '〔']);
        let skipped = ahead
            .find('）')
            .map_or(ahead.as_str(), |close| &ahead[close + '）'.len_utf8()..]);
        let discusses = DISCUSSION.iter().any(|word| {
            ahead.starts_with(word) || ahead.starts_with('（') && skipped.starts_with(word)
        });
        let later = self.quoted && self.zone == Zone::Statement;
        if (discusses || later) && !self.done.is_empty() && self.zone != Zone::Aside {
            self.zone = Zone::Discussion;
        }
    }

    pub(super) fn flush(&mut self) {
        let glyphs = std::mem::take(&mut self.buffer);
        let asides = std::mem::take(&mut self.asides);
        if self.editor || glyphs.is_empty() && asides.is_empty() {
            return;
        }
        let turn = self.turns.last();
        let speakers = turn.map_or_else(|| vec![Speaker::Work], |turn| turn.speakers.clone());
        let outer = self
            .turns
            .len()
            .checked_sub(2)
            .and_then(|place| self.turns.get(place));
        let through = outer.and_then(|turn| turn.speakers.first().cloned());
        self.push(speakers, through, glyphs, asides);
        self.opening = false;
    }

    pub(super) fn push(
        &mut self,
        speakers: Vec<Speaker>,
        through: Option<Speaker>,
        glyphs: Vec<Glyph>,
        asides: Vec<Vec<Glyph>>,
    ) {
        self.done.push(Utterance {
            speakers,
            through,
            zone: self.zone,
            limit: self.limit.clone(),
            opening: self.opening,
            summary: false,
            glyphs,
            asides,
        });
    }
}

/// Whether a sentence opens as a property statement does.
fn opens_statement(ahead: &str) -> bool {
    let opening = [
        "味",
        "性味",
        "性",
        "气味",
        "其味",
        "其性",
        "有毒",
        "无毒",
        "主",
        "有小毒",
        "有大毒",
        "气",
    ];
    if opening.iter().any(|word| ahead.starts_with(word)) {
        return true;
    }
    let plain = ahead.trim_start_matches(['大', '微', '小']);
    plain.starts_with([
        '辛', '甘', '酸', '苦', '咸', '淡', '涩', '寒', '温', '平', '凉', '热', '冷',
    ]) && plain
        .chars()
        .nth(1)
        .is_some_and(|next| "，。、；辛甘酸苦咸淡涩寒温平凉热冷".contains(next))
}
