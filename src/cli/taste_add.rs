//! `kaoyi taste add`: note a tasting.

use std::fs;
use std::io::Read as _;
use std::path::Path;
use std::time::{SystemTime, UNIX_EPOCH};

use super::common;
use super::outcome::{Attempt, Failure, Outcome};
use super::output::Output;
use super::taste::{self, Desk};
use super::taste_args::TasteAddArguments;
use super::taste_fields;
use crate::corpus::{FILE_LIMIT, Herb};
use crate::report::ask::{self, Given};
use crate::report::text;
use crate::report::view::NOTICE;
use crate::tasting::{Day, Override, Tasting, questions, read_tasting};

pub(super) fn run(arguments: &TasteAddArguments, output: &Output) -> Attempt<Outcome> {
    let desk = Desk::open(&arguments.scope)?;
    let mut tasting = match &arguments.file {
        Some(file) => from_file(file, &desk)?,
        None => Tasting::on(String::new(), today()?),
    };
    let herb = herb(arguments, &tasting, &desk, output)?;
    let reason = reason(arguments)?;
    let stated = tasting.overridden.take().or(reason);
    tasting.overridden = permitted(herb, stated, &desk, output)?;
    tasting.herb.clone_from(&herb.id);
    if arguments.file.is_none() {
        let given = taste_fields::given(&arguments.fields, &desk.corpus().vocabulary)?;
        ask::set_all(&mut tasting, &given);
        let told = !tasting.scores.is_empty();
        if !told && output.can_ask() {
            if !interview(&mut tasting, herb, &given, &desk, output)? {
                return Err(Failure::new(
                    "the input ended before the last question; nothing was written",
                ));
            }
        } else if ask::untold(&tasting) {
            return Err(Failure::new("no score was given, and there is no terminal to ask at").with_hint(
                "Give --score acrid=6.5 and others, --warmth -2, or at least --words; or a record with --file FILE, - for \
                 standard input.",
            ));
        }
    }
    let unique = (now(), fastrand::u64(..));
    let noted = ask::note_down(&desk.notebook, tasting, &herb.id, unique)?;
    desk.show(
        &noted,
        &desk.notebook.path(&noted.id),
        Some("written"),
        output,
    )?;
    Ok(Outcome::Answered)
}

/// The herb named by the argument, or by the record; both must mean one.
fn herb<'d>(
    arguments: &TasteAddArguments,
    tasting: &Tasting,
    desk: &'d Desk,
    output: &Output,
) -> Attempt<&'d Herb> {
    let Some(name) = &arguments.herb else {
        return common::herb(desk.corpus(), &tasting.herb, output);
    };
    let herb = common::herb(desk.corpus(), name, output)?;
    if arguments.file.is_some() {
        let of_record = common::herb(desk.corpus(), &tasting.herb, output)?;
        if of_record.id != herb.id {
            return Err(Failure::new(format!(
                "the record is of {}, and {} was named beside it",
                of_record.names.hant, herb.names.hant
            )));
        }
    }
    Ok(herb)
}

fn reason(arguments: &TasteAddArguments) -> Attempt<Option<Override>> {
    match arguments.despite.as_deref().map(str::trim) {
        None => Ok(None),
        Some("") => Err(Failure::new("--despite needs a reason, in words")),
        Some(reason) => Ok(Some(Override {
            reason: reason.to_owned(),
        })),
    }
}

/// What is written of the reason; a refusal where an herb is not tasted and no reason is stated.
pub(super) fn permitted(
    herb: &Herb,
    stated: Option<Override>,
    desk: &Desk,
    output: &Output,
) -> Attempt<Option<Override>> {
    let permission = ask::permitted(&desk.labels(), herb, stated).map_err(|failure| {
        failure.with_hint(format!(
            "{NOTICE} What was tasted all the same, for a reason, is noted with --despite REASON."
        ))
    })?;
    if let Some(note) = &permission.note {
        output.note(note);
    }
    Ok(permission.overridden)
}

fn from_file(file: &Path, desk: &Desk) -> Attempt<Tasting> {
    let shown = file.display().to_string();
    let failed = |error: std::io::Error| Failure::new(format!("{shown}: {error}"));
    let mut bytes = Vec::new();
    if file == Path::new("-") {
        let limited = std::io::stdin().take(FILE_LIMIT);
        { limited }.read_to_end(&mut bytes).map_err(failed)?;
    } else {
        let opened = fs::File::open(file).map_err(failed)?;
        opened
            .take(FILE_LIMIT)
            .read_to_end(&mut bytes)
            .map_err(failed)?;
    }
    let text =
        String::from_utf8(bytes).map_err(|_| Failure::new(format!("{shown}: not UTF-8 text")))?;
    read_tasting(&shown, &text, &desk.corpus().vocabulary).map_err(|findings| {
        let mut failure = Failure::new(format!("{shown} has faults; nothing was written"));
        failure.findings = Some(taste::faults(findings, 1));
        failure
    })
}

/// Asks for everything that was not given; false when the input ended.
fn interview(
    tasting: &mut Tasting,
    herb: &Herb,
    given: &Given,
    desk: &Desk,
    output: &Output,
) -> Attempt<bool> {
    output.beside(&text::interview(output.page(), &herb.names.hant));
    let today = tasting.date;
    let mut step = None;
    for question in questions(&desk.corpus().vocabulary) {
        if given.iter().any(|(field, _)| *field == question.field) {
            continue;
        }
        if question.step != step {
            step = question.step;
            output.beside(&text::step(output.page(), step.unwrap_or_default()));
        }
        // Who tastes is offered from the last tasting of all, the rest from that taster's own.
        let last = desk.notebook.last(tasting.taster.as_deref());
        let offer = question.offer(last.map(|one| &one.tasting), today);
        let brackets = offer.as_ref().map(|offer| format!(" [{offer}]"));
        let words = format!("{}{}: ", question.ask, brackets.unwrap_or_default());
        loop {
            let Some(answer) = output.ask(&words)? else {
                return Ok(false);
            };
            let answer = match (answer.is_empty(), &offer) {
                (true, Some(offer)) => offer.clone(),
                (true, None) => break,
                (false, _) => answer,
            };
            match question.field.set(tasting, &answer) {
                Ok(()) => break,
                Err(error) => output.note(&error.to_string()),
            }
        }
    }
    Ok(true)
}

/// Today, where the user is.
fn today() -> Attempt<Day> {
    let today = jiff::ZonedDateTime::now().date();
    let words = today.to_string();
    words.parse().map_err(|error| {
        Failure::new(format!("the clock of this computer tells no day: {error}"))
            .with_hint("Give the day with --date.")
    })
}

/// The time in milliseconds.
pub(super) fn now() -> u64 {
    let since = SystemTime::now().duration_since(UNIX_EPOCH);
    u64::try_from(since.unwrap_or_default().as_millis()).unwrap_or_default()
}
