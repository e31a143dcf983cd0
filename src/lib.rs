//! Kaoyi (考異, "examining the differences") sets side by side what classical books claim about a
//! medicinal herb: who says what, since when and through whom, where they differ and how, and what
//! they agree on, with the evidence for every figure.
//!
//! ```
//! use kaoyi::{claim::Facet, compare, corpus};
//!
//! // The corpus is in the library; `corpus::load_folder` reads another or an additional one.
//! let corpus = corpus::embedded().unwrap();
//! let corpus::Lookup::One(mint) = corpus.find_herb("薄荷") else { panic!("mint is shipped") };
//! let mint = corpus.herb(mint).unwrap();
//!
//! // Who takes a stand on its nature, and in how many lines of transmission?
//! let nature = compare::view(&corpus, mint, Facet::Nature, &compare::Selection::default());
//! let lines = compare::lines(&corpus, &nature);
//! assert!(lines.count < nature.witnesses.len());
//!
//! // Is it warm or cool? The books are on both sides.
//! let differences = compare::differences(&corpus, &nature);
//! assert!(differences.iter().any(|one| one.kind == compare::DifferenceKind::Crossing));
//! ```
//!
//! A **work** asserts (**by**) and may be known **through** others that carry its words. An **entry**
//! is a work's article on an herb, a **saying** one attributed statement in it, a **claim** one value
//! of one facet. A **witness** is a work that takes a stand; witnesses that descend from each other
//! and say the same are one **line**.
//!
//! The modules, from the ground up; nothing imports from a later one:

pub mod stats;

pub mod text;

pub mod claim;

pub mod corpus;

pub mod reader;

pub mod compare;

pub mod measure;

pub mod index;

pub mod pairing;

pub mod tasting;

pub mod report;

pub mod web;

pub mod cli;
