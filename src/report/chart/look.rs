//! The colours and lines of the drawings: an ink, a lesser ink, a cold and a warm one that those who do not
//! see red from green tell apart, each with enough contrast on the light paper and on the dark.

/// Where a drawing gets its colours.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Dress {
    /// From a style of its own, light or dark as the reader's screen is.
    Standalone,
    /// From a style of its own with plain light colours, for a program that knows no variables.
    Resolved,
    /// From the page that it stands in.
    Inline,
}

/// The rules that name no colour by itself: shared by a drawing that stands alone and by a page.
macro_rules! rules {
    ($paper:literal, $ink:literal, $soft:literal, $rule:literal, $cold:literal, $warm:literal, $wash:literal) => {
        concat!(
            ".k-paper{fill:",
            $paper,
            "}",
            ".k-text{fill:",
            $ink,
            "}.k-strong{fill:",
            $ink,
            ";font-weight:bold}.k-soft{fill:",
            $soft,
            "}",
            ".k-on{fill:",
            $paper,
            ";font-weight:bold}",
            ".k-rule{stroke:",
            $rule,
            ";stroke-width:1;fill:none}",
            ".k-axis{stroke:",
            $ink,
            ";stroke-width:1.4;fill:none}",
            ".k-thin{stroke:",
            $soft,
            ";stroke-width:1;fill:none}",
            ".k-same{stroke:",
            $ink,
            ";stroke-width:1.8;fill:none}",
            ".k-other{stroke:",
            $soft,
            ";stroke-width:1;fill:none;stroke-dasharray:3 3}",
            ".k-full{fill:",
            $ink,
            ";stroke:",
            $ink,
            ";stroke-width:1.4}",
            ".k-open{fill:",
            $paper,
            ";stroke:",
            $ink,
            ";stroke-width:1.4}",
            ".k-ring{fill:none;stroke:",
            $ink,
            ";stroke-width:1.4}",
            ".k-lost{fill:",
            $paper,
            ";stroke:",
            $ink,
            ";stroke-width:1.4;stroke-dasharray:2 2}",
            ".k-cold{fill:",
            $cold,
            ";stroke:",
            $cold,
            ";stroke-width:1.4}",
            ".k-warm{fill:",
            $warm,
            ";stroke:",
            $warm,
            ";stroke-width:1.4}",
            ".k-cold-part{fill:none;stroke:",
            $cold,
            ";stroke-width:1.4;stroke-dasharray:2 2}",
            ".k-warm-part{fill:none;stroke:",
            $warm,
            ";stroke-width:1.4;stroke-dasharray:2 2}",
            ".k-wash{fill:",
            $wash,
            "}.k-bar{fill:",
            $rule,
            ";stroke:",
            $ink,
            ";stroke-width:1}"
        )
    };
}

/// The rules with variables, for a page that defines them.
pub(crate) const RULES: &str = rules!(
    "var(--k-paper)",
    "var(--k-ink)",
    "var(--k-soft)",
    "var(--k-rule)",
    "var(--k-cold)",
    "var(--k-warm)",
    "var(--k-wash)"
);

/// The colours on light paper.
macro_rules! light {
    () => {
        "--k-paper:#fbf8f0;--k-ink:#231d18;--k-soft:#5f564c;--k-rule:#d8ccb8;--k-cold:#1d5b8c;--k-warm:#a5431a;--k-wash:#f2ebdc;--k-seal:#96281f"
    };
}

/// The colours on dark paper.
macro_rules! dark {
    () => {
        "--k-paper:#1b1815;--k-ink:#ece4d6;--k-soft:#b5a998;--k-rule:#4c443a;--k-cold:#8ec3ee;--k-warm:#f0a883;--k-wash:#262019;--k-seal:#f0998c"
    };
}

pub(crate) const LIGHT: &str = light!();
pub(crate) const DARK: &str = dark!();

/// Typefaces by kind, then common Han ones, so that no name is a box.
pub(crate) const TYPEFACES: &str =
    "font-family:serif,\"Noto Serif CJK TC\",\"Noto Serif TC\",\"Songti TC\",PMingLiU,SimSun";

pub(super) const STYLE_STANDALONE: &str = concat!(
    "<style>svg{",
    light!(),
    ";max-width:100%;height:auto;font-family:serif,\"Noto Serif CJK TC\",\"Noto Serif TC\",\"Songti TC\",PMingLiU,SimSun}\n\
     @media (prefers-color-scheme:dark){svg{",
    dark!(),
    "}}\n",
    rules!(
        "var(--k-paper)",
        "var(--k-ink)",
        "var(--k-soft)",
        "var(--k-rule)",
        "var(--k-cold)",
        "var(--k-warm)",
        "var(--k-wash)"
    ),
    "</style>\n"
);

pub(super) const STYLE_RESOLVED: &str = concat!(
    "<style>text{font-family:serif}",
    rules!(
        "#fbf8f0", "#231d18", "#5f564c", "#d8ccb8", "#1d5b8c", "#a5431a", "#f2ebdc"
    ),
    "</style>\n"
);
