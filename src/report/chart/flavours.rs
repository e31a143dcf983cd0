//! How many witnesses state each flavour, with the interval; what was tasted may lie under it.

use super::Sheet;
use super::drawing::{Anchor, Drawing, SMALL, TEXT, WIDTH};
use super::measure::wrap;
use crate::claim::Facet;
use crate::report::text::{count, whose_tastings};
use crate::report::view::{OwnFlavour, SupportView, ValueRef};

const LEFT: f64 = 120.0;
const RIGHT: f64 = 560.0;
/// The highest score of a tasting.
const HIGHEST: f64 = 10.0;

pub(super) fn flavours(sheet: &Sheet<'_>) -> Drawing {
    let mut drawing = sheet.drawing("how many books state each flavour");
    let mut profiles = sheet.comparison.profile.iter();
    let profile = profiles.find(|profile| profile.facet == Facet::Flavour);
    let supports = profile.map_or(&[][..], |profile| &profile.values);
    let tasted = sheet.own.map_or(&[][..], |own| &own.flavours);
    if supports.is_empty() && tasted.is_empty() {
        super::timeline::nothing(&mut drawing);
        return drawing;
    }
    let row = if sheet.own.is_some() { 48.0 } else { 32.0 };
    let top = 42.0;
    let rows: Vec<&ValueRef> = sheet
        .scales
        .flavours
        .iter()
        .filter(|flavour| {
            supports.iter().any(|one| one.value.id == flavour.id)
                || tasted.iter().any(|one| one.value.id == flavour.id)
        })
        .collect();
    let bottom = top + row * rows.len() as f64;
    axis(&mut drawing, (top, bottom));
    for (place, flavour) in rows.iter().enumerate() {
        let y = top + row * place as f64 + 16.0;
        let x =
            8.0 + drawing.label(
                (8.0, y + 4.5),
                Anchor::Start,
                (TEXT, "k-text"),
                (&flavour.han, 40.0),
            ) + 7.0;
        drawing.label(
            (x, y + 4.0),
            Anchor::Start,
            (SMALL, "k-soft"),
            (&flavour.english, LEFT - x - 6.0),
        );
        if let Some(one) = supports.iter().find(|one| one.value.id == flavour.id) {
            books(&mut drawing, y, one);
        }
        if let Some(one) = tasted.iter().find(|one| one.value.id == flavour.id) {
            own(&mut drawing, y + 18.0, one);
        }
    }
    let whose = sheet.own.map(whose_tastings);
    foot(&mut drawing, bottom + 32.0, whose.as_deref());
    drawing
}

fn axis(drawing: &mut Drawing, (top, bottom): (f64, f64)) {
    for (share, word) in [(0.0, "none"), (0.5, "half"), (1.0, "all")] {
        let x = at(share);
        drawing.line((x, top - 2.0), (x, bottom), "k-rule");
        drawing.label(
            (x, bottom + 14.0),
            Anchor::Middle,
            (SMALL, "k-soft"),
            (word, 60.0),
        );
    }
}

fn at(share: f64) -> f64 {
    LEFT + (RIGHT - LEFT) * share.clamp(0.0, 1.0)
}

fn share(k: usize, n: usize) -> f64 {
    k as f64 / n.max(1) as f64
}

fn books(drawing: &mut Drawing, y: f64, one: &SupportView) {
    drawing.rect(
        (LEFT, y - 7.0),
        (at(share(one.k, one.n)) - LEFT, 14.0),
        "k-bar",
    );
    whisker(drawing, y, (one.low, one.high));
    let words = format!("{} of {}", one.k, one.n);
    drawing.label(
        (RIGHT + 12.0, y + 4.0),
        Anchor::Start,
        (TEXT, "k-text"),
        (&words, WIDTH - RIGHT - 14.0),
    );
    let range = match (one.low, one.high) {
        (Some(low), Some(high)) => {
            format!(", interval {:.0} to {:.0} %", low * 100.0, high * 100.0)
        }
        _ => String::new(),
    };
    drawing.tell(&format!(
        "{}: {words} books, {} of {} lines{range}.",
        one.value.english, one.j, one.m
    ));
}

/// Tastings are a lozenge on its line, so that they are no bar of books: the median of the scores, with the lowest and the
/// highest, 10 being the right end.
fn own(drawing: &mut Drawing, y: f64, one: &OwnFlavour) {
    let figures = one.figures;
    let x = at(figures.median / HIGHEST);
    if figures.lowest < figures.highest {
        let ends = (figures.lowest / HIGHEST, figures.highest / HIGHEST);
        whisker(drawing, y, (Some(ends.0), Some(ends.1)));
    }
    drawing.path(
        &[(x, y - 7.0), (x + 7.0, y), (x, y + 7.0), (x - 7.0, y)],
        true,
        "k-open",
    );
    let words = format!("{} of 10", figures.median);
    drawing.label(
        (RIGHT + 12.0, y + 4.0),
        Anchor::Start,
        (TEXT, "k-soft"),
        (&words, WIDTH - RIGHT - 14.0),
    );
    drawing.tell(&format!(
        "{}, tasted: median {words} in {}.",
        one.value.english,
        count(figures.n, "tasting")
    ));
}

fn whisker(drawing: &mut Drawing, y: f64, range: (Option<f64>, Option<f64>)) {
    let (Some(low), Some(high)) = range else {
        return;
    };
    drawing.line((at(low), y), (at(high), y), "k-axis");
    for end in [low, high] {
        drawing.line((at(end), y - 4.0), (at(end), y + 4.0), "k-axis");
    }
}

fn foot(drawing: &mut Drawing, top: f64, tasted: Option<&str>) {
    let own = tasted.map_or_else(String::new, |tasted| {
        format!(" Lozenge: {tasted}; the median of scores from 0 to 10, with the lowest and the highest.")
    });
    let words = format!(
        "Bar: books that state it, of those that speak of flavours. Line across: Wilson interval at 95 %, which takes the \
         books as independent; they are not.{own}"
    );
    for (place, line) in wrap(&words, (WIDTH - 16.0) / SMALL).iter().enumerate() {
        drawing.label(
            (8.0, top + 15.0 * place as f64),
            Anchor::Start,
            (SMALL, "k-soft"),
            (line, WIDTH - 16.0),
        );
    }
}
