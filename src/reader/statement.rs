//! From clauses to sayings: which clauses of an utterance state the drug's properties, what belongs
//! to one statement, and what makes it doubtful.

use std::collections::HashMap;

use super::action::Actions;
use super::channel;
use super::clause::{Clause, Grammar, Value};
use super::names::Speaker;
use super::passage::{Glyph, LOST, written};
use super::run::{Open, Run};
use super::saying::{Doubt, ReadSaying, Span, Unread};
use super::sections::Zone;
use super::voice::Utterance;
use crate::claim::ValueId;
use crate::corpus::Scope;

pub(super) const STOPS: &str = "，。；：！？\n“”‘’「」";

/// Reads the utterances of one article, one after the other.
pub(super) struct Statements<'g> {
    grammar: &'g Grammar<'g>,
    pub(super) channel_place: &'g dyn Fn(&str) -> Option<ValueId>,
    /// What each speaker has said so far under each limit.
    pub(super) said: HashMap<(Speaker, Scope), Vec<Value>>,
    /// What the sentence that is read has said so far.
    sentence: Vec<((Speaker, Scope), Vec<Value>)>,
    /// Parts to which sub-headings limit the text.
    pub(super) headed: Vec<Scope>,
    /// Values named as the reason of an action.
    pub(super) reasons: Vec<(Value, ReadSaying)>,
    pub(super) sayings: Vec<ReadSaying>,
    pub(super) unread: Vec<Unread>,
}

impl<'g> Statements<'g> {
    pub fn new(
        grammar: &'g Grammar<'g>,
        channel_place: &'g dyn Fn(&str) -> Option<ValueId>,
    ) -> Self {
        Self {
            grammar,
            channel_place,
            said: HashMap::new(),
            sentence: Vec::new(),
            headed: Vec::new(),
            reasons: Vec::new(),
            sayings: Vec::new(),
            unread: Vec::new(),
        }
    }

    /// Reads the actions of one utterance.
    pub fn actions(&mut self, utterance: &Utterance, actions: &Actions) {
        for found in actions.find(utterance) {
            for speaker in &utterance.speakers {
                let limit = utterance.limit.clone();
                let mut saying = self.saying(utterance, speaker, limit, &found.glyphs);
                saying.action.clone_from(&found.actions);
                self.sayings.push(saying);
            }
        }
    }

    /// Reads one utterance.
    pub fn utterance(&mut self, utterance: &Utterance) {
        if utterance.zone == Zone::Aside || utterance.summary {
            return;
        }
        let mut run = Run {
            utterance,
            going: utterance.opening,
            subject: utterance.limit.clone(),
            firm: false,
            hedged: false,
            open: None,
            passed: 0,
            other_thing: false,
        };
        let glyphs = &utterance.glyphs;
        let mut from = 0;
        while from < glyphs.len() {
            let length = glyphs[from..]
                .iter()
                .position(|glyph| STOPS.contains(glyph.read));
            let stop = length.map_or(glyphs.len(), |length| from + length);
            let to = report_within(&glyphs[..stop], from).unwrap_or(stop);
            if to > from {
                let end = self.clause(&mut run, from, to);
                if end > to {
                    from = end;
                    continue;
                }
            }
            if glyphs
                .get(to)
                .is_some_and(|stop| "。；\n".contains(stop.read))
            {
                self.remember(&run);
                run.end_of_sentence();
            }
            from = if to < stop { to } else { to + 1 };
        }
        self.close(&mut run);
        self.remember(&run);
        if !utterance.limit.is_whole() {
            self.headed.push(utterance.limit.clone());
        }
        for aside in &utterance.asides {
            self.aside(utterance, aside);
        }
    }

