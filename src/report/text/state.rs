//! The state of the corpus as text: first what it holds, then the lists of what to do, each cut to what a
//! person reads; the JSON has them whole.

use super::page::{Page, Titles, WHOLE, count};
use super::works::{entries, percent};
use crate::corpus::Status;
use crate::report::view::{AloneView, HerbRef, HerbRow, StateView};

/// How many items a list shows.
const SHOWN: usize = 20;
/// How many names a run of names shows.
const NAMES: usize = 60;

/// The state of the corpus.
#[must_use]
pub fn state(mut page: Page, view: &StateView) -> String {
    let titles = Titles::new(&view.works);
    page.strong(&format!(
        "{}, {}, {}, {}",
        count(view.herbs.len(), "herb"),
        entries(view.whole.entries),
        count(view.whole.sayings, "saying"),
        count(view.whole.claims, "claim")
    ));
    page.paragraph(&format!(
        "{} of the entries reviewed; {} doubtful",
        percent(&view.whole),
        count(view.whole.doubtful, "saying")
    ));
    works(&mut page, &titles, view);
    spread(&mut page, view);
    to_review(&mut page, view);
    doubtful(&mut page, view);
    doubles(&mut page, view);
    outliers(&mut page, &titles, view);
    of_one_book(&mut page, view);
    page.into_text()
}

fn works(page: &mut Page, titles: &Titles<'_>, view: &StateView) {
    page.heading("BY WORK");
    let number = |n: Option<u32>| n.map_or_else(String::new, |n| n.to_string());
    let rows = view.coverage.iter().map(|row| {
        vec![
            titles.title(&row.work),
            number(row.text.map(|text| text.articles)),
            row.articles.entries.to_string(),
            percent(&row.articles),
            row.articles.claims.to_string(),
            row.articles.doubtful.to_string(),
            number(row.text.map(|text| text.unread_clauses)),
        ]
    });
    page.table(
        &[
            "work", "articles", "entries", "reviewed", "claims", "doubtful", "unread",
        ],
        &[0, WHOLE, WHOLE, WHOLE, WHOLE, WHOLE, WHOLE],
        rows.collect(),
    );
    page.quiet(
        "Articles: headings with text, prefaces included. Doubtful: sayings. Unread: clauses of the whole text that \
         look like a statement and were not understood.",
    );
}

fn spread(page: &mut Page, view: &StateView) {
    page.heading("HERBS BY THE NUMBER OF WORKS THAT TREAT THEM");
    let classes = [(15, usize::MAX), (10, 14), (8, 9), (4, 7), (2, 3), (1, 1)];
    let rows = classes.into_iter().map(|(from, to)| {
        let of = view.spread.iter();
        let of: Vec<_> = of.filter(|one| (from..=to).contains(&one.works)).collect();
        let works = match (from, to) {
            (from, to) if from == to => from.to_string(),
            (from, usize::MAX) => format!("{from} and more"),
            (from, to) => format!("{from}–{to}"),
        };
        vec![
            works,
            of.iter().map(|one| one.herbs).sum::<usize>().to_string(),
            of.iter().map(|one| one.reviewed).sum::<usize>().to_string(),
        ]
    });
    page.table(
        &["works", "herbs", "wholly reviewed"],
        &[WHOLE, WHOLE, 0],
        rows.collect(),
    );
}

fn to_review(page: &mut Page, view: &StateView) {
    let waiting = |row: &&HerbRow| row.amount.reviewed < row.amount.entries;
    let waiting: Vec<&HerbRow> = view.herbs.iter().filter(waiting).collect();
    page.heading(&format!("TO REVIEW NEXT ({})", waiting.len()));
    let words = waiting.iter().take(SHOWN).map(|row| {
        let left = row.amount.entries - row.amount.reviewed;
        format!("{} ({})", label(&row.herb), entries(left))
    });
    list(page, words, waiting.len());
}

fn doubtful(page: &mut Page, view: &StateView) {
    let mut rows: Vec<&HerbRow> = view.herbs.iter().collect();
    rows.retain(|row| row.amount.doubtful > 0);
    rows.sort_by_key(|row| std::cmp::Reverse(row.amount.doubtful));
    page.heading(&format!("DOUBTFUL SAYINGS (herbs: {})", rows.len()));
    let words = rows.iter().take(SHOWN);
    let words = words.map(|row| format!("{} {}", label(&row.herb), row.amount.doubtful));
    list(page, words, rows.len());
}

fn doubles(page: &mut Page, view: &StateView) {
    page.heading(&format!("PERHAPS ONE DRUG TWICE ({})", view.doubles.len()));
    for one in view.doubles.iter().take(SHOWN) {
        let [a, b] = &one.herbs;
        let pair = format!("{} and {}", label(a), label(b));
        let words = format!(
            "{} of {} long wordings the same; {} in common",
            one.shared,
            one.of,
            count(one.works_in_common, "work")
        );
        page.hanging(&pair, 44, &words);
    }
    more(page, view.doubles.len());
}

fn outliers(page: &mut Page, titles: &Titles<'_>, view: &StateView) {
    page.heading(&format!(
        "ALONE AGAINST TEN OR MORE ({})",
        view.outliers.len()
    ));
    page.quiet("A misreading, a slip of the book, or a judgement of its own: look at the wording.");
    for one in view.outliers.iter().take(SHOWN) {
        let does = match one.alone {
            AloneView::States => "alone says",
            AloneView::Omits => "alone leaves out",
        };
        let wording = one.wording.iter().map(|words| format!("  「{words}」"));
        let read = match one.status {
            Status::Reviewed => "",
            _ => "; not reviewed",
        };
        let words = format!(
            "{} {does} {}, against {}{}{read}",
            titles.title(&one.work),
            one.what,
            one.against,
            wording.collect::<String>()
        );
        page.hanging(&label(&one.herb), 24, &words);
    }
    more(page, view.outliers.len());
}

fn of_one_book(page: &mut Page, view: &StateView) {
    let alone: Vec<&HerbRow> = view.herbs.iter().filter(|row| row.works == 1).collect();
    page.heading(&format!("IN ONE WORK ONLY ({})", alone.len()));
    let names = alone.iter().take(NAMES).map(|row| row.herb.name.clone());
    let mut words = names.collect::<Vec<_>>().join(", ");
    if alone.len() > NAMES {
        words.push_str(&format!(" and {} more (--json)", alone.len() - NAMES));
    }
    page.paragraph(&words);
}

fn label(herb: &HerbRef) -> String {
    format!("{} {}", herb.name, herb.id)
}

fn list(page: &mut Page, words: impl Iterator<Item = String>, all: usize) {
    let words: Vec<String> = words.collect();
    if words.is_empty() {
        page.paragraph("none");
        return;
    }
    page.paragraph(&words.join(", "));
    more(page, all);
}

fn more(page: &mut Page, all: usize) {
    match all {
        0 => page.paragraph("none"),
        _ if all > SHOWN => page.quiet(&format!("and {} more (--json)", all - SHOWN)),
        _ => {}
    }
}
