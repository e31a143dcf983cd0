//! The command line: one file a command. Each reads its arguments, asks the library and prints; no
//! rule is decided here.

mod affinity;
mod args;
mod chart;
mod chart_args;
mod check;
mod cite;
mod common;
mod compare;
mod complete;
mod data_args;
mod disputes;
mod disputes_args;
mod explain;
mod export;
mod export_args;
mod file;
mod find;
mod find_args;
mod handout;
mod handout_args;
mod is;
mod name;
mod notebook;
mod outcome;
mod output;
mod pair;
mod pair_args;
mod profile;
mod read;
mod serve;
mod serve_args;
mod taste;
mod taste_add;
mod taste_against;
mod taste_args;
mod taste_class_args;
mod taste_edit;
mod taste_fields;
mod taste_form;
mod taste_herbs;
mod taste_panel;
mod taste_plan;
mod weigh;
mod weigh_args;
mod works;

use std::ffi::OsString;
use std::process::ExitCode;

use clap::Parser;

use args::{Arguments, Command};
use outcome::Outcome;
use output::Output;

pub use args::command;

/// Runs the command with the arguments of the process and gives its exit code: 0 answered, 1 ran
/// well but the answer is no or there are findings, 2 could not run.
pub fn run(arguments: impl IntoIterator<Item = OsString>) -> ExitCode {
    complete::answer_the_shell();
    let words: Vec<OsString> = arguments.into_iter().collect();
    let json = words.iter().any(|word| word == "--json");
    let arguments = match Arguments::try_parse_from(words) {
        Ok(arguments) => arguments,
        Err(error) => return output::usage(&error, json),
    };
    let output = Output::new(&arguments.global);
    let result = match &arguments.command {
        Command::Compare(arguments) => compare::run(arguments, &output),
        Command::Profile(arguments) => profile::run(arguments, &output),
        Command::Is(arguments) => is::run(arguments, &output),
        Command::Read(arguments) => read::run(arguments, &output),
        Command::Disputes(arguments) => disputes::run(arguments, &output),
        Command::Affinity(arguments) => affinity::run(arguments, &output),
        Command::Chart(arguments) => chart::run(arguments, &output),
        Command::Handout(arguments) => handout::run(arguments, &output),
        Command::Serve(arguments) => serve::run(arguments, &output),
        Command::Find(arguments) => find::run(arguments, &output),
        Command::Name(arguments) => name::run(arguments, &output),
        Command::Explain(arguments) => explain::run(arguments, &output),
        Command::Export(arguments) => export::run(arguments, &output),
        Command::Cite(arguments) => cite::run(arguments, &output),
        Command::Pair(arguments) => pair::run(arguments, &output),
        Command::Weigh(arguments) => weigh::run(arguments, &output),
        Command::Taste(arguments) => taste::run(arguments, &output),
        Command::Works(arguments) => works::run(arguments, &output),
        Command::Manual(arguments) => complete::manual(arguments, &output),
        Command::Check(arguments) => check::run(arguments, &output),
    };
    let outcome = result.unwrap_or_else(|failure| {
        output.failure(&failure);
        Outcome::Failed
    });
    outcome.into()
}
