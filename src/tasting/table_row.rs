//! One row of a table of scores.

use std::str::FromStr;

use super::cells::Cell;
use super::score::{RangeError, Score, Warmth};
use super::table::{COLUMNS, SCORES};
use super::table_faults::Faults;
use super::{Day, Scores, Tasting};
use crate::claim::Direction;
use crate::corpus::{Code, Corpus, Lookup};
use crate::text::nearest;

/// What a column holds.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Column {
    /// One of the columns that are no scores, by its place.
    Named(usize),
    /// A score that is no flavour, by its place.
    Score(usize),
    /// A flavour, by its id.
    Flavour(String),
}

/// What is needed to read rows.
pub(super) struct Reading<'c> {
    pub corpus: &'c Corpus,
    pub columns: &'c [Option<Column>],
    /// Whether a comma may stand for the point in numbers.
    pub decimal_comma: bool,
}

/// The tasting of a row; `None` where it cannot be told what was tasted, by whom or when.
pub(super) fn read_row(
    reading: &Reading<'_>,
    row: &[Cell],
    faults: &mut Faults<'_>,
) -> Option<Tasting> {
    if goes_on(reading, row, faults) {
        return None;
    }
    let of = |name: &str| cell_of(reading, row, name);
    // All that is wrong with a row is told, so none of these returns before the last is read.
    let herb = needed(row, of("herb"), "herb", faults).and_then(|cell| herb(reading, cell, faults));
    let taster = needed(row, of("taster"), "taster", faults).map(|cell| cell.text.clone());
    let date = needed(row, of("date"), "date", faults)
        .and_then(|cell| parsed::<Day>(reading, Some(cell), faults));
    let cup = of("cup").map(|cell| cup(cell, faults));
    let text = |name: &str| of(name).map(|cell| cell.text.clone());
    let list = |name: &str| -> Vec<String> {
        let parts = of(name).into_iter().flat_map(|cell| cell.text.split(';'));
        let parts = parts
            .map(|part| part.trim().to_owned())
            .filter(|part| !part.is_empty());
        parts.collect()
    };
    let scores = scores(reading, row, faults);
    let direction = of("direction").map_or_else(Vec::new, |cell| directions(cell, faults));
    let fasting = of("fasting").and_then(|cell| yes_or_no(cell, faults));
    let amount = parsed(reading, of("amount"), faults);
    let water = parsed(reading, of("water"), faults);
    let temperature = parsed(reading, of("temperature"), faults);
    let hours = parsed(reading, of("hours"), faults);
    // A cup that is given but cannot be read is not the same as none.
    let cup = match cup {
        None => None,
        Some(read) => Some(read?),
    };
    Some(Tasting {
        herb: herb?,
        part: text("part"),
        preparation: text("preparation"),
        lot: text("lot"),
        supplier: text("supplier"),
        amount,
        water,
        vessel: text("vessel"),
        temperature,
        hours,
        date: date?,
        taster: Some(taster?),
        fasting,
        code: text("code"),
        cup,
        scores,
        places: list("places"),
        direction,
        words: text("words"),
        photos: Vec::new(),
        overridden: None,
    })
}

/// Whether something stands behind the last column: then nobody knows which column is meant.
fn goes_on(reading: &Reading<'_>, row: &[Cell], faults: &mut Faults<'_>) -> bool {
    let columns = reading.columns.len();
    let more = row.iter().skip(columns).find(|cell| !cell.text.is_empty());
    if let Some(cell) = more {
        let found = format!("`{}` behind the last column", cell.text);
        let expected = format!("at most {columns} cells, as in the first row");
        faults.add(Code::WrongForm, cell, &found, &expected, &[]);
    }
    more.is_some()
}

/// The cell of a column that is no score, unless it is empty.
fn cell_of<'r>(reading: &Reading<'_>, row: &'r [Cell], name: &str) -> Option<&'r Cell> {
    let named = |column: &Option<Column>| matches!(column, Some(Column::Named(place)) if COLUMNS[*place] == name);
    let place = reading.columns.iter().position(named)?;
    row.get(place).filter(|cell| !cell.text.is_empty())
}

/// The cell, or the fault that it is empty.
fn needed<'r>(
    row: &'r [Cell],
    cell: Option<&'r Cell>,
    name: &str,
    faults: &mut Faults<'_>,
) -> Option<&'r Cell> {
    if cell.is_none()
        && let Some(first) = row.first()
    {
        let found = format!("a row without {name}");
        let expected = format!("the {name} in every row");
        faults.add(Code::MissingKey, first, &found, &expected, &[]);
    }
    cell
}

/// The id of the herb that a cell names.
fn herb(reading: &Reading<'_>, cell: &Cell, faults: &mut Faults<'_>) -> Option<String> {
    let corpus = reading.corpus;
    let id = |herb| corpus.named(herb).id.clone();
    let (found, near) = match corpus.find_herb(&cell.text) {
        Lookup::One(herb) => return Some(id(herb)),
        Lookup::Many(herbs) => (
            format!("`{}`, a name of {} herbs", cell.text, herbs.len()),
            herbs,
        ),
        Lookup::None(near) => (format!("`{}`", cell.text), near),
    };
    let near: Vec<String> = near.into_iter().map(id).collect();
    faults.add(Code::UnknownHerb, cell, &found, "an herb by name", &near);
    None
}

