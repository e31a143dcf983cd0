//! A scheme: the values of one facet, with their labels, order and relations.

use std::collections::HashMap;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// A value's place in its scheme: for ordered schemes also its rank, from 0.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
pub struct ValueId(pub u16);

impl ValueId {
    /// The place as an index.
    #[must_use]
    pub const fn index(self) -> usize {
        self.0 as usize
    }
}

/// Whether the order of the values means anything.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Scale {
    /// Names without order.
    Nominal,
    /// The file's order is the order of the scale.
    Ordinal,
}

/// The way in which a flavour or an action moves.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Direction {
    /// Upward.
    Up,
    /// Downward.
    Down,
    /// Outward.
    Out,
    /// Inward.
    In,
    /// It holds the centre.
    Centre,
}

/// One value of a facet.
#[derive(Debug, Clone, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Value {
    /// Short English name, the word used in records.
    #[schemars(regex(pattern = "^[a-z]+(-[a-z]+)*$"))]
    pub id: String,
    /// Label in traditional characters.
    pub hant: String,
    /// Label in simplified characters, where it differs from what a table would give.
    #[serde(default)]
    #[schemars(with = "String")]
    pub hans: Option<String>,
    /// Label in pinyin with tone marks.
    pub pinyin: String,
    /// Label in English.
    pub english: String,
    /// Other words by which the value may be asked for.
    #[serde(default)]
    pub also: Vec<String>,
    /// The side of the scale: of nature cold, neutral, warm; of toxicity harmless, harmful.
    #[serde(default)]
    #[schemars(with = "String")]
    pub side: Option<String>,
    /// The value of which this one is a degree: slightly warm is a degree of warm.
    #[serde(default)]
    #[schemars(with = "String")]
    pub degree_of: Option<String>,
    /// Values for which this one stands, as 十二經 for each of the twelve channels.
    #[serde(default)]
    pub covers: Vec<String>,
    /// Values that say the contrary.
    #[serde(default)]
    pub opposite: Vec<String>,
    /// The way it moves.
    #[serde(default)]
    #[schemars(with = "Direction")]
    pub direction: Option<Direction>,
    /// What it does, in one line.
    #[serde(default)]
    #[schemars(with = "String")]
    pub does: Option<String>,
    /// What it does, in the words of the source of the doctrine.
    #[serde(default)]
    #[schemars(with = "String")]
    pub does_hant: Option<String>,
    /// What it means beside a partner, in one line.
    #[serde(default)]
    #[schemars(with = "String")]
    pub pairing: Option<String>,
    /// The heading under which it is listed.
    #[serde(default)]
    #[schemars(with = "String")]
    pub group: Option<String>,
    /// Where the doctrine is published.
    #[serde(default)]
    #[schemars(with = "String")]
    pub source: Option<String>,
}

/// A vocabulary file: the scheme of one facet, as written.
#[derive(Debug, Clone, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SchemeFile {
    /// What the values are values of: a facet, or `degree`, `part`, `preparation`.
    pub facet: String,
    /// Label in traditional characters.
    pub hant: String,
    /// Label in simplified characters.
    #[serde(default)]
    #[schemars(with = "String")]
    pub hans: Option<String>,
    /// Label in pinyin.
    pub pinyin: String,
    /// Label in English.
    pub english: String,
    /// Whether the order of the values means anything.
    pub scale: Scale,
    /// Whether a statement's list is complete, so that what it leaves out is denied.
    pub closed: bool,
    /// Where the scheme is published.
    pub source: String,
    /// The values, in order.
    pub values: Vec<Value>,
}

/// A scheme ready for use: its values can be found by id.
#[derive(Debug, Clone)]
pub struct Scheme {
    file: SchemeFile,
    places: HashMap<String, ValueId>,
}

impl Scheme {
    /// A scheme from its file. Of two values with one id the first is kept.
    #[must_use]
    pub fn new(file: SchemeFile) -> Self {
        let mut places = HashMap::with_capacity(file.values.len());
        for (place, value) in file.values.iter().enumerate() {
            let place = ValueId(u16::try_from(place).unwrap_or(u16::MAX));
            places.entry(value.id.clone()).or_insert(place);
        }
        Self { file, places }
    }

    /// The file that the scheme was made from.
    #[must_use]
    pub const fn file(&self) -> &SchemeFile {
        &self.file
    }

    /// What the values are values of.
    #[must_use]
    pub fn facet(&self) -> &str {
        &self.file.facet
    }

    /// The English label of the facet.
    #[must_use]
    pub fn english(&self) -> &str {
        &self.file.english
    }

    /// Whether a statement's list is complete.
    #[must_use]
    pub const fn closed(&self) -> bool {
        self.file.closed
    }

    /// Whether the order of the values means anything.
    #[must_use]
    pub const fn scale(&self) -> Scale {
        self.file.scale
    }

    /// All values, in order.
    #[must_use]
    pub fn values(&self) -> &[Value] {
        &self.file.values
    }

    /// The value at `id`.
    #[must_use]
    pub fn value(&self, id: ValueId) -> &Value {
        &self.file.values[id.index()]
    }

    /// The place of the value called `id`.
    #[must_use]
    pub fn place(&self, id: &str) -> Option<ValueId> {
        self.places.get(id).copied()
    }

    /// All ids, in order.
    pub fn ids(&self) -> impl Iterator<Item = &str> {
        self.file.values.iter().map(|value| value.id.as_str())
    }

    /// Whether `value` answers a question for `asked`: it is the same value, a degree of it, or one that
    /// stands for it.
    ///
    /// ```
    /// use kaoyi::claim::Facet;
    /// let corpus = kaoyi::corpus::embedded().unwrap();
    /// let natures = corpus.vocabulary.scheme(Facet::Nature);
    /// let place = |id| natures.place(id).unwrap();
    /// assert!(natures.answers(place("slight-warm"), place("warm")));
    /// assert!(!natures.answers(place("warm"), place("slight-warm")));
    /// ```
    #[must_use]
    pub fn answers(&self, value: ValueId, asked: ValueId) -> bool {
        let stated = self.value(value);
        value == asked
            || self.covers(value, asked)
            || stated.degree_of.as_deref() == Some(self.value(asked).id.as_str())
    }

    /// Whether `value` stands for `asked` among others.
    #[must_use]
    pub fn covers(&self, value: ValueId, asked: ValueId) -> bool {
        self.value(value).covers.contains(&self.value(asked).id)
    }

    /// Whether the two values say the contrary of each other.
    #[must_use]
    pub fn opposed(&self, a: ValueId, b: ValueId) -> bool {
        self.value(a).opposite.contains(&self.value(b).id)
    }
}
