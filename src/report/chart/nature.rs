//! Each witness on the scale from cold to hot, the oldest above.

use super::drawing::{Anchor, Drawing, SMALL, TEXT, WIDTH};
use super::{Sheet, wrap};
use crate::claim::Facet;
use crate::report::view::{RungView, StandView};

const ROW: f64 = 22.0;
const LEFT: f64 = 186.0;

pub(super) fn nature(sheet: &Sheet<'_>) -> Drawing {
    let mut drawing = sheet.drawing("its nature from cold to hot, through time");
    let rows: Vec<(&str, &StandView)> = sheet
        .comparison
        .witnesses
        .iter()
        .filter_map(|row| Some((row.work.as_str(), row.stands.get(&Facet::Nature)?)))
        .collect();
    if rows.is_empty() {
        super::timeline::nothing(&mut drawing);
        return drawing;
    }
    let rungs = &sheet.scales.natures;
    let step = (WIDTH - LEFT - 6.0) / rungs.len().max(1) as f64;
    let at = |place: usize| LEFT + step * (place as f64 + 0.5);
    let top = 82.0;
    let bottom = top + ROW * rows.len() as f64;
    ground(&mut drawing, rungs, (top, bottom), step);
    let titles = sheet.titles();
    for (place, (work, stand)) in rows.iter().enumerate() {
        let y = top + ROW * (place as f64 + 0.5);
        sheet.name_row(&mut drawing, (4.0, y + 4.5), work, LEFT - 10.0);
        drawing.line((LEFT, y), (WIDTH - 6.0, y), "k-rule");
        for (rung, counted) in places(rungs, stand) {
            mark(
                &mut drawing,
                (at(rung), y),
                rungs[rung].side.as_deref(),
                counted,
            );
        }
        let scope = if stand.line.is_none() {
            " (not counted)"
        } else {
            ""
        };
        drawing.tell(&format!("{}: {}{scope}.", titles.dated(work), stand.text));
    }
    legend(&mut drawing, bottom + 20.0);
    drawing
}

/// Where on the scale a witness stands, each place with whether it counts.
fn places(rungs: &[RungView], stand: &StandView) -> Vec<(usize, bool)> {
    let place = |id: &str| rungs.iter().position(|rung| rung.value.id == id);
    let counted = stand.values.iter().filter_map(|value| place(&value.id));
    let mut places: Vec<(usize, bool)> = counted.map(|rung| (rung, true)).collect();
    let of_scope = stand
        .statements
        .iter()
        .filter(|one| one.scope.is_some())
        .flat_map(|one| &one.values);
    for rung in of_scope.filter_map(|value| place(&value.value)) {
        if !places.iter().any(|(other, _)| *other == rung) {
            places.push((rung, false));
        }
    }
    places
}

/// The scale: its steps with their names, the sides, and neutral as an upright line.
fn ground(drawing: &mut Drawing, rungs: &[RungView], (top, bottom): (f64, f64), step: f64) {
    for (place, rung) in rungs.iter().enumerate() {
        let x = LEFT + step * (place as f64 + 0.5);
        if place % 2 == 1 {
            drawing.rect(
                (x - step / 2.0, top - 44.0),
                (step, bottom - top + 44.0),
                "k-wash",
            );
        }
        if rung.side.as_deref() == Some("neutral") {
            drawing.line((x, top - 2.0), (x, bottom), "k-thin");
        }
        drawing.label(
            (x, top - 30.0),
            Anchor::Middle,
            (TEXT, "k-text"),
            (&rung.value.han, step - 2.0),
        );
        let words = wrap(&rung.value.english, (step - 1.0) / 9.0);
        for (line, word) in words.iter().take(2).enumerate() {
            let y = top - 17.0 + 11.0 * line as f64;
            drawing.label((x, y), Anchor::Middle, (9.0, "k-soft"), (word, step - 1.0));
        }
    }
    drawing.line((LEFT, top), (WIDTH - 6.0, top), "k-axis");
}

/// A cold stand is a lozenge, a neutral one a ring, a warm one a disc; what does not count is broken.
fn mark(drawing: &mut Drawing, (x, y): (f64, f64), side: Option<&str>, counted: bool) {
    let lozenge = [(x, y - 7.0), (x + 7.0, y), (x, y + 7.0), (x - 7.0, y)];
    match (side, counted) {
        (Some("cold"), true) => drawing.path(&lozenge, true, "k-cold"),
        (Some("cold"), false) => drawing.path(&lozenge, true, "k-cold-part"),
        (Some("warm"), true) => drawing.circle((x, y), 5.6, "k-warm"),
        (Some("warm"), false) => drawing.circle((x, y), 5.6, "k-warm-part"),
        (_, true) => drawing.circle((x, y), 5.6, "k-open"),
        (_, false) => drawing.circle((x, y), 5.6, "k-lost"),
    }
}

fn legend(drawing: &mut Drawing, y: f64) {
    let keys = [
        (Some("cold"), true, "cold side"),
        (Some("neutral"), true, "neutral"),
        (Some("warm"), true, "warm side"),
        (
            Some("warm"),
            false,
            "broken: of a part, preparation or kind",
        ),
    ];
    let mut x = 16.0;
    for (side, counted, words) in keys {
        mark(drawing, (x, y), side, counted);
        x += 12.0;
        x += drawing.label(
            (x, y + 4.0),
            Anchor::Start,
            (SMALL, "k-soft"),
            (words, WIDTH - x),
        );
        x += 24.0;
    }
}