    /// Reads the clause between two stops; gives the place behind it, or behind a list of channels
    /// that runs over the stop.
    fn clause(&mut self, run: &mut Run, from: usize, to: usize) -> usize {
        let glyphs = &run.utterance.glyphs;
        let (from, clause) = self.read(&glyphs[..to], from);
        let other_thing = run.other_thing;
        run.other_thing = to - from <= 3
            && clause.values.is_empty()
            && !clause.itself
            && clause.subject.is_none()
            && !clause.transparent;
        let colon = glyphs.get(to).is_some_and(|stop| stop.read == '：');
        if clause.values.is_empty() {
            if let Some(subject) = &clause.subject {
                self.close(run);
                run.turn_to(subject, colon);
                return to;
            }
            if clause.hedged && clause.whole {
                run.hedged = true;
                return to;
            }
            if let Some(about) = &clause.about {
                self.close(run);
                run.turn_to(about, false);
                run.going = false;
                return self.channels(run, from, to, clause.opened).unwrap_or(to);
            }
            if !clause.transparent {
                self.report(&clause, &glyphs[from..to]);
                run.pass(colon.then(|| &glyphs[from..to]));
            }
            return self.channels(run, from, to, clause.opened).unwrap_or(to);
        }
        let another = other_thing && run.utterance.zone == Zone::Discussion;
        let goes_on = run.utterance.zone == Zone::Statement
            && !clause.denied
            && self.goes_on(glyphs, to, &clause);
        if clause.reason && !another && !clause.denied && run.utterance.zone == Zone::Statement {
            self.reason(run, &clause, from);
            run.pass(None);
            self.close(run);
            return self.channels(run, from, to, clause.opened).unwrap_or(to);
        }
        if another || !goes_on && !run.accepts(&clause, &self.said) {
            self.close(run);
            self.report(&clause, &glyphs[from..to]);
            run.pass(None);
            return self.channels(run, from, to, clause.opened).unwrap_or(to);
        }
        self.take(run, &clause, from, to);
        if clause.whole {
            to
        } else {
            run.going = false;
            self.close(run);
            self.channels(run, from, to, clause.read).unwrap_or(to)
        }
    }

    /// Reads the clause at the end of `glyphs`; behind a by-name and a blank (一名國老 甘平) it begins
    /// anew.
    fn read(&self, glyphs: &[Glyph], from: usize) -> (usize, Clause) {
        let clause = self.grammar.read(&glyphs[from..]);
        if !clause.values.is_empty() {
            return (from, clause);
        }
        let Some(blank) = glyphs[from..].iter().rposition(|glyph| glyph.read == LOST) else {
            return (from, clause);
        };
        let behind = from + blank + 1;
        let second = self.grammar.read(&glyphs[behind..]);
        let two = second
            .values
            .windows(2)
            .any(|pair| pair[0].1.facet() != pair[1].1.facet());
        if second.whole && two && blank > 1 {
            (behind, second)
        } else {
            (from, clause)
        }
    }

    /// Whether the clause behind the stop at `to` goes on with values of another facet: 苦，微寒.
    fn goes_on(&self, glyphs: &[Glyph], to: usize, clause: &Clause) -> bool {
        let Some(rest) = glyphs
            .get(to + 1..)
            .filter(|_| clause.whole && "，、".contains(glyphs[to].read))
        else {
            return false;
        };
        let end = rest
            .iter()
            .position(|glyph| STOPS.contains(glyph.read))
            .unwrap_or(rest.len());
        // 溫，主止血: what it does follows.
        if matches!(
            rest.first().map(|glyph| glyph.read),
            Some('主' | '治' | '疗')
        ) {
            return clause.values.len() == 1 && clause.opened == 0;
        }
        let next = self.grammar.read(&rest[..end]);
        let facet = clause.values[0].1.facet();
        next.whole
            && !next.denied
            && next
                .values
                .first()
                .is_some_and(|(_, value)| value.facet() != facet)
    }

    /// Takes the values of a clause into statements.
    fn take(&mut self, run: &mut Run, clause: &Clause, from: usize, to: usize) {
        let hedged = clause.hedged || std::mem::take(&mut run.hedged);
        let end = if clause.whole { to } else { from + clause.read };
        let speaker = run.utterance.speakers[0].clone();
        for (limit, value) in &clause.values {
            let limit = run.limit(limit);
            let before = self
                .said
                .entry((speaker.clone(), limit.clone()))
                .or_default();
            let spoken = before.iter().any(|one| one.facet() == value.facet());
            let second = run.open.as_ref().is_some_and(|open| {
                let other = |one: &Value| one.facet() == 2 && one != value;
                value.facet() == 2 && open.limit == limit && open.values.iter().any(other)
            });
            let spoken = spoken || second;
            let doubt = if hedged {
                Some(Doubt::Reported)
            } else if spoken {
                if before.iter().any(|one| same(*one, *value)) {
                    continue;
                }
                Some(Doubt::TwoStatements)
            } else if clause.only_rough {
                Some(Doubt::UnusualWord)
            } else if clause.lost {
                Some(Doubt::LostCharacter)
            } else {
                None
            };
            // A lost character makes the statement doubtful; another doubt opens one of its own.
            let fits = run
                .open
                .as_ref()
                .is_some_and(|open| open.limit == limit && open.doubt == doubt);
            if !fits {
                self.close(run);
            }
            let open = run.open.get_or_insert_with(|| Open {
                limit,
                values: Vec::new(),
                doubt,
                from,
                to: end,
            });
            open.to = end;
            if !open.values.iter().any(|one| same(*one, *value)) {
                open.values.push(*value);
            }
        }
        run.going = true;
    }

