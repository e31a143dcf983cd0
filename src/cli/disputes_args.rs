//! The arguments of `disputes` and `affinity`.

use clap::Args;
use clap::builder::{PossibleValuesParser, TypedValueParser};

use super::args::Scope;
use super::complete::works;
use crate::claim::Facet;
use crate::compare::{COMPARABLE, DifferenceKind, SetDistance};

#[derive(Debug, Args)]
pub(super) struct DisputesArguments {
    /// Rank by these facets (can be repeated, or joined by commas); default: flavour, nature, toxicity
    #[arg(long, value_name = "FACET", value_delimiter = ',', value_parser = scaled_facet())]
    pub facet: Vec<Facet>,
    /// Only herbs with this kind of difference
    #[arg(long, value_name = "KIND", value_parser = kind())]
    pub kind: Option<DifferenceKind>,
    /// Leave out facets with fewer witnesses
    #[arg(long, value_name = "N", default_value_t = 5)]
    pub witnesses: usize,
    /// Show so many herbs
    #[arg(long, value_name = "N", default_value_t = 20)]
    pub top: usize,
    /// Compare lists of flavours by the share of common ones alone, not by whether one contains the other
    #[arg(long)]
    pub jaccard: bool,
    /// Give the agreement on all herbs an interval too (takes longer)
    #[arg(long)]
    pub intervals: bool,
    #[command(flatten)]
    pub scope: Scope,
}

impl DisputesArguments {
    /// How lists are compared.
    pub const fn sets(&self) -> SetDistance {
        if self.jaccard {
            SetDistance::Jaccard
        } else {
            SetDistance::Masi
        }
    }
}

#[derive(Debug, Args)]
pub(super) struct AffinityArguments {
    /// The work to show among the others, by id, title or short form; default: all
    #[arg(value_name = "WORK", add = works())]
    pub work: Option<String>,
    /// Compare on these facets (can be repeated, or joined by commas); default: flavour, nature, toxicity
    #[arg(long, value_name = "FACET", value_delimiter = ',', value_parser = scaled_facet())]
    pub facet: Vec<Facet>,
    /// Leave out pairs that share fewer stands
    #[arg(long, value_name = "N", default_value_t = 30)]
    pub shared: usize,
    #[command(flatten)]
    pub scope: Scope,
}

/// The facets on which stands can be held against each other.
fn scaled_facet() -> impl TypedValueParser<Value = Facet> {
    PossibleValuesParser::new(COMPARABLE.map(Facet::name)).map(|name| {
        let named = COMPARABLE.into_iter().find(|facet| facet.name() == name);
        named.unwrap_or(Facet::Flavour)
    })
}

fn kind() -> impl TypedValueParser<Value = DifferenceKind> {
    PossibleValuesParser::new(DifferenceKind::ALL.map(DifferenceKind::name)).map(|name| {
        let mut kinds = DifferenceKind::ALL.into_iter();
        let named = kinds.find(|kind| kind.name() == name);
        named.unwrap_or(DifferenceKind::Mixed)
    })
}
