//! How wide a text is before anybody has a font: an estimate that is rather too wide than too narrow.

use unicode_width::UnicodeWidthChar;

/// Letters that are narrow in every common typeface.
const NARROW: &str = " ijlftrI.,:;'’|!()[]·-‹›";

/// Letters that are wide in every common typeface.
const WIDE: &str = "mwMW%—…&@";

/// The width of `text` at a font size of one: a Han character is one, Latin letters are reckoned by three
/// classes of width.
///
/// ```
/// use kaoyi::report::chart::width;
/// assert_eq!(width("薄荷"), 2.0);
/// assert!(width("mint") > 1.5 && width("mint") < width("MINT"));
/// ```
#[must_use]
pub fn width(text: &str) -> f64 {
    text.chars().map(of_character).sum()
}

fn of_character(c: char) -> f64 {
    match c.width().unwrap_or(0) {
        0 => 0.0,
        1 if NARROW.contains(c) => 0.36,
        1 if WIDE.contains(c) => 0.96,
        1 if c.is_uppercase() => 0.74,
        1 if c.is_alphanumeric() => 0.56,
        // Signs may come from a Han font.
        _ => 1.0,
    }
}

/// `text`, cut with an ellipsis where it is wider than `room` at a font size of one.
///
/// ```
/// use kaoyi::report::chart::fit;
/// assert_eq!(fit("本草綱目", 4.0), "本草綱目");
/// assert_eq!(fit("本草綱目拾遺", 4.0), "本草綱…");
/// ```
#[must_use]
pub fn fit(text: &str, room: f64) -> String {
    if width(text) <= room {
        return text.to_owned();
    }
    let mut left = room - of_character('…');
    let mut kept = String::new();
    for c in text.chars() {
        left -= of_character(c);
        if left < 0.0 {
            break;
        }
        kept.push(c);
    }
    format!("{}…", kept.trim_end())
}

/// `text` in lines, none wider than `room` at a font size of one; broken at blanks and, where a word is too
/// wide, within it.
#[must_use]
pub fn wrap(text: &str, room: f64) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    let mut line = String::new();
    for word in text.split_whitespace() {
        let joined = if line.is_empty() {
            word.to_owned()
        } else {
            format!("{line} {word}")
        };
        if width(&joined) <= room {
            line = joined;
            continue;
        }
        if !line.is_empty() {
            lines.push(std::mem::take(&mut line));
        }
        for c in word.chars() {
            if !line.is_empty() && width(&line) + of_character(c) > room {
                lines.push(std::mem::take(&mut line));
            }
            line.push(c);
        }
    }
    if !line.is_empty() {
        lines.push(line);
    }
    lines
}

/// Whether a character is Han or stands between Han ones, kana and full stops included, so that its language must be told and
/// it is as wide as they are.
pub(in crate::report) const fn in_han_text(c: char) -> bool {
    matches!(c, '\u{2e80}'..='\u{9fff}' | '\u{f900}'..='\u{faff}' | '\u{20000}'..='\u{323af}')
}

/// `text` in runs of Han and other characters, each with whether it is Han.
pub(crate) fn runs(text: &str) -> Vec<(bool, String)> {
    let mut runs: Vec<(bool, String)> = Vec::new();
    for c in text.chars() {
        match runs.last_mut() {
            Some((han, run)) if *han == in_han_text(c) => run.push(c),
            _ => runs.push((in_han_text(c), c.to_string())),
        }
    }
    runs
}

#[cfg(test)]
mod tests {
    use super::{fit, runs, width, wrap};
    use pretty_assertions::assert_eq;
    use proptest::prelude::*;

    #[test]
    fn han_and_other_runs_are_told_apart() {
        let expected = [(true, "薄荷".to_owned()), (false, " mint".to_owned())];
        assert_eq!(runs("薄荷 mint"), expected);
    }

    proptest! {
        #[test]
        fn what_is_fitted_or_wrapped_is_no_wider_than_its_room(text in "\\PC{0,60}", room in 3.0..20.0_f64) {
            prop_assert!(width(&fit(&text, room)) <= room + 1e-9);
            for line in wrap(&text, room) {
                prop_assert!(width(&line) <= room + 1e-9);
            }
        }
    }
}
