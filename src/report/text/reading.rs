//! What was read from a text: entries for review, and what came of it.

use super::page::Page;
use crate::corpus::Target;
use crate::corpus::{Corpus, Merged, entry_yaml};
use crate::reader::{self, ArticleReading, Herbs, Tally};

/// Entries as a YAML list, each under a comment that names its herb, and what stayed unread.
#[must_use]
pub fn entries(
    corpus: &Corpus,
    herbs: &mut Herbs<'_>,
    work: &str,
    readings: &[ArticleReading],
) -> String {
    let mut text = String::new();
    for reading in readings {
        let Some(draft) = reader::draft(reading, work, corpus) else {
            continue;
        };
        let target = match herbs.target(reading, work) {
            Some(Target::Known(id)) => id,
            Some(Target::New(herb)) => format!("{} (new)", herb.id),
            None => "which herb is not told by the heading".to_owned(),
        };
        text.push_str(&format!(
            "# {} {}: {target}\n",
            reading.ordinal, reading.drug
        ));
        for name in &draft.unknown {
            text.push_str(&format!(
                "# left out: what {name} says, who is no work here\n"
            ));
        }
        for unread in &reading.unread {
            text.push_str(&format!("# unread: {}\n", unread.text));
        }
        if !draft.entry.sayings.is_empty() {
            text.push_str(&entry_yaml(&draft.entry, 0));
        }
    }
    text
}

/// The count of what was read.
#[must_use]
pub fn reading_summary(mut page: Page, tally: &Tally) -> String {
    page.paragraph(&format!(
        "{} articles, {} with statements; {} sayings, {} of them doubtful; unread clauses: {}",
        tally.articles, tally.with_statements, tally.sayings, tally.doubtful, tally.unread
    ));
    page.paragraph(&format!(
        "sayings with flavour {}, nature {}, toxicity {}, grade {}, channel {}, action {}, other drugs {}",
        tally.flavour,
        tally.nature,
        tally.toxicity,
        tally.grade,
        tally.channel,
        tally.action,
        tally.relation
    ));
    page.into_text()
}

/// How many names a list shows.
const SHOWN: usize = 30;

/// What a merge did.
#[must_use]
pub fn merged(
    mut page: Page,
    merged: &Merged,
    new_entries: usize,
    left: &[String],
    unknown: &[String],
) -> String {
    page.paragraph(&format!(
        "{} entries added ({new_entries} to herbs that had no record), {} replaced, {} the same; {} files written",
        merged.added, merged.replaced, merged.same, merged.files
    ));
    if !merged.kept.is_empty() {
        page.paragraph(&format!(
            "{} reviewed entries differ from this reading and were kept:",
            merged.kept.len()
        ));
        for (file, line, heading) in &merged.kept {
            page.hanging(" ", 2, &format!("{}:{line} {heading}", file.display()));
        }
    }
    let lists = [
        ("new herbs", merged.new_herbs.as_slice()),
        ("left out, since the heading does not tell the herb", left),
    ];
    for (what, names) in lists {
        if !names.is_empty() {
            page.hanging(&format!("{what} ({})", names.len()), 2, &some(names));
        }
    }
    let mut speakers: Vec<String> = unknown.to_vec();
    speakers.sort();
    speakers.dedup();
    if !speakers.is_empty() {
        page.hanging(
            &format!("left out, said by {} who are no works here", speakers.len()),
            2,
            &some(&speakers),
        );
    }
    page.into_text()
}

fn some(names: &[String]) -> String {
    let more = if names.len() > SHOWN { " …" } else { "" };
    let shown: Vec<&str> = names.iter().take(SHOWN).map(String::as_str).collect();
    format!("{}{more}", shown.join(", "))
}
