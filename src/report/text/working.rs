//! The working behind a profile as text: what one would write on paper.

use super::page::{Page, Titles, count};
use crate::claim::{Facet, Share};
use crate::report::view::{FacetProfile, SupportView, WorkedValue, WorkingView};

/// The working of every facet; `profiles` are the figures that it leads to.
pub(super) fn working(
    page: &mut Page,
    titles: &Titles<'_>,
    workings: &[WorkingView],
    profiles: &[FacetProfile],
) {
    if workings.is_empty() {
        return;
    }
    page.heading("THE WORKING");
    page.quiet(
        "Rules 3, 6 and 15 to 18 of the methods. A witness that repeats a work from which it descends stands in that \
         work's line; every other begins one. k of n: witnesses; j of m: lines.",
    );
    for one in workings {
        page.raw("\n");
        let profile = profiles.iter().find(|profile| profile.facet == one.facet);
        let worked = worked(titles, one, profile);
        page.strong(&worked.head);
        for (lead, words) in &worked.rows {
            page.hanging(&format!("  {lead}"), 28, words);
        }
    }
}

/// The working of a facet in words.
pub(crate) struct Worked {
    /// Facet, witnesses and lines.
    pub head: String,
    /// What stands on the left of each row, and what is told of it.
    pub rows: Vec<(String, String)>,
}

/// The working of a facet; `profile` holds the figures that it leads to.
pub(crate) fn worked(
    titles: &Titles<'_>,
    working: &WorkingView,
    profile: Option<&FacetProfile>,
) -> Worked {
    if working.facet == Facet::Action {
        let row = |value: &WorkedValue| {
            let (works, lines) = (count(value.n, "work"), count(value.m, "line"));
            let words = format!("{works} in {lines}: {}", titles.list(&value.by));
            (value.value.english.clone(), words)
        };
        return Worked {
            head: "action, each with its own lines".to_owned(),
            rows: working.values.iter().map(row).collect(),
        };
    }
    let mut worked = facet(titles, working);
    for value in &working.values {
        let figures = profile.and_then(|profile| figures(profile, value));
        worked.rows.push(support(titles, working, value, figures));
    }
    worked.rows.extend(scale(working));
    worked
}

fn facet(titles: &Titles<'_>, working: &WorkingView) -> Worked {
    let lines = working.stands.iter().map(|stand| stand.line).max();
    let mut rows = Vec::new();
    for stand in &working.stands {
        let values = stand.values.iter().map(|value| value.english.as_str());
        let values: Vec<&str> = values.collect();
        let descent = match &stand.repeats {
            Some(work) => format!("line {}, repeats {}", stand.line, titles.title(work)),
            None => format!("begins line {}", stand.line),
        };
        let words = format!("{}; {descent}", values.join(", "));
        rows.push((titles.with_year(&stand.work), words));
    }
    Worked {
        head: format!(
            "{}: n = {}, m = {}",
            working.facet,
            working.stands.len(),
            lines.unwrap_or_default()
        ),
        rows,
    }
}

fn figures<'p>(profile: &'p FacetProfile, value: &WorkedValue) -> Option<&'p SupportView> {
    let mut all = profile.values.iter();
    all.find(|one| one.value.id == value.value.id && one.any_degree == value.any_degree)
}

fn support(
    titles: &Titles<'_>,
    working: &WorkingView,
    value: &WorkedValue,
    figures: Option<&SupportView>,
) -> (String, String) {
    let (k, n) = (value.by.len(), value.n);
    let numbers: Vec<String> = value.lines.iter().map(ToString::to_string).collect();
    let mut words = format!(
        "k = {k} of {n}: {}; j = {} of {}: line{} {}",
        titles.list(&value.by),
        value.lines.len(),
        value.m,
        if numbers.len() == 1 { "" } else { "s" },
        numbers.join(", ")
    );
    if let Some(SupportView {
        low: Some(low),
        high: Some(high),
        ..
    }) = figures
        && let Some(terms) = value.wilson
    {
        words.push_str(&format!(
            "; 95 %: ({:.4} ± {:.4}) / {:.4} = {low:.4} to {high:.4}, with p = {:.4} and z = {:.6}",
            terms.centre, terms.half, terms.scale, terms.p, terms.z
        ));
    }
    if let Some(verdict) = figures.and_then(|one| one.verdict) {
        let share = k as f64 / n.max(1) as f64;
        words.push_str(&format!(
            "; {k}/{n} = {share:.3}: {} (mostly yes from {}, mostly no up to {})",
            verdict.word(),
            fraction(working.mostly),
            fraction(working.mostly_not)
        ));
    }
    let degree = if value.any_degree { ", any degree" } else { "" };
    (format!("{}{degree}", value.value.english), words)
}

fn fraction(share: Share) -> String {
    format!("{}/{}", share.part, share.of)
}

/// The values in order of the scale, with the places that are read off.
fn scale(working: &WorkingView) -> Option<(String, String)> {
    let n = working.scale.len();
    if n == 0 {
        return None;
    }
    let mut runs: Vec<(&str, usize)> = Vec::new();
    for value in &working.scale {
        match runs.last_mut() {
            Some((word, times)) if *word == value.english => *times += 1,
            _ => runs.push((&value.english, 1)),
        }
    }
    let runs: Vec<String> = runs
        .iter()
        .map(|(word, times)| format!("{word} ×{times}"))
        .collect();
    let at = |place: usize| format!("place {place} {}", working.scale[place - 1].english);
    let median = if n % 2 == 1 {
        at(n.div_ceil(2))
    } else {
        format!("{} and {}", at(n / 2), at(n / 2 + 1))
    };
    let words = format!(
        "{}: {n} values; median {median}; middle half from {} to {}",
        runs.join(", "),
        at(n.div_ceil(4)),
        at((3 * n).div_ceil(4))
    );
    Some(("in order of the scale".to_owned(), words))
}
