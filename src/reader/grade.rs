//! Grades: told by the section (上品, 下經) or in brackets behind the heading （《本經》上品）.

use super::names::{Names, Speaker};
use super::passage::{BREAK, Glyph, written};
use super::saying::{ReadSaying, Span};
use super::statement::Statements;
use crate::claim::{Scheme, ValueId};
use crate::corpus::Scope;

/// A grade, who gives it, and the phrase and place where it stands; a section has none.
#[derive(Debug, PartialEq, Eq)]
pub(super) struct Grade {
    pub by: Speaker,
    pub value: ValueId,
    pub span: Span,
    pub phrase: String,
}

const LEVELS: [(&str, &str); 6] = [
    ("上品", "upper"),
    ("中品", "middle"),
    ("下品", "lower"),
    ("上经", "upper"),
    ("中经", "middle"),
    ("下经", "lower"),
];

/// The grade that the section gives, in the work's own voice.
pub(super) fn of_section(section: &str, scheme: &Scheme, at: usize) -> Option<Grade> {
    let found = LEVELS.iter().filter(|(word, _)| section.contains(word));
    let ids: Vec<&str> = found.map(|(_, id)| *id).collect();
    let [id] = ids.as_slice() else { return None };
    Some(Grade {
        by: Speaker::Work,
        value: scheme.place(id)?,
        span: Span { start: at, end: at },
        phrase: String::new(),
    })
}

/// The grade in brackets at the opening of an article.
pub(super) fn of_opening(
    glyphs: &[Glyph],
    scheme: &Scheme,
    names: &Names,
    work: &str,
) -> Option<Grade> {
    let [first, ..] = glyphs else { return None };
    let end = glyphs
        .iter()
        .position(|glyph| glyph.read == BREAK)
        .unwrap_or(glyphs.len());
    let close = glyphs[..end]
        .iter()
        .position(|glyph| glyph.read == '）')
        .filter(|close| *close < 16)?;
    if first.read != '（' {
        return None;
    }
    let inner = &glyphs[1..close];
    let text: String = inner.iter().map(|glyph| glyph.read).collect();
    let (name, id) = LEVELS
        .iter()
        .find_map(|(word, id)| Some((text.strip_suffix(word)?, *id)))?;
    let name: Vec<char> = name.chars().collect();
    let by = match names.all_known(&name) {
        Some(known) if known.len() == 1 => names.speaker(&known[0], &known[0], work),
        None if name.is_empty() => Speaker::Work,
        _ => return None,
    };
    Some(Grade {
        by,
        value: scheme.place(id)?,
        span: Span {
            start: inner.first()?.at,
            end: inner.last()?.at + 1,
        },
        phrase: written(inner),
    })
}

impl Statements<'_> {
    /// Adds a grade.
    pub fn grade(&mut self, grade: Grade) {
        self.sayings.push(ReadSaying {
            by: grade.by,
            through: None,
            flavour: Vec::new(),
            nature: Vec::new(),
            toxicity: None,
            grade: Some(grade.value),
            channel: Vec::new(),
            action: Vec::new(),
            relations: Vec::new(),
            limit: Scope::default(),
            doubt: None,
            span: grade.span,
            phrase: grade.phrase,
        });
    }
}
