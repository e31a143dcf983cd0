//! What was found as text.

use super::identity;
use super::page::{Page, Titles, count};
use crate::report::view::{BestView, FindView, FoundHerb, FoundSaying, WantedView};

/// So many works the counts name.
const WORKS: usize = 8;

/// The herbs and sayings that answer; with `explain` why they stand in this order.
#[must_use]
pub fn find(mut page: Page, view: &FindView, explain: bool) -> String {
    let titles = Titles::new(&view.works);
    identity::filter(&mut page, &titles, view.filter.as_ref());
    summary(&mut page, view);
    if view.herbs.is_empty() {
        return page.into_text();
    }
    for herb in &view.herbs {
        one(&mut page, &titles, view, herb, explain);
    }
    let behind = view.herbs_found - view.skipped - view.herbs.len();
    if behind > 0 {
        page.raw("\n");
        page.quiet(&format!(
            "{} more: --skip {}",
            count(behind, "herb"),
            view.skipped + view.herbs.len()
        ));
    }
    counts(&mut page, &titles, view);
    if explain {
        page.heading("THE ORDER");
        page.paragraph(
            "Herbs of which a name is what was typed come first, then those of which a name begins with it, then those of which \
             one contains it, then all others; what sounds alike or is a letter away is shown when nothing else answers; among these those with the best saying first (BM25: a rare term weighs more, \
             a short wording more), then those with more sayings. Without words: by the lower end of the Wilson interval of the \
             property that has least backing.",
        );
    }
    identity::listed_cautions(&mut page, &view.cautions, view.notice);
    page.into_text()
}

/// The best sayings of all herbs, one by one.
#[must_use]
pub fn best(mut page: Page, view: &BestView, explain: bool) -> String {
    let titles = Titles::new(&view.works);
    identity::filter(&mut page, &titles, view.filter.as_ref());
    let asked: Vec<String> = view
        .phrases
        .iter()
        .map(|one| format!("「{one}」"))
        .collect();
    page.strong(&format!(
        "{}: {}",
        asked.join(if view.any { " or " } else { " · " }),
        count(view.sayings_found, "saying")
    ));
    for one in &view.sayings {
        page.raw("\n");
        page.strong(&format!(
            "{} {}  {}",
            one.herb.name, one.herb.pinyin, one.herb.id
        ));
        put_saying(&mut page, &titles, &one.saying, explain);
    }
    let shown = view.skipped + view.sayings.len();
    if view.sayings_found > shown {
        page.raw("\n");
        page.quiet(&format!(
            "{} more: --skip {shown}",
            count(view.sayings_found - shown, "saying")
        ));
    }
    if explain {
        page.heading("THE ORDER");
        page.paragraph(
            "By BM25: a rare term weighs more, a short wording more; of equal ones that which stands first in the corpus.",
        );
    }
    identity::listed_cautions(&mut page, &view.cautions, view.notice);
    page.into_text()
}

fn put_saying(page: &mut Page, titles: &Titles<'_>, saying: &FoundSaying, explain: bool) {
    page.hanging(
        &format!("  {}", titles.with_year(&saying.work)),
        24,
        &phrase(titles, saying, explain),
    );
}

fn summary(page: &mut Page, view: &FindView) {
    let mut asked: Vec<String> = view
        .phrases
        .iter()
        .map(|phrase| format!("「{phrase}」"))
        .collect();
    let by = match view.by {
        "any" => "by any witness",
        "all" => "by all witnesses",
        _ => "by most witnesses",
    };
    if !view.wanted.is_empty() {
        let wanted: Vec<String> = view.wanted.iter().map(words).collect();
        asked.push(format!("{} {by}", wanted.join(", ")));
    }
    asked.extend(view.never.iter().map(|one| format!("never {}", words(one))));
    let mut found = format!(
        "{} on {}",
        count(view.sayings_found, "saying"),
        count(view.herbs_found, "herb")
    );
    if view.phrases.is_empty() {
        found = count(view.herbs_found, "herb");
    }
    page.strong(&format!(
        "{}: {found}",
        asked.join(if view.any { " or " } else { " · " })
    ));
}

/// A property in words: `nature warm to hot`.
fn words(wanted: &WantedView) -> String {
    let (from, to) = (&wanted.from.english, &wanted.to.english);
    let facet = wanted.facet;
    if from == to {
        format!("{facet} {from}")
    } else {
        format!("{facet} {from} to {to}")
    }
}

