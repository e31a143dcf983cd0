//! Completions for the shells, herbs and works among them, and man pages.

use std::ffi::OsStr;
use std::fs;

use clap_complete::engine::{ArgValueCompleter, CompletionCandidate};
use clap_complete::env::CompleteEnv;

use super::data_args::ManualArguments;
use super::outcome::{Attempt, Outcome};
use super::output::Output;
use super::{args, file};
use crate::corpus::embedded;
use crate::text::fold;

/// So many candidates are offered: a shell shows no more at once.
const MOST: usize = 60;

/// Answers a shell that asks for completions, by the variable `COMPLETE`, and ends the process then.
pub(super) fn answer_the_shell() {
    CompleteEnv::with_factory(args::command).complete();
}

/// Completes the name of an herb: its id, Han characters, pinyin or English, whatever of these has been begun.
pub(super) fn herbs() -> ArgValueCompleter {
    ArgValueCompleter::new(|begun: &OsStr| {
        let begun = begun.to_string_lossy();
        let key = fold(&begun);
        let Ok(corpus) = embedded() else {
            return Vec::new();
        };
        let mut candidates = Vec::new();
        for herb in corpus.names() {
            let english = herb.names.english.iter();
            let main = [&herb.id, &herb.names.hant, &herb.names.hans]
                .into_iter()
                .chain(english);
            let mut fitting =
                main.filter(|name| name.starts_with(&*begun) || fold(name).starts_with(&key));
            if let Some(name) = fitting.next() {
                let help = format!("{} {}", herb.names.hant, herb.names.pinyin);
                candidates.push(CompletionCandidate::new(name).help(Some(help.into())));
            }
            if candidates.len() == MOST {
                break;
            }
        }
        candidates
    })
}

/// Completes the id of a work.
pub(super) fn works() -> ArgValueCompleter {
    ArgValueCompleter::new(|begun: &OsStr| {
        let begun = begun.to_string_lossy();
        let Ok(corpus) = embedded() else {
            return Vec::new();
        };
        let works = corpus.works().iter();
        let fitting =
            works.filter(|work| work.id.starts_with(&*begun) || work.hant.starts_with(&*begun));
        fitting
            .map(|work| {
                let name = if work.id.starts_with(&*begun) {
                    &work.id
                } else {
                    &work.hant
                };
                CompletionCandidate::new(name).help(Some(work.hant.clone().into()))
            })
            .collect()
    })
}

/// Completes the id of a period with measures of its own.
pub(super) fn periods() -> ArgValueCompleter {
    ArgValueCompleter::new(|begun: &OsStr| {
        let begun = begun.to_string_lossy();
        let Ok(corpus) = embedded() else {
            return Vec::new();
        };
        let periods = corpus.vocabulary.measures.periods.iter();
        let fitting = periods.filter(|one| one.id.starts_with(&*begun));
        fitting
            .map(|one| CompletionCandidate::new(&one.id).help(Some(one.english.clone().into())))
            .collect()
    })
}

/// Writes a man page for the program and for each of its commands.
pub(super) fn manual(arguments: &ManualArguments, output: &Output) -> Attempt<Outcome> {
    let folder = arguments.folder.as_path();
    fs::create_dir_all(folder)
        .and_then(|()| clap_mangen::generate_to(args::command(), folder))
        .map_err(|error| file::unwritten(folder, &error))?;
    let page = arguments.folder.join("kaoyi.1");
    output.text(&format!(
        "man pages written; the first: {}\n",
        page.display()
    ))?;
    Ok(Outcome::Answered)
}
