//! How results look: as data for JSON ([`view`]) and as text for a terminal ([`text`]), and
//! as files for other programs ([`export`]). No result is
//! computed here; the text is made from the same views as the JSON.

pub mod export;
pub mod text;
pub mod view;
