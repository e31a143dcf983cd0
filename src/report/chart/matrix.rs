//! Flavours by witnesses: each cell has a sign of its own shape.

use super::drawing::{Anchor, Drawing, SMALL, TEXT, WIDTH};
use super::{Said, Sheet};
use crate::claim::Facet;
use crate::report::view::WitnessRow;

const ROW: f64 = 22.0;
const LEFT: f64 = 206.0;
const COLUMN: f64 = 60.0;

pub(super) fn matrix(sheet: &Sheet<'_>) -> Drawing {
    let mut drawing = sheet.drawing("what each book says of its flavours");
    let rows: Vec<&WitnessRow> = sheet.comparison.witnesses.iter().collect();
    let rows = heard(rows);
    if rows.is_empty() {
        super::timeline::nothing(&mut drawing);
        return drawing;
    }
    let flavours = &sheet.scales.flavours;
    let column = COLUMN.min((WIDTH - LEFT - 4.0) / flavours.len().max(1) as f64);
    let at = |place: usize| LEFT + column * (place as f64 + 0.5);
    for (place, flavour) in flavours.iter().enumerate() {
        drawing.label(
            (at(place), 48.0),
            Anchor::Middle,
            (TEXT, "k-text"),
            (&flavour.han, column - 4.0),
        );
        drawing.label(
            (at(place), 62.0),
            Anchor::Middle,
            (SMALL, "k-soft"),
            (&flavour.english, column - 4.0),
        );
    }
    let top = 72.0;
    drawing.line((8.0, top), (WIDTH - 8.0, top), "k-axis");
    for (place, row) in rows.iter().enumerate() {
        let y = top + ROW * (place as f64 + 0.5);
        if place % 2 == 1 {
            drawing.rect((8.0, y - ROW / 2.0), (WIDTH - 16.0, ROW), "k-wash");
        }
        sheet.name_row(&mut drawing, (8.0, y + 4.5), &row.work, LEFT - 16.0);
        for (column, flavour) in flavours.iter().enumerate() {
            sign(&mut drawing, (at(column), y), Said::of(row, &flavour.id));
        }
        let stand = row.stands.get(&Facet::Flavour);
        let words = stand.map_or(Said::Silent.word(), |stand| stand.text.as_str());
        drawing.tell(&format!("{}: {words}.", sheet.titles().dated(&row.work)));
    }
    let bottom = top + ROW * rows.len() as f64;
    drawing.line((8.0, bottom), (WIDTH - 8.0, bottom), "k-rule");
    legend(&mut drawing, bottom + 18.0);
    drawing
}

/// Without the works that nobody quotes on flavours and that have no article.
fn heard(mut rows: Vec<&WitnessRow>) -> Vec<&WitnessRow> {
    let facet = Facet::Flavour;
    rows.retain(|row| row.stands.contains_key(&facet) || row.silent.contains(&facet));
    rows
}

fn legend(drawing: &mut Drawing, top: f64) {
    let (mut x, mut y) = (16.0, top);
    for said in Said::ALL {
        let wide = super::width(said.word()) * SMALL + 34.0;
        if x + wide > WIDTH {
            (x, y) = (16.0, y + 18.0);
        }
        sign(drawing, (x, y), said);
        // Blank has no sign: its word stands alone.
        let from = if said == Said::Unquoted {
            x - 6.0
        } else {
            x + 11.0
        };
        drawing.label(
            (from, y + 4.0),
            Anchor::Start,
            (SMALL, "k-soft"),
            (said.word(), WIDTH - from),
        );
        x += wide;
    }
}

fn sign(drawing: &mut Drawing, (x, y): (f64, f64), said: Said) {
    match said {
        Said::Plainly => drawing.circle((x, y), 5.0, "k-full"),
        Said::Slightly => {
            drawing.circle((x, y), 5.0, "k-open");
            // The left half, as a fan of points on the circle.
            let half: Vec<(f64, f64)> = (0..=8)
                .map(|step| std::f64::consts::PI * (0.5 + f64::from(step) / 8.0))
                .map(|angle| (x + 5.0 * angle.cos(), y + 5.0 * angle.sin()))
                .collect();
            drawing.path(&half, true, "k-full");
        }
        Said::Greatly => {
            drawing.circle((x, y), 4.0, "k-full");
            drawing.circle((x, y), 7.5, "k-ring");
        }
        Said::OfScope => drawing.circle((x, y), 5.0, "k-lost"),
        Said::Denied => {
            drawing.line((x - 4.0, y - 4.0), (x + 4.0, y + 4.0), "k-thin");
            drawing.line((x - 4.0, y + 4.0), (x + 4.0, y - 4.0), "k-thin");
        }
        Said::Silent => drawing.line((x - 5.0, y), (x + 5.0, y), "k-thin"),
        Said::Unquoted => {}
    }
}
