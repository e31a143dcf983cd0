//! The head of every page about an herb, and its foot.

use super::page::{Page, Titles};
use crate::claim::Severity;
use crate::corpus::Basis;
use crate::report::view::{FilterView, HeedView, HerbView, ListedCautions, SeverestView};

/// Names, species, part.
pub(super) fn head(page: &mut Page, herb: &HerbView) {
    let english = herb.english.iter().map(|name| format!(" · {name}"));
    let english: String = english.collect();
    page.strong(&format!("{} {}{english}", herb.name, herb.pinyin));
    let mut parts: Vec<String> = herb.latin.iter().cloned().collect();
    parts.extend(herb.species.iter().cloned());
    if let (Basis::Memory, Some(last)) = (herb.identity, parts.last_mut()) {
        last.push_str(" (from memory)");
    }
    parts.extend(herb.part.iter().map(|part| format!("part used: {part}")));
    if !parts.is_empty() {
        page.paragraph(&parts.join(" · "));
    }
    if !herb.also.is_empty() {
        page.hanging("also", 6, &herb.also.join(", "));
    }
    if !herb.shared.is_empty() {
        let names = herb
            .shared
            .iter()
            .map(|one| format!("{} ({})", one.name, one.note));
        page.hanging(
            "also, as other drugs are:",
            6,
            &names.collect::<Vec<_>>().join("; "),
        );
    }
    if let Some(note) = &herb.note {
        page.hanging("note", 6, note);
    }
    if herb.reviewed < herb.entries {
        page.hanging(
            "read",
            6,
            &format!(
                "by the program; {} of {} entries were compared with the text by a second reader: look at the \
                 wording (--evidence) before you rely on one",
                herb.reviewed, herb.entries
            ),
        );
    }
}

/// Which works were counted, when not all.
pub(super) fn filter(page: &mut Page, titles: &Titles<'_>, filter: Option<&FilterView>) {
    let Some(filter) = filter else { return };
    let mut parts = Vec::new();
    if !filter.works.is_empty() {
        parts.push(titles.list(&filter.works));
    }
    parts.extend(
        filter
            .since
            .map(|year| format!("works finished in {year} or later")),
    );
    parts.extend(
        filter
            .until
            .map(|year| format!("works finished in {year} or earlier")),
    );
    page.hanging("only", 6, &parts.join("; "));
}

/// Cautions, the warning of the severest book, and the line that defers to law and licensed practice.
pub(super) fn foot(page: &mut Page, titles: &Titles<'_>, heed: &HeedView) {
    let HeedView {
        warnings,
        cautions,
        notice,
    } = heed;
    page.heading("CAUTIONS");
    for caution in cautions {
        let words = format!("{} ({})", caution.text, caution.source);
        match caution.severity {
            Severity::Grave => page.alert(&words),
            Severity::Care => page.hanging("·", 2, &words),
        }
    }
    for warning in warnings {
        page.hanging(
            "·",
            2,
            &format!("in the books: called {}", severest(titles, warning)),
        );
    }
    if cautions.is_empty() && warnings.is_empty() {
        page.paragraph("None on record here, which is no proof of harmlessness.");
    }
    page.paragraph(notice);
}

/// The grave cautions of herbs that a list names.
pub(super) fn listed_cautions(page: &mut Page, listed: &[ListedCautions], notice: &str) {
    if listed.is_empty() {
        page.heading("CAUTIONS");
        page.paragraph(notice);
        return;
    }
    page.heading("CAUTIONS");
    for one in listed {
        let texts: Vec<&str> = one
            .cautions
            .iter()
            .map(|caution| caution.text.as_str())
            .collect();
        page.alert(&format!("{}: {}", one.herb.name, texts.join("; ")));
    }
    page.paragraph(&format!(
        "Grave ones only, and not complete: ask for the herb itself to see all. {notice}"
    ));
}

/// `toxic by 藥性論, 千金方 (閉口者)`
pub(in crate::report) fn severest(titles: &Titles<'_>, severest: &SeverestView) -> String {
    let by = severest.by.iter().map(|one| {
        let doubt = if one.doubtful { "\u{a0}?" } else { "" };
        let scopes = if one.scopes.is_empty() {
            String::new()
        } else {
            format!(" ({})", one.scopes.join("; "))
        };
        format!("{}{scopes}{doubt}", titles.title(&one.work))
    });
    format!(
        "{} by {}",
        severest.value.english,
        by.collect::<Vec<_>>().join(", ")
    )
}
