//! Counting what was read.

use super::saying::{ArticleReading, ReadSaying};

/// How much was read from a text.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Tally {
    /// Articles.
    pub articles: usize,
    /// Articles with at least one statement on the drug itself.
    pub with_statements: usize,
    /// Articles in which a flavour, nature or toxicity is stated without doubt.
    pub with_property: usize,
    /// Articles in which one statement without doubt gives two of flavour, nature and toxicity.
    pub with_whole_statement: usize,
    /// Sayings.
    pub sayings: usize,
    /// Doubtful sayings.
    pub doubtful: usize,
    /// Clauses that look like statements and were not understood.
    pub unread: usize,
    /// Sayings with a flavour.
    pub flavour: usize,
    /// Sayings with a nature.
    pub nature: usize,
    /// Sayings with a toxicity.
    pub toxicity: usize,
    /// Sayings with a grade.
    pub grade: usize,
    /// Sayings with channels.
    pub channel: usize,
    /// Sayings with actions.
    pub action: usize,
    /// Sayings on other drugs.
    pub relation: usize,
}

/// A text on drugs states properties under at least one of so many headings; prose on other matters
/// comes upon the words now and then.
const ONE_IN: usize = 50;

impl Tally {
    /// The count of `readings`.
    #[must_use]
    pub fn of(readings: &[ArticleReading]) -> Self {
        let mut tally = Self {
            articles: readings.len(),
            ..Self::default()
        };
        for reading in readings {
            tally.unread += reading.unread.len();
            tally.with_statements += usize::from(
                reading
                    .sayings
                    .iter()
                    .any(|saying| saying.relations.is_empty()),
            );
            let whole = reading.sayings.iter().any(|saying| {
                let facets = [
                    !saying.flavour.is_empty(),
                    !saying.nature.is_empty(),
                    saying.toxicity.is_some(),
                ];
                saying.doubt.is_none() && facets.into_iter().filter(|one| *one).count() > 1
            });
            tally.with_whole_statement += usize::from(whole);
            let property = |saying: &ReadSaying| saying.has_property() && saying.doubt.is_none();
            tally.with_property += usize::from(reading.sayings.iter().any(property));
            for saying in &reading.sayings {
                tally.sayings += 1;
                tally.doubtful += usize::from(saying.doubt.is_some());
                tally.flavour += usize::from(!saying.flavour.is_empty());
                tally.nature += usize::from(!saying.nature.is_empty());
                tally.toxicity += usize::from(saying.toxicity.is_some());
                tally.grade += usize::from(saying.grade.is_some());
                tally.channel += usize::from(!saying.channel.is_empty());
                tally.action += usize::from(!saying.action.is_empty());
                tally.relation += usize::from(!saying.relations.is_empty());
            }
        }
        tally
    }

    /// Whether the text is one on drugs at all.
    #[must_use]
    pub const fn is_materia_medica(&self) -> bool {
        self.with_whole_statement > 0 && self.with_property * ONE_IN >= self.articles
    }
}
