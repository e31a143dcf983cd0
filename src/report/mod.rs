//! How results look: as data for JSON ([`view`]), as text for a terminal ([`text`]), as drawings ([`chart`]), as pages to
//! print and hand out ([`handout`]), and as files for other programs ([`export`]). No result is computed here; all are
//! made from the same views.

pub(crate) mod ask;
pub mod chart;
pub mod export;
pub mod handout;
pub mod text;
pub mod view;
