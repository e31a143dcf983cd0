//! `kaoyi taste edit`: change a tasting.

use std::fs;
use std::path::Path;
use std::process::Command;

use super::common;
use super::outcome::{Attempt, Failure, Outcome};
use super::output::Output;
use super::taste::{self, Desk};
use super::taste_args::TasteEditArguments;
use super::{taste_add, taste_fields};
use crate::corpus::Lookup;
use crate::report::ask;
use crate::tasting::{self, Noted, Tasting, read_tasting, with_fields};

pub(super) fn run(arguments: &TasteEditArguments, output: &Output) -> Attempt<Outcome> {
    let desk = Desk::open(&arguments.scope)?;
    let noted = desk.find(&arguments.id)?;
    let path = desk.notebook.path(&noted.id);
    let before = read(&path)?;
    let given = taste_fields::given(&arguments.fields, &desk.corpus().vocabulary)?;
    let (text, tasting) = if given.is_empty() {
        in_editor(&before, noted, &desk, output)?
    } else {
        let mut tasting = noted.tasting.clone();
        ask::set_all(&mut tasting, &given);
        let mut keys: Vec<&str> = given.iter().map(|(field, _)| field.key()).collect();
        keys.dedup();
        (with_fields(&before, &tasting, &keys), tasting)
    };
    if text == before {
        output.note(&format!("{} was not changed", path.display()));
        return Ok(Outcome::Otherwise);
    }
    // Another program may have written meanwhile: its work is not lost.
    if read(&path)? != before {
        let failure = Failure::new(format!(
            "{} was written by another program meanwhile",
            path.display()
        ));
        return Err(failure.with_hint("Nothing was changed; edit it again."));
    }
    tasting::replace(&path, &text)?;
    let herb = match desk.corpus().find_herb(&tasting.herb) {
        Lookup::One(id) => Some(desk.corpus().named(id).id.clone()),
        _ => None,
    };
    let changed = Noted {
        id: noted.id.clone(),
        known: herb.is_some(),
        herb: herb.unwrap_or_else(|| tasting.herb.clone()),
        tasting,
    };
    desk.show(&changed, &path, Some("changed"), output)?;
    Ok(Outcome::Answered)
}

fn read(path: &Path) -> Attempt<String> {
    fs::read_to_string(path).map_err(|error| Failure::new(format!("{}: {error}", path.display())))
}

/// Opens a copy in the user's editor and gives it back once it is a tasting without fault. A faulty copy is kept.
fn in_editor(
    before: &str,
    noted: &Noted,
    desk: &Desk,
    output: &Output,
) -> Attempt<(String, Tasting)> {
    let editor = ["VISUAL", "EDITOR"].iter().find_map(|name| {
        let editor = std::env::var(name).ok()?;
        (!editor.trim().is_empty()).then_some(editor)
    });
    let Some(editor) = editor else {
        return Err(Failure::new("no editor is named by VISUAL or EDITOR")
            .with_hint("Name one, or change single fields: kaoyi taste edit last --hours 10."));
    };
    let failed = |error: std::io::Error| Failure::new(format!("{editor}: {error}"));
    let beside = tempfile::Builder::new()
        .prefix("kaoyi-")
        .tempdir()
        .map_err(failed)?;
    let copy = beside.path().join(format!("{}.yaml", noted.id));
    fs::write(&copy, before).map_err(failed)?;
    let mut words = editor.split_whitespace();
    let mut command = Command::new(words.next().unwrap_or_default());
    let status = command.args(words).arg(&copy).status().map_err(failed)?;
    if !status.success() {
        return Err(Failure::new(format!(
            "{editor} ended with {status}; nothing was changed"
        )));
    }
    let text = read(&copy)?;
    match checked(&text, &copy, desk, output) {
        Ok(tasting) => Ok((text, tasting)),
        Err(failure) => {
            let kept = beside.keep();
            let hint = format!(
                "The file is as it was. What you wrote is in {}.",
                kept.join(copy.file_name().unwrap_or_default()).display()
            );
            let hint = match &failure.hint {
                Some(more) => format!("{hint} {more}"),
                None => hint,
            };
            Err(failure.with_hint(hint))
        }
    }
}

fn checked(text: &str, copy: &Path, desk: &Desk, output: &Output) -> Attempt<Tasting> {
    let shown = copy.display().to_string();
    let read = read_tasting(&shown, text, &desk.corpus().vocabulary);
    let tasting = read.map_err(|findings| {
        let mut failure = Failure::new("the edited record has faults");
        failure.findings = Some(taste::faults(findings, 1));
        failure
    })?;
    let herb = common::herb(desk.corpus(), &tasting.herb, output)?;
    taste_add::permitted(herb, tasting.overridden.clone(), desk, output)?;
    Ok(tasting)
}
