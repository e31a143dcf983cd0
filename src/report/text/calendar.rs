//! A plan as an iCalendar file (RFC 5545). Times have no zone: they are those of the clock on the wall, wherever the circle
//! meets.

use super::taste_plan::{dispute, name};
use crate::report::view::{MeetingView, MomentView, PlanView};

/// The longest line, in bytes without its end (RFC 5545, 3.1).
const LONGEST: usize = 75;

/// The plan as a calendar, two events for each meeting. `stamp` is when it was made, in UTC: `20261128T134400Z`.
///
/// ```
/// use kaoyi::report::text::calendar;
/// use kaoyi::report::view::PlanView;
/// let empty = PlanView { format: "", every: "week".to_owned(), hours: 12, meetings: Vec::new(), limits: "", notice: "" };
/// assert!(calendar(&empty, "20261128T134400Z").starts_with("BEGIN:VCALENDAR\r\nVERSION:2.0\r\n"));
/// ```
#[must_use]
pub fn calendar(view: &PlanView, stamp: &str) -> String {
    let mut file = String::new();
    for words in [
        "BEGIN:VCALENDAR",
        "VERSION:2.0",
        "PRODID:-//Kaoyi//taste plan//EN",
        "CALSCALE:GREGORIAN",
    ] {
        line(&mut file, words);
    }
    for meeting in &view.meetings {
        let (steep, taste) = (steeping(view, meeting), tasting(view, meeting));
        event(&mut file, stamp, meeting, &meeting.steep, "steep", &steep);
        event(&mut file, stamp, meeting, &meeting.taste, "taste", &taste);
    }
    line(&mut file, "END:VCALENDAR");
    file
}

/// One event. Its UID is made of day, herb and kind, so that a plan that is made again replaces its events.
fn event(
    file: &mut String,
    stamp: &str,
    meeting: &MeetingView,
    moment: &MomentView,
    kind: &str,
    (summary, description): &(String, Vec<String>),
) {
    let begins = basic(&moment.from);
    let day = begins.split('T').next().unwrap_or_default();
    line(file, "BEGIN:VEVENT");
    line(file, &format!("UID:{day}-{}-{kind}@kaoyi", meeting.herb.id));
    line(file, &format!("DTSTAMP:{stamp}"));
    line(file, &format!("DTSTART:{begins}"));
    line(file, &format!("DTEND:{}", basic(&moment.to)));
    line(file, &format!("SUMMARY:{}", escaped(summary)));
    line(
        file,
        &format!("DESCRIPTION:{}", escaped(&description.join("\n"))),
    );
    line(file, "END:VEVENT");
}

fn steeping(view: &PlanView, meeting: &MeetingView) -> (String, Vec<String>) {
    let mut words = vec![
        "Look at the herb, smell it, note the lot and how it is made.".to_owned(),
        "Weigh it, and write the amount down.".to_owned(),
        "Put it by itself into an insulated flask, pour boiling water over it until it is covered, close the flask.".to_owned(),
        format!("Leave it overnight: {} hours.", view.hours),
        "Bring: the herb with its lot number, scale, insulated flask, kettle, label, pen.".to_owned(),
        "To the tasting come fasting.".to_owned(),
    ];
    words.extend(heed(view, meeting));
    (format!("Steep {}", name(meeting)), words)
}

fn tasting(view: &PlanView, meeting: &MeetingView) -> (String, Vec<String>) {
    let mut words = vec![
        "Fasting: nothing eaten since last night; water is allowed.".to_owned(),
        "Strain it, pour small cups, taste in silence, and score before anyone speaks.".to_owned(),
        format!(
            "Bring: strainer, small cups, water for the mouth, pens, forms (kaoyi taste form {}).",
            meeting.herb.id
        ),
        "After the scores, hold them against the books.".to_owned(),
    ];
    let disputes = meeting.disputes.iter();
    words.extend(disputes.map(|one| format!("The books dispute: {}.", dispute(one))));
    if meeting.disputes.is_empty() {
        words.push("On flavour, nature and toxicity the books do not dispute.".to_owned());
    }
    words.extend(heed(view, meeting));
    (format!("Taste {}, fasting", name(meeting)), words)
}

fn heed(view: &PlanView, meeting: &MeetingView) -> Vec<String> {
    let cautions = meeting.cautions.iter();
    let mut words: Vec<String> = cautions
        .map(|caution| format!("Caution: {} ({}).", caution.text, caution.source))
        .collect();
    words.push(view.limits.to_owned());
    words.push(view.notice.to_owned());
    words
}

/// `2027-01-04T18:00:00` as `20270104T180000`.
fn basic(moment: &str) -> String {
    moment.replace(['-', ':'], "")
}

/// Text as a value (RFC 5545, 3.3.11); control characters other than the line's end are left out.
fn escaped(text: &str) -> String {
    let mut escaped = String::with_capacity(text.len());
    for character in text.chars() {
        match character {
            '\\' | ';' | ',' => {
                escaped.push('\\');
                escaped.push(character);
            }
            '\n' => escaped.push_str("\\n"),
            other if other.is_control() => {}
            other => escaped.push(other),
        }
    }
    escaped
}

/// A content line, folded where it is too long: never inside a character, nor between a backslash and what it escapes,
/// which would be right but is read wrongly by some.
fn line(file: &mut String, words: &str) {
    let mut length = 0;
    let mut characters = words.chars().peekable();
    while let Some(character) = characters.next() {
        let escaped = if character == '\\' {
            characters.next()
        } else {
            None
        };
        let bytes = character.len_utf8() + escaped.map_or(0, char::len_utf8);
        if length + bytes > LONGEST {
            // The blank at the head of a folded line counts.
            file.push_str("\r\n ");
            length = 1;
        }
        file.push(character);
        file.extend(escaped);
        length += bytes;
    }
    file.push_str("\r\n");
}

#[cfg(test)]
mod tests {
    use super::{escaped, line};
    use pretty_assertions::assert_eq;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn folding_keeps_lines_short_and_loses_nothing(words in "[a-z薄荷é \\\\,]{0,300}") {
            let mut file = String::new();
            line(&mut file, &words);
            prop_assert!(file.split("\r\n").all(|line| line.len() <= 75));
            prop_assert_eq!(file.replace("\r\n ", ""), format!("{words}\r\n"));
        }

        #[test]
        fn no_text_breaks_out_of_its_line(words in any::<String>()) {
            prop_assert!(!escaped(&words).chars().any(char::is_control));
        }
    }

    #[test]
    fn text_is_escaped() {
        assert_eq!(escaped("a, b; c\\d\ne\r"), "a\\, b\\; c\\\\d\\ne");
    }
}
