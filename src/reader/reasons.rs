//! Values that a text names only as the reason of an action, 苦燥濕, and the end of reading an article.

use super::clause::Clause;
use super::run::Run;
use super::saying::{Doubt, ReadSaying, Unread};
use super::statement::Statements;

impl Statements<'_> {
    /// A value that is only named as the reason of an action, kept for the case that the article says
    /// nothing else of it.
    pub(super) fn reason(&mut self, run: &mut Run, clause: &Clause, from: usize) {
        self.close(run);
        let glyphs = &run.utterance.glyphs[from..from + clause.read];
        for (limit, value) in &clause.values {
            let mut saying = self.saying(
                run.utterance,
                &run.utterance.speakers[0],
                run.limit(limit),
                glyphs,
            );
            saying.doubt = Some(Doubt::Reason);
            saying.put(*value);
            self.reasons.push((*value, saying));
        }
    }

    /// All sayings in the order of the text; reasons only where their speaker says nothing else of the
    /// facet.
    pub fn finish(mut self) -> (Vec<ReadSaying>, Vec<Unread>) {
        for (value, saying) in std::mem::take(&mut self.reasons) {
            let facet = value.facet();
            let said = self.said.iter().any(|((speaker, limit), values)| {
                *speaker == saying.by
                    && *limit == saying.limit
                    && values.iter().any(|one| one.facet() == facet)
            });
            if !said {
                self.sayings.push(saying);
            }
        }
        self.sayings.sort_by_key(|saying| saying.span.start);
        (self.sayings, self.unread)
    }
}
