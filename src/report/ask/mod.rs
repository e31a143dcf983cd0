//! What is asked in words, by a command or by an address, turned into what the library takes; and why it cannot be
//! answered, where it cannot.

mod failure;
mod formula;
mod handout;
mod named;
mod notebook;
mod noting;
mod open;
mod panel;
mod search;
mod weights;

use crate::claim::Facet;
use crate::compare::COMPARABLE;

pub(crate) use failure::{Attempt, Failure};
pub(crate) use formula::{PairAsked, balance, formula};
pub(crate) use handout::{HandoutAsked, handout};
pub(crate) use named::{herb, period, question, selection, shorten, work};
pub(crate) use notebook::{Listed, find, herb_of, list, of_herb};
pub(crate) use noting::{Given, given, note_down, permitted, set_all, untold};
pub(crate) use open::library;
pub(crate) use panel::panel;
pub(crate) use search::{Sought, findable, phrases, search};
pub(crate) use weights::{WeighAsked, weigh, words_of};

/// The facets by which herbs are ranked or works compared: those asked for, else all on which stands can be held against
/// each other.
pub(crate) fn comparable(asked: &[Facet]) -> Vec<Facet> {
    match asked {
        [] => COMPARABLE.to_vec(),
        facets => facets.to_vec(),
    }
}
