//! A panel as text.

use super::identity;
use super::page::{Page, Titles, WHOLE, count};
use crate::report::view::{
    AgreementOfPanel, AttributeRef, MadeView, PanelView, RepeatsView, TasterView,
};

use super::panel_books;

/// Many tasters of one herb.
#[must_use]
pub fn panel(mut page: Page, view: &PanelView) -> String {
    let titles = Titles::new(&view.works);
    let english = view.herb.english.iter().map(|name| format!(" · {name}"));
    page.strong(&format!(
        "{} {}{} · a panel of {}",
        view.herb.name,
        view.herb.pinyin,
        english.collect::<String>(),
        count(view.tasters, "taster")
    ));
    read(&mut page, view);
    made(&mut page, &view.made);
    identity::filter(&mut page, &titles, view.filter.as_ref());
    attributes(&mut page, view);
    agreement(&mut page, view);
    tasters(&mut page, &view.beside_others);
    if let Some(repeats) = &view.repeats {
        repeated(&mut page, repeats);
    }
    panel_books::against(&mut page, &view.against_books, panel_books::Whose::Panel);
    identity::foot(&mut page, &titles, &view.heed);
    page.into_text()
}

fn read(page: &mut Page, view: &PanelView) {
    let read = &view.read;
    let mut words = vec![
        format!(
            "{} in {}",
            count(read.counted, "tasting"),
            count(read.files, "file")
        ),
        count(view.cups, "cup"),
    ];
    let more = [
        (read.of_other_herbs, "more of other herbs"),
        (read.not_counted, "without taster or score, not counted"),
        (read.left_out, "left out for a fault"),
        (read.unfilled, "not filled in"),
        (read.passed_over, "passed over (kaoyi taste list)"),
    ];
    for (number, what) in more {
        if number > 0 {
            words.push(format!("{number} {what}"));
        }
    }
    page.paragraph(&words.join("; "));
}

fn made(page: &mut Page, made: &MadeView) {
    let list = |lead: &str, values: &[String], unit: &str| {
        (!values.is_empty()).then(|| format!("{lead}{}{unit}", values.join("; ")))
    };
    let days = match made.dates.as_slice() {
        [] => None,
        [one] => Some(one.clone()),
        [first, .., last] => Some(format!("{first} to {last}")),
    };
    let parts = [
        days,
        list("lot ", &made.lots, ""),
        list("", &made.parts, ""),
        list("", &made.preparations, ""),
        list("", &made.amounts, " g"),
        list("", &made.water, " ml"),
        list("", &made.hours, " h"),
    ];
    let words: Vec<String> = parts.into_iter().flatten().collect();
    page.paragraph(&words.join(" · "));
}

/// `辛 acrid`
pub(super) fn label(attribute: &AttributeRef) -> String {
    match &attribute.han {
        Some(han) => format!("{han} {}", attribute.english),
        None => attribute.english.clone(),
    }
}

/// Points with at most two decimals, halves rounded away from zero as by hand: `6.5`, `0.33`, `6.13`.
pub(super) fn points(value: f64) -> String {
    let words = format!("{:.2}", (value * 100.0).round() / 100.0);
    let words = words.trim_end_matches('0').trim_end_matches('.');
    if words == "-0" { "0" } else { words }.to_owned()
}

fn span((low, high): (f64, f64)) -> String {
    format!("{} to {}", points(low), points(high))
}

fn attributes(page: &mut Page, view: &PanelView) {
    page.heading("WHAT THE PANEL TASTES");
    let shown = view.attributes.iter().filter(|one| one.n > 0);
    let or_none = |value: Option<String>| value.unwrap_or_default();
    let rows = shown.map(|one| {
        vec![
            label(&one.attribute),
            one.n.to_string(),
            or_none(one.median.map(points)),
            or_none(one.quartiles.map(span)),
            or_none(one.range.map(span)),
            or_none(one.deviation.map(points)),
        ]
    });
    let rows: Vec<Vec<String>> = rows.collect();
    if rows.is_empty() {
        page.paragraph("Nobody scored anything.");
        return;
    }
    let header = ["", "n", "median", "middle half", "from", "deviation"];
    page.table(&header, &[WHOLE; 6], rows);
    let unsaid: Vec<String> = view
        .attributes
        .iter()
        .filter(|one| one.n == 0)
        .map(|one| one.attribute.english.clone())
        .collect();
    if !unsaid.is_empty() {
        page.hanging("unsaid", 8, &unsaid.join(", "));
    }
    page.quiet(
        "Points 0 to 10, warmth -5 (cold) to 5 (hot). n: tasters who scored it, each by the mean over their own cups; what a taster left \
         empty is unsaid and not zero. Deviation: the median distance to the median.",
    );
}

