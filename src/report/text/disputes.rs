//! The most disputed herbs as text.

use super::identity;
use super::page::{Page, Titles, WHOLE, count};
use crate::claim::Facet;
use crate::report::view::{AgreementView, DisputeView, DisputedFacet, DisputesView};
use crate::stats::Interval;

/// The most disputed herbs, and how far the books agree on all.
#[must_use]
pub fn disputes(mut page: Page, view: &DisputesView) -> String {
    let titles = Titles::new(&view.works);
    identity::filter(&mut page, &titles, view.filter.as_ref());
    page.heading("MOST DISPUTED");
    if view.disputes.is_empty() {
        page.paragraph(&format!(
            "No herb has a facet with {} of the works and the kind chosen. Try fewer: --witnesses 2",
            count(view.least_witnesses, "witness")
        ));
    } else {
        table(&mut page, view);
        page.heading("THE TWO STRONGEST SIDES");
        for one in &view.disputes {
            sides(&mut page, one);
        }
    }
    agreement(&mut page, &view.agreement);
    identity::listed_cautions(&mut page, &view.cautions, view.notice);
    page.into_text()
}

fn table(page: &mut Page, view: &DisputesView) {
    let rows = view.disputes.iter().enumerate().map(|(place, one)| {
        let of = |facet: Facet| {
            let found = one.facets.iter().find(|one| one.facet == facet);
            found.map_or_else(String::new, |one| {
                format!("{} ({}/{})", two(one.discord), one.witnesses, one.lines)
            })
        };
        let mut row = vec![
            (place + 1).to_string(),
            format!("{} {}", one.herb.name, one.herb.id),
            two(one.discord),
            one.interval.map_or_else(String::new, interval),
        ];
        row.extend(columns(view).map(of));
        row
    });
    let rows = rows.collect();
    let mut header = vec!["", "herb", "discord", "95 %"];
    header.extend(columns(view).map(Facet::name));
    let mut widths = vec![WHOLE, 0];
    widths.resize(header.len(), WHOLE);
    page.table(&header, &widths, rows);
    page.quiet(&format!(
        "Discord: mean distance of two witnesses, 0 the same, 1 as far apart as can be, over the facets with {} or more. 95 %: \
         witnesses drawn again. In brackets: witnesses/lines. {} qualify.",
        count(view.least_witnesses, "witness"),
        count(view.herbs, "herb")
    ));
}

/// The facets that any herb shown has.
fn columns(view: &DisputesView) -> impl Iterator<Item = Facet> {
    let shown = |facet: &Facet| {
        let mut herbs = view.disputes.iter();
        herbs.any(|herb| herb.facets.iter().any(|one| one.facet == *facet))
    };
    let facets: Vec<Facet> = Facet::ALL.into_iter().filter(shown).collect();
    facets.into_iter()
}

fn sides(page: &mut Page, one: &DisputeView) {
    for facet in one.facets.iter().filter(|facet| facet.discord > 0.0) {
        let lead = format!("{} {}", one.herb.name, facet.facet);
        page.hanging(&lead, 22, &words(facet));
    }
}

fn words(facet: &DisputedFacet) -> String {
    let kinds: Vec<&str> = facet.kinds.iter().map(|kind| kind.word()).collect();
    let sides = facet.sides.iter();
    let sides: Vec<String> = sides
        .map(|side| format!("{} {}", side.label, side.witnesses.len()))
        .collect();
    format!("{}: {}", kinds.join(", "), sides.join(" against "))
}

fn agreement(page: &mut Page, rows: &[AgreementView]) {
    if rows.is_empty() {
        return;
    }
    page.heading("HOW FAR THE BOOKS AGREE ON ALL HERBS");
    let three =
        |value: Option<f64>| value.map_or_else(|| "–".to_owned(), |value| format!("{value:.3}"));
    let mut last = None;
    let cells = rows.iter().map(|row| {
        let facet = if last == Some(row.facet) {
            ""
        } else {
            row.facet.name()
        };
        last = Some(row.facet);
        let period = row.period.as_ref();
        let mut alpha = three(row.alpha);
        if let Some(found) = row.interval {
            alpha = format!("{alpha} ({:.3}–{:.3})", found.low, found.high);
        }
        vec![
            facet.to_owned(),
            period.map_or_else(
                || "all".to_owned(),
                |period| format!("{} {}", period.han, period.pinyin),
            ),
            row.herbs.to_string(),
            row.stands.to_string(),
            three(row.alpha_nominal),
            alpha,
            row.undefined.unwrap_or_default().to_owned(),
        ]
    });
    page.table(
        &[
            "facet",
            "works",
            "herbs",
            "stands",
            "same or not",
            "by distance",
            "",
        ],
        &[WHOLE, 0, WHOLE, WHOLE, WHOLE, WHOLE, 0],
        cells.collect(),
    );
    page.quiet(
        "Krippendorff's alpha: 1 perfect agreement, 0 what chance would give. It counts books, and books copy each other: read it \
         as how alike the books are, not as how right.",
    );
}

fn two(value: f64) -> String {
    format!("{value:.2}")
}

fn interval(interval: Interval) -> String {
    format!("{}–{}", two(interval.low), two(interval.high))
}
