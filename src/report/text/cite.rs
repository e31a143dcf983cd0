//! Citations as text.

use super::page::{Page, count};
use crate::report::view::CiteView;

/// How the corpus is cited, and the sayings asked for, each with its claims under it.
#[must_use]
pub fn cite(mut page: Page, view: &CiteView) -> String {
    page.strong("THE CORPUS");
    page.paragraph(&view.corpus.citation);
    page.quiet(&format!(
        "Whole key of its content (SHA-256): {}",
        view.corpus.key
    ));
    if view.citations.is_empty() {
        page.quiet(
            "A claim with its work, section and carriers: kaoyi cite HERB, or kaoyi cite CLAIM-ID.",
        );
        return page.into_text();
    }
    let claims: usize = view.citations.iter().map(|one| one.claims.len()).sum();
    page.heading(&format!(
        "{} in {}",
        count(claims, "claim"),
        count(view.citations.len(), "saying")
    ));
    for citation in &view.citations {
        page.paragraph(&citation.citation);
        for claim in &citation.claims {
            let degree = claim.degree.as_ref();
            let scope = [&claim.part, &claim.preparation, &claim.kind];
            let scope = scope.into_iter().flatten().map(|of| format!("of {of}"));
            let limits: Vec<String> = degree.cloned().into_iter().chain(scope).collect();
            let limits = match limits.is_empty() {
                true => String::new(),
                false => format!(" ({})", limits.join(", ")),
            };
            page.hanging("", 2, &format!("{}{limits}", claim.claim));
        }
    }
    page.heading("CAUTIONS");
    for heed in view.heed.values() {
        for caution in &heed.cautions {
            page.alert(&format!("{} ({})", caution.text, caution.source));
        }
        for warning in &heed.warnings {
            page.alert(&format!(
                "most severe toxicity stated: {} {}",
                warning.value.han, warning.value.english
            ));
        }
    }
    if view.heed.values().all(|heed| heed.cautions.is_empty()) {
        page.paragraph("None on record here, which is no proof of harmlessness.");
    }
    page.paragraph(view.notice);
    page.into_text()
}
