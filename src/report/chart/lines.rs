//! Lines of transmission: the witnesses of a facet from the oldest down, each with its value and the number
//! of its line; bows at the left lead from a work to those it draws on.

use super::Sheet;
use super::drawing::{Anchor, Drawing, SMALL, TEXT, WIDTH};
use super::measure::{width, wrap};
use crate::report::text::{Titles, count, short_year};
use crate::report::view::{StandView, WorkRef};

const ROW: f64 = 26.0;
const NODE: f64 = 172.0;
const NAME: f64 = 192.0;

/// A witness: the work, its stand, the number of its line.
type Node<'v> = (&'v WorkRef, &'v StandView, usize);

pub(super) fn lines(sheet: &Sheet<'_>) -> Drawing {
    let facet = sheet.facet.name();
    let mut drawing = sheet.drawing(&format!("who draws on whom, of {facet}"));
    let titles = sheet.titles();
    let nodes: Vec<Node<'_>> = sheet
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
    for (place, one) in nodes.iter().enumerate() {
        row(&mut drawing, &titles, one, (y(place), values));
        let (work, stand, line) = one;
        let older = work.draws_on.iter().filter(|id| place_of(id).is_some());
        let older: Vec<String> = older.map(|id| titles.title(id)).collect();
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

/// A witness at the height `y`, with its value from `values` on.
fn row(
    drawing: &mut Drawing,
    titles: &Titles<'_>,
    (work, stand, line): &Node<'_>,
    (y, values): (f64, f64),
) {
    node(drawing, y, *line);
    let place = (NAME, y + 4.5);
    let title = titles.title(&work.id);
    drawing.label(place, Anchor::Start, (TEXT, "k-text"), (&title, 170.0));
    let place = (values - 12.0, y + 4.0);
    let year = short_year(work);
    drawing.label(place, Anchor::End, (SMALL, "k-soft"), (&year, 54.0));
    let said = (stand.text.as_str(), WIDTH - values - 4.0);
    let place = (values, y + 4.5);
    drawing.label(place, Anchor::Start, (TEXT, "k-text"), said);
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

fn foot(drawing: &mut Drawing, nodes: &[Node<'_>], top: f64) {
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
