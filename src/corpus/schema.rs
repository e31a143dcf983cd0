//! The JSON Schemas of the corpus files, for editors: the record types, with the words of the
//! shipped vocabulary and the ids of the shipped works filled in so that an editor completes them.

use schemars::{JsonSchema, schema_for};
use serde_json::{Value, json};

use super::formula::FormulaRecord;
use super::headings::HeadingFile;
use super::record::{HerbRecord, WorkRecord};
use super::store::Corpus;
use crate::claim::{
    CautionFile, Facet, MeasureFile, PairingFile, PhraseFile, Scheme, SchemeFile, Thresholds,
};

/// File name and schema of every kind of corpus file.
#[must_use]
pub fn schemas(corpus: &Corpus) -> Vec<(&'static str, Value)> {
    vec![
        ("herb.schema.json", herb(corpus)),
        ("work.schema.json", work(corpus)),
        ("vocabulary.schema.json", plain::<SchemeFile>()),
        ("cautions.schema.json", plain::<CautionFile>()),
        ("headings.schema.json", plain::<HeadingFile>()),
        ("measures.schema.json", plain::<MeasureFile>()),
        ("phrases.schema.json", plain::<PhraseFile>()),
        ("thresholds.schema.json", plain::<Thresholds>()),
        ("pairing.schema.json", plain::<PairingFile>()),
        ("formula.schema.json", formula(corpus)),
    ]
}

fn plain<T: JsonSchema>() -> Value {
    schema_for!(T).to_value()
}

fn herb(corpus: &Corpus) -> Value {
    let vocabulary = &corpus.vocabulary;
    let works: Vec<&str> = corpus.works().iter().map(|work| work.id.as_str()).collect();
    let cautions: Vec<&str> = vocabulary
        .cautions
        .iter()
        .map(|caution| caution.id.as_str())
        .collect();
    let parts = ids(&vocabulary.parts);
    let words = |facet: Facet| ids(vocabulary.scheme(facet));
    let offers = [
        ("/properties/part", parts.clone()),
        ("/properties/cautions/items", cautions),
        ("/$defs/EntryRecord/properties/work", works.clone()),
        ("/$defs/SayingRecord/properties/by", works.clone()),
        ("/$defs/SayingRecord/properties/through/items", works),
        (
            "/$defs/SayingRecord/properties/nature",
            words(Facet::Nature),
        ),
        (
            "/$defs/SayingRecord/properties/toxicity",
            words(Facet::Toxicity),
        ),
        ("/$defs/SayingRecord/properties/grade", words(Facet::Grade)),
        (
            "/$defs/SayingRecord/properties/channel/items",
            words(Facet::Channel),
        ),
        (
            "/$defs/SayingRecord/properties/action/items",
            words(Facet::Action),
        ),
        ("/$defs/ScopeRecord/properties/part", parts),
        (
            "/$defs/ScopeRecord/properties/preparation",
            ids(&vocabulary.preparations),
        ),
        ("/$defs/FlavourRecord/anyOf/0", words(Facet::Flavour)),
        (
            "/$defs/FlavourRecord/anyOf/1/additionalProperties",
            ids(&vocabulary.degrees),
        ),
    ];
    let mut schema = plain::<HerbRecord>();
    for (pointer, words) in offers {
        offer(&mut schema, pointer, &words);
    }
    schema
}

fn work(corpus: &Corpus) -> Value {
    let mut schema = plain::<WorkRecord>();
    let works: Vec<&str> = corpus.works().iter().map(|work| work.id.as_str()).collect();
    offer(&mut schema, "/$defs/DrawsOnRecord/properties/work", &works);
    schema
}

fn formula(corpus: &Corpus) -> Value {
    let mut schema = plain::<FormulaRecord>();
    let periods = corpus.vocabulary.measures.periods.iter();
    let periods: Vec<&str> = periods.map(|one| one.id.as_str()).collect();
    offer(&mut schema, "/properties/period", &periods);
    schema
}

fn ids(scheme: &Scheme) -> Vec<&str> {
    scheme.ids().collect()
}

/// Offers `words` for the text at `pointer`. `examples` and not `enum`: a user's folder may bring
/// works and a vocabulary of its own, so an editor should offer these words and accept others.
fn offer(schema: &mut Value, pointer: &str, words: &[&str]) {
    if let Some(Value::Object(place)) = schema.pointer_mut(pointer) {
        place.insert("examples".to_owned(), json!(words));
    }
}
