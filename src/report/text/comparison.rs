//! The comparison as text.

use super::page::{Page, Titles, WHOLE, count};
use super::{differences, evidence, identity, profile};
use crate::claim::Facet;
use crate::report::view::{ComparisonView, ConceptView, StandView, WitnessRow};

/// From this width on the table has room for Han labels and for the grade.
const WIDE: usize = 110;
/// Column at which the works that state an action begin.
const ACTION_INDENT: usize = 34;

/// A comparison; with `evidence` the wording and place of every cell.
#[must_use]
pub fn comparison(mut page: Page, view: &ComparisonView, evidence: bool) -> String {
    let titles = Titles::new(&view.works);
    identity::head(&mut page, &view.herb);
    sources(&mut page, &titles, view);
    if evidence {
        page.heading("EVIDENCE");
        view.witnesses
            .iter()
            .for_each(|row| row_evidence(&mut page, &titles, row));
    }
    if !view.differences.is_empty() {
        page.heading("WHERE THEY AGREE AND DIFFER");
        differences::differences(&mut page, &titles, &view.differences);
    }
    actions(&mut page, &titles, view);
    profile::facets(&mut page, &titles, &view.profile);
    identity::foot(&mut page, &view.cautions, view.notice);
    page.into_text()
}

fn sources(page: &mut Page, titles: &Titles<'_>, view: &ComparisonView) {
    // Asked for actions alone, the page has no table: its sources stand beside the actions.
    if view.witnesses.is_empty() && !view.actions.is_empty() {
        return;
    }
    page.heading("THE SOURCES, OLDEST FIRST");
    if view.witnesses.is_empty() {
        page.paragraph("No work takes a stand on the facets and in the years asked for.");
        return;
    }
    let wide = page.width() >= WIDE;
    let facets: Vec<Facet> = [
        Facet::Flavour,
        Facet::Nature,
        Facet::Toxicity,
        Facet::Grade,
        Facet::Channel,
    ]
    .into_iter()
    .filter(|facet| *facet != Facet::Grade || wide || only(view, Facet::Grade))
    .filter(|facet| {
        view.witnesses
            .iter()
            .any(|row| row.stands.contains_key(facet))
    })
    .collect();
    let mut header = vec!["year", "work"];
    header.extend(facets.iter().map(|facet| facet.name()));
    let rows = view
        .witnesses
        .iter()
        .filter(|row| facets.iter().any(|facet| row.stands.contains_key(facet)));
    let rows = rows.map(|row| cells(titles, row, &facets, wide)).collect();
    let upper: &[u16] = if wide {
        &[0, 0, 34, 24, 18, 16]
    } else {
        &[WHOLE, WHOLE, 20, 15, 10, 20]
    };
    page.table(&header, upper, rows);
    if !view.on_actions_only.is_empty() {
        page.hanging("On actions only:", 17, &titles.list(&view.on_actions_only));
    }
    agreement(page, view);
    page.quiet(
        "– silent though it has an article; < known through; (…) said of that only, not counted; \
         ≠ carriers differ; ? doubtful; * your own folder. Wordings and places: --evidence.",
    );
}

/// Whether the view holds no facet but `facet`.
fn only(view: &ComparisonView, facet: Facet) -> bool {
    view.profile.iter().all(|profile| profile.facet == facet)
}

fn cells(titles: &Titles<'_>, row: &WitnessRow, facets: &[Facet], wide: bool) -> Vec<String> {
    let work = titles.work(&row.work);
    let mut title = work.map_or_else(String::new, |work| work.title.clone());
    if wide && let Some(work) = work {
        title.push_str(&format!(" {}", work.pinyin));
    }
    if row.user {
        title.push_str(" *");
    }
    if !row.through.is_empty() {
        let carriers: Vec<&str> = row.through.iter().map(|id| titles.title(id)).collect();
        title.push_str(&format!("\n< {}", carriers.join("\n  ")));
    }
    let year = work.map_or_else(String::new, |work| {
        if wide {
            work.date.clone()
        } else {
            short_year(work.year, &work.date)
        }
    });
    let mut cells = vec![year, title];
    cells.extend(facets.iter().map(|facet| match row.stands.get(facet) {
        Some(stand) => cell(stand, wide),
        None if row.silent.contains(facet) => "–".to_owned(),
        None => String::new(),
    }));
    cells
}

