//! The works beside each other, as text.

use super::identity;
use super::page::{Page, Titles, WHOLE, count};
use crate::report::view::{AffinityView, ExampleView, PairView, RecordedDebt};

/// How many pairs a list shows.
const SHOWN: usize = 20;

/// The works beside each other; or one among the others.
#[must_use]
pub fn affinity(mut page: Page, view: &AffinityView) -> String {
    let titles = Titles::new(&view.works);
    identity::filter(&mut page, &titles, view.filter.as_ref());
    if view.pairs.is_empty() {
        page.paragraph(&format!(
            "No two works of those chosen take {} on the same herbs. Try fewer: --shared 10",
            count(view.least_shared, "stand")
        ));
        return page.into_text();
    }
    match &view.work {
        Some(work) => of_one(&mut page, &titles, view, work),
        None => of_all(&mut page, &titles, view),
    }
    page.quiet(&format!(
        "Counted: stands on {} of herbs that both treat, {} at least. Rate: the share of its stands that the younger seems to take \
         from the older; likely: the probability that it follows at all. A common source looks like a debt: read it as a \
         hint, with the examples (kaoyi affinity WORK).",
        view.facets.iter().map(|facet| facet.name()).collect::<Vec<_>>().join(", "),
        view.least_shared
    ));
    page.into_text()
}

fn of_all(page: &mut Page, titles: &Titles<'_>, view: &AffinityView) {
    page.heading("AGREEMENT IN HUNDREDTHS");
    matrix(page, titles, view);
    page.heading("WHO STANDS NEAR WHOM");
    tree(page, titles, view);
    page.heading("WHO SEEMS TO FOLLOW WHOM");
    let pairs: Vec<&PairView> = view.pairs.iter().take(SHOWN).collect();
    let rows = pairs.iter().map(|pair| {
        vec![
            titles.with_year(&pair.younger),
            titles.with_year(&pair.older),
            format!("{:.2}", pair.rate),
            likely(pair),
            format!("{}/{}", pair.same, pair.shared),
            on_record(pair),
        ]
    });
    let header = ["younger", "older", "rate", "likely", "same", "on record"];
    page.table(
        &header,
        &[WHOLE, WHOLE, WHOLE, WHOLE, WHOLE, 0],
        rows.collect(),
    );
    if view.pairs.len() > SHOWN {
        page.quiet(&format!(
            "and {} more pairs (--json)",
            view.pairs.len() - SHOWN
        ));
    }
}

fn matrix(page: &mut Page, titles: &Titles<'_>, view: &AffinityView) {
    let numbers: Vec<String> = (1..=view.matrix_works.len())
        .map(|n| n.to_string())
        .collect();
    let rows = view.matrix.iter().enumerate().map(|(place, row)| {
        let mut cells = vec![
            numbers[place].clone(),
            titles.title(&view.matrix_works[place]),
        ];
        // The lower half says all.
        cells.extend(
            row.iter()
                .take(place)
                .map(|value| format!("{:.0}", (value * 100.0).min(99.4))),
        );
        cells.resize(view.matrix_works.len() + 2, String::new());
        cells
    });
    let mut header = vec!["", ""];
    header.extend(numbers.iter().map(String::as_str));
    let last = header.len() - 1;
    page.table(
        &header[..last],
        &vec![WHOLE; last],
        rows.map(|mut row| row.drain(..last).collect()).collect(),
    );
}

/// The clustering as a tree: each fork with the mean distance of its two sides.
fn tree(page: &mut Page, titles: &Titles<'_>, view: &AffinityView) {
    let works = view.matrix_works.len();
    let Some(last) = view.clustering.len().checked_sub(1) else {
        page.paragraph("One work alone.");
        return;
    };
    let mut text = String::new();
    branch(&mut text, titles, view, works + last, "", "");
    page.raw(&text);
}

fn branch(
    text: &mut String,
    titles: &Titles<'_>,
    view: &AffinityView,
    cluster: usize,
    lead: &str,
    under: &str,
) {
    let works = view.matrix_works.len();
    if cluster < works {
        text.push_str(&format!(
            "{lead} {}\n",
            titles.with_year(&view.matrix_works[cluster])
        ));
        return;
    }
    let merge = &view.clustering[cluster - works];
    text.push_str(&format!("{lead}┬ {:.2}\n", merge.height));
    let (first, second) = merge.clusters;
    branch(
        text,
        titles,
        view,
        first,
        &format!("{under}├─"),
        &format!("{under}│ "),
    );
    branch(
        text,
        titles,
        view,
        second,
        &format!("{under}└─"),
        &format!("{under}  "),
    );
}

fn of_one(page: &mut Page, titles: &Titles<'_>, view: &AffinityView, work: &str) {
    page.strong(&titles.dated(work));
    let mut near: Vec<&PairView> = view.pairs.iter().collect();
    near.sort_by(|a, b| b.agreement.total_cmp(&a.agreement));
    page.heading("NEAREST");
    let other = |pair: &PairView| {
        if pair.older == work {
            pair.younger.clone()
        } else {
            pair.older.clone()
        }
    };
    let rows = near.iter().take(10).map(|pair| {
        vec![
            titles.with_year(&other(pair)),
            format!("{:.0} %", pair.agreement * 100.0),
            format!("{}/{}", pair.same, pair.shared),
        ]
    });
    page.table(
        &["work", "agreement", "same"],
        &[0, WHOLE, WHOLE],
        rows.collect(),
    );
    let (follows, followed): (Vec<&PairView>, Vec<&PairView>) =
        view.pairs.iter().partition(|pair| pair.younger == work);
    for (heading, pairs) in [
        ("SEEMS TO FOLLOW", follows),
        ("SEEMS TO BE FOLLOWED BY", followed),
    ] {
        let likely_ones: Vec<&PairView> = pairs
            .into_iter()
            .filter(|pair| pair.probability >= 0.5)
            .take(8)
            .collect();
        if !likely_ones.is_empty() {
            page.heading(heading);
        }
        for pair in likely_ones {
            let words = format!(
                "rate {:.2}, {}, {} of {} the same; on record: {}",
                pair.rate,
                likely(pair),
                pair.same,
                pair.shared,
                on_record(pair)
            );
            page.hanging(&titles.with_year(&other(pair)), 24, &words);
            let examples: Vec<String> = pair.examples.iter().map(example).collect();
            if !examples.is_empty() {
                page.hanging(
                    "",
                    24,
                    &format!("hardly another says: {}", examples.join("; ")),
                );
            }
        }
    }
}

fn example(one: &ExampleView) -> String {
    let values: Vec<&str> = one
        .values
        .iter()
        .map(|value| value.english.as_str())
        .collect();
    format!("{} {}", one.herb.name, values.join(", "))
}

fn likely(pair: &PairView) -> String {
    match pair.probability {
        p if p >= 0.9995 => "> 0.999".to_owned(),
        p => format!("{p:.3}"),
    }
}

fn on_record(pair: &PairView) -> String {
    let either = if pair.order_known {
        ""
    } else {
        "; perhaps the other way"
    };
    format!("{}{either}", debt(pair.recorded))
}

const fn debt(recorded: RecordedDebt) -> &'static str {
    match recorded {
        RecordedDebt::Direct => "yes",
        RecordedDebt::ThroughOthers => "through others",
        RecordedDebt::None => "no",
    }
}
