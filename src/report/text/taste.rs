//! Tastings as text.

use super::identity;
use super::page::{Page, Titles, WHOLE, count};
use crate::report::view::{RefusalView, TastingRow, TastingView, TastingsView};
use crate::tasting::{ENDING, Field, PROTOCOL, PROTOCOL_SOURCE, PassedOver, Why};

/// So many files that were passed over are named.
const NAMED: usize = 6;

/// The fields of the cup, in the order in which they are shown, each with its unit.
const CUP: [(Field, &str); 12] = [
    (Field::Amount, "\u{a0}g"),
    (Field::Water, " ml"),
    (Field::Temperature, " °C"),
    (Field::Hours, "\u{a0}h"),
    (Field::Vessel, ""),
    (Field::Part, ""),
    (Field::Preparation, ""),
    (Field::Lot, ""),
    (Field::Supplier, ""),
    (Field::Fasting, ""),
    (Field::Code, ""),
    (Field::Cup, ""),
];

/// One tasting; `done` says what was done with it, where anything was.
#[must_use]
pub fn tasting(mut page: Page, view: &TastingView, done: Option<&str>) -> String {
    if let Some(done) = done {
        page.strong(&format!("{done}: {}", view.file));
        page.raw("\n");
    }
    let row = &view.row;
    let taster = row.tasting.taster.iter();
    let taster: String = taster.map(|name| format!(" · tasted by {name}")).collect();
    page.strong(&format!("{} · {}{taster}", herb(row), row.tasting.date));
    page.quiet(&row.id);
    if !row.known {
        page.paragraph(
            "No herb here is called so: nothing of the books or of cautions is known of it.",
        );
    }
    for (field, unit) in CUP {
        if let Some(value) = field.get(&row.tasting) {
            page.hanging(field.name(), 14, &format!("{value}{unit}"));
        }
    }
    if !row.tasting.scores.is_empty() {
        page.heading("SCORES");
    }
    for one in &row.flavours {
        let lead = format!("{} {}", one.flavour.han, one.flavour.english);
        page.hanging(&lead, 14, &one.score.to_string());
    }
    for field in [
        Field::Thickness,
        Field::Lingering,
        Field::Aroma,
        Field::Warmth,
    ] {
        if let Some(value) = field.get(&row.tasting) {
            page.hanging(field.name(), 14, &value);
        }
    }
    for (field, lead) in [
        (Field::Places, "felt"),
        (Field::Direction, "moves"),
        (Field::Photos, "photos"),
    ] {
        if let Some(value) = field.get(&row.tasting) {
            page.hanging(lead, 14, &value);
        }
    }
    for line in row.tasting.words.iter().flat_map(|words| words.lines()) {
        page.hanging("words", 14, line);
    }
    if let Some(one) = &row.tasting.overridden {
        page.alert(&format!(
            "tasted in spite of what is against it: {}",
            one.reason
        ));
    }
    identity::foot(&mut page, &Titles::new(&view.works), &view.heed);
    page.paragraph(view.limits);
    page.into_text()
}

fn herb(row: &TastingRow) -> String {
    if row.known {
        format!("{} {}", row.herb.name, row.herb.pinyin)
    } else {
        format!("{} ?", row.herb.name)
    }
}

/// Many tastings, a line each.
#[must_use]
pub fn tastings(mut page: Page, view: &TastingsView) -> String {
    page.strong(&format!(
        "{} in {}",
        count(view.total, "tasting"),
        view.notebook
    ));
    if view.matching < view.total {
        page.paragraph(&format!("{} as asked for", view.matching));
    }
    if !view.tastings.is_empty() {
        page.raw("\n");
        let header = [
            "day",
            "herb",
            "taster",
            "cup",
            "flavours",
            "warmth",
            "id ends in",
        ];
        let rows = view.tastings.iter().map(line).collect();
        page.table(&header, &[WHOLE, WHOLE, 12, 14, 0, WHOLE, WHOLE], rows);
    }
    if view.tastings.len() < view.matching {
        let more = count(view.matching - view.tastings.len(), "tasting");
        page.quiet(&format!("and {more} before these: --top {}", view.matching));
    }
    if view.tastings.iter().any(|row| !row.known) {
        page.paragraph("?  no herb here is called so");
    }
    passed_over(&mut page, &view.passed_over);
    identity::listed_cautions(&mut page, &view.cautions, view.notice);
    page.paragraph(view.limits);
    page.into_text()
}

