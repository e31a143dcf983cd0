//! The comparison as text.

use super::page::{Page, Titles, WHOLE, count, short_year};
use super::{actions, differences, evidence, identity, own, profile, relations, working};
use crate::claim::Facet;
use crate::report::view::{ComparisonView, StandView, WitnessRow};

/// From this width on the table has room for Han labels and for the grade.
const WIDE: usize = 110;

/// A comparison; with `evidence` the wording and place of every cell.
#[must_use]
pub fn comparison(mut page: Page, view: &ComparisonView, evidence: bool) -> String {
    let titles = Titles::new(&view.works);
    identity::head(&mut page, &view.herb);
    identity::filter(&mut page, &titles, view.filter.as_ref());
    sources(&mut page, &titles, view);
    if evidence {
        evidence::rows(&mut page, &titles, &view.witnesses);
        evidence::lines(&mut page, &titles, &view.witnesses);
    }
    if !view.differences.is_empty() {
        page.heading("WHERE THEY AGREE AND DIFFER");
        differences::differences(&mut page, &titles, &view.differences);
    }
    actions::actions(&mut page, &titles, view, evidence);
    relations::relations(&mut page, &titles, view.relations.as_ref(), evidence);
    profile::facets(&mut page, &titles, &view.profile);
    working::working(&mut page, &titles, &view.working, &view.profile);
    identity::foot(&mut page, &titles, &view.heed);
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
    .filter(|facet| *facet != Facet::Grade || wide || chosen(view, Facet::Grade))
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
    let rows = rows.map(|row| cells(titles, row, &facets, wide));
    let rows = rows.chain(own_row(view, &facets)).collect();
    let mut upper = vec![WHOLE, if wide { 0 } else { WHOLE }];
    upper.extend(facets.iter().map(|facet| width(*facet, wide)));
    page.table(&header, &upper, rows);
    if !view.on_actions_only.is_empty() {
        page.hanging("On actions only:", 17, &titles.list(&view.on_actions_only));
    }
    agreement(page, view);
    page.quiet(
        "Year: the latest of the work's date. – silent in its article; blank: not quoted on it; \
         < known through; (…) said of that only, not counted; ° more on a part or preparation; ≠ carriers differ; \
         ? doubtful; * your own folder. Wordings, places and lines: --evidence.",
    );
}

/// The widest that a facet's column may be; 0 for as wide as there is room.
const fn width(facet: Facet, wide: bool) -> u16 {
    match facet {
        _ if wide => 0,
        Facet::Flavour | Facet::Channel | Facet::Action => 20,
        Facet::Nature => 15,
        Facet::Toxicity | Facet::Grade => 12,
    }
}

/// Whether the facet was asked for by name: then the view does not hold all the facets.
fn chosen(view: &ComparisonView, facet: Facet) -> bool {
    let facets: Vec<Facet> = view.profile.iter().map(|profile| profile.facet).collect();
    facets.contains(&facet) && facets.len() < Facet::ALL.len() - 1
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
        let carriers: Vec<String> = row.through.iter().map(|id| titles.title(id)).collect();
        title.push_str(&format!("\n< {}", carriers.join("\n  ")));
    }
    let year = work.map_or_else(String::new, |work| {
        if wide {
            work.date.clone()
        } else {
            short_year(work)
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

/// The own tastings as the last row; the books are counted without them.
fn own_row(view: &ComparisonView, facets: &[Facet]) -> Option<Vec<String>> {
    let own = view.own.as_ref()?;
    let of = |facet: &Facet| match facet {
        Facet::Flavour => own::flavours(own),
        Facet::Nature => own::warmth(own),
        _ => String::new(),
    };
    let stands: Vec<String> = facets.iter().map(of).collect();
    let year = own.last.split('-').next().unwrap_or_default();
    let mut cells = vec![
        year.to_owned(),
        format!("{}\n(not counted)", count(own.tastings, "own tasting")),
    ];
    cells.extend(stands);
    cells[2..]
        .iter()
        .any(|cell| !cell.is_empty())
        .then_some(cells)
}

fn cell(stand: &StandView, wide: bool) -> String {
    let mut text = stand.text.clone();
    if wide {
        let han: String = stand
            .values
            .iter()
            .map(|value| value.han.as_str())
            .collect::<Vec<_>>()
            .join("、");
        text = format!("{han} {text}").trim_start().to_owned();
    }
    if stand.line.is_some() && stand.statements.iter().any(|one| one.scope.is_some()) {
        text.push_str("\u{a0}°");
    }
    if stand.carriers_differ {
        text.push_str("\u{a0}≠");
    }
    if stand
        .statements
        .iter()
        .any(|statement| statement.counted && statement.doubt.is_some())
    {
        text.push_str("\u{a0}?");
    }
    text
}

/// One compact line a facet: how many witnesses state what.
fn agreement(page: &mut Page, view: &ComparisonView) {
    for profile in view.profile.iter().filter(|profile| profile.witnesses > 0) {
        let values = profile.values.iter().filter(|one| !one.any_degree);
        let values = values.map(|one| format!("{} {}", one.value.english, one.k));
        let words = format!(
            "{} ({} in {})",
            values.collect::<Vec<_>>().join(" · "),
            count(profile.witnesses, "witness"),
            count(profile.lines, "line"),
        );
        page.hanging(profile.facet.name(), 10, &words);
    }
}
