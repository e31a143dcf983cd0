//! What an article says of its drug beside other drugs: where it is looked for, and who says it.

use super::attribution;
use super::drug_names::DrugNames;
use super::names::{Names, Speaker};
use super::passage::Glyph;
use super::relation_clause::Text;
use super::saying::Doubt;
use super::sections::Zone;
use super::voice::Utterance;
use crate::corpus::Relation;

/// A clause on other drugs.
#[derive(Debug, PartialEq, Eq)]
pub(super) struct Related {
    /// Who asserts it, where it is not the utterance's speaker.
    pub by: Option<Vec<Speaker>>,
    pub relations: Vec<Relation>,
    pub doubt: Option<Doubt>,
    pub glyphs: Vec<Glyph>,
}

/// What reads such clauses.
pub(super) struct Relations<'r> {
    pub drugs: &'r DrugNames,
    pub names: &'r Names,
    /// The id of the work that is read.
    pub work: &'r str,
    /// Whether what the text has in brackets may be a later note.
    pub noted: bool,
    /// The names by which the article may call its drug, longest first.
    pub itself: &'r [Vec<char>],
}

const STOPS: &str = "，。；：！？、\n“”‘’「」·";
/// A stretch between two stops.
#[derive(Debug, Clone, Copy)]
pub(super) struct Segment {
    pub from: usize,
    pub to: usize,
    /// The stop before it.
    pub before: char,
}

impl Relations<'_> {
    /// The clauses on other drugs in an utterance and in what it holds in brackets.
    pub fn find(&self, utterance: &Utterance) -> Vec<Related> {
        if matches!(utterance.zone, Zone::Aside | Zone::Description) || utterance.summary {
            return Vec::new();
        }
        let mut found = self.text(&utterance.glyphs);
        // A bracket within a quotation may be the quotation's own or its carrier's.
        let own = utterance.speakers == [Speaker::Work];
        for aside in utterance.asides.iter().filter(|_| own) {
            found.extend(self.aside(aside));
        }
        found
    }

    fn aside(&self, glyphs: &[Glyph]) -> Vec<Related> {
        let named = attribution::read(glyphs, self.names);
        let quotes = |pair: &[Glyph]| "云曰".contains(pair[0].read) && pair[1].read == '：';
        if named.is_none() && glyphs.windows(2).any(quotes) {
            return Vec::new();
        }
        let from = named.as_ref().map_or(0, |named| named.length);
        let by = named.map(|named| {
            let names = named.names.iter().zip(&named.written);
            let speaker =
                |(name, written): (&String, &String)| self.names.speaker(name, written, self.work);
            names.map(speaker).collect::<Vec<_>>()
        });
        let mut found = self.text(glyphs.get(from..).unwrap_or_default());
        for one in &mut found {
            one.by.clone_from(&by);
            if self.noted {
                one.doubt = one.doubt.or(Some(Doubt::Bracketed));
            }
        }
        found
    }

    fn text(&self, glyphs: &[Glyph]) -> Vec<Related> {
        let segments = segments(glyphs);
        let mut found: Vec<Related> = Vec::new();
        let mut at = 0;
        while at < segments.len() {
            let near = found.last().is_some_and(|last: &Related| {
                let end = last.glyphs.last().map_or(0, |glyph| glyph.at);
                glyphs[segments[at].from].at <= end + 4
            });
            let text = Text {
                relations: self,
                glyphs,
                segments: &segments,
                at,
                near,
            };
            match text.read() {
                Some((next, mut related)) => {
                    found.append(&mut related);
                    at = next;
                }
                None => at += 1,
            }
        }
        found
    }
}

fn segments(glyphs: &[Glyph]) -> Vec<Segment> {
    let mut segments = Vec::new();
    let (mut from, mut before) = (0, '\n');
    for (place, glyph) in glyphs.iter().enumerate() {
        if STOPS.contains(glyph.read) {
            if place > from {
                segments.push(Segment {
                    from,
                    to: place,
                    before,
                });
                before = glyph.read;
            } else if "。；\n".contains(glyph.read) {
                before = glyph.read;
            }
            from = place + 1;
        }
    }
    if glyphs.len() > from {
        segments.push(Segment {
            from,
            to: glyphs.len(),
            before,
        });
    }
    segments
}
