//! The pages, one a file or folder.

pub(super) mod against;
pub(super) mod find;
mod find_form;
pub(super) mod herb;
pub(super) mod home;
pub(super) mod name;
pub(super) mod parts;
