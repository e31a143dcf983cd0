//! A circle's plan as text.

use super::page::Page;
use crate::claim::Severity;
use crate::compare::DifferenceKind;
use crate::report::view::{DisputedView, MeetingView, MomentView, PlanView};

/// So many sides of a dispute are told.
const SIDES: usize = 4;

/// The plan, meeting by meeting.
#[must_use]
pub fn taste_plan(mut page: Page, view: &PlanView) -> String {
    for meeting in &view.meetings {
        page.heading(&name(meeting));
        page.hanging("steep", 10, &moment(&meeting.steep));
        page.hanging("taste", 10, &format!("{}, fasting", moment(&meeting.taste)));
        for disputed in &meeting.disputes {
            page.hanging("disputed", 10, &dispute(disputed));
        }
        if meeting.disputes.is_empty() {
            page.hanging(
                "disputed",
                10,
                "nothing about flavour, nature or toxicity on record",
            );
        }
    }
    page.heading("CAUTIONS");
    for meeting in &view.meetings {
        for caution in &meeting.cautions {
            let words = format!(
                "{}: {} ({})",
                meeting.herb.name, caution.text, caution.source
            );
            match caution.severity {
                Severity::Grave => page.alert(&words),
                Severity::Care => page.hanging("·", 2, &words),
            }
        }
    }
    page.paragraph(view.limits);
    page.paragraph("No caution on record is no proof of harmlessness.");
    page.paragraph(view.notice);
    page.into_text()
}

/// `薄荷 bòhe · mint`
pub(super) fn name(meeting: &MeetingView) -> String {
    let english = meeting.english.iter().map(|name| format!(" · {name}"));
    format!(
        "{} {}{}",
        meeting.herb.name,
        meeting.herb.pinyin,
        english.collect::<String>()
    )
}

/// `Monday 2027-01-04, 18:00`
fn moment(moment: &MomentView) -> String {
    let (day, time) = moment.from.split_once('T').unwrap_or((&moment.from, ""));
    let time = time.get(..5).unwrap_or(time);
    format!("{} {day}, {time}", moment.weekday)
}

/// `nature, crossing: cold side 6, neutral 3, warm side 6`
pub(super) fn dispute(disputed: &DisputedView) -> String {
    if let (DifferenceKind::OverTime, [first, then]) = (disputed.kind, disputed.sides.as_slice()) {
        return format!(
            "{}, {}: first {} ({}), then {} ({})",
            disputed.facet,
            disputed.kind.word(),
            first.label,
            first.books,
            then.label,
            then.books
        );
    }
    let sides = disputed.sides.iter().take(SIDES);
    let mut words: Vec<String> = sides
        .map(|side| format!("{} {}", side.label, side.books))
        .collect();
    if disputed.sides.len() > SIDES {
        words.push(format!("{} more", disputed.sides.len() - SIDES));
    }
    format!(
        "{}, {}: {}",
        disputed.facet,
        disputed.kind.word(),
        words.join("; ")
    )
}
