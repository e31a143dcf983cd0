//! What each saying must have: a claim, a wording of bearable length, each value once.

use std::collections::HashSet;

use super::{Context, Pen};
use crate::corpus::code::Code;
use crate::corpus::finding::Finding;
use crate::corpus::model::Status;
use crate::corpus::record::{EntryRecord, SayingRecord, WORDING_LIMIT};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (herb, pen) in context.own_herbs() {
        for (n, entry) in herb.entries.iter().enumerate() {
            for (m, saying) in entry.sayings.iter().enumerate() {
                let pointer = format!("/entries/{n}/sayings/{m}");
                claims(saying, pen, &pointer, findings);
                wording(entry, saying, pen, &pointer, findings);
                if saying.by.as_ref() == Some(&entry.work) {
                    let found = format!("`{}`", entry.work);
                    let expected = "no `by:`, or another work";
                    findings.push(pen.at(&format!("{pointer}/by"), Code::OwnBy, found, expected));
                }
            }
        }
    }
}

/// How many claims a saying makes beside its grade.
fn claims_beside_grade(saying: &SayingRecord) -> usize {
    saying.flavour.len()
        + usize::from(saying.nature.is_some())
        + usize::from(saying.toxicity.is_some())
        + saying.channel.len()
        + saying.action.len()
        + saying.relations.len()
}

fn claims(saying: &SayingRecord, pen: Pen<'_>, pointer: &str, findings: &mut Vec<Finding>) {
    if claims_beside_grade(saying) == 0 && saying.grade.is_none() {
        let expected = "a flavour, nature, toxicity, grade, channel, action or relation";
        findings.push(pen.at(
            pointer,
            Code::NoClaim,
            "none of the facets".to_owned(),
            expected,
        ));
    }
    let flavours = saying
        .flavour
        .iter()
        .map(|flavour| flavour.parts().0)
        .collect();
    let channels = saying.channel.iter().map(String::as_str).collect();
    let actions = saying.action.iter().map(String::as_str).collect();
    let relations: Vec<String> = saying
        .relations
        .iter()
        .map(|one| format!("{} {}", one.kind.id(), one.drug))
        .collect();
    let lists: [(&str, Vec<&str>); 4] = [
        ("flavour", flavours),
        ("channel", channels),
        ("action", actions),
        ("relations", relations.iter().map(String::as_str).collect()),
    ];
    for (key, words) in lists {
        let mut seen = HashSet::new();
        for (n, word) in words.into_iter().enumerate() {
            if !seen.insert(word) {
                let found = format!("`{word}` a second time");
                let place = format!("{pointer}/{key}/{n}");
                findings.push(pen.at(&place, Code::DuplicateValue, found, "each value once"));
            }
        }
    }
}

fn wording(
    entry: &EntryRecord,
    saying: &SayingRecord,
    pen: Pen<'_>,
    pointer: &str,
    findings: &mut Vec<Finding>,
) {
    match &saying.wording {
        Some(wording) => {
            let length = wording.chars().count();
            if length > WORDING_LIMIT {
                let place = format!("{pointer}/wording");
                let expected = format!("at most {WORDING_LIMIT} characters");
                findings.push(pen.at(
                    &place,
                    Code::LongWording,
                    format!("{length} characters"),
                    &expected,
                ));
            }
        }
        None if saying.status.unwrap_or(entry.status) != Status::Memory
            && claims_beside_grade(saying) > 0 =>
        {
            findings.push(pen.at(
                pointer,
                Code::NoWording,
                "no wording".to_owned(),
                "the phrase it was read from",
            ));
        }
        None => {}
    }
}
