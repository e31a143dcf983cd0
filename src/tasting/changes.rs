//! How tastings of one herb differ with what was varied: amount, hours, lot. Groups are set side by side with their numbers;
//! no line is drawn through them.

use std::collections::BTreeMap;

use super::panel::{Attribute, Figures, Voice, attribute_figures};
use super::panel_sheets::scores_of;
use super::record::Tasting;
use crate::claim::{Facet, ValueId};
use crate::corpus::Corpus;

/// What is varied from one tasting to another.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Varied {
    /// Grams of the herb.
    Amount,
    /// Hours of steeping.
    Hours,
    /// The lot.
    Lot,
}

impl Varied {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Amount, Self::Hours, Self::Lot];

    /// Its name, as in the record.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Amount => "amount",
            Self::Hours => "hours",
            Self::Lot => "lot",
        }
    }

    /// What a tasting has of it: a key that sorts as the values do, and the value in words.
    fn of(self, tasting: &Tasting) -> Option<(Key, String)> {
        match self {
            Self::Amount => tasting
                .amount
                .map(|grams| (Key::Steps(grams.steps()), format!("{grams} g"))),
            Self::Hours => tasting
                .hours
                .map(|hours| (Key::Steps(hours.steps()), format!("{hours} h"))),
            Self::Lot => tasting.lot.clone().map(|lot| (Key::Word(lot.clone()), lot)),
        }
    }
}

/// Numbers sort by size, words by letter.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
enum Key {
    Steps(i32),
    Word(String),
}

/// The tastings with one value of what is varied.
#[derive(Debug, Clone, PartialEq)]
pub struct Group {
    /// The value, in words.
    pub value: String,
    /// How many tastings have it.
    pub n: usize,
    /// Of each attribute of the change how many scored it, with the figures; none where nobody did.
    pub figures: Vec<(usize, Option<Figures>)>,
}

/// Tastings set side by side by what was varied.
#[derive(Debug, Clone, PartialEq)]
pub struct Change {
    /// What was varied.
    pub varied: Varied,
    /// The attributes that were scored in any of the groups.
    pub attributes: Vec<Attribute>,
    /// The groups, two at least, by value.
    pub groups: Vec<Group>,
    /// Tastings that do not tell it.
    pub untold: usize,
    /// What else differs among the tastings in the groups, so that a difference may come from that.
    pub also: Vec<Varied>,
}

/// What was varied among tastings, and how the scores went with it: rule 48 of the methods. What has one value only is left
/// out.
#[must_use]
pub fn changes(corpus: &Corpus, tastings: &[&Tasting]) -> Vec<Change> {
    let all = Varied::ALL.into_iter();
    all.filter_map(|varied| change(corpus, tastings, varied))
        .collect()
}

fn change(corpus: &Corpus, tastings: &[&Tasting], varied: Varied) -> Option<Change> {
    let scheme = corpus.vocabulary.scheme(Facet::Flavour);
    let mut groups: BTreeMap<Key, (String, Vec<&Tasting>)> = BTreeMap::new();
    for tasting in tastings {
        if let Some((key, words)) = varied.of(tasting) {
            let group = groups.entry(key).or_insert_with(|| (words, Vec::new()));
            group.1.push(tasting);
        }
    }
    if groups.len() < 2 {
        return None;
    }
    let told: Vec<&Tasting> = groups.values().flat_map(|group| group.1.clone()).collect();
    let voices: Vec<Voice> = told.iter().map(|one| scores_of(scheme, one)).collect();
    let flavours = (0..scheme.values().len()).map(|place| ValueId(place as u16));
    let attributes: Vec<Attribute> = flavours
        .map(Attribute::Flavour)
        .chain(Attribute::OTHERS)
        .filter(|attribute| voices.iter().any(|voice| voice.contains_key(attribute)))
        .collect();
    let group = |(value, of_group): &(String, Vec<&Tasting>)| {
        let voices: Vec<Voice> = of_group.iter().map(|one| scores_of(scheme, one)).collect();
        let figures = attributes.iter().map(|attribute| {
            let figures = attribute_figures(voices.iter(), *attribute);
            (figures.n, figures.figures)
        });
        Group {
            value: value.clone(),
            n: of_group.len(),
            figures: figures.collect(),
        }
    };
    Some(Change {
        varied,
        groups: groups.values().map(group).collect(),
        untold: tastings.len() - told.len(),
        also: also(&told, varied),
        attributes,
    })
}

/// What else has more than one value among tastings; that some do not tell it counts as a value of its own.
fn also(tastings: &[&Tasting], varied: Varied) -> Vec<Varied> {
    let others = Varied::ALL.into_iter().filter(|other| *other != varied);
    let differs = |other: &Varied| {
        let mut values = tastings.iter().map(|one| other.of(one));
        let first = values.next();
        values.any(|value| Some(value) != first)
    };
    others.filter(differs).collect()
}