    /// What a sentence said is said: the same facet again is a second statement. The statement itself
    /// stays open, since 無毒 often follows in a sentence of its own.
    fn remember(&mut self, run: &Run) {
        for (key, values) in std::mem::take(&mut self.sentence) {
            self.said.entry(key).or_default().extend(values);
        }
        // 甘。微苦微寒: a sentence of one facet only is completed by the next.
        let complete = |open: &&Open| {
            let first = open.values.first().map(|value| value.facet());
            open.doubt.is_none() && open.values.iter().any(|value| Some(value.facet()) != first)
        };
        let Some(open) = run.open.as_ref().filter(complete) else {
            return;
        };
        let speaker = run.utterance.speakers[0].clone();
        let said = self.said.entry((speaker, open.limit.clone())).or_default();
        said.extend(open.values.iter().copied());
    }

    /// Closes the statement that is open, one saying a speaker.
    pub(super) fn close(&mut self, run: &mut Run) {
        let Some(open) = run.open.take() else { return };
        if open.values.is_empty() {
            return;
        }
        let glyphs = &run.utterance.glyphs[open.from..open.to];
        for speaker in &run.utterance.speakers {
            if open.doubt.is_none() {
                let key = (speaker.clone(), open.limit.clone());
                self.sentence.push((key, open.values.clone()));
            }
            let mut saying = self.saying(run.utterance, speaker, open.limit.clone(), glyphs);
            saying.doubt = open.doubt;
            open.values.iter().for_each(|value| saying.put(*value));
            self.sayings.push(saying);
        }
    }

    pub(super) fn saying(
        &self,
        utterance: &Utterance,
        speaker: &Speaker,
        limit: Scope,
        glyphs: &[Glyph],
    ) -> ReadSaying {
        ReadSaying {
            by: speaker.clone(),
            through: utterance.through.clone(),
            flavour: Vec::new(),
            nature: Vec::new(),
            toxicity: None,
            grade: None,
            channel: Vec::new(),
            action: Vec::new(),
            relations: Vec::new(),
            limit,
            doubt: None,
            span: Span {
                start: glyphs.first().map_or(0, |glyph| glyph.at),
                end: glyphs.last().map_or(0, |glyph| glyph.at + 1),
            },
            phrase: written(glyphs),
        }
    }

    /// Reports a clause that looks like a statement and was not understood.
    fn report(&mut self, clause: &Clause, glyphs: &[Glyph]) {
        let text = channel::chars(glyphs);
        let speaks = text.windows(2).any(|pair| {
            "味性".contains(pair[0]) && "辛甘酸苦咸淡涩寒热温平凉".contains(pair[1])
                || "有无大小".contains(pair[0]) && pair[1] == '毒'
        });
        if (speaks || clause.announced && clause.lost) && !clause.denied && text.len() <= 40 {
            self.unread.push(Unread {
                text: written(glyphs),
                span: Span {
                    start: glyphs.first().map_or(0, |glyph| glyph.at),
                    end: glyphs.last().map_or(0, |glyph| glyph.at + 1),
                },
            });
        }
    }
}

/// Where a report begins within a clause: 味辛温一云微寒.
fn report_within(glyphs: &[Glyph], from: usize) -> Option<usize> {
    let mut pairs = glyphs[from..].windows(2).enumerate().skip(1);
    let report = |pair: &[Glyph]| {
        matches!(
            (pair[0].read, pair[1].read),
            ('一' | '或', '云') | ('一', '曰')
        )
    };
    pairs
        .find(|(_, pair)| report(pair))
        .map(|(place, _)| from + place)
}

/// Whether two values are the same but for the degree of a flavour.
fn same(a: Value, b: Value) -> bool {
    match (a, b) {
        (Value::Flavour(a, _), Value::Flavour(b, _)) => a == b,
        _ => a == b,
    }
}
