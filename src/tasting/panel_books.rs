//! A panel held against the books: flavour by flavour, and warmth beside nature.

use super::panel::{Attribute, AttributeFigures};
use crate::claim::{Facet, ValueId};
use crate::compare::{self, Profile, Selection};
use crate::corpus::{Corpus, Herb};

/// A panel tastes a flavour, and feels warm or cold, when its median is so many points from nothing. Our own choice, no
/// source.
pub const TASTED: f64 = 1.0;

/// How a flavour stands between the panel and the books.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Standing {
    /// The panel tastes it and most books name it.
    Agreed,
    /// The panel does not taste it and no book names it.
    AgreedAbsent,
    /// The panel tastes it; some books name it, but not most.
    TastedSomeName,
    /// The panel tastes it and no book names it.
    TastedNoneName,
    /// Most books name it and the panel does not taste it.
    NamedNotTasted,
    /// Some books name it, but not most, and the panel does not taste it.
    SomeNameNotTasted,
    /// Nobody scored it, or no book states a flavour.
    Unsaid,
}

impl Standing {
    /// Whether panel and books agree; `None` where the books are divided or something is unsaid.
    #[must_use]
    pub const fn agrees(self) -> Option<bool> {
        match self {
            Self::Agreed | Self::AgreedAbsent => Some(true),
            Self::TastedNoneName | Self::NamedNotTasted => Some(false),
            Self::TastedSomeName | Self::SomeNameNotTasted | Self::Unsaid => None,
        }
    }
}

/// A flavour as the panel tastes it and as the books name it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FlavourAgainst {
    /// The flavour.
    pub value: ValueId,
    /// Tasters who scored it.
    pub tasters: usize,
    /// The median of their scores.
    pub median: Option<f64>,
    /// Books that name it.
    pub k: usize,
    /// Books that state a flavour.
    pub n: usize,
    /// How the two stand to each other.
    pub standing: Standing,
}

/// Warmth as the panel feels it, beside the nature that the books state. Nature is a judgement on what an herb does and
/// not only on what is felt in the mouth.
#[derive(Debug, Clone, PartialEq)]
pub struct WarmthAgainst {
    /// Tasters who scored warmth.
    pub tasters: usize,
    /// The median of their scores.
    pub median: Option<f64>,
    /// The side on which that is: `cold`, `neutral`, `warm`.
    pub side: Option<&'static str>,
    /// Books that state a nature.
    pub n: usize,
    /// The sides, each with the books that have a value on it; a book on two sides counts on both.
    pub sides: Vec<(&'static str, usize)>,
    /// The books' nature in the middle: one value, or the two middle ones.
    pub middle: Vec<ValueId>,
    /// Whether most books stand on the panel's side (true) or few (false); `None` between, or where something is unsaid.
    pub agrees: Option<bool>,
}

/// The panel against the books.
#[derive(Debug, Clone, PartialEq)]
pub struct AgainstBooks {
    /// The flavours, in the order of the vocabulary.
    pub flavours: Vec<FlavourAgainst>,
    /// Flavours on which panel and books agree.
    pub agreed: usize,
    /// Flavours on which they agree or contradict each other.
    pub judged: usize,
    /// Warmth beside nature.
    pub warmth: WarmthAgainst,
}

/// The side on which a median of warmth lies.
pub(super) fn side_felt(median: f64) -> &'static str {
    match median {
        _ if median <= -TASTED => "cold",
        _ if median >= TASTED => "warm",
        _ => "neutral",
    }
}

/// Holds the figures of a panel, or of own tastings, on `herb` against the chosen books: rule 46 of the methods.
#[must_use]
pub fn against_books(
    corpus: &Corpus,
    herb: &Herb,
    selection: &Selection,
    attributes: &[AttributeFigures],
) -> AgainstBooks {
    let flavour = compare::view(corpus, herb, Facet::Flavour, selection);
    let profile = compare::profile(corpus, &flavour);
    let flavours = attributes.iter().filter_map(|one| {
        let Attribute::Flavour(value) = one.attribute else {
            return None;
        };
        let median = one.figures.map(|figures| figures.median);
        let support = profile.supports.iter().find(|one| one.value == value);
        let k = support.map_or(0, |support| support.k);
        Some(FlavourAgainst {
            value,
            tasters: one.n,
            median,
            k,
            n: profile.n,
            standing: standing(corpus, &profile, median, k),
        })
    });
    let flavours: Vec<FlavourAgainst> = flavours.collect();
    let judged: Vec<bool> = flavours
        .iter()
        .filter_map(|one| one.standing.agrees())
        .collect();
    AgainstBooks {
        flavours,
        agreed: judged.iter().filter(|agrees| **agrees).count(),
        judged: judged.len(),
        warmth: warmth(corpus, herb, selection, attributes),
    }
}

fn standing(corpus: &Corpus, profile: &Profile, median: Option<f64>, k: usize) -> Standing {
    let Some(median) = median.filter(|_| profile.n > 0) else {
        return Standing::Unsaid;
    };
    let most = corpus.vocabulary.thresholds.mostly.reached_by(k, profile.n);
    match (median >= TASTED, k) {
        (true, 0) => Standing::TastedNoneName,
        (false, 0) => Standing::AgreedAbsent,
        (true, _) if most => Standing::Agreed,
        (false, _) if most => Standing::NamedNotTasted,
        (true, _) => Standing::TastedSomeName,
        (false, _) => Standing::SomeNameNotTasted,
    }
}

fn warmth(
    corpus: &Corpus,
    herb: &Herb,
    selection: &Selection,
    attributes: &[AttributeFigures],
) -> WarmthAgainst {
    let view = compare::view(corpus, herb, Facet::Nature, selection);
    let scheme = corpus.vocabulary.scheme(Facet::Nature);
    let on_side = |side: &str| {
        let on = |value: &ValueId| scheme.value(*value).side.as_deref() == Some(side);
        let witnesses = view.witnesses.iter();
        witnesses.filter(|one| one.values.iter().any(on)).count()
    };
    let sides = ["cold", "neutral", "warm"].map(|side| (side, on_side(side)));
    let found = attributes
        .iter()
        .find(|one| one.attribute == Attribute::Warmth);
    let median = found.and_then(|one| Some(one.figures?.median));
    let side = median.map(side_felt);
    let n = view.witnesses.len();
    let thresholds = &corpus.vocabulary.thresholds;
    let agrees = sides
        .iter()
        .find(|(one, _)| n > 0 && Some(*one) == side)
        .and_then(|(_, k)| match *k {
            k if thresholds.mostly.reached_by(k, n) => Some(true),
            k if thresholds.mostly_not.not_exceeded_by(k, n) => Some(false),
            _ => None,
        });
    let scaled = compare::profile(corpus, &view).scaled;
    let mut middle: Vec<ValueId> = scaled.map_or_else(Vec::new, |scaled| {
        let (lower, upper) = scaled.spread.median;
        vec![ValueId(lower as u16), ValueId(upper as u16)]
    });
    middle.dedup();
    WarmthAgainst {
        tasters: found.map_or(0, |one| one.n),
        median,
        side,
        n,
        sides: sides.to_vec(),
        middle,
        agrees,
    }
}
