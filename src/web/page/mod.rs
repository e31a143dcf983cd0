//! The pages, one a file.

pub(super) mod herb;
pub(super) mod home;
