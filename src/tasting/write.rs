//! A tasting as YAML, in the one order and style of the notebook: a key a line, what is unsaid left out.

use std::fmt::Write as _;

use super::record::{Scores, Tasting};
use crate::claim::Direction;
use crate::corpus::scalar;

/// The line above every record, for whoever opens it in an editor.
const HEAD: &str = "# grams, millilitres, °C, hours; scores from 0 to 10, warmth from -5 to 5; what is left out is unsaid\n";

/// The keys of a record in the order in which they are written.
pub(super) const KEYS: [&str; 20] = [
    "herb",
    "part",
    "preparation",
    "lot",
    "supplier",
    "amount",
    "water",
    "vessel",
    "temperature",
    "hours",
    "date",
    "taster",
    "fasting",
    "code",
    "cup",
    "scores",
    "places",
    "direction",
    "words",
    "photos",
];

/// A tasting as the text of its file. Reading it gives the same tasting.
///
/// ```
/// let tasting: kaoyi::tasting::Tasting =
///     serde_json::from_str(r#"{"herb": "bohe", "amount": 3, "date": "2026-03-14"}"#).unwrap();
/// let text = kaoyi::tasting::tasting_yaml(&tasting);
/// assert!(text.ends_with("herb: bohe\namount: 3\ndate: 2026-03-14\n"));
/// ```
#[must_use]
pub fn tasting_yaml(tasting: &Tasting) -> String {
    let mut text = HEAD.to_owned();
    for (_, block) in blocks(tasting) {
        text.push_str(&block);
    }
    text
}

/// The keys that a tasting has, each with its lines.
pub(super) fn blocks(tasting: &Tasting) -> Vec<(&'static str, String)> {
    let text = |words: &Option<String>| words.as_deref().map(scalar);
    let number = |number: Option<String>| number;
    let list = |items: &[String]| {
        let items: Vec<String> = items.iter().map(|item| scalar(item)).collect();
        (!items.is_empty()).then(|| format!("[{}]", items.join(", ")))
    };
    let directions: Vec<String> = tasting.direction.iter().map(|one| word(*one)).collect();
    let values = [
        Some(scalar(&tasting.herb)),
        text(&tasting.part),
        text(&tasting.preparation),
        text(&tasting.lot),
        text(&tasting.supplier),
        number(tasting.amount.map(|one| one.to_string())),
        number(tasting.water.map(|one| one.to_string())),
        text(&tasting.vessel),
        number(tasting.temperature.map(|one| one.to_string())),
        number(tasting.hours.map(|one| one.to_string())),
        Some(tasting.date.to_string()),
        text(&tasting.taster),
        tasting.fasting.map(|one| one.to_string()),
        text(&tasting.code),
        number(tasting.cup.map(|one| one.to_string())),
        None,
        list(&tasting.places),
        list(&directions),
        tasting.words.as_deref().map(prose),
        list(&tasting.photos),
    ];
    let mut blocks = Vec::new();
    for (key, value) in KEYS.into_iter().zip(values) {
        if key == "scores" {
            blocks.extend(scores(&tasting.scores).map(|block| (key, block)));
        }
        blocks.extend(value.map(|value| (key, format!("{key}: {value}\n"))));
    }
    if let Some(one) = &tasting.overridden {
        let block = format!("override: {{reason: {}}}\n", scalar(&one.reason));
        blocks.push(("override", block));
    }
    blocks
}

/// The id of a direction.
pub(super) fn word(direction: Direction) -> String {
    let id = match direction {
        Direction::Up => "up",
        Direction::Down => "down",
        Direction::Out => "out",
        Direction::In => "in",
        Direction::Centre => "centre",
    };
    id.to_owned()
}

fn scores(scores: &Scores) -> Option<String> {
    let mut text = String::new();
    let mut line = |key: &str, value: Option<String>| {
        if let Some(value) = value {
            // Writing to a string cannot fail.
            let _ = writeln!(text, "  {key}: {value}");
        }
    };
    let flavours = scores.flavours.iter();
    let flavours: Vec<String> = flavours
        .map(|(flavour, score)| format!("{}: {score}", scalar(flavour)))
        .collect();
    let map = (!flavours.is_empty()).then(|| format!("{{{}}}", flavours.join(", ")));
    line("flavours", map);
    line("thickness", scores.thickness.map(|one| one.to_string()));
    line("lingering", scores.lingering.map(|one| one.to_string()));
    line("aroma", scores.aroma.map(|one| one.to_string()));
    line("warmth", scores.warmth.map(|one| one.to_string()));
    (!text.is_empty()).then(|| format!("scores:\n{text}"))
}

/// A text of several lines stands as it is, below its key; one that would not come back so is quoted.
fn prose(words: &str) -> String {
    let plain = words.contains('\n')
        && words
            .chars()
            .all(|c| c == '\n' || !(c.is_control() || matches!(c, '\u{2028}' | '\u{2029}' | '\u{feff}')))
        && !words.starts_with([' ', '\n'])
        && !words.ends_with('\n')
        // A line of blanks alone would lose them.
        && words.lines().all(|line| line.is_empty() || !line.trim().is_empty());
    if !plain {
        return scalar(words);
    }
    let lines: Vec<String> = words
        .split('\n')
        .map(|line| {
            if line.is_empty() {
                String::new()
            } else {
                format!("  {line}")
            }
        })
        .collect();
    format!("|-\n{}", lines.join("\n"))
}
