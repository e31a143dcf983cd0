//! The JSON Schema of a tasting, for editors.

use schemars::schema_for;
use serde_json::{Value, json};

use super::record::Tasting;
use crate::claim::{Facet, Scheme};
use crate::corpus::Corpus;

/// File name and schema of the notebook's files. The words of the corpus are offered where the record takes other words
/// too; the flavours are named one by one.
#[must_use]
pub fn schema(corpus: &Corpus) -> (&'static str, Value) {
    let vocabulary = &corpus.vocabulary;
    let mut schema = schema_for!(Tasting).to_value();
    let ids = |scheme: &Scheme| scheme.ids().map(str::to_owned).collect::<Vec<_>>();
    for (pointer, words) in [
        ("/properties/part", ids(&vocabulary.parts)),
        ("/properties/preparation", ids(&vocabulary.preparations)),
    ] {
        if let Some(Value::Object(place)) = schema.pointer_mut(pointer) {
            place.insert("examples".to_owned(), json!(words));
        }
    }
    let flavours = "/$defs/Scores/properties/flavours";
    if let Some(Value::Object(place)) = schema.pointer_mut(flavours) {
        let names = ids(vocabulary.scheme(Facet::Flavour));
        place.insert("propertyNames".to_owned(), json!({ "examples": names }));
    }
    ("tasting.schema.json", schema)
}
