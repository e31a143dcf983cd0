//! The reading room: the views of [`crate::report::view`] as pages for a browser, each with its JSON beside it.
//!
//! A page is a file in `page` that implements `route::Page`; the table in `table.rs` lists them all, and router, description
//! (`/api/openapi.json`) and the refusal of what no page knows are made from it. Nothing is computed here. The room
//! asks neither clock nor environment: who opens it passes these in with [`Settings`].

mod asked;
mod assets;
mod connections;
mod fields;
mod form_page;
mod guard;
mod kept;
mod layout;
mod openapi;
mod page;
mod pieces;
mod posted;
mod reply;
mod room;
mod route;
mod serve;
mod table;
mod visit;
mod words;

pub use room::{OpenError, Room, Settings};
pub use serve::{Listening, serve, service};
