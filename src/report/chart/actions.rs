//! Opposed actions side by side: on each side the works that state it.

use super::Sheet;
use super::drawing::{Anchor, Drawing, SMALL, TEXT, WIDTH};
use super::measure::wrap;
use crate::report::text::{Titles, count};
use crate::report::view::{ConceptView, OpposedView, ReconciledView};

const MIDDLE: f64 = WIDTH / 2.0;
const REACH: f64 = 270.0;

pub(super) fn actions(sheet: &Sheet<'_>) -> Drawing {
    let mut drawing = sheet.drawing("opposed actions that are both stated");
    let pairs = &sheet.comparison.opposed;
    if pairs.is_empty() {
        let words = "No two opposed actions are both stated.";
        drawing.label(
            (8.0, 48.0),
            Anchor::Start,
            (TEXT, "k-text"),
            (words, WIDTH - 16.0),
        );
        drawing.tell(words);
        return drawing;
    }
    let works = |one: &ConceptView| one.witnesses.len() + one.of_scope_only.len();
    let most = pairs
        .iter()
        .flat_map(|pair| [works(&pair.stronger), works(&pair.weaker)])
        .max();
    let unit = REACH / most.unwrap_or(1).max(1) as f64;
    let mut y = 46.0;
    for pair in pairs {
        y = both(sheet, &mut drawing, pair, (y, unit));
    }
    let words = "Full bar: books that state it of the herb as such; broken: of a part, preparation or kind only.";
    drawing.label(
        (8.0, y + 6.0),
        Anchor::Start,
        (SMALL, "k-soft"),
        (words, WIDTH - 16.0),
    );
    drawing
}

/// One of two actions, to the left or the right of the middle.
fn side(
    titles: &Titles<'_>,
    drawing: &mut Drawing,
    (one, left): (&ConceptView, bool),
    (y, unit): (f64, f64),
) {
    let (side, anchor) = if left {
        (-1.0, Anchor::End)
    } else {
        (1.0, Anchor::Start)
    };
    let x = MIDDLE + side * 10.0;
    let name = format!("{} {}", one.action.han, one.action.english);
    drawing.label((x, y), anchor, (TEXT, "k-strong"), (&name, REACH));
    let whole = unit * one.witnesses.len() as f64;
    let part = unit * one.of_scope_only.len() as f64;
    let from = |start: f64, long: f64| if left { x - start - long } else { x + start };
    drawing.rect((from(0.0, whole), y + 8.0), (whole, 14.0), "k-bar");
    drawing.rect((from(whole, part), y + 8.0), (part, 14.0), "k-lost");
    let mut words = format!(
        "{} in {}",
        count(one.witnesses.len(), "work"),
        count(one.lines, "line")
    );
    if !one.of_scope_only.is_empty() {
        words.push_str(&format!(", {} of a scope only", one.of_scope_only.len()));
    }
    drawing.label((x, y + 37.0), anchor, (SMALL, "k-soft"), (&words, REACH));
    drawing.tell(&format!(
        "{}: {words}: {}.",
        one.action.english,
        titles.list(&one.witnesses)
    ));
}

/// One pair from `y` on; gives back where the next may begin.
fn both(
    sheet: &Sheet<'_>,
    drawing: &mut Drawing,
    pair: &OpposedView,
    (y, unit): (f64, f64),
) -> f64 {
    let titles = sheet.titles();
    side(&titles, drawing, (&pair.stronger, true), (y, unit));
    side(&titles, drawing, (&pair.weaker, false), (y, unit));
    drawing.line((MIDDLE, y - 12.0), (MIDDLE, y + 40.0), "k-axis");
    let mut lines = Vec::new();
    if !pair.both.is_empty() {
        lines.push(format!("both in {}", titles.list(&pair.both)));
    }
    lines.extend(told_apart(&titles, pair));
    let mut below = y + 54.0;
    for line in &lines {
        drawing.tell(&format!("{line}."));
        for part in wrap(line, (WIDTH - 60.0) / SMALL) {
            drawing.label(
                (MIDDLE, below),
                Anchor::Middle,
                (SMALL, "k-text"),
                (&part, WIDTH - 40.0),
            );
            below += 15.0;
        }
    }
    below + 20.0
}

/// What tells the two apart, in words.
pub(in crate::report) fn told_apart(titles: &Titles<'_>, pair: &OpposedView) -> Vec<String> {
    let one = |one: &ReconciledView| {
        let how = match (&one.scope, &one.partner) {
            (Some(scope), _) => format!("of {scope}"),
            (None, Some(partner)) => format!("with a partner: {partner}"),
            (None, None) => return None,
        };
        Some(format!(
            "{}: {how} ({})",
            one.action.english,
            titles.list(&one.works)
        ))
    };
    pair.reconciled.iter().filter_map(one).collect()
}
