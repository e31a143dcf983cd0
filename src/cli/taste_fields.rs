//! The fields that flags of `taste` give.

use super::outcome::Attempt;
use super::taste_args::FieldArguments;
use crate::claim::Vocabulary;
use crate::report::ask::{self, Given};
use crate::tasting::Field;

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
    let given: Given = plain
        .into_iter()
        .filter_map(|(field, words)| Some((field, words.clone()?)))
        .collect();
    ask::given(vocabulary, given, &a.score)
}
