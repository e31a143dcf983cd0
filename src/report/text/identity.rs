//! The head of every page about an herb, and its foot.

use super::page::Page;
use crate::claim::Severity;
use crate::corpus::Basis;
use crate::report::view::{CautionView, HerbView};

/// Names, species, part.
pub(super) fn head(page: &mut Page, herb: &HerbView) {
    page.strong(&format!("{} {} · {}", herb.name, herb.pinyin, herb.english));
    let mut parts = vec![herb.latin.clone()];
    parts.extend(herb.species.iter().cloned());
    if let (Basis::Memory, Some(last)) = (herb.identity, parts.last_mut()) {
        last.push_str(" (from memory)");
    }
    parts.push(format!("part used: {}", herb.part));
    page.paragraph(&parts.join(" · "));
    if !herb.also.is_empty() {
        page.hanging("also", 6, &herb.also.join(", "));
    }
    if let Some(note) = &herb.note {
        page.hanging("note", 6, note);
    }
}

/// Cautions, and the line that defers to law and licensed practice.
pub(super) fn foot(page: &mut Page, cautions: &[CautionView], notice: &str) {
    page.heading("CAUTIONS");
    if cautions.is_empty() {
        page.paragraph("None on record here, which is no proof of harmlessness.");
    }
    for caution in cautions {
        let words = format!("{} ({})", caution.text, caution.source);
        match caution.severity {
            Severity::Grave => page.alert(&words),
            Severity::Care => page.hanging("·", 2, &words),
        }
    }
    page.paragraph(notice);
}
