//! Which record is which: ids, file names, names of herbs, articles.

use std::collections::{HashMap, HashSet};

use super::{Context, Pen};
use crate::corpus::code::Code;
use crate::corpus::finding::Finding;
use crate::corpus::record::HerbRecord;
use crate::text::fold;

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (work, pen) in context.own_works() {
        file_name(&work.id, pen, findings);
    }
    for (herb, pen) in context.own_herbs() {
        file_name(&herb.id, pen, findings);
        entries(herb, pen, findings);
    }
    duplicate_works(context, findings);
    herb_ids(context, findings);
    shared_names(context, findings);
}

fn file_name(id: &str, pen: Pen<'_>, findings: &mut Vec<Finding>) {
    if id != pen.source.stem {
        let expected = format!("`{}`, as the file is named", pen.source.stem);
        findings.push(pen.at("/id", Code::IdNotFile, format!("`{id}`"), &expected));
    }
}

fn duplicate_works(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let mut count: HashMap<&str, usize> = HashMap::new();
    for (placed, _) in context.works {
        *count.entry(placed.record.id.as_str()).or_default() += 1;
    }
    for (work, pen) in context.own_works() {
        if count[work.id.as_str()] > 1 {
            findings.push(pen.at(
                "/id",
                Code::DuplicateId,
                format!("`{}`", work.id),
                "an id that no other work has",
            ));
        }
    }
}

/// A file without names adds to an herb that has them; two files with names are rivals.
fn herb_ids(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let named = |id: &str| {
        let herbs = context.herbs.iter().map(|(placed, _)| &placed.record);
        herbs
            .filter(|herb| herb.id == id && herb.names.is_some())
            .count()
    };
    for (herb, pen) in context.own_herbs() {
        match (&herb.names, named(&herb.id)) {
            (None, 0) => {
                let found = "no names, and no herb of this id in the shipped corpus".to_owned();
                findings.push(pen.at(
                    "/id",
                    Code::NamesMissing,
                    found,
                    "`names:`, `part:` and `substance:`",
                ));
            }
            (Some(_), 2..) => {
                let expected = "another id; or no `names:`, to add to the herb that has this id";
                findings.push(pen.at("/id", Code::DuplicateId, format!("`{}`", herb.id), expected));
            }
            (Some(_), _) if herb.part.is_none() || herb.substance.is_none() => {
                let key = if herb.part.is_none() {
                    "part"
                } else {
                    "substance"
                };
                let found = format!("no `{key}:`");
                findings.push(pen.at(
                    "/id",
                    Code::NamesMissing,
                    found,
                    "`names:`, `part:` and `substance:`",
                ));
            }
            _ => {}
        }
    }
}

fn entries(herb: &HerbRecord, pen: Pen<'_>, findings: &mut Vec<Finding>) {
    let mut seen = HashSet::new();
    for (n, entry) in herb.entries.iter().enumerate() {
        if !seen.insert((&entry.work, &entry.at)) {
            let found = format!("a second entry for this article of `{}`", entry.work);
            findings.push(pen.at(
                &format!("/entries/{n}/work"),
                Code::DuplicateEntry,
                found,
                "one entry an article",
            ));
        }
    }
}

/// A name that two herbs bear must stand under `shared` of both.
fn shared_names(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let mut bearers: HashMap<String, HashSet<&str>> = HashMap::new();
    for (placed, _) in context.herbs {
        for (_, name) in names(&placed.record) {
            bearers
                .entry(fold(name))
                .or_default()
                .insert(placed.record.id.as_str());
        }
        for shared in placed.record.names.iter().flat_map(|names| &names.shared) {
            bearers
                .entry(fold(&shared.name))
                .or_default()
                .insert(placed.record.id.as_str());
        }
    }
    for (herb, pen) in context.own_herbs() {
        for (pointer, name) in names(herb) {
            let mut others: Vec<&str> = bearers[&fold(name)]
                .iter()
                .copied()
                .filter(|id| *id != herb.id)
                .collect();
            others.sort_unstable();
            if !others.is_empty() {
                let found = format!("`{name}`, a name of {} too", others.join(", "));
                findings.push(pen.at(
                    &pointer,
                    Code::SharedName,
                    found,
                    "the name under `shared` of both herbs",
                ));
            }
        }
    }
}

/// The names that an herb claims for itself, with their places.
fn names(herb: &HerbRecord) -> Vec<(String, &str)> {
    let Some(names) = &herb.names else {
        return Vec::new();
    };
    let mut all = vec![
        ("/names/hant".to_owned(), names.hant.as_str()),
        ("/names/pinyin".to_owned(), names.pinyin.as_str()),
        ("/names/latin".to_owned(), names.latin.as_str()),
        ("/names/english".to_owned(), names.english.as_str()),
    ];
    all.extend(
        names
            .also
            .iter()
            .enumerate()
            .map(|(n, name)| (format!("/names/also/{n}"), name.as_str())),
    );
    all
}