fn agreement(page: &mut Page, view: &PanelView) {
    page.heading("AGREEMENT OF THE TASTERS");
    let Some(found) = &view.agreement else {
        let why = view.no_agreement.as_deref().unwrap_or_default();
        page.paragraph(&format!("Cannot be told: {why}."));
        return;
    };
    page.hanging("alpha", 8, &alpha(found));
    page.quiet(
        "Krippendorff's alpha by points: 1 where all score alike, 0 where they agree as by chance. It tells whether tasters tell \
         the strong attributes from the weak ones. Where an herb has little of anything it is low however near the scores are, and one \
         loud attribute alone makes it high: read it beside the deviations.",
    );
}

fn alpha(found: &AgreementOfPanel) -> String {
    let two = |value: f64| format!("{value:.2}");
    let mut words = two(found.alpha);
    match found.interval {
        Some((low, high)) => words.push_str(&format!(" (95 %: {} to {})", two(low), two(high))),
        None => words.push_str(" (no interval: too few attributes)"),
    }
    if let Some((low, high)) = found.without_one {
        words.push_str(&format!(
            "; from {} to {} when one taster is left out",
            two(low),
            two(high)
        ));
    }
    if let Some(ordinal) = found.ordinal {
        words.push_str(&format!("; by ranks {}", two(ordinal)));
    }
    format!(
        "{words}; {} of {}, {}",
        count(found.units, "unit"),
        count(found.attributes, "attribute"),
        count(found.scores, "score")
    )
}

fn tasters(page: &mut Page, tasters: &[TasterView]) {
    if tasters.iter().all(|one| one.distance.is_none()) {
        return;
    }
    page.heading("THE TASTERS BESIDE THE OTHERS");
    let row = |one: &TasterView| {
        let farthest = one.farthest.iter().map(|apart| {
            format!(
                "{} {} (others {})",
                apart.attribute.english,
                points(apart.own),
                points(apart.others)
            )
        });
        let mark = if one.outlying { "! " } else { "" };
        vec![
            format!("{mark}{}", one.taster),
            one.n.to_string(),
            one.distance.map(points).unwrap_or_default(),
            one.lean.map(signed).unwrap_or_default(),
            farthest.collect::<Vec<_>>().join(", "),
        ]
    };
    let rows = tasters.iter().map(row).collect();
    let header = ["taster", "n", "distance", "lean", "farthest"];
    page.table(&header, &[20, WHOLE, WHOLE, WHOLE, 0], rows);
    page.quiet(
        "Distance: mean difference to the median of the others, in points, over n attributes; lean: the same with its sign, + where the \
         taster scores higher. !: out of the common run (the rule: methods, Panel), which may be a finer tongue as well as a coarser one.",
    );
}

fn signed(value: f64) -> String {
    let words = points(value);
    if value > 0.0 && words != "0" {
        format!("+{words}")
    } else {
        words
    }
}

fn repeated(page: &mut Page, repeats: &RepeatsView) {
    page.heading("THE SAME THING TWICE");
    let mut words = format!(
        "{} had the same thing twice or more. Two own cups differ by {} points on average",
        count(repeats.tasters.len(), "taster"),
        points(repeats.within)
    );
    if let Some(between) = repeats.between {
        words.push_str(&format!(
            ", an own cup and another taster's by {}",
            points(between)
        ));
    }
    page.paragraph(&format!("{words}."));
    let row = |one: &crate::report::view::RepeatView| {
        vec![
            one.taster.clone(),
            one.cups.to_string(),
            one.n.to_string(),
            points(one.within),
            one.between.map(points).unwrap_or_default(),
        ]
    };
    let rows = repeats.tasters.iter().map(row).collect();
    let header = ["taster", "cups", "n", "own", "to others"];
    page.table(&header, &[20, WHOLE, WHOLE, WHOLE, WHOLE], rows);
    page.quiet(
        "Mean difference, in points, between two own cups of the same thing and between an own cup and another taster's; n: pairs of own \
         cups times attributes scored in both.",
    );
}
