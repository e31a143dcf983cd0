//! The witnesses by date: an axis of years, and a row for each work beside it, so that no two names meet
//! where many books were written in few years.

use super::Sheet;
use super::drawing::{Anchor, Drawing, SMALL, TEXT, WIDTH};
use super::measure::width;
use crate::corpus::Kind;
use crate::report::text::count;
use crate::report::view::WorkRef;

const ROW: f64 = 22.0;
const AXIS: f64 = 74.0;
const MARK: f64 = 132.0;
const NAME: f64 = 146.0;

/// The most room for a title.
const TITLE: f64 = 200.0;

/// The most room for a date.
const DATE: f64 = 110.0;

pub(super) fn timeline(sheet: &Sheet<'_>) -> Drawing {
    let mut drawing = sheet.drawing("its witnesses through time");
    let view = sheet.comparison;
    let speaks = |id: &String| {
        view.witnesses.iter().any(|row| row.work == *id) || view.on_actions_only.contains(id)
    };
    let works: Vec<&WorkRef> = view.works.iter().filter(|work| speaks(&work.id)).collect();
    let [Some(first), Some(last)] = [works.first(), works.last()] else {
        nothing(&mut drawing);
        return drawing;
    };
    let height = ROW * (works.len() - 1) as f64;
    let years = f64::from(last.year - first.year).max(1.0);
    let top = 50.0;
    let at = |year: i32| top + height * f64::from(year - first.year) / years;
    drawing.line((AXIS, top), (AXIS, top + height.max(1.0)), "k-axis");
    ticks(&mut drawing, (first.year, last.year), at, height / years);
    let titles = sheet.titles();
    let room = |wide: f64, most: f64| wide.min(most) + 12.0;
    let widest = works.iter().map(|work| width(&titles.title(&work.id)));
    let dates = NAME + room(widest.fold(0.0, f64::max) * TEXT, TITLE);
    let widest = works.iter().map(|work| width(&work.date));
    let kinds = dates + room(widest.fold(0.0, f64::max) * SMALL, DATE);
    for (place, work) in works.iter().enumerate() {
        let y = top + ROW * place as f64;
        let way = [(AXIS, at(work.year)), (AXIS + 32.0, y), (MARK - 8.0, y)];
        drawing.path(&way, false, "k-thin");
        let actions = view.on_actions_only.contains(&work.id);
        let title = titles.title(&work.id);
        row(&mut drawing, (work, &title, actions), (y, dates, kinds));
    }
    drawing.tell(&format!("{} in all.", count(works.len(), "work")));
    drawing.reach(top + height + 10.0);
    drawing
}

/// A work at the height `y`: its mark, title, date and how it has come down.
fn row(
    drawing: &mut Drawing,
    (work, title, actions): (&WorkRef, &str, bool),
    (y, dates, kinds): (f64, f64, f64),
) {
    mark(drawing, (MARK, y), work.kind);
    let small = (SMALL, "k-soft");
    let place = (NAME, y + 4.5);
    drawing.label(place, Anchor::Start, (TEXT, "k-text"), (title, TITLE));
    let date = (work.date.as_str(), DATE);
    drawing.label((dates, y + 4.0), Anchor::Start, small, date);
    let mut kind = kind_in_words(work.kind).to_owned();
    if actions {
        kind.push_str("; on actions only");
    }
    let room = WIDTH - kinds - 4.0;
    drawing.label((kinds, y + 4.0), Anchor::Start, small, (&kind, room));
    drawing.tell(&format!("{title}, {}, {kind}.", work.date));
}

/// What stands where no witness does.
pub(super) fn nothing(drawing: &mut Drawing) {
    let words = "No work takes a stand here.";
    drawing.label(
        (8.0, 48.0),
        Anchor::Start,
        (TEXT, "k-text"),
        (words, WIDTH - 16.0),
    );
    drawing.tell(words);
}

/// Round years beside the axis, as many as there is room for.
fn ticks(drawing: &mut Drawing, (first, last): (i32, i32), at: impl Fn(i32) -> f64, unit: f64) {
    let steps = [10, 20, 50, 100, 200, 500, 1000];
    let wide = |step: &&i32| f64::from(**step) * unit >= 20.0;
    let step = steps.iter().find(wide).copied().unwrap_or(2000);
    let mut year = first.div_euclid(step) * step;
    while year <= last {
        if year >= first {
            let y = at(year);
            let word = if year < 0 {
                format!("{} BC", year.unsigned_abs())
            } else {
                year.to_string()
            };
            drawing.line((AXIS - 6.0, y), (AXIS, y), "k-axis");
            drawing.label(
                (AXIS - 10.0, y + 4.0),
                Anchor::End,
                (SMALL, "k-soft"),
                (&word, AXIS - 12.0),
            );
        }
        year += step;
    }
}

/// The word for how a work has come down.
pub(in crate::report) const fn kind_in_words(kind: Kind) -> &'static str {
    match kind {
        Kind::Extant => "extant",
        Kind::Reconstructed => "reconstructed",
        Kind::Lost => "lost, known by quotation",
        Kind::Authority => "authority, known by quotation",
    }
}

/// A square for a book that is there, half a square for one put together again, an open broken one for a lost
/// one, a ring for a person.
fn mark(drawing: &mut Drawing, (x, y): (f64, f64), kind: Kind) {
    let square =
        |drawing: &mut Drawing, class| drawing.rect((x - 5.0, y - 5.0), (10.0, 10.0), class);
    match kind {
        Kind::Extant => square(drawing, "k-full"),
        Kind::Reconstructed => {
            square(drawing, "k-open");
            drawing.path(
                &[(x - 5.0, y + 5.0), (x + 5.0, y + 5.0), (x - 5.0, y - 5.0)],
                true,
                "k-full",
            );
        }
        Kind::Lost => square(drawing, "k-lost"),
        Kind::Authority => drawing.circle((x, y), 5.0, "k-open"),
    }
}