fn one(page: &mut Page, titles: &Titles<'_>, view: &FindView, herb: &FoundHerb, explain: bool) {
    page.raw("\n");
    let english = herb
        .english
        .iter()
        .map(|name| format!(" · {name}"))
        .collect::<String>();
    let why = match herb.name {
        Some("exact") => "  (its name)",
        Some("begins") => "  (a name begins so)",
        Some("sounds") => "  (its name sounds so)",
        Some("near") => "  (a name is near to it)",
        Some(_) => "  (in a name)",
        None => "",
    };
    page.strong(&format!(
        "{} {}{english}  {}{why}",
        herb.herb.name, herb.herb.pinyin, herb.herb.id
    ));
    let backed: Vec<String> = view
        .wanted
        .iter()
        .zip(&herb.backing)
        .map(|(wanted, one)| {
            let value = if wanted.from == wanted.to {
                wanted.from.english.clone()
            } else {
                format!("{} to {}", wanted.from.english, wanted.to.english)
            };
            format!("{value} {}/{} in {}/{} lines", one.k, one.n, one.j, one.m)
        })
        .collect();
    if !backed.is_empty() {
        page.hanging("  ", 2, &backed.join("; "));
    }
    for saying in &herb.shown {
        put_saying(page, titles, saying, explain);
    }
    let behind = herb.sayings - herb.shown.len();
    if behind > 0 {
        page.quiet(&format!(
            "  and {} more: --herb {} --sayings {}",
            behind, herb.herb.id, herb.sayings
        ));
    }
}

/// The wording with what was looked for between signs, what it is read as, and where it stands.
fn phrase(titles: &Titles<'_>, saying: &FoundSaying, explain: bool) -> String {
    let mut words = String::from("「");
    for (place, c) in saying.wording.chars().enumerate() {
        if saying.marks.iter().any(|(from, _)| *from == place) {
            words.push('‹');
        }
        words.push(c);
        if saying.marks.iter().any(|(_, to)| *to == place + 1) {
            words.push('›');
        }
    }
    words.push('」');
    let values = saying.values.iter().map(|value| value.english.clone());
    let relations = saying.relations.iter();
    let relations = relations.map(|one| format!("{} {}", one.kind.english(), one.drug));
    let values: Vec<String> = values.chain(relations).collect();
    words.push_str(&format!(" {}", values.join(", ")));
    if let Some(at) = &saying.at {
        let section = at.section.as_deref().filter(|section| !section.is_empty());
        let place: Vec<&str> = section.into_iter().chain([at.heading.as_str()]).collect();
        words.push_str(&format!("; {}", place.join(" · ").replace('\\', " / ")));
    }
    if !saying.through.is_empty() {
        words.push_str(&format!("; through {}", titles.list(&saying.through)));
    }
    if saying.doubt.is_some() {
        words.push_str("; doubtful");
    }
    if explain {
        words.push_str(&format!("; score {:.2}", saying.score));
    }
    words
}

fn counts(page: &mut Page, titles: &Titles<'_>, view: &FindView) {
    if view.herbs_found < 2 {
        return;
    }
    page.heading("AMONG ALL OF THEM");
    for facet in [
        crate::claim::Facet::Flavour,
        crate::claim::Facet::Nature,
        crate::claim::Facet::Toxicity,
    ] {
        let of_facet: Vec<String> = view
            .facets
            .iter()
            .filter(|one| one.facet == facet)
            .map(|one| format!("{} {}", one.value.english, one.herbs))
            .collect();
        if !of_facet.is_empty() {
            page.hanging(facet.name(), 10, &of_facet.join(" · "));
        }
    }
    if !view.by_work.is_empty() {
        let works: Vec<String> = view
            .by_work
            .iter()
            .take(WORKS)
            .map(|one| format!("{} {}", titles.title(&one.work), one.sayings))
            .collect();
        let more = view.by_work.len().saturating_sub(WORKS);
        let more = if more > 0 {
            format!(" · {more} more works")
        } else {
            String::new()
        };
        page.hanging("sayings", 10, &format!("{}{more}", works.join(" · ")));
    }
    page.quiet("Properties: herbs that most of their witnesses call so, in any degree.");
}
