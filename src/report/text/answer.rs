//! The answer to a question as text: one line first, the evidence under it.

use super::page::{Page, Titles, count};
use super::{evidence, identity};
use crate::claim::Facet;
use crate::report::view::{AnswerView, ReplyView, ValueAnswer};

/// The answers; with `show_evidence` the wording and place of every reply.
#[must_use]
pub fn answer(mut page: Page, view: &AnswerView, show_evidence: bool) -> String {
    let titles = Titles::new(&view.works);
    for answer in &view.answers {
        page.strong(&line(&titles, view, answer));
        sides(&mut page, &titles, answer, show_evidence);
        if let Some(pairing) = &answer.pairing {
            page.hanging("  pairing", 14, pairing);
        }
    }
    identity::foot(&mut page, &view.cautions, view.notice);
    page.into_text()
}

/// `薄荷 bòhe, warm: mostly yes. 9 of 13 witnesses in 4 of 7 lines, first 新修本草 (659).`
fn line(titles: &Titles<'_>, view: &AnswerView, answer: &ValueAnswer) -> String {
    let herb = format!("{} {}", view.herb.name, view.herb.pinyin);
    let asked = format!("{} {}", answer.value.han, answer.value.english);
    let first = answer.yes.first().map_or_else(String::new, |reply| {
        format!(", first {}", titles.dated(&reply.work))
    });
    let counts = match (answer.facet, answer.n) {
        (_, 0) => "no work speaks of it for the herb as such".to_owned(),
        (Facet::Action, n) if answer.k == n => {
            format!(
                "{} in {} say so{first}; none says the contrary",
                count(answer.k, "work"),
                count(answer.j, "line")
            )
        }
        (Facet::Action, n) => format!(
            "{} in {} say so{first}; {} say the contrary",
            count(answer.k, "work"),
            count(answer.j, "line"),
            n - answer.k
        ),
        (_, n) => format!(
            "{} of {} in {} of {}{first}",
            answer.k,
            count(n, "witness"),
            answer.j,
            count(answer.m, "line")
        ),
    };
    format!("{herb}, {asked}: {}. {counts}.", answer.verdict.word())
}

fn sides(page: &mut Page, titles: &Titles<'_>, answer: &ValueAnswer, show_evidence: bool) {
    let sides = [
        ("  say so", &answer.yes),
        ("  others", &answer.no),
        ("  of a part", &answer.of_scope),
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
    let mut groups: Vec<(&str, Vec<String>)> = Vec::new();
    for reply in replies {
        let work = titles.dated(&reply.work);
        match groups.iter_mut().find(|(text, _)| *text == reply.text) {
            Some((_, works)) => works.push(work),
            None => groups.push((&reply.text, vec![work])),
        }
    }
    groups
        .iter()
        .map(|(text, works)| format!("{text}: {}", works.join(", ")))
        .collect::<Vec<_>>()
        .join("; ")
}
