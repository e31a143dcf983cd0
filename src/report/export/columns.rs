//! The columns of the tables, each with what it means: the header of CSV and the table schema are made from them.

use super::word;
use crate::report::view::{ClaimView, HeedView, HerbView, WorkEntry};

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

const fn text<T>(
    name: &'static str,
    required: bool,
    about: &'static str,
    of: fn(&T) -> String,
) -> Column<T> {
    column(name, Type::Text, required, about, of)
}

const fn integer<T>(
    name: &'static str,
    required: bool,
    about: &'static str,
    of: fn(&T) -> String,
) -> Column<T> {
    column(name, Type::Integer, required, about, of)
}

const fn boolean<T>(
    name: &'static str,
    required: bool,
    about: &'static str,
    of: fn(&T) -> String,
) -> Column<T> {
    column(name, Type::Boolean, required, about, of)
}

fn some(text: &Option<String>) -> String {
    text.clone().unwrap_or_default()
}

fn number(number: Option<impl ToString>) -> String {
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

/// The columns of the table of claims.
pub const CLAIMS: [Column<ClaimView>; 37] = [
    text(
        "claim",
        true,
        "`herb/work/article/saying/facet/value`: the work in which it was read, the ordinal of the article in its plain text (0 where it was not located; a second article under one ordinal adds -2), the number of the saying in the article from 1.",
        |one| one.claim.clone(),
    ),
    text("herb", true, "The herb's id.", |one| one.herb.clone()),
    text(
        "hant",
        true,
        "The herb's name in traditional characters.",
        |one| one.hant.clone(),
    ),
    text(
        "hans",
        true,
        "The herb's name in simplified characters.",
        |one| one.hans.clone(),
    ),
    text("pinyin", true, "The herb's name in pinyin.", |one| {
        one.pinyin.clone()
    }),
    text(
        "latin",
        false,
        "The herb's pharmaceutical Latin name.",
        |one| some(&one.latin),
    ),
    text("english", false, "The herb's English name.", |one| {
        some(&one.english)
    }),
    text(
        "work",
        true,
        "The id of the work in which the claim was read.",
        |one| one.work.clone(),
    ),
    text("work_title", true, "Its title in Han characters.", |one| {
        one.work_title.clone()
    }),
    text("work_date", true, "Its date in words.", |one| {
        one.work_date.clone()
    }),
    integer(
        "work_from",
        false,
        "The earliest year of its date, negative before the common era, which has no year 0.",
        |one| number(one.work_from),
    ),
    integer("work_to", true, "The latest year of its date.", |one| {
        one.work_to.to_string()
    }),
    text(
        "by",
        true,
        "The id of the work that asserts the claim.",
        |one| one.by.clone(),
    ),
    text("by_title", true, "Its title in Han characters.", |one| {
        one.by_title.clone()
    }),
    text("by_date", true, "Its date in words.", |one| {
        one.by_date.clone()
    }),
    integer(
        "by_from",
        false,
        "The earliest year of its date, negative before the common era.",
        |one| number(one.by_from),
    ),
    integer("by_to", true, "The latest year of its date.", |one| {
        one.by_to.to_string()
    }),
    text(
        "through",
        false,
        "Ids of the works that carry the claim, oldest first, the last being the one in which it was read; empty when the asserting work was read itself; joined by \"; \".",
        |one| one.through.join("; "),
    ),
    text("facet", true, "The facet.", |one| word(&one.facet)),
    text("value", true, "The value's id.", |one| one.value.clone()),
    text("value_han", true, "The value in Han characters.", |one| {
        one.value_han.clone()
    }),
    text("value_english", true, "The value in English.", |one| {
        one.value_english.clone()
    }),
    text("degree", false, "The degree's id.", |one| some(&one.degree)),
    text(
        "part",
        false,
        "The part to which the saying is limited, by id.",
        |one| some(&one.part),
    ),
    text(
        "preparation",
        false,
        "The preparation to which the saying is limited, by id.",
        |one| some(&one.preparation),
    ),
    text(
        "kind",
        false,
        "The kind to which the saying is limited.",
        |one| some(&one.kind),
    ),
    text(
        "wording",
        false,
        "The phrase from which it was read.",
        |one| some(&one.wording),
    ),
    boolean(
        "doubtful",
        true,
        "Whether the reading is doubtful.",
        |one| one.doubtful.to_string(),
    ),
    text("doubt", false, "Why the reading is doubtful.", |one| {
        some(&one.doubt)
    }),
    boolean(
        "counted",
        true,
        "Whether it counts for the stand of the work that asserts it (rule 3 of the methods).",
        |one| one.counted.to_string(),
    ),
    text(
        "status",
        true,
        "How far the reading has been checked.",
        |one| word(&one.status),
    ),
    text("origin", true, "Whose record it is.", |one| {
        word(&one.origin)
    }),
    integer(
        "ordinal",
        false,
        "The ordinal of the article's heading in the plain text, from 1.",
        |one| number(one.ordinal),
    ),
    text(
        "section",
        false,
        "The section or chapter of the article.",
        |one| some(&one.section),
    ),
    text("heading", false, "The heading of the article.", |one| {
        some(&one.heading)
    }),
    integer(
        "saying",
        true,
        "The number of the saying in the article, from 1.",
        |one| one.saying.to_string(),
    ),
    text(
        "cautions",
        false,
        "The cautions of the herb; joined by \"; \".",
        |one| one.cautions.join("; "),
    ),
];

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
