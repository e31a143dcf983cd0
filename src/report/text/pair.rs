//! A pair or formula as text.

use super::identity;
use super::page::{Page, Titles, WHOLE, count};
use super::together;
use crate::claim::Severity;
use crate::report::view::{AimView, FormulaView, JointView, MemberView, NeededView, SharedView};

/// So many actions are shown of each kind.
const ACTIONS: usize = 8;
/// So many columns of herbs a table has; more are left to the JSON.
const COLUMNS: usize = 5;

/// The card of a formula.
#[must_use]
pub fn pair(mut page: Page, view: &FormulaView) -> String {
    let titles = Titles::new(&view.works);
    let herbs: Vec<String> = view.herbs.iter().map(|herb| member(view, herb)).collect();
    page.strong(&herbs.join(" + "));
    together::forbidden(&mut page, &view.cautions.together);
    identity::filter(&mut page, &titles, view.filter.as_ref());
    in_grams(&mut page, view);
    assumptions(&mut page, view);
    flavours(&mut page, view);
    nature_and_moves(&mut page, view);
    doctrine(&mut page, view);
    shared(&mut page, view);
    if let Some(aim) = &view.aim {
        put_aim(&mut page, view, aim);
    }
    together::partners(&mut page, &titles, &view.cautions.together);
    grades(&mut page, &titles, view);
    cautions(&mut page, &titles, view);
    page.into_text()
}

/// `炙甘草 gāncǎo 6 g`
fn member(view: &FormulaView, herb: &MemberView) -> String {
    let prefix = herb.prepared.as_deref().unwrap_or_default();
    let amount = if let Some(old) = &herb.old {
        format!(" {}", old.han.as_ref().unwrap_or(&old.words))
    } else if herb.amount > 0.0 {
        format!(" {}", amount(view, herb.amount))
    } else {
        " (none yet)".to_owned()
    };
    format!("{prefix}{} {}{amount}", herb.herb.name, herb.herb.pinyin)
}

/// What amounts of old come to.
fn in_grams(page: &mut Page, view: &FormulaView) {
    let Some(period) = &view.period else { return };
    page.heading(&format!(
        "IN GRAMS, {} {}",
        period.english.to_uppercase(),
        period.name
    ));
    for herb in &view.herbs {
        let Some(old) = &herb.old else { continue };
        let words = match &old.grams {
            Some(grams) => {
                let common = grams.commonest.iter();
                let common: String = common
                    .map(|one| format!(", by the commonest practice {} g", one.shown))
                    .collect();
                format!(
                    "{} to {} g by the opinions on record{common}",
                    grams.least.shown, grams.greatest.shown
                )
            }
            None => "no opinion on record".to_owned(),
        };
        page.hanging(&format!("{} {}", herb.herb.name, old.words), 24, &words);
    }
    page.quiet("The shares below are the same by every opinion. Who says what: kaoyi weigh.");
    page.raw("\n");
}

fn amount(view: &FormulaView, amount: f64) -> String {
    match view.unit.as_str() {
        unit if view.period.is_some() => format!("{} {unit}", number(amount)),
        "g" => format!("{} g", number(amount)),
        _ if amount == 1.0 => "1 part".to_owned(),
        _ => format!("{} parts", number(amount)),
    }
}

