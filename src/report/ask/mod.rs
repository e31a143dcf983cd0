//! What is asked in words, by a command or by an address, turned into what the library takes; and why it cannot be
//! answered, where it cannot.

mod failure;
mod named;
mod open;
mod search;

pub(crate) use failure::{Attempt, Failure};
pub(crate) use named::{herb, period, question, selection, shorten, work};
pub(crate) use open::library;
pub(crate) use search::{Sought, findable, phrases, search};
