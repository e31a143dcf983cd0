//! From clauses on other drugs to sayings.

use super::relation::Relations;
use super::saying::ReadSaying;
use super::statement::Statements;
use super::voice::Utterance;
use crate::corpus::Relation;

impl Statements<'_> {
    /// Reads what one utterance says of other drugs, each relation of a speaker once.
    pub fn relations(&mut self, utterance: &Utterance, relations: &Relations<'_>) {
        for found in relations.find(utterance) {
            for speaker in found.by.as_ref().unwrap_or(&utterance.speakers) {
                let limit = utterance.limit.clone();
                let mut new = found.relations.clone();
                let said = |saying: &ReadSaying, one: &Relation| {
                    saying.by == *speaker && saying.limit == limit && saying.relations.contains(one)
                };
                new.retain(|one| !self.sayings.iter().any(|saying| said(saying, one)));
                if new.is_empty() {
                    continue;
                }
                let mut saying = self.saying(utterance, speaker, limit, &found.glyphs);
                saying.relations = new;
                saying.doubt = found.doubt;
                self.sayings.push(saying);
            }
        }
    }
}
