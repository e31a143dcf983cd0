//! Findings as text: with a source excerpt for people, in one line for editors.

use annotate_snippets::{AnnotationKind, Group, Level, Renderer, Snippet};

use super::page::{Page, clean, count};
use crate::corpus::{Code, Finding};
use crate::report::view::FindingsView;

/// All findings; `brief` gives one line each: `file:line:column: code: found, expected`.
#[must_use]
pub fn findings(mut page: Page, view: &FindingsView, brief: bool) -> String {
    let renderer = Renderer::styled().term_width(page.width());
    let width = page.width();
    for finding in &view.findings {
        if brief {
            page.raw(&format!("{}\n", one_line(finding)));
        } else {
            page.raw(&format!("{}\n\n", excerpt(&renderer, width, finding)));
        }
    }
    let files = count(view.files, "file");
    match (view.findings.len(), view.entries, view.claims) {
        (0, Some(entries), Some(claims)) => {
            page.paragraph(&format!(
                "clean: {files} read; {entries} entries and {claims} claims in the whole corpus"
            ));
        }
        (n, _, _) => {
            page.paragraph(&format!("{} in {files} read", count(n, "fault")));
            if view.findings.iter().any(|one| one.code.is_of_form()) {
                page.paragraph(
                    "What a record refers to is checked once its form is mended: more may follow.",
                );
            }
        }
    }
    page.into_text()
}

/// The first `most` findings, and how many there are.
#[must_use]
pub fn first_findings(page: Page, view: &FindingsView, most: usize) -> String {
    let mut first = view.clone();
    first.findings.truncate(most);
    let mut text = findings(page, &first, false);
    if view.findings.len() > most {
        text.push_str(&format!(
            "the first {most} of {}\n",
            count(view.findings.len(), "fault")
        ));
    }
    text
}

/// The first `most` faults of files of one's own, and how many there are.
#[must_use]
pub fn faults(mut page: Page, findings: &[Finding], most: usize) -> String {
    let renderer = Renderer::styled().term_width(page.width());
    let width = page.width();
    for finding in findings.iter().take(most) {
        page.raw(&format!("{}\n\n", excerpt(&renderer, width, finding)));
    }
    let more = if findings.len() > most {
        format!("; the first {most} are shown, all with --json")
    } else {
        String::new()
    };
    page.paragraph(&format!("{}{more}", count(findings.len(), "fault")));
    page.into_text()
}

fn place(finding: &Finding) -> String {
    match (finding.line, finding.column) {
        (Some(line), Some(column)) => format!("{}:{line}:{column}", finding.file),
        _ => finding.file.clone(),
    }
}

fn one_line(finding: &Finding) -> String {
    let hint = hint(finding).map_or_else(String::new, |hint| format!("; {hint}"));
    let Finding {
        code,
        found,
        expected,
        ..
    } = finding;
    clean(&format!(
        "{}: {}: found {found}, expected {expected}{hint}",
        place(finding),
        code.name()
    ))
}

fn hint(finding: &Finding) -> Option<String> {
    match finding.nearest.as_slice() {
        [] => None,
        [one] => Some(format!("did you mean `{one}`?")),
        several => Some(format!("did you mean one of `{}`?", several.join("`, `"))),
    }
}

fn excerpt(renderer: &Renderer, width: usize, finding: &Finding) -> String {
    let title = clean(&format!(
        "{}: found {}",
        finding.code.title(),
        finding.found
    ));
    let expected = clean(&format!("expected {}", finding.expected));
    // Notes hang under `  = note: `, which takes eleven columns beside a line number of three.
    let expected = textwrap::fill(&expected, width.saturating_sub(14));
    let file = clean(&finding.file);
    let source = finding.excerpt.as_deref().map(clean);
    let mut group = Group::with_title(Level::ERROR.primary_title(&title).id(finding.code.name()));
    match (&source, finding.line, finding.column) {
        (Some(source), Some(line), Some(column)) => {
            let span = byte_span(source, column, finding.width);
            group = group.element(
                Snippet::source(source.as_str())
                    .line_start(line)
                    .path(file.as_str())
                    .annotation(AnnotationKind::Primary.span(span)),
            );
        }
        _ => {
            group = group.element(Level::NOTE.message(format!("in {}", place(finding))));
        }
    }
    group = group.element(Level::NOTE.message(&expected));
    if let Some(hint) = hint(finding) {
        group = group.element(Level::HELP.message(hint));
    }
    renderer.render(&[group])
}

/// The bytes of a line that a column in characters and a width cover.
fn byte_span(line: &str, column: usize, width: usize) -> std::ops::Range<usize> {
    let byte = |place: usize| {
        line.char_indices()
            .nth(place)
            .map_or(line.len(), |(byte, _)| byte)
    };
    let start = byte(column.saturating_sub(1));
    start..byte(column.saturating_sub(1) + width.max(1)).max(start)
}

/// What one code means.
#[must_use]
pub fn explanation(mut page: Page, code: Code) -> String {
    page.strong(&format!("{}: {}", code.name(), code.title()));
    page.paragraph(code.explanation().trim());
    page.into_text()
}

/// All codes with their titles.
#[must_use]
pub fn codes(mut page: Page) -> String {
    for code in Code::ALL {
        page.hanging(code.name(), 24, code.title());
    }
    page.into_text()
}