fn cup(cell: &Cell, faults: &mut Faults<'_>) -> Option<u32> {
    let number = cell.text.parse::<u32>().ok().filter(|number| *number > 0);
    if number.is_none() {
        let found = format!("`{}`", cell.text);
        faults.add(
            Code::WrongForm,
            cell,
            &found,
            "the number of the cup, from 1",
            &[],
        );
    }
    number
}

fn yes_or_no(cell: &Cell, faults: &mut Faults<'_>) -> Option<bool> {
    match cell.text.to_lowercase().as_str() {
        "yes" | "true" => Some(true),
        "no" | "false" => Some(false),
        _ => {
            let found = format!("`{}`", cell.text);
            let near = nearest(&cell.text, ["yes", "no"])
                .into_iter()
                .map(str::to_owned);
            faults.add(
                Code::WrongForm,
                cell,
                &found,
                "yes or no",
                &near.collect::<Vec<_>>(),
            );
            None
        }
    }
}

fn directions(cell: &Cell, faults: &mut Faults<'_>) -> Vec<Direction> {
    const WORDS: [(&str, Direction); 5] = [
        ("up", Direction::Up),
        ("down", Direction::Down),
        ("out", Direction::Out),
        ("in", Direction::In),
        ("centre", Direction::Centre),
    ];
    let mut found = Vec::new();
    let words = cell.text.split([';', ',', ' ', '/']);
    for word in words.filter(|word| !word.is_empty()) {
        match WORDS
            .iter()
            .find(|(name, _)| word.eq_ignore_ascii_case(name))
        {
            Some((_, direction)) if found.contains(direction) => {}
            Some((_, direction)) => found.push(*direction),
            None => {
                let near = nearest(word, WORDS.map(|(name, _)| name));
                let near: Vec<String> = near.into_iter().map(str::to_owned).collect();
                let expected = "up, down, out, in or centre; several are separated by ;";
                faults.add(
                    Code::UnknownValue,
                    cell,
                    &format!("`{word}`"),
                    expected,
                    &near,
                );
            }
        }
    }
    found
}

fn scores(reading: &Reading<'_>, row: &[Cell], faults: &mut Faults<'_>) -> Scores {
    let mut scores = Scores::default();
    for (column, cell) in reading.columns.iter().zip(row) {
        let cell = Some(cell).filter(|cell| !cell.text.is_empty());
        match column {
            Some(Column::Flavour(id)) => {
                let score = stepped::<Score>(reading, cell, Score::try_from, (0.0, 10.0), faults);
                scores
                    .flavours
                    .extend(score.map(|score| (id.clone(), score)));
            }
            Some(Column::Score(place)) if SCORES[*place] == "warmth" => {
                scores.warmth =
                    stepped::<Warmth>(reading, cell, Warmth::try_from, (-5.0, 5.0), faults);
            }
            Some(Column::Score(place)) => {
                let score = stepped::<Score>(reading, cell, Score::try_from, (0.0, 10.0), faults);
                match SCORES[*place] {
                    "thickness" => scores.thickness = score,
                    "lingering" => scores.lingering = score,
                    _ => scores.aroma = score,
                }
            }
            Some(Column::Named(_)) | None => {}
        }
    }
    scores
}

/// The words of a number with a point in it.
fn pointed(reading: &Reading<'_>, words: &str) -> String {
    if reading.decimal_comma {
        words.replace(',', ".")
    } else {
        words.to_owned()
    }
}

/// A score in half points; of one that is none the nearest that is.
fn stepped<T>(
    reading: &Reading<'_>,
    cell: Option<&Cell>,
    of: impl Fn(f64) -> Result<T, RangeError>,
    (least, most): (f64, f64),
    faults: &mut Faults<'_>,
) -> Option<T> {
    let cell = cell?;
    // A minus sign as typographers write it is one.
    let words = pointed(reading, &cell.text).replace('\u{2212}', "-");
    let number = words
        .parse::<f64>()
        .ok()
        .filter(|number| number.is_finite());
    let error = match number.map(of) {
        Some(Ok(score)) => return Some(score),
        Some(Err(error)) => error.expected,
        None => format!(
            "a number from {least} to {most}, in steps of 0.5; leave the cell empty where nothing was scored"
        ),
    };
    // What a decimal comma or one step too fine may have meant.
    let meant = number.or_else(|| cell.text.replace(',', ".").parse::<f64>().ok());
    let near = meant.filter(|number| number.is_finite()).map(|number| {
        let nearest = (number * 2.0).round() / 2.0;
        nearest.clamp(least, most).to_string()
    });
    let near: Vec<String> = near.into_iter().collect();
    faults.add(
        Code::WrongForm,
        cell,
        &format!("`{}`", cell.text),
        &error,
        &near,
    );
    None
}

/// A day or a measure.
fn parsed<T: FromStr<Err = RangeError>>(
    reading: &Reading<'_>,
    cell: Option<&Cell>,
    faults: &mut Faults<'_>,
) -> Option<T> {
    let cell = cell?;
    match pointed(reading, &cell.text).parse::<T>() {
        Ok(value) => Some(value),
        Err(error) => {
            let found = format!("`{}`", cell.text);
            faults.add(Code::WrongForm, cell, &found, &error.expected, &[]);
            None
        }
    }
}
