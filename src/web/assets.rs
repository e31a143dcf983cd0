//! What pages load: one style, one script, one sign; all in the program, nothing from elsewhere.

use super::reply::Reply;
use crate::report::chart::{DARK, LIGHT, RULES, TYPEFACES};

const STYLE: &str = include_str!("assets/style.css");
const DESK: &str = include_str!("assets/desk.css");
const SCRIPT: &str = concat!(
    include_str!("assets/script.js"),
    include_str!("assets/desk.js")
);
const SIGN: &str = include_str!("assets/sign.svg");

/// The file at an address, where it is one of these.
pub(crate) fn file(path: &str) -> Option<Reply> {
    match path {
        "/style.css" => Some(Reply::new("text/css; charset=utf-8", style())),
        "/script.js" => Some(Reply::new("text/javascript; charset=utf-8", SCRIPT)),
        "/sign.svg" | "/favicon.ico" => Some(Reply::new("image/svg+xml", SIGN)),
        _ => None,
    }
}

/// Colours and the rules of drawings come from the drawings; the rest is the room's own.
fn style() -> String {
    format!(
        ":root{{color-scheme:light dark;{LIGHT}}}\n@media screen and (prefers-color-scheme:dark){{:root{{{DARK}}}}}\n\
         @media print{{:root{{--k-paper:#fff}}}}\nbody{{{TYPEFACES}}}\n{RULES}\n{STYLE}{DESK}"
    )
}
