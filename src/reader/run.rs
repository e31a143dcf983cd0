//! The state while one utterance is read, and the rule which clauses state the drug's properties.

use std::collections::HashMap;

use super::clause::{Clause, Value};
use super::names::Speaker;
use super::passage::Glyph;
use super::saying::Doubt;
use super::sections::Zone;
use super::voice::Utterance;
use crate::corpus::Scope;

/// A statement that is being put together.
pub(super) struct Open {
    pub limit: Scope,
    pub values: Vec<Value>,
    pub doubt: Option<Doubt>,
    pub from: usize,
    pub to: usize,
}

/// The state while one utterance is read.
pub(super) struct Run<'u> {
    pub utterance: &'u Utterance,
    /// Whether the clause before belonged to a statement, or none was read yet.
    pub going: bool,
    /// The part or preparation of which the clauses speak.
    pub subject: Scope,
    /// Whether the subject was named with a colon and holds for the paragraph.
    pub firm: bool,
    pub hedged: bool,
    pub open: Option<Open>,
    /// How many clauses were passed over since the utterance opened.
    pub passed: usize,
    /// Whether the clause before names another thing: 桂枝，味辛.
    pub other_thing: bool,
}

impl Run<'_> {
    pub fn turn_to(&mut self, subject: &Scope, colon: bool) {
        self.subject = Scope {
            part: subject.part.or(self.utterance.limit.part),
            preparation: subject.preparation,
            kind: self.utterance.limit.kind.clone(),
        };
        self.firm = colon;
        self.going = true;
    }

    /// The limit of a value: its own, else that of the clauses' subject.
    pub fn limit(&self, own: &Scope) -> Scope {
        if own.is_whole() {
            return self.subject.clone();
        }
        Scope {
            part: own.part.or(self.subject.part),
            preparation: own.preparation,
            kind: self.subject.kind.clone(),
        }
    }

    /// A clause that states nothing was passed; before a colon it may name a kind.
    pub fn pass(&mut self, named: Option<&[Glyph]>) {
        self.going = false;
        self.passed += 1;
        if let Some(glyphs) = named
            && glyphs.len() <= 4
            && self.passed > 1
            && glyphs
                .last()
                .is_some_and(|last| !"曰云言谓者也治主".contains(last.read))
        {
            let kind: String = glyphs.iter().map(|glyph| glyph.read).collect();
            self.subject = Scope {
                kind: Some(kind),
                ..Scope::default()
            };
            self.firm = true;
            self.going = true;
        }
    }

    pub fn end_of_sentence(&mut self) {
        if !self.firm && !self.going {
            self.subject = self.utterance.limit.clone();
        }
        self.hedged = false;
    }

    /// Whether the values of a clause are a statement on the drug.
    pub fn accepts(&self, clause: &Clause, said: &HashMap<(Speaker, Scope), Vec<Value>>) -> bool {
        if clause.denied {
            return false;
        }
        // 澀 alone in a line of keywords is a class of drugs.
        if clause.only_rough && !clause.announced && self.open.is_none() {
            return false;
        }
        if clause.lost
            && !clause.announced
            && clause.values.iter().all(|(_, value)| value.facet() == 0)
        {
            return false;
        }
        let facets = {
            let mut seen = [false; 3];
            clause
                .values
                .iter()
                .for_each(|(_, value)| seen[value.facet()] = true);
            seen.iter().filter(|seen| **seen).count()
        };
        let toxicity = clause.values.iter().all(|(_, value)| value.facet() == 2);
        let limited = clause.values.iter().any(|(limit, _)| !limit.is_whole());
        let before = said.get(&(self.utterance.speakers[0].clone(), self.subject.clone()));
        let unsaid = clause.values.iter().any(|(_, value)| {
            before.is_none_or(|before| !before.iter().any(|one| one.facet() == value.facet()))
        });
        let early = self.passed <= 3;
        match self.utterance.zone {
            Zone::Properties => clause.whole || clause.announced || self.going || facets > 1,
            Zone::Statement if self.going || early && (facets > 1 || clause.values.len() > 1) => {
                clause.whole
                    || clause.announced
                    || facets > 1
                    || clause.values.len() > 1 && clause.channel_at.is_some()
            }
            Zone::Statement => {
                clause.announced && (clause.whole || unsaid)
                    || clause.whole && (facets > 1 || toxicity || clause.itself)
            }
            Zone::Uses | Zone::Discussion => {
                unsaid
                    && (clause.whole
                        && (clause.announced
                            || facets > 1
                            || toxicity
                            || self.going && clause.itself)
                        || self.going && clause.announced && clause.itself)
            }
            Zone::Channels => clause.announced && clause.whole,
            Zone::Description => {
                clause.announced
                    && clause.whole
                    && facets == 1
                    && clause.values[0].1.facet() == 0
                    && self.subject.is_whole()
                    && !limited
            }
            Zone::Aside => false,
        }
    }
}
