//! The columns of the table of claims.

use super::columns::{Column, boolean, integer, number, some, text};
use super::word;
use crate::report::view::ClaimView;

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