/// Two places behind the point at most.
fn number(amount: f64) -> String {
    let text = format!("{amount:.2}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

fn percent(share: f64) -> String {
    format!("{:.0}\u{a0}%", share * 100.0)
}

fn assumptions(page: &mut Page, view: &FormulaView) {
    let assumed = &view.assumptions;
    let mut words = format!(
        "An arithmetic of what books say, weighted by amount, and no measurement: every herb is taken to taste equally strong \
         for its weight, \"slightly\" to be {} and \"greatly\" {} of a flavour, each of the {} to have one voice.",
        number(assumed.slight),
        number(assumed.great),
        assumed.count
    );
    let changed = view.herbs.iter().filter(|herb| herb.strength != 1.0);
    for herb in changed {
        words.push_str(&format!(
            " {} is taken to taste {} times as strong.",
            herb.herb.name,
            number(herb.strength)
        ));
    }
    for herb in &view.herbs {
        if let Some(tasted) = herb.tasted {
            words.push_str(&format!(
                " {} stands by {} in place of the books (flavour by {}, warmth by {}; what is not scored, by the books).",
                herb.herb.name,
                count(tasted.tastings, "own tasting"),
                tasted.flavour,
                tasted.warmth
            ));
        }
    }
    if view.herbs.iter().any(|herb| herb.prepared.is_some()) {
        words.push_str(" The record of a prepared form is that of the herb as such.");
    }
    page.quiet(&words);
}

fn flavours(page: &mut Page, view: &FormulaView) {
    page.heading("FLAVOURS");
    if view.flavours.is_empty() {
        page.paragraph("No work states a flavour of any of them.");
        return;
    }
    let columns = view.herbs.len().min(COLUMNS);
    let mut header = vec!["flavour", "share", "between"];
    let names: Vec<String> = view.herbs[..columns]
        .iter()
        .map(|herb| format!("from {}", herb.herb.name))
        .collect();
    header.extend(names.iter().map(String::as_str));
    let rows = view.flavours.iter().map(|one| {
        let mut row = vec![
            format!("{} {}", one.value.han, one.value.english),
            percent(one.share),
            format!("{:.0}–{:.0}\u{a0}%", one.least * 100.0, one.most * 100.0),
        ];
        row.extend(one.from[..columns].iter().map(|part| match part {
            0.0 => "·".to_owned(),
            part => percent(*part),
        }));
        row
    });
    let widths = vec![WHOLE; 3 + columns];
    page.table(&header, &widths, rows.collect());
    if view.herbs.len() > columns {
        page.quiet(&format!(
            "{} more in --json.",
            count(view.herbs.len() - columns, "herb")
        ));
    }
    page.quiet("Between: every herb at the least and at the most that any of its voices gives.");
    without(page, view, &view.without_flavour, "flavour");
}

fn without(page: &mut Page, view: &FormulaView, places: &[usize], what: &str) {
    if !places.is_empty() {
        let names: Vec<&str> = places
            .iter()
            .map(|place| view.herbs[*place].herb.name.as_str())
            .collect();
        page.paragraph(&format!(
            "Left out, since no work states its {what}: {}.",
            names.join(", ")
        ));
    }
}

fn nature_and_moves(page: &mut Page, view: &FormulaView) {
    page.heading("NATURE AND MOVEMENT");
    match &view.nature {
        Some(nature) => page.hanging(
            "nature",
            10,
            &format!(
                "nearest to {} {} ({:+.2}, from -1 coldest to +1 hottest); between {} ({:+.2}) and {} ({:+.2})",
                nature.value.han,
                nature.value.english,
                nature.place,
                nature.coldest.1.english,
                nature.coldest.0,
                nature.hottest.1.english,
                nature.hottest.0
            ),
        ),
        None => page.paragraph("No work states a nature of any of them."),
    }
    without(page, view, &view.without_nature, "nature");
    if !view.flavours.is_empty() {
        let moves = view.moves;
        page.hanging(
            "movement",
            10,
            &format!(
                "by flavour, up and out {} · down and in {} · holding the centre {}",
                percent(moves.up_and_out),
                percent(moves.down_and_in),
                percent(moves.centre)
            ),
        );
    }
}

fn doctrine(page: &mut Page, view: &FormulaView) {
    if view.doctrine.is_empty() {
        return;
    }
    page.heading("WHAT THE DOCTRINE HOLDS");
    for one in &view.doctrine {
        let share = one.share.map(percent).unwrap_or_default();
        page.hanging(
            &format!("{} {share}", one.han),
            16,
            &format!("{} ({})", one.holds, one.source),
        );
    }
}

fn shared(page: &mut Page, view: &FormulaView) {
    let works = |one: &JointView| format!("{} {}", view.herbs[one.herb].herb.name, one.works);
    let row = |page: &mut Page, one: &SharedView| {
        let herbs: Vec<String> = one.herbs.iter().map(works).collect();
        page.hanging(
            &format!("{} {}", one.value.han, one.value.english),
            32,
            &herbs.join(" · "),
        );
    };
    let several = [
        ("CHANNELS THAT THEY SHARE", &view.channels),
        ("ACTIONS THAT REINFORCE EACH OTHER", &view.reinforced),
    ];
    for (heading, all) in several {
        if !all.is_empty() {
            page.heading(heading);
            for one in all.iter().take(ACTIONS) {
                row(page, one);
            }
            more(page, all.len());
        }
    }
    if !view.opposed.is_empty() {
        page.heading("ACTIONS THAT OPPOSE EACH OTHER");
        for pair in view.opposed.iter().take(ACTIONS) {
            page.hanging(
                &format!("{} {}", pair.value.han, pair.value.english),
                32,
                &format!(
                    "{}, against {} {}: {}",
                    works(&pair.one),
                    pair.contrary.han,
                    pair.contrary.english,
                    works(&pair.other)
                ),
            );
        }
        more(page, view.opposed.len());
    }
    if !(view.channels.is_empty() && view.reinforced.is_empty() && view.opposed.is_empty()) {
        page.quiet("Behind a name: how many works say so of that herb. Opposed actions may hold of another dose, part or partner.");
    }
}

fn more(page: &mut Page, all: usize) {
    if all > ACTIONS {
        page.quiet(&format!("and {} more in --json", all - ACTIONS));
    }
}

fn put_aim(page: &mut Page, view: &FormulaView, aim: &AimView) {
    let side = match &aim.than {
        Some(than) if aim.times == 1.0 => than.english.clone(),
        Some(than) => format!("{} times {}", number(aim.times), than.english),
        None => percent(aim.times),
    };
    let more = if aim.more { "more" } else { "less" };
    page.heading(&format!("{} {more} than {side}", aim.flavour.english).to_uppercase());
    page.paragraph(match (aim.reached, aim.surely) {
        (true, true) => "Reached, whatever book is followed.",
        (true, false) => "Reached by the means of the books, but not whatever book is followed.",
        (false, _) => "Not reached with these amounts.",
    });
    let fixed = if aim.reached {
        "holds with"
    } else {
        "reached with"
    };
    for (herb, change) in view.herbs.iter().zip(&aim.changes) {
        let words = format!(
            "{fixed} {}; whatever book is followed: {}",
            needed(view, change.by_means),
            needed(view, change.surely)
        );
        page.hanging(&format!("{} alone changed", herb.herb.name), 24, &words);
    }
}

fn needed(view: &FormulaView, needed: NeededView) -> String {
    match (needed.needs, needed.amount) {
        ("more", Some(0.0)) => "any of it".to_owned(),
        ("more", Some(above)) => format!("more than {}", amount(view, above)),
        ("less", Some(below)) => format!("less than {}", amount(view, below)),
        ("any", _) => "any amount".to_owned(),
        _ => "no amount".to_owned(),
    }
}

fn grades(page: &mut Page, titles: &Titles<'_>, view: &FormulaView) {
    if view.herbs.iter().all(|herb| herb.grades.is_empty()) {
        return;
    }
    page.heading("GRADE AND AMOUNT");
    let graded = view.herbs.iter();
    for (herb, grade) in graded.flat_map(|herb| herb.grades.iter().map(move |one| (herb, one))) {
        let implies = grade.implies.as_deref().unwrap_or_default();
        page.hanging(
            &herb.herb.name,
            10,
            &format!(
                "{} {} ({}): {implies}",
                grade.grade.han,
                grade.grade.english,
                titles.title(&grade.work)
            ),
        );
    }
}

fn cautions(page: &mut Page, titles: &Titles<'_>, view: &FormulaView) {
    page.heading("CAUTIONS");
    together::warnings(page, titles, &view.cautions.together);
    for one in &view.cautions.loud {
        page.alert(&format!(
            "{} g of {} is far beyond what is given in a day{} (from {} g on this is said; common practice, no source)",
            number(one.grams),
            one.herb.name,
            if one.grave {
                ", and of such an herb it can kill"
            } else {
                ""
            },
            number(one.above)
        ));
    }
    for one in &view.cautions.herbs {
        for caution in &one.cautions {
            let words = format!("{}: {} ({})", one.herb.name, caution.text, caution.source);
            match caution.severity {
                Severity::Grave => page.alert(&words),
                Severity::Care => page.hanging("·", 2, &words),
            }
        }
        for warning in &one.warnings {
            page.hanging(
                "·",
                2,
                &format!(
                    "{}: in the books called {}",
                    one.herb.name,
                    identity::severest(titles, warning)
                ),
            );
        }
    }
    page.paragraph(view.notice);
}
