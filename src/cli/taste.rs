//! `kaoyi taste`: what tasters found.

use super::outcome::{Attempt, Outcome};
use super::output::Output;
use super::taste_args::{TasteArguments, TasteCommand};
use super::{taste_form, taste_panel, taste_plan};

pub(super) fn run(arguments: &TasteArguments, output: &Output) -> Attempt<Outcome> {
    match &arguments.command {
        TasteCommand::Panel(arguments) => taste_panel::run(arguments, output),
        TasteCommand::Form(arguments) => taste_form::run(arguments, output),
        TasteCommand::Plan(arguments) => taste_plan::run(arguments, output),
    }
}
