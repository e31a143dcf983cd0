//! Which record is which: ids, file names, names of herbs, articles.

use std::collections::{HashMap, HashSet};

use super::{Context, Pen};
use crate::corpus::code::Code;
use crate::corpus::finding::Finding;
use crate::corpus::record::{EntryRecord, HerbRecord, NamesRecord};
use crate::text::fold;

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (work, pen) in context.own_works() {
        file_name(&work.id, pen, findings);
    }
    for (herb, pen) in context.own_herbs() {
        file_name(&herb.id, pen, findings);
        entries(herb, pen, findings);
        half_replaced(context, herb, pen, findings);
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
        let title = fold(&work.title.hant);
        let mut others = context
            .works
            .iter()
            .map(|(placed, _)| &placed.record)
            .filter(|one| one.id != work.id);
        if let Some(other) = others.find(|one| fold(&one.title.hant) == title) {
            let found = format!("`{}`, the title of `{}` too", work.title.hant, other.id);
            findings.push(pen.at(
                "/title/hant",
                Code::SharedName,
                found,
                "a title that no other work has",
            ));
        }
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

/// A file without names adds to an herb that has them; two files with names are rivals, and so are two
/// additions to one herb.
fn herb_ids(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let mut named: HashMap<&str, usize> = HashMap::new();
    let mut additions: HashMap<&str, usize> = HashMap::new();
    for herb in context.packed {
        named.insert(&herb.id, 1);
    }
    for (placed, _) in context.herbs {
        let herb = &placed.record;
        let kind = if herb.names.is_some() {
            &mut named
        } else {
            &mut additions
        };
        *kind.entry(&herb.id).or_default() += 1;
    }
    let count = |kind: &HashMap<&str, usize>, herb: &HerbRecord| {
        kind.get(herb.id.as_str()).copied().unwrap_or(0)
    };
    let needed = "`names:`, `part:` and `substance:`";
    for (herb, pen) in context.own_herbs() {
        let found = format!("`{}`", herb.id);
        match (&herb.names, count(&named, herb)) {
            (None, 0) => {
                let found = "no names, and no herb of this id in the shipped corpus".to_owned();
                findings.push(pen.at("/id", Code::NamesMissing, found, needed));
            }
            (None, _) if count(&additions, herb) > 1 => {
                findings.push(pen.at("/id", Code::DuplicateId, found, "one addition an herb"));
            }
            (None, _) => not_added(herb, pen, findings),
            (Some(_), 2..) => {
                let expected = "another id; or no `names:`, to add to the herb that has this id";
                findings.push(pen.at("/id", Code::DuplicateId, found, expected));
            }
            (Some(_), _) => {}
        }
    }
}

/// What an addition must not bring.
fn not_added(herb: &HerbRecord, pen: Pen<'_>, findings: &mut Vec<Finding>) {
    let given = [
        ("species", !herb.species.is_empty()),
        ("identity", herb.identity.is_some()),
        ("part", herb.part.is_some()),
        ("substance", herb.substance.is_some()),
        ("note", herb.note.is_some()),
    ];
    for (key, _) in given.into_iter().filter(|(_, given)| *given) {
        let found = format!("`{key}:` in an addition to a shipped herb");
        findings.push(pen.at_key("", key, Code::NotAdded, found, "entries and cautions only"));
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

/// An addition to an article of the shipped corpus replaces it only by its whole place; with the heading
/// alone it would count beside it.
fn half_replaced(
    context: &Context<'_>,
    herb: &HerbRecord,
    pen: Pen<'_>,
    findings: &mut Vec<Finding>,
) {
    let shipped = context.shipped_entries(&herb.id);
    for (n, entry) in herb.entries.iter().enumerate() {
        let Some(at) = &entry.at else { continue };
        let same = |one: &&EntryRecord| {
            one.work == entry.work
                && one
                    .at
                    .as_ref()
                    .is_some_and(|place| place.heading == at.heading)
        };
        let Some(place) = shipped.iter().find(same).and_then(|one| one.at.as_ref()) else {
            continue;
        };
        if place != at {
            let found = "a shipped article's heading without its whole place".to_owned();
            let section = place.section.as_deref().unwrap_or_default();
            let expected = format!(
                "{{ordinal: {}, section: '{section}', heading: {}}}, to take its place",
                place.ordinal.unwrap_or_default(),
                place.heading
            );
            findings.push(pen.at(
                &format!("/entries/{n}/at"),
                Code::DuplicateEntry,
                found,
                &expected,
            ));
        }
    }
}

/// A name that two herbs bear must stand under `shared` of both. Herbs whose Han names differ may sound
/// alike, and a shipped herb that shares a name already need not be told.
fn shared_names(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let mut bearers: HashMap<String, HashSet<&str>> = HashMap::new();
    let mut claimed: HashMap<String, HashSet<&str>> = HashMap::new();
    let shipped = context.packed.iter();
    let shipped = shipped.map(|herb| (herb.id.as_str(), Some(&herb.names), true));
    let own = context.herbs.iter().map(|(placed, _)| &placed.record);
    let own = own.map(|herb| (herb.id.as_str(), herb.names.as_ref(), false));
    for (id, record, shipped) in shipped.chain(own) {
        let shared = record.iter().flat_map(|names| &names.shared);
        let shared = shared
            .filter(|_| !shipped)
            .map(|shared| shared.name.as_str());
        let all: Vec<&str> = names(id, record)
            .into_iter()
            .map(|(_, name)| name)
            .collect();
        for name in &all {
            claimed.entry(fold(name)).or_default().insert(id);
        }
        for name in all.into_iter().chain(shared) {
            bearers.entry(fold(name)).or_default().insert(id);
        }
    }
    for (herb, pen) in context.own_herbs() {
        for (pointer, name) in names(&herb.id, herb.names.as_ref()) {
            let key = fold(name);
            // Its own main name an herb keeps, where the other says that it shares it.
            let main = pointer == "/names/hant";
            let bearing = if main { &claimed } else { &bearers };
            let bearing = bearing.get(&key).into_iter().flatten().copied();
            let mut others: Vec<&str> = bearing.filter(|id| *id != herb.id).collect();
            others.sort_unstable();
            if !key.is_empty() && !others.is_empty() {
                let found = format!("`{name}`, a name of {} too", others.join(", "));
                let expected = "another name, or the name under `shared` of both herbs";
                findings.push(pen.at(&pointer, Code::SharedName, found, expected));
            }
        }
    }
}

/// The names that an herb claims for itself, with their places.
fn names<'h>(id: &'h str, names: Option<&'h NamesRecord>) -> Vec<(String, &'h str)> {
    let Some(names) = names else {
        return Vec::new();
    };
    let mut all = vec![
        ("/id".to_owned(), id),
        ("/names/hant".to_owned(), names.hant.as_str()),
    ];
    let more = [("latin", &names.latin), ("english", &names.english)];
    all.extend(
        more.into_iter()
            .filter_map(|(key, name)| Some((format!("/names/{key}"), name.as_deref()?))),
    );
    all.extend(
        names
            .also
            .iter()
            .enumerate()
            .map(|(n, name)| (format!("/names/also/{n}"), name.as_str())),
    );
    all
}
