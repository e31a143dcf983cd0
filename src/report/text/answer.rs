//! The answer to a question as text: one line first, the evidence under it.

use super::page::{Page, Titles, count};
use super::{evidence, identity};
use crate::claim::Facet;
use crate::report::view::{AnswerView, ReplyView, ValueAnswer};

/// The answers, first a line each and then who says what; with `show_evidence` the wording and place
/// of every reply.
#[must_use]
pub fn answer(mut page: Page, view: &AnswerView, show_evidence: bool) -> String {
    let titles = Titles::new(&view.works);
    for answer in &view.answers {
        page.strong(&line(&titles, view, answer));
    }
    identity::filter(&mut page, &titles, view.filter.as_ref());
    for answer in &view.answers {
        if view.answers.len() > 1 {
            page.paragraph(&format!("{} {}", answer.value.han, answer.value.english));
        }
        sides(&mut page, &titles, answer, show_evidence);
        if let Some(pairing) = &answer.pairing {
            page.hanging("  pairing", 14, pairing);
        }
    }
    identity::foot(&mut page, &titles, &view.heed);
    page.into_text()
}

/// `薄荷 bòhe, warm: mostly yes. 9 of 13 witnesses in 4 of 7 lines, first 新修本草 (659).`
fn line(titles: &Titles<'_>, view: &AnswerView, answer: &ValueAnswer) -> String {
    let herb = format!("{} {}", view.herb.name, view.herb.pinyin);
    let asked = format!("{} {}", answer.value.han, answer.value.english);
    let first = answer.yes.first().map_or_else(String::new, |reply| {
        format!(", first {}", titles.dated(&reply.work))
    });
    let say = |k: usize| if k == 1 { "says so" } else { "say so" };
    let counts = match (answer.facet, answer.n) {
        (_, 0) if view.filter.is_some() => {
            "No work chosen speaks of it for the herb as such".to_owned()
        }
        (_, 0) => "No work here speaks of it for the herb as such".to_owned(),
        (Facet::Action, n) => {
            let so = format!(
                "{} in {} {}{first}",
                count(answer.k, "work"),
                count(answer.j, "line"),
                say(answer.k)
            );
            match n - answer.k {
                0 => format!("{so}; none states an opposed action of the herb as such"),
                others => format!(
                    "{so}; {} an opposed action",
                    if others == 1 {
                        "1 states".to_owned()
                    } else {
                        format!("{others} state")
                    }
                ),
            }
        }
        (_, n) => format!(
            "{} of {} in {} of {}{first}",
            answer.k,
            count(n, "witness"),
            answer.j,
            count(answer.m, "line")
        ),
    };
    let side = answer.side.as_ref().filter(|side| side.k > answer.k);
    let side = side.map_or_else(String::new, |side| {
        format!("; on the {} side altogether {}", side.side, side.k)
    });
    format!(
        "{herb}, {asked}: {}. {counts}{side}.",
        answer.verdict.word()
    )
}

fn sides(page: &mut Page, titles: &Titles<'_>, answer: &ValueAnswer, show_evidence: bool) {
    let sides = [
        ("  say so", &answer.yes),
        ("  others", &answer.no),
        ("  limited", &answer.of_scope),
        ("  opposed", &answer.opposed_of_scope),
    ];
    for (lead, replies) in sides {
        if replies.is_empty() {
            continue;
        }
        if show_evidence {
            page.paragraph(lead);
            for reply in replies {
                page.paragraph(&format!("    {}", titles.dated(&reply.work)));
                for one in &reply.statements {
                    evidence::statement(page, titles, "      ", one);
                }
            }
        } else {
            page.hanging(lead, 14, &in_groups(titles, replies));
        }
    }
    if !answer.silent.is_empty() {
        page.hanging("  silent", 14, &titles.list(&answer.silent));
    }
}

/// Replies with the same words together: `acrid, bitter: 新修本草 (659), 本草蒙筌 (c. 1559–1565); …`
fn in_groups(titles: &Titles<'_>, replies: &[ReplyView]) -> String {
    // The order in which a work names its values makes no other stand.
    let key = |reply: &ReplyView| {
        let mut words: Vec<String> = reply.text.split(", ").map(str::to_owned).collect();
        words.sort_unstable();
        words
    };
    let mut groups: Vec<(Vec<String>, &str, Vec<String>)> = Vec::new();
    for reply in replies {
        let own = if reply.user { "*" } else { "" };
        let doubt = if reply.doubtful { "\u{a0}?" } else { "" };
        let title = titles.dated(&reply.work);
        let work = format!(
            "{title}{}{doubt}",
            if title.contains('*') { "" } else { own }
        );
        match groups.iter_mut().find(|(words, _, _)| *words == key(reply)) {
            Some((_, _, works)) => works.push(work),
            None => groups.push((key(reply), &reply.text, vec![work])),
        }
    }
    groups
        .iter()
        .map(|(_, text, works)| format!("{text}: {}", works.join(", ")))
        .collect::<Vec<_>>()
        .join("; ")
}
