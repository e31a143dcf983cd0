//! The works as text.

use super::page::{Page, Titles, WHOLE, count};
use crate::corpus::Kind;
use crate::report::view::{AmountView, CarriedCount, DebtView, WorkRow, WorkView, WorksView};

/// How many works a list of carriers shows.
const SHOWN: usize = 12;

/// The list of works.
#[must_use]
pub fn works(mut page: Page, view: &WorksView) -> String {
    let titles = Titles::new(&view.works);
    page.strong(&format!(
        "{} in {} on {}",
        count(view.whole.claims, "claim"),
        entries(view.whole.entries),
        count(view.herbs, "herb")
    ));
    page.heading("WORKS READ");
    let read = |row: &&WorkRow| row.articles.entries > 0;
    let rows = view.coverage.iter().filter(read);
    page.table(
        &["work", "id", "date", "entries", "claims", "reviewed"],
        &[0, WHOLE, WHOLE, WHOLE, WHOLE, WHOLE],
        rows.map(|row| {
            vec![
                titles.title(&row.work),
                row.work.clone(),
                date(&titles, &row.work),
                row.articles.entries.to_string(),
                row.articles.claims.to_string(),
                percent(&row.articles),
            ]
        })
        .collect(),
    );
    page.quiet(
        "Claims: all that its articles hold, quotations included. Reviewed: entries compared with the text by a \
         second reader; the others were read by the program.",
    );
    page.heading("KNOWN THROUGH THEM");
    let rows = view.coverage.iter().filter(|row| !read(row));
    page.table(
        &["work", "id", "date", "herbs", "claims"],
        &[0, WHOLE, WHOLE, WHOLE, WHOLE],
        rows.map(|row| {
            vec![
                titles.title(&row.work),
                row.work.clone(),
                date(&titles, &row.work),
                row.herbs.to_string(),
                row.own_claims.to_string(),
            ]
        })
        .collect(),
    );
    page.quiet("One work with its coverage and its debts: kaoyi works WORK");
    page.into_text()
}

fn date(titles: &Titles<'_>, id: &str) -> String {
    titles
        .work(id)
        .map_or_else(String::new, |work| work.date.clone())
}

/// `12 entries`, `1 entry`.
pub(super) fn entries(n: usize) -> String {
    match n {
        1 => "1 entry".to_owned(),
        _ => format!("{n} entries"),
    }
}

/// The share of entries that were reviewed, rounded down, so that 100 % means all.
pub(super) fn percent(amount: &AmountView) -> String {
    match amount.entries {
        0 => String::new(),
        entries => format!("{} %", amount.reviewed * 100 / entries),
    }
}

/// One work.
#[must_use]
pub fn work(mut page: Page, view: &WorkView) -> String {
    let titles = Titles::new(&view.works);
    let work = &view.work;
    page.strong(&format!(
        "{} {} · {}",
        work.title, work.pinyin, work.english
    ));
    let kind = match work.kind {
        Kind::Extant => "extant",
        Kind::Reconstructed => "put together again from quotations",
        Kind::Lost => "lost, known through quotations",
        Kind::Authority => "an authority, known through quotations",
    };
    let juan = view.juan.map(|juan| format!(" · {juan} juan"));
    let juan = juan.unwrap_or_default();
    page.paragraph(&format!("{} · {} · {kind}{juan}", view.author, work.date));
    if !view.cited_as.is_empty() {
        page.hanging("cited as", 10, &view.cited_as.join(", "));
    }
    if let Some(note) = &view.note {
        page.hanging("note", 10, note);
    }
    held(&mut page, view);
    carried(&mut page, &titles, "CARRIES SAYINGS OF", &view.carries);
    carried(&mut page, &titles, "IS QUOTED BY", &view.carried_by);
    debts(&mut page, &titles, "DRAWS ON", &view.draws_on);
    debts(&mut page, &titles, "IS DRAWN ON BY", &view.drawn_on_by);
    page.into_text()
}

fn held(page: &mut Page, view: &WorkView) {
    let WorkRow {
        articles,
        herbs,
        own_claims,
        text,
        ..
    } = &view.coverage;
    page.heading("WHAT IS HELD OF IT");
    if articles.entries > 0 {
        page.hanging(
            "read",
            10,
            &format!(
                "{}, {} reviewed ({}); {} doubtful of {}",
                entries(articles.entries),
                articles.reviewed,
                percent(articles),
                articles.doubtful,
                count(articles.sayings, "saying"),
            ),
        );
    }
    if let Some(text) = text {
        page.hanging(
            "text",
            10,
            &format!(
                "{} articles, statements found in {}; {} not understood",
                text.articles,
                text.with_statements,
                count(text.unread_clauses as usize, "clause")
            ),
        );
    }
    let facets = view.claims.iter().filter(|one| one.claims > 0);
    let facets: Vec<String> = facets
        .map(|one| format!("{} {}", one.facet, one.claims))
        .collect();
    let mut words = format!(
        "{} on {}",
        count(*own_claims, "claim"),
        count(*herbs, "herb")
    );
    if !facets.is_empty() {
        words.push_str(&format!(": {}", facets.join(", ")));
    }
    page.hanging("says", 10, &words);
}

fn carried(page: &mut Page, titles: &Titles<'_>, heading: &str, counts: &[CarriedCount]) {
    if counts.is_empty() {
        return;
    }
    page.heading(heading);
    let shown = counts.iter().take(SHOWN);
    let shown = shown.map(|one| format!("{} {}", titles.title(&one.work), one.sayings));
    let mut words = shown.collect::<Vec<_>>().join(", ");
    if counts.len() > SHOWN {
        words.push_str(&format!(" and {} more", counts.len() - SHOWN));
    }
    page.paragraph(&words);
}

fn debts(page: &mut Page, titles: &Titles<'_>, heading: &str, debts: &[DebtView]) {
    if debts.is_empty() {
        return;
    }
    page.heading(heading);
    for debt in debts {
        page.hanging(&titles.dated(&debt.work), 30, &debt.why);
    }
}
