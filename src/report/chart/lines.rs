//! Lines of transmission: the witnesses of a facet from the oldest down, each with its value and the number
//! of its line; bows at the left lead from a work to those it draws on.

use super::Sheet;
use super::drawing::{Anchor, Drawing, SMALL, TEXT, WIDTH};
use super::measure::{width, wrap};
use crate::report::text::{count, short_year};
use crate::report::view::{StandView, WorkRef};

const ROW: f64 = 26.0;
const NODE: f64 = 172.0;
const NAME: f64 = 192.0;

pub(super) fn lines(sheet: &Sheet<'_>) -> Drawing {
    let facet = sheet.facet.name();
    let mut drawing = sheet.drawing(&format!("who draws on whom, of {facet}"));
    let titles = sheet.titles();
    let nodes: Vec<(&WorkRef, &StandView, usize)> = sheet
        .comparison
        .witnesses
        .iter()
        .filter_map(|row| {
            let stand = row.stands.get(&sheet.facet)?;
            Some((titles.work(&row.work)?, stand, stand.line?))
        })
        .collect();
    if nodes.is_empty() {
        super::timeline::nothing(&mut drawing);
        return drawing;
    }
    let y = |place: usize| 48.0 + ROW * place as f64;
    let place_of = |id: &str| nodes.iter().position(|(work, _, _)| work.id == id);
    for (below, (work, _, line)) in nodes.iter().enumerate() {
        for above in work.draws_on.iter().filter_map(|id| place_of(id)) {
            let depth = 26.0 + 150.0 * (below as f64 - above as f64) / nodes.len().max(2) as f64;
            let same = nodes[above].2 == *line;
            let class = if same { "k-same" } else { "k-other" };
            drawing.bow(NODE - 9.0, (y(above), y(below)), depth, class);
        }
    }
    let widest = nodes
        .iter()
        .map(|(work, _, _)| width(&titles.title(&work.id)) * TEXT);
    let values = NAME + widest.fold(0.0, f64::max).min(170.0) + 70.0;
    for (place, (work, stand, line)) in nodes.iter().enumerate() {
        let row = y(place);
        node(&mut drawing, row, *line);
        let title = titles.title(&work.id);
        drawing.label(
            (NAME, row + 4.5),
            Anchor::Start,
            (TEXT, "k-text"),
            (&title, 170.0),
        );
        let year = short_year(work);
        drawing.label(
            (values - 12.0, row + 4.0),
            Anchor::End,
            (SMALL, "k-soft"),
            (&year, 54.0),
        );
        drawing.label(
            (values, row + 4.5),
            Anchor::Start,
            (TEXT, "k-text"),
            (&stand.text, WIDTH - values - 4.0),
        );
        let older: Vec<String> = work
            .draws_on
            .iter()
            .filter(|id| place_of(id).is_some())
            .map(|id| titles.title(id))
            .collect();
        let older = if older.is_empty() {
            String::new()
        } else {
            format!(", draws on {}", older.join(", "))
        };
        drawing.tell(&format!(
            "{}: {}; line {line}{older}.",
            titles.dated(&work.id),
            stand.text
        ));
    }
    foot(&mut drawing, &nodes, y(nodes.len()));
    drawing
}

/// The number of the line in a disc.
fn node(drawing: &mut Drawing, y: f64, line: usize) {
    drawing.circle((NODE, y), 9.0, "k-full");
    let size = if line > 9 { 10.0 } else { SMALL };
    drawing.label(
        (NODE, y + 4.0),
        Anchor::Middle,
        (size, "k-on"),
        (&line.to_string(), 18.0),
    );
}

fn foot(drawing: &mut Drawing, nodes: &[(&WorkRef, &StandView, usize)], top: f64) {
    let lines = nodes
        .iter()
        .map(|(_, _, line)| *line)
        .max()
        .unwrap_or_default();
    let words = format!(
        "{} in {}. The number in a disc is its line. Full bow: draws on it and says the same; broken bow: draws on it \
         and says otherwise, or the same from elsewhere.",
        count(nodes.len(), "witness"),
        count(lines, "line"),
    );
    for (place, line) in wrap(&words, (WIDTH - 16.0) / SMALL).iter().enumerate() {
        let y = top + 15.0 * place as f64;
        drawing.label(
            (8.0, y),
            Anchor::Start,
            (SMALL, "k-soft"),
            (line, WIDTH - 16.0),
        );
    }
    drawing.tell(&words);
}
