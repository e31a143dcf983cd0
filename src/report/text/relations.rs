//! An herb beside other drugs, as text.

use super::evidence;
use super::page::{Page, Titles};
use crate::report::view::{RelatedDrug, RelationGroup, RelationsView};

/// Column at which the drugs begin.
const INDENT: usize = 26;
/// So many drugs of a kind are shown without the evidence.
const SHOWN: usize = 6;

/// What is said of the herb and other drugs; with `show_evidence` every drug with every wording.
pub(super) fn relations(
    page: &mut Page,
    titles: &Titles<'_>,
    view: Option<&RelationsView>,
    show_evidence: bool,
) {
    let Some(view) = view.filter(|view| !view.is_empty()) else {
        return;
    };
    page.heading("WITH OTHER DRUGS");
    for group in &view.own {
        row(page, titles, group, "", show_evidence);
    }
    if !view.of_others.is_empty() {
        page.paragraph("In articles on other drugs, which are said to stand so to it:");
    }
    for group in &view.of_others {
        row(page, titles, group, "  ", show_evidence);
    }
    page.quiet(
        "How many works say so, and the oldest that does so without doubt; ? all doubtful; ° of a part or preparation only. \
         Read by the program. What books say, no rule for combining. Wordings: --evidence.",
    );
}

fn row(page: &mut Page, titles: &Titles<'_>, group: &RelationGroup, pad: &str, evidence: bool) {
    let lead = format!("{pad}{} {}", group.han, group.english);
    if evidence {
        page.paragraph(&lead);
        for one in &group.drugs {
            page.paragraph(&format!("{pad}  {}", drug(titles, one)));
            for said in &one.said.statements {
                evidence::relation(page, titles, said);
            }
        }
        return;
    }
    let shown = group.drugs.iter().take(SHOWN);
    let mut words: Vec<String> = shown.map(|one| drug(titles, one)).collect();
    if group.drugs.len() > SHOWN {
        words.push(format!("{} more", group.drugs.len() - SHOWN));
    }
    page.hanging(&lead, INDENT, &words.join(" · "));
}

/// `藜蘆 9 (本草經集注 500)`, which is not broken over lines.
fn drug(titles: &Titles<'_>, drug: &RelatedDrug) -> String {
    let first = drug.said.first.iter().map(|work| titles.with_year(work));
    let first: String = first.map(|first| format!(" ({first})")).collect();
    let doubt = if drug.said.doubtful { " ?" } else { "" };
    let scope = if drug.said.of_scope_only { " °" } else { "" };
    let n = drug.said.works.len();
    format!("{} {n}{scope}{doubt}{first}", drug.name).replace(' ', "\u{a0}")
}
