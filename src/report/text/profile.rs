//! The consensus profile as text.

use super::page::{Page, Titles, WHOLE, count};
use super::{identity, own, weighted, working};
use crate::claim::Facet;
use crate::report::view::{FacetProfile, ProfileView, SupportView, ValueRef};

/// How many actions the card shows; the comparison shows all.
const ACTIONS: usize = 12;

/// The card of an herb.
#[must_use]
pub fn profile(mut page: Page, view: &ProfileView) -> String {
    let titles = Titles::new(&view.works);
    identity::head(&mut page, &view.herb);
    identity::filter(&mut page, &titles, view.filter.as_ref());
    if view.profile.is_empty() && view.actions.is_empty() {
        page.paragraph("No work takes a stand among those chosen.");
    }
    facets(&mut page, &titles, &view.profile);
    own::row(&mut page, view.own.as_ref());
    if !view.actions.is_empty() {
        page.heading("ACTIONS MOST STATED");
        for one in view.actions.iter().filter(|one| one.k > 0).take(ACTIONS) {
            let mut words = format!("{} in {}", count(one.k, "work"), count(one.j, "line"));
            if one.of_scope_only > 0 {
                words.push_str(&format!(
                    "; of a part or preparation {} more",
                    one.of_scope_only
                ));
            }
            if one.opposed > 0 {
                words.push_str(&format!("; the contrary in {}", count(one.opposed, "work")));
            }
            page.hanging(
                &format!("{} {}", one.action.han, one.action.english),
                36,
                &words,
            );
        }
        if view.actions.len() > ACTIONS {
            page.quiet(&format!(
                "and {} more: kaoyi compare {}",
                view.actions.len() - ACTIONS,
                view.herb.id
            ));
        }
    }
    weighted::found_debts(&mut page, &titles, view);
    weighted::weighted(&mut page, &titles, &view.weighted);
    working::working(&mut page, &titles, &view.working, &view.profile);
    identity::foot(&mut page, &titles, &view.heed);
    page.into_text()
}

/// The table of supports and the lines on the ordered facets.
pub(super) fn facets(page: &mut Page, titles: &Titles<'_>, profiles: &[FacetProfile]) {
    let empty = |one: &FacetProfile| one.witnesses == 0 && one.severest.is_empty();
    if profiles.iter().all(empty) {
        return;
    }
    page.heading("CONSENSUS PROFILE");
    let mut rows = Vec::new();
    for profile in profiles {
        for (place, support) in profile.values.iter().enumerate() {
            let facet = if place == 0 { profile.facet.name() } else { "" };
            rows.push(row(titles, facet, profile, support));
        }
    }
    // Eight columns are too many for a page: the lines along found debts stand where the interval stands else.
    let found = profiles.iter().any(|profile| profile.found_lines.is_some());
    let fifth = if found { "found" } else { "95 %" };
    let header = [
        "facet", "value", "books", "lines", fifth, "first in", "verdict",
    ];
    let upper = [WHOLE, WHOLE, WHOLE, WHOLE, WHOLE, 20, WHOLE];
    if !rows.is_empty() {
        page.table(&header, &upper, rows);
    }
    for profile in profiles
        .iter()
        .filter(|profile| profile.facet != Facet::Grade)
    {
        if let Some(words) = middle(titles, profile) {
            page.hanging(profile.facet.name(), 10, &words);
        }
    }
    page.quiet(if found {
        "Books: k of n witnesses. Lines: independent lines of transmission along recorded debts; found: along these and \
         the debts that the books' stands suggest."
    } else {
        "Books: k of n witnesses. Lines: independent lines of transmission. 95 %: Wilson interval for books, in \
         percent; none where a list is open."
    });
}

fn row(
    titles: &Titles<'_>,
    facet: &str,
    profile: &FacetProfile,
    support: &SupportView,
) -> Vec<String> {
    let interval = match (support.low, support.high) {
        (Some(low), Some(high)) => format!("{:.0}–{:.0}", low * 100.0, high * 100.0),
        _ => String::new(),
    };
    // A degree that stands under its value is set in.
    let value = match (support.any_degree, support.verdict) {
        (true, _) => format!("{}, any degree", support.value.english),
        (false, None) => format!("  {}", support.value.english),
        (false, Some(_)) => support.value.english.clone(),
    };
    let fifth = match (support.found_lines, profile.found_lines) {
        (Some(of), Some(all)) => format!("{of}/{all}"),
        _ => interval,
    };
    vec![
        facet.to_owned(),
        value,
        format!("{}/{}", support.k, support.n),
        format!("{}/{}", support.j, support.m),
        fifth,
        titles.with_year(&support.first),
        support
            .verdict
            .map_or("", |verdict| verdict.word())
            .to_owned(),
    ]
}

/// For ordered facets: median, spread, commonest, and who states the highest.
fn middle(titles: &Titles<'_>, profile: &FacetProfile) -> Option<String> {
    let list = |values: &[ValueRef], between: &str| {
        values
            .iter()
            .map(|value| value.english.as_str())
            .collect::<Vec<_>>()
            .join(between)
    };
    let mut words = Vec::new();
    if let [lowest, highest] = profile.range.as_slice() {
        words.push(format!("median {}", list(&profile.median, " to ")));
        if lowest != highest {
            if profile.quartiles.first() != profile.quartiles.last() {
                words.push(format!("middle half {}", list(&profile.quartiles, " to ")));
            }
            words.push(format!(
                "all from {} to {}",
                lowest.english, highest.english
            ));
        }
    }
    if profile.facet == Facet::Toxicity && !profile.commonest.is_empty() {
        words.push(format!("commonest {}", list(&profile.commonest, " and ")));
    }
    for (place, severest) in profile.severest.iter().enumerate() {
        let lead = if place == 0 {
            "most severe here"
        } else {
            "of the herb as such"
        };
        // Who calls it harmless stands in the table; who warns stands here.
        words.push(if severest.harmful {
            format!("{lead} {}", identity::severest(titles, severest))
        } else {
            format!("{lead} {}", severest.value.english)
        });
    }
    (!words.is_empty()).then(|| words.join("; "))
}
