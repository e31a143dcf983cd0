//! The grammar of one clause: what a property statement says between two stops. It reads left to
//! right, word by word, and stops at the first word that belongs to no such statement.

use super::clause_reader::Reader;
use super::passage::Glyph;
use super::words::{Degree, Word, Words};
use crate::claim::{Scheme, ValueId};
use crate::corpus::Scope;

/// One value that a clause states.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Value {
    Flavour(ValueId, Option<Degree>),
    Nature(ValueId),
    Toxicity(ValueId),
}

impl Value {
    /// Flavour, nature or toxicity.
    pub const fn facet(self) -> usize {
        match self {
            Self::Flavour(..) => 0,
            Self::Nature(_) => 1,
            Self::Toxicity(_) => 2,
        }
    }
}

/// What was read from a clause.
#[derive(Debug, Default)]
pub(super) struct Clause {
    /// Values, each with the part or preparation named before it.
    pub values: Vec<(Scope, Value)>,
    /// The part or preparation that the clause names without saying anything of it.
    pub subject: Option<Scope>,
    /// Whether 味, 氣 or 性 announced the values.
    pub announced: bool,
    /// Whether the drug itself is named at the opening.
    pub itself: bool,
    /// Whether the clause was read to its end.
    pub whole: bool,
    /// Whether it says nothing but qualities that are no facet of ours.
    pub transparent: bool,
    /// Whether a value is denied.
    pub denied: bool,
    /// Whether it is reported with 一云.
    pub hedged: bool,
    /// Whether a lost character stands where a value would.
    pub lost: bool,
    /// Whether a channel verb follows the values, and where.
    pub channel_at: Option<usize>,
    /// How many characters were read.
    pub read: usize,
    /// How many characters name the drug itself.
    pub opened: usize,
    /// Whether a word of quality follows a value.
    pub qualified: bool,
    /// Whether the clause opens with what the drug looks like.
    pub looks: bool,
    /// Whether the clause names a kind by itself.
    pub kind_named: bool,
    /// Whether 其 and a part open a clause that says nothing that is understood.
    pub about: Option<Scope>,
    /// Whether the values are the reason of an action that follows: 辛能散.
    pub reason: bool,
    /// Whether 性 announced nothing but 澀.
    pub only_rough: bool,
}

/// Reads clauses with one vocabulary and the names of one article's drug.
pub(super) struct Grammar<'w> {
    pub words: &'w Words,
    pub natures: &'w Scheme,
    /// The drug's names, longest first.
    pub names: Vec<Vec<char>>,
}

impl Grammar<'_> {
    pub(super) fn next(&self, text: &[char], fresh: bool) -> (Word, usize) {
        if fresh && let Some(name) = self.names.iter().find(|name| text.starts_with(name)) {
            return (Word::Itself, name.len());
        }
        self.words.longest(text)
    }

    /// Reads `glyphs`, the characters between two stops.
    pub fn read(&self, glyphs: &[Glyph]) -> Clause {
        let text: Vec<char> = glyphs.iter().map(|glyph| glyph.read).collect();
        let mut clause = Reader::new(self, &text).read();
        clause.transparent &=
            clause.values.is_empty() && clause.whole && clause.subject.is_none() && !clause.lost;
        clause
    }
}
