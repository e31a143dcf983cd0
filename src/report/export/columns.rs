//! The columns of the tables, each with what it means: the header of CSV and the table schema are made from them.

use super::word;
use crate::report::view::{HeedView, HerbView, WorkEntry};

/// What the cells of a column are.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Type {
    /// Any text.
    Text,
    /// A whole number.
    Integer,
    /// `true` or `false`.
    Boolean,
}

/// One column of a table of `T`.
pub struct Column<T> {
    /// Its name.
    pub name: &'static str,
    /// What its cells are.
    pub kind: Type,
    /// Whether every row has it.
    pub required: bool,
    /// What it means.
    pub about: &'static str,
    /// The cell of a row.
    pub of: fn(&T) -> String,
}

const fn column<T>(
    name: &'static str,
    kind: Type,
    required: bool,
    about: &'static str,
    of: fn(&T) -> String,
) -> Column<T> {
    Column {
        name,
        kind,
        required,
        about,
        of,
    }
}

pub(super) const fn text<T>(
    name: &'static str,
    required: bool,
    about: &'static str,
    of: fn(&T) -> String,
) -> Column<T> {
    column(name, Type::Text, required, about, of)
}

pub(super) const fn integer<T>(
    name: &'static str,
    required: bool,
    about: &'static str,
    of: fn(&T) -> String,
) -> Column<T> {
    column(name, Type::Integer, required, about, of)
}

pub(super) const fn boolean<T>(
    name: &'static str,
    required: bool,
    about: &'static str,
    of: fn(&T) -> String,
) -> Column<T> {
    column(name, Type::Boolean, required, about, of)
}

pub(super) fn some(text: &Option<String>) -> String {
    text.clone().unwrap_or_default()
}

pub(super) fn number(number: Option<impl ToString>) -> String {
    number.map_or_else(String::new, |number| number.to_string())
}

/// An herb as a row.
pub struct HerbCells {
    /// The herb.
    pub herb: HerbView,
    /// The most severe toxicity stated.
    pub warnings: String,
    /// The cautions in full.
    pub cautions: String,
}

impl HerbCells {
    /// The row of an herb, from what is shown of it and under it.
    #[must_use]
    pub fn new(herb: HerbView, heed: &HeedView) -> Self {
        let warning = heed.warnings.iter().map(|one| one.value.english.clone());
        let caution = heed.cautions.iter();
        let caution = caution.map(|one| format!("{} ({})", one.text, one.source));
        Self {
            herb,
            warnings: warning.collect::<Vec<_>>().join("; "),
            cautions: caution.collect::<Vec<_>>().join("; "),
        }
    }
}

/// The columns of the table of works.
pub const WORKS: [Column<WorkEntry>; 14] = [
    text("id", true, "The work's id.", |one| one.id.clone()),
    text("title", true, "Its title in Han characters.", |one| {
        one.title.clone()
    }),
    text("pinyin", true, "Its title in pinyin.", |one| {
        one.pinyin.clone()
    }),
    text("english", true, "Its title in English.", |one| {
        one.english.clone()
    }),
    text(
        "author",
        true,
        "The author or authors as recorded; also unknown, legendary, attributed.",
        |one| one.author.clone(),
    ),
    text(
        "kind",
        true,
        "How it has come down: extant, reconstructed, lost, authority.",
        |one| word(&one.kind),
    ),
    text("date", true, "Its date in words.", |one| {
        one.date.words.clone()
    }),
    integer(
        "from",
        false,
        "The earliest year, negative before the common era, which has no year 0; empty where only \"not later than\" is known.",
        |one| number(one.date.from),
    ),
    integer("to", true, "The latest year.", |one| {
        one.date.to.to_string()
    }),
    boolean("about", true, "Whether the years are rough.", |one| {
        one.date.about.to_string()
    }),
    integer("juan", false, "How many juan it had.", |one| {
        number(one.juan)
    }),
    text(
        "draws_on",
        false,
        "Ids of the works that it draws on; joined by \"; \".",
        |one| one.draws_on.join("; "),
    ),
    text("note", false, "What a reader must know.", |one| {
        some(&one.note)
    }),
    text(
        "origin",
        true,
        "Whose record it is: shipped or user.",
        |one| word(&one.origin),
    ),
];

/// The columns of the table of herbs.
pub const HERBS: [Column<HerbCells>; 16] = [
    text("id", true, "The herb's id.", |one| one.herb.id.clone()),
    text("hant", true, "Its name in traditional characters.", |one| {
        one.herb.hant.clone()
    }),
    text("hans", true, "Its name in simplified characters.", |one| {
        one.herb.hans.clone()
    }),
    text("pinyin", true, "Its name in pinyin.", |one| {
        one.herb.pinyin.clone()
    }),
    text("latin", false, "Its pharmaceutical Latin name.", |one| {
        some(&one.herb.latin)
    }),
    text("english", false, "Its English name.", |one| {
        some(&one.herb.english)
    }),
    text("also", false, "Its other names; joined by \"; \".", |one| {
        one.herb.also.join("; ")
    }),
    text(
        "species",
        false,
        "Botanical or zoological names; joined by \"; \".",
        |one| one.herb.species.join("; "),
    ),
    text(
        "identity",
        true,
        "How the Latin name and the species are known: checked or memory.",
        |one| word(&one.herb.identity),
    ),
    text("part", false, "The part used.", |one| some(&one.herb.part)),
    text("substance", false, "What it is made of.", |one| {
        one.herb
            .substance
            .map_or_else(String::new, |one| one.id().to_owned())
    }),
    text(
        "note",
        false,
        "What a reader must know of its identity.",
        |one| some(&one.herb.note),
    ),
    integer(
        "entries",
        true,
        "How many articles the corpus has on it.",
        |one| one.herb.entries.to_string(),
    ),
    integer(
        "reviewed",
        true,
        "How many of them a second reader compared with the text.",
        |one| one.herb.reviewed.to_string(),
    ),
    text(
        "warnings",
        false,
        "The most severe toxicity that any book states; joined by \"; \".",
        |one| one.warnings.clone(),
    ),
    text(
        "cautions",
        false,
        "Its cautions of today with their sources; joined by \"; \".",
        |one| one.cautions.clone(),
    ),
];
