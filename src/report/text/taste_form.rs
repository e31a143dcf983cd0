//! A form to hand out: as plain text, as Markdown, and as an empty table.

use unicode_width::UnicodeWidthStr;

use super::identity;
use super::page::{Page, Titles};
use crate::claim::Severity;
use crate::report::view::{AttributeRef, FormView, HerbForm, ScaleView};
use crate::tasting::{COLUMNS, SCORES};

/// The columns of the table before the scores; the others are seldom filled in and may be added by hand.
const BEFORE: [&str; 9] = [
    "herb", "taster", "date", "code", "cup", "lot", "amount", "water", "hours",
];
/// The columns behind the scores.
const BEHIND: [&str; 3] = ["places", "direction", "words"];

/// The forms as plain text, one after another.
#[must_use]
pub fn taste_form(mut page: Page, view: &FormView) -> String {
    let titles = Titles::new(&view.works);
    for form in &view.forms {
        page.heading(&format!("TASTING FORM · {}", name(view, form)));
        page.paragraph(
            "Taster ____________________   Date ____________   Code ________   Cup ____",
        );
        page.paragraph(
            "Lot ____________   ______ g   Water ______ ml   Hours ____   Fasting: yes / no",
        );
        page.heading("HOW IT IS DONE");
        for (number, step) in view.steps.iter().enumerate() {
            page.hanging(&format!("{}.", number + 1), 3, step);
        }
        page.heading("SCORES (ring one, or write a half between two)");
        for scale in &view.scales {
            page.raw(&format!(
                "{}{}\n",
                padded(&label(&scale.attribute), 20),
                numbers(scale, 5)
            ));
        }
        page.paragraph(ENDS);
        page.heading("WHERE, AND WHICH WAY");
        page.paragraph("Felt where   ____________________________________________________________");
        let ways = view.directions.iter().map(|way| format!("[ ] {way}   "));
        page.paragraph(&format!("Moves        {}", ways.collect::<String>()));
        page.paragraph("In your own words:");
        page.raw(
            "\n________________________________________________________________________________\n",
        );
        page.raw(
            "\n________________________________________________________________________________\n",
        );
        identity::foot(&mut page, &titles, &form.heed);
        page.paragraph(view.limits);
    }
    page.into_text()
}

/// What the ends of the scales mean.
const ENDS: &str = "0 not there, 10 the strongest you know; warmth: -5 cold, 0 neither, 5 hot.";

/// The forms as Markdown.
#[must_use]
pub fn taste_form_markdown(view: &FormView) -> String {
    let mut text = String::new();
    let mut line = |words: &str| {
        text.push_str(words);
        text.push('\n');
    };
    for form in &view.forms {
        line(&format!("# Tasting form · {}\n", name(view, form)));
        line("Taster: ____________ Date: ____________ Code: ________ Cup: ____\n");
        line("Lot: ____________ Amount: ______ g Water: ______ ml Hours: ____ Fasting: yes / no\n");
        line("## How it is done\n");
        for (number, step) in view.steps.iter().enumerate() {
            line(&format!("{}. {step}", number + 1));
        }
        line("\n## Scores\n\n| what | score |\n|---|---|");
        for scale in &view.scales {
            line(&format!(
                "| {} | {} |",
                label(&scale.attribute),
                numbers(scale, 4).trim()
            ));
        }
        line(&format!(
            "\n{ENDS} Ring one, or write a half between two.\n"
        ));
        line("## Where, and which way\n\nFelt where: ________________________________\n");
        line(&format!("Moves: ☐ {}\n", view.directions.join(" ☐ ")));
        line("In your own words:\n\n## Cautions\n");
        let titles = Titles::new(&view.works);
        for caution in &form.heed.cautions {
            let weight = match caution.severity {
                Severity::Grave => "**!** ",
                Severity::Care => "",
            };
            line(&format!("- {weight}{} ({})", caution.text, caution.source));
        }
        for warning in &form.heed.warnings {
            line(&format!(
                "- in the books: called {}",
                identity::severest(&titles, warning)
            ));
        }
        if form.heed.cautions.is_empty() && form.heed.warnings.is_empty() {
            line("- None on record here, which is no proof of harmlessness.");
        }
        line(&format!("\n{} {}\n", view.limits, form.heed.notice));
    }
    text
}

/// The empty table: a row for each taster and cup in the order of tasting.
#[must_use]
pub fn taste_form_table(view: &FormView) -> String {
    let flavours = view.scales.iter().filter(|one| one.attribute.han.is_some());
    let flavours = flavours.map(|one| one.attribute.id.as_str());
    let header: Vec<&str> = BEFORE
        .into_iter()
        .chain(flavours)
        .chain(SCORES)
        .chain(BEHIND)
        .collect();
    debug_assert!(
        BEFORE
            .iter()
            .chain(&BEHIND)
            .all(|one| COLUMNS.contains(one))
    );
    let mut text = format!("{}\n", header.join(","));
    for row in &view.rows {
        let date = row.date.clone().unwrap_or_default();
        let filled = [
            row.herb.clone(),
            row.taster.clone(),
            date,
            row.code.to_string(),
            row.cup.to_string(),
        ];
        let mut cells: Vec<String> = filled.into();
        cells.resize(header.len(), String::new());
        text.push_str(&cells.join(","));
        text.push('\n');
    }
    text
}

fn name(view: &FormView, form: &HerbForm) -> String {
    if view.blind {
        return "blind".to_owned();
    }
    let english = form.english.iter().map(|name| format!(" · {name}"));
    format!(
        "{} {}{}",
        form.herb.name,
        form.herb.pinyin,
        english.collect::<String>()
    )
}

fn label(attribute: &AttributeRef) -> String {
    match &attribute.han {
        Some(han) => format!("{han} {}", attribute.english),
        None => attribute.english.clone(),
    }
}

/// The numbers of a scale, each in so many columns.
fn numbers(scale: &ScaleView, width: usize) -> String {
    let numbers = scale.lowest..=scale.highest;
    numbers.map(|number| format!("{number:>width$}")).collect()
}

/// Words filled up to a width; a Han character is two columns wide.
fn padded(words: &str, width: usize) -> String {
    let blanks = width.saturating_sub(words.width());
    format!("{words}{}", " ".repeat(blanks))
}
