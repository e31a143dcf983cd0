//! Actions as text, and the opposed ones.

use super::evidence;
use super::page::{Page, Titles};
use crate::report::view::{ComparisonView, ConceptView, ReconciledView};

/// Column at which the works that state an action begin.
const INDENT: usize = 34;

/// The actions with their works, those of one work each in a row; with `show_evidence` the wording and
/// place of every statement.
pub(super) fn actions(
    page: &mut Page,
    titles: &Titles<'_>,
    view: &ComparisonView,
    show_evidence: bool,
) {
    if view.actions.is_empty() {
        return;
    }
    page.heading("WHAT IT IS SAID TO DO");
    let several =
        |one: &&ConceptView| show_evidence || one.witnesses.len() + one.of_scope_only.len() > 1;
    let (shared, single): (Vec<&ConceptView>, Vec<&ConceptView>) =
        view.actions.iter().partition(several);
    for concept in shared {
        page.hanging(&lead(concept), INDENT, &works(titles, concept));
        if show_evidence {
            for one in &concept.statements {
                evidence::action(page, titles, one);
            }
        }
    }
    if !single.is_empty() {
        let words: Vec<String> = single.iter().map(|one| by_one_work(titles, one)).collect();
        page.hanging("one work each", 15, &words.join("; "));
    }
    page.quiet("Works, and in how many lines of transmission. Silence on an action means nothing.");
    opposed(page, titles, view);
}

fn by_one_work(titles: &Titles<'_>, concept: &ConceptView) -> String {
    let by = match (concept.witnesses.first(), concept.of_scope_only.first()) {
        (Some(work), _) => titles.title(work).to_owned(),
        (None, Some(work)) => format!("{}, of a part or preparation", titles.title(work)),
        (None, None) => String::new(),
    };
    format!("{} ({by})", lead(concept))
}

fn opposed(page: &mut Page, titles: &Titles<'_>, view: &ComparisonView) {
    if view.opposed.is_empty() {
        return;
    }
    page.heading("SAID TO DO, AND SAID TO DO THE CONTRARY");
    for pair in &view.opposed {
        page.hanging(
            &lead(&pair.stronger),
            INDENT,
            &works(titles, &pair.stronger),
        );
        page.hanging(&lead(&pair.weaker), INDENT, &works(titles, &pair.weaker));
        let both = [
            ("  both", &pair.both),
            ("  both, one of a part", &pair.both_by_scope),
        ];
        for (lead, works) in both.into_iter().filter(|(_, works)| !works.is_empty()) {
            page.hanging(lead, INDENT, &titles.list(works));
        }
        let words: Vec<String> = pair
            .reconciled
            .iter()
            .map(|one| reconciled(titles, one))
            .collect();
        if !words.is_empty() {
            page.hanging("  told apart by", INDENT, &words.join("; "));
        }
    }
    page.quiet(
        "Such a pair is often both true: of another dose, part, preparation or partner (common practice, no source).",
    );
}

/// `stops sweating of the root: 藥性論`, `promotes sweating 「得桂枝則發汗」: 本草綱目`
fn reconciled(titles: &Titles<'_>, one: &ReconciledView) -> String {
    let scope = one.scope.iter().map(|scope| format!(" of {scope}"));
    let partner = one.partner.iter().map(|words| format!(" 「{words}」"));
    let how: String = scope.chain(partner).collect();
    let works = match one.works.len() {
        n @ 4.. => format!("{n} works"),
        _ => titles.list(&one.works),
    };
    format!("{}{how}: {works}", one.action.english)
}

fn lead(concept: &ConceptView) -> String {
    format!("{} {}", concept.action.han, concept.action.english)
}

/// `9 in 5: 藥性論, 新修本草; of a part or preparation: 食療本草`
fn works(titles: &Titles<'_>, concept: &ConceptView) -> String {
    let whole = format!(
        "{} in {}: {}",
        concept.witnesses.len(),
        concept.lines,
        titles.list(&concept.witnesses)
    );
    let of_scope = format!(
        "of a part or preparation: {}",
        titles.list(&concept.of_scope_only)
    );
    match (
        concept.witnesses.is_empty(),
        concept.of_scope_only.is_empty(),
    ) {
        (_, true) => whole,
        (true, false) => of_scope,
        (false, false) => format!("{whole}; {of_scope}"),
    }
}
