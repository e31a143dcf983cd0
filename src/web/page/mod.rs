//! The pages, one a file or folder.

pub(super) mod affinity;
pub(super) mod against;
mod books_side;
pub(super) mod disputes;
pub(super) mod explain;
pub(super) mod find;
mod find_form;
pub(super) mod handout;
pub(super) mod herb;
pub(super) mod home;
pub(super) mod name;
pub(super) mod pair;
mod pair_card;
mod pair_form;
pub(super) mod panel;
pub(super) mod parts;
pub(super) mod taste;
pub(super) mod taste_add;
pub(super) mod taste_against;
mod taste_fields;
mod together;
pub(super) mod weigh;
pub(super) mod works;
