//! Two herbs beside each other, as text.

use super::identity;
use super::page::{Page, Titles, WHOLE};
use super::together;
use crate::report::view::{ActionAgainst, AgainstView, SupportCell};

/// How many actions a list shows.
const SHOWN: usize = 12;

/// What the books say of one herb and not of the other.
#[must_use]
pub fn against(mut page: Page, view: &AgainstView) -> String {
    let titles = Titles::new(&view.works);
    let [first, second] = &view.herbs;
    for herb in &view.herbs {
        identity::head(&mut page, herb);
    }
    together::forbidden(&mut page, &view.together);
    identity::filter(&mut page, &titles, view.filter.as_ref());
    page.heading("SIDE BY SIDE");
    let mut last = None;
    let rows = view.values.iter().map(|row| {
        let facet = if last == Some(row.facet) {
            ""
        } else {
            row.facet.name()
        };
        last = Some(row.facet);
        vec![
            facet.to_owned(),
            row.value.english.clone(),
            cell(&row.first),
            cell(&row.second),
            if row.distinct { "apart" } else { "" }.to_owned(),
        ]
    });
    let header = [
        "facet",
        "value",
        first.name.as_str(),
        second.name.as_str(),
        "",
    ];
    page.table(&header, &[WHOLE, WHOLE, WHOLE, WHOLE, 0], rows.collect());
    page.quiet(
        "k/n witnesses and, in brackets, the 95 % interval in percent. Apart: the intervals do not meet; of channels, three works or more \
         name it of the one and none of the other.",
    );
    actions(&mut page, view);
    together::partners(&mut page, &titles, &view.together);
    page.heading("TOGETHER");
    together::warnings(&mut page, &titles, &view.together);
    for (herb, heed) in view.herbs.iter().zip(&view.heed) {
        page.heading(&herb.name);
        identity::foot(&mut page, &titles, heed);
    }
    page.into_text()
}

fn cell(cell: &SupportCell) -> String {
    let interval = match cell.low.zip(cell.high) {
        Some((low, high)) => format!(" ({:.0}–{:.0})", low * 100.0, high * 100.0),
        None => String::new(),
    };
    match cell.n {
        0 => "–".to_owned(),
        n => format!("{}/{n}{interval}", cell.k),
    }
}

fn actions(page: &mut Page, view: &AgainstView) {
    if view.actions.is_empty() {
        return;
    }
    page.heading("SAID TO DO");
    let [first, second] = &view.herbs;
    let only = |one: &&ActionAgainst, first: bool| one.distinct && (one.second == 0) == first;
    let both = |one: &&ActionAgainst| one.first > 0 && one.second > 0;
    let all = || view.actions.iter();
    let lists: [(String, Vec<&ActionAgainst>); 3] = [
        (
            format!("only {}", first.name),
            all().filter(|one| only(one, true)).collect(),
        ),
        (
            format!("only {}", second.name),
            all().filter(|one| only(one, false)).collect(),
        ),
        ("both".to_owned(), all().filter(both).collect()),
    ];
    for (lead, list) in lists {
        let words = list.iter().take(SHOWN).map(|one| {
            let counts = match (one.first, one.second) {
                (k, 0) | (0, k) => k.to_string(),
                (a, b) => format!("{a}, {b}"),
            };
            format!("{} {} ({counts})", one.action.han, one.action.english)
        });
        let mut words = words.collect::<Vec<_>>().join("; ");
        if list.len() > SHOWN {
            words.push_str(&format!(" and {} more (--json)", list.len() - SHOWN));
        }
        if !words.is_empty() {
            page.hanging(&lead, 14, &words);
        }
    }
    page.quiet(
        "In brackets the works that say so. Only: three works or more, and none of the other herb; silence is no denial.",
    );
}