/// The year by which the work is ordered, with `c.` or `by` where the date has it.
fn short_year(year: i32, date: &str) -> String {
    match date.split_once(' ') {
        Some((lead @ ("c." | "by"), _)) => format!("{lead} {year}"),
        _ => year.to_string(),
    }
}

fn cell(stand: &StandView, wide: bool) -> String {
    let mut text = stand.text.clone();
    if wide {
        let han: String = stand
            .values
            .iter()
            .map(|value| value.han.as_str())
            .collect::<Vec<_>>()
            .join("");
        text = format!("{han} {text}");
    }
    if stand.carriers_differ {
        text.push_str(" ≠");
    }
    if stand
        .statements
        .iter()
        .any(|statement| statement.counted && statement.doubt.is_some())
    {
        text.push_str(" ?");
    }
    text
}

/// One compact line a facet: how many witnesses state what.
fn agreement(page: &mut Page, view: &ComparisonView) {
    for profile in view.profile.iter().filter(|profile| profile.witnesses > 0) {
        let values = profile
            .values
            .iter()
            .map(|one| format!("{} {}", one.value.english, one.k));
        let words = format!(
            "{} ({} in {})",
            values.collect::<Vec<_>>().join(" · "),
            count(profile.witnesses, "witness"),
            count(profile.lines, "line"),
        );
        page.hanging(profile.facet.name(), 10, &words);
    }
}

fn row_evidence(page: &mut Page, titles: &Titles<'_>, row: &WitnessRow) {
    page.paragraph(&titles.dated(&row.work));
    for (facet, stand) in &row.stands {
        for one in &stand.statements {
            evidence::statement(page, titles, &format!("  {facet:<9}"), one);
        }
    }
}

fn actions(page: &mut Page, titles: &Titles<'_>, view: &ComparisonView) {
    if view.actions.is_empty() {
        return;
    }
    page.heading("WHAT IT IS SAID TO DO");
    let (shared, single): (Vec<&ConceptView>, Vec<&ConceptView>) = view
        .actions
        .iter()
        .partition(|one| one.witnesses.len() + one.of_scope_only.len() > 1);
    for concept in shared {
        page.hanging(&lead(concept), ACTION_INDENT, &named(titles, concept));
    }
    if !single.is_empty() {
        let words = single.iter().map(|one| {
            let by = one
                .witnesses
                .first()
                .or(one.of_scope_only.first())
                .map_or("", |id| titles.title(id));
            format!("{} {} ({by})", one.action.han, one.action.english)
        });
        page.hanging("one work each", 15, &words.collect::<Vec<_>>().join("; "));
    }
    page.quiet("Works in lines of transmission; ° of a part, preparation or kind only. Silence on an action means nothing.");
    if !view.opposed.is_empty() {
        page.heading("SAID TO DO, AND SAID TO DO THE CONTRARY");
        for pair in &view.opposed {
            page.hanging(
                &lead(&pair.stronger),
                ACTION_INDENT,
                &named(titles, &pair.stronger),
            );
            page.hanging(
                &lead(&pair.weaker),
                ACTION_INDENT,
                &named(titles, &pair.weaker),
            );
            if !pair.both.is_empty() {
                page.hanging("  both", ACTION_INDENT, &titles.list(&pair.both));
            }
        }
        page.quiet("Such a pair is often both true: of another dose, part, preparation or partner (common practice).");
    }
}

fn lead(concept: &ConceptView) -> String {
    format!("{} {}", concept.action.han, concept.action.english)
}

fn named(titles: &Titles<'_>, concept: &ConceptView) -> String {
    let mut works: Vec<(i32, String)> = Vec::new();
    for (ids, sign) in [(&concept.witnesses, ""), (&concept.of_scope_only, "°")] {
        works.extend(
            ids.iter()
                .filter_map(|id| titles.work(id))
                .map(|work| (work.year, format!("{}{sign}", work.title))),
        );
    }
    works.sort_by_key(|(year, _)| *year);
    let titles = works
        .iter()
        .map(|(_, title)| title.as_str())
        .collect::<Vec<_>>()
        .join(", ");
    format!("{} in {}: {titles}", works.len(), concept.lines)
}
