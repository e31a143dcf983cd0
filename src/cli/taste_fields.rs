//! The fields that flags of `taste` give.

use super::outcome::{Attempt, Failure};
use super::taste_args::FieldArguments;
use crate::claim::Vocabulary;
use crate::tasting::{Field, Tasting};

/// Fields with the words that were given for them.
pub(super) type Given = Vec<(Field, String)>;

/// The fields that were given, in the order of the record; all that names none, at once.
pub(super) fn given(arguments: &FieldArguments, vocabulary: &Vocabulary) -> Attempt<Given> {
    let a = arguments;
    let plain = [
        (Field::Part, &a.part),
        (Field::Preparation, &a.preparation),
        (Field::Lot, &a.lot),
        (Field::Supplier, &a.supplier),
        (Field::Amount, &a.amount),
        (Field::Water, &a.water),
        (Field::Vessel, &a.vessel),
        (Field::Temperature, &a.temperature),
        (Field::Hours, &a.hours),
        (Field::Date, &a.date),
        (Field::Taster, &a.taster),
        (Field::Fasting, &a.fasting),
        (Field::Code, &a.code),
        (Field::Cup, &a.cup),
        (Field::Thickness, &a.thickness),
        (Field::Lingering, &a.lingering),
        (Field::Aroma, &a.aroma),
        (Field::Warmth, &a.warmth),
        (Field::Places, &a.places),
        (Field::Direction, &a.direction),
        (Field::Words, &a.words),
        (Field::Photos, &a.photos),
    ];
    let mut given: Given = plain
        .into_iter()
        .filter_map(|(field, words)| Some((field, words.clone()?)))
        .collect();
    let mut faults = Vec::new();
    for words in &a.score {
        match Field::score(vocabulary, words) {
            Ok((field, number)) => given.push((field, number.to_owned())),
            Err(error) => faults.push(format!("--score {words}: {error}")),
        }
    }
    // Values that do not fit are told together with scales that do not exist.
    let mut trial = Tasting::on(String::new(), a_day());
    faults.extend(set_all(&mut trial, &given));
    if faults.is_empty() {
        return Ok(given);
    }
    Err(several(faults))
}

/// Any day: what is tried on it is thrown away.
fn a_day() -> crate::tasting::Day {
    crate::tasting::Day::FIRST
}

/// Puts all values into a tasting, and tells which do not fit.
pub(super) fn set_all(tasting: &mut Tasting, given: &Given) -> Vec<String> {
    let set = |(field, words): &(Field, String)| field.set(tasting, words).err();
    given
        .iter()
        .filter_map(set)
        .map(|error| error.to_string())
        .collect()
}

/// One fault as the message, several below it.
pub(super) fn several(faults: Vec<String>) -> Box<Failure> {
    match faults.as_slice() {
        [one] => Failure::new(one.clone()),
        several => Failure::new(format!("{} faults:", several.len())).with_candidates(faults),
    }
}
