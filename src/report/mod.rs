//! How results look: as data for JSON ([`view`]) and as text for a terminal ([`text`]). No result is
//! computed here; the text is made from the same views as the JSON.

pub mod text;
pub mod view;