fn line(row: &TastingRow) -> Vec<String> {
    let tasting = &row.tasting;
    let cup = [
        (Field::Amount, "\u{a0}g"),
        (Field::Hours, "\u{a0}h"),
        (Field::Code, ""),
    ];
    let cup = cup.iter().filter_map(|(field, unit)| {
        let value = field.get(tasting)?;
        Some(format!("{value}{unit}"))
    });
    let flavours = row.flavours.iter();
    let flavours = flavours.map(|one| format!("{}\u{a0}{}", one.flavour.han, one.score));
    vec![
        tasting.date.to_string(),
        herb(row),
        tasting.taster.clone().unwrap_or_default(),
        cup.collect::<Vec<_>>().join(", "),
        flavours.collect::<Vec<_>>().join(", "),
        Field::Warmth.get(tasting).unwrap_or_default(),
        ending(&row.id).to_owned(),
    ]
}

/// What follows the herb in a name that the program gave; a name that a person gave, whole.
fn ending(id: &str) -> &str {
    let end = id.rsplit_once('-').map_or(id, |(_, end)| end);
    if end.len() == ENDING { end } else { id }
}

fn passed_over(page: &mut Page, files: &[PassedOver]) {
    if files.is_empty() {
        return;
    }
    page.heading("PASSED OVER");
    for one in files.iter().take(NAMED) {
        let counts = one.counts.as_deref().unwrap_or_default();
        let why = match one.why {
            Why::Copy => format!("says the same as {counts}, which counts"),
            Why::Conflict => {
                format!("another state of {counts}, which counts: keep one of the two")
            }
            Why::Unfinished => {
                "left by a run that was ended while it wrote; it may be deleted".to_owned()
            }
            Why::Name => {
                "its name does not end in .yaml, and no tasting names it as a photo".to_owned()
            }
            Why::Folder => "a folder".to_owned(),
        };
        page.hanging("·", 2, &format!("{}: {why}", one.file));
    }
    if files.len() > NAMED {
        page.quiet(&format!(
            "and {}: --json",
            count(files.len() - NAMED, "more file")
        ));
    }
}

/// Why an herb is not tasted, a reason a line.
#[must_use]
pub fn refusal_reasons(view: &RefusalView) -> Vec<String> {
    let titles = Titles::new(&view.works);
    let warnings = view.warnings.iter();
    let called = warnings.map(|one| format!("called {}", identity::severest(&titles, one)));
    let cautions = view.cautions.iter();
    let cautions = cautions.map(|one| format!("{} ({})", one.text, one.source));
    called.chain(cautions).collect()
}

/// The heading of a step of the protocol, for whoever is led through it.
#[must_use]
pub fn step(mut page: Page, place: usize) -> String {
    if let Some(step) = PROTOCOL.get(place) {
        page.raw("\n");
        page.strong(&format!("{}. {}", place + 1, step.name));
        page.paragraph(step.words);
    }
    page.into_text()
}

/// What is said before the first question.
#[must_use]
pub fn interview(mut page: Page, herb: &str) -> String {
    page.strong(&format!("A tasting of {herb}"));
    page.paragraph(&format!(
        "Enter takes what stands in brackets, or leaves the question open; - takes nothing. The steps are {PROTOCOL_SOURCE}."
    ));
    page.into_text()
}
