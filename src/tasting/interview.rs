//! What is asked, step by step, when a tasting is noted on a terminal.

use super::day::Day;
use super::field::Field;
use super::record::Tasting;
use crate::claim::{Facet, Vocabulary};

/// One question.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Question {
    /// The step of [`super::PROTOCOL`] to which it belongs, from 0; `None` before the first.
    pub step: Option<usize>,
    /// The field that it fills.
    pub field: Field,
    /// The question, in few words.
    pub ask: String,
    /// Whether what the taster answered the last time is offered.
    pub offered: bool,
}

/// All questions, in order; every one may be left unanswered.
///
/// ```
/// use kaoyi::tasting::{Field, questions};
/// let vocabulary = kaoyi::corpus::embedded().unwrap().vocabulary;
/// let asked = questions(&vocabulary);
/// assert_eq!(asked[0].field, Field::Taster, "what is offered next depends on who tastes");
/// assert!(asked.iter().any(|one| one.field == Field::Flavour("acrid".into())));
/// ```
#[must_use]
pub fn questions(vocabulary: &Vocabulary) -> Vec<Question> {
    let mut questions = Vec::new();
    let mut ask = |step: Option<usize>, field: Field, ask: &str, offered: bool| {
        let ask = ask.to_owned();
        questions.push(Question {
            step,
            field,
            ask,
            offered,
        });
    };
    ask(None, Field::Taster, "who tastes", true);
    ask(None, Field::Date, "day (year-month-day)", false);
    ask(
        Some(0),
        Field::Amount,
        "how much of the herb, in grams",
        true,
    );
    ask(Some(0), Field::Part, "part, if not the usual one", false);
    ask(Some(0), Field::Preparation, "preparation, if any", false);
    ask(Some(0), Field::Lot, "lot", false);
    ask(Some(0), Field::Supplier, "supplier", false);
    ask(Some(1), Field::Vessel, "vessel", true);
    ask(Some(1), Field::Water, "water, in ml", true);
    ask(
        Some(1),
        Field::Temperature,
        "how hot the water, in °C",
        true,
    );
    ask(Some(2), Field::Hours, "how long it steeped, in hours", true);
    ask(Some(3), Field::Fasting, "fasting? yes or no", true);
    ask(Some(3), Field::Code, "code on the cup, if blind", false);
    ask(Some(3), Field::Cup, "which cup of it today, from 1", false);
    for flavour in vocabulary.scheme(Facet::Flavour).values() {
        let words = format!("{} {}, 0 to 10", flavour.hant, flavour.english);
        ask(Some(4), Field::Flavour(flavour.id.clone()), &words, false);
    }
    ask(Some(4), Field::Thickness, "thickness, 0 to 10", false);
    ask(Some(4), Field::Lingering, "lingering, 0 to 10", false);
    ask(Some(4), Field::Aroma, "aroma, 0 to 10", false);
    ask(Some(4), Field::Warmth, "warmth, -5 cold to 5 hot", false);
    ask(
        Some(4),
        Field::Places,
        "where it is felt (with commas)",
        false,
    );
    ask(
        Some(4),
        Field::Direction,
        "which way: up, down, out, in",
        false,
    );
    ask(Some(4), Field::Words, "in your own words", false);
    questions
}

impl Question {
    /// The answer that is offered: what `last`, the taster's last tasting, has; for the day `today`.
    #[must_use]
    pub fn offer(&self, last: Option<&Tasting>, today: Day) -> Option<String> {
        if self.field == Field::Date {
            return Some(today.to_string());
        }
        last.filter(|_| self.offered)
            .and_then(|last| self.field.get(last))
    }
}
