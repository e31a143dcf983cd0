//! `kaoyi taste`: the notebook of tastings.

use std::path::Path;

use super::outcome::{Attempt, Failure, Outcome};
use super::output::Output;
use super::taste_args::{
    TasteArguments, TasteCommand, TasteListArguments, TasteScope, TasteShowArguments,
    TasteUndoArguments,
};
use super::{common, notebook, taste_against};
use super::{taste_add, taste_edit, taste_form, taste_panel, taste_plan};
use crate::corpus::{Corpus, Finding};
use crate::index::Library;
use crate::report::ask::{self, Listed};
use crate::report::text;
use crate::report::view::{FindingsView, Labels, TastingView, TastingsView};
use crate::tasting::{self, Notebook, Noted};
use crate::text::{Converter, Script};

/// How many faults of files are shown beside an answer.
const FAULTS_SHOWN: usize = 10;

pub(super) fn run(arguments: &TasteArguments, output: &Output) -> Attempt<Outcome> {
    match &arguments.command {
        TasteCommand::Add(arguments) => taste_add::run(arguments, output),
        TasteCommand::List(arguments) => list(arguments, output),
        TasteCommand::Show(arguments) => show(arguments, output),
        TasteCommand::Edit(arguments) => taste_edit::run(arguments, output),
        TasteCommand::Undo(arguments) => undo(arguments, output),
        TasteCommand::Against(arguments) => taste_against::run(arguments, output),
        TasteCommand::Panel(arguments) => taste_panel::run(arguments, output),
        TasteCommand::Form(arguments) => taste_form::run(arguments, output),
        TasteCommand::Plan(arguments) => taste_plan::run(arguments, output),
    }
}

/// What every subcommand works with.
pub(super) struct Desk {
    pub library: Library,
    pub notebook: Notebook,
    pub findings: Vec<Finding>,
    script: Converter,
}

impl Desk {
    pub fn open(scope: &TasteScope) -> Attempt<Self> {
        let library = common::library(scope.corpus.as_deref())?;
        let folder = notebook::folder(scope.notebook.as_deref())?;
        let cache = common::cache();
        let (notebook, findings) = Notebook::open_with(&folder, &library.corpus, cache.as_deref());
        Ok(Self {
            notebook,
            findings,
            script: Converter::new(scope.script.unwrap_or(Script::Recorded))?,
            library,
        })
    }

    pub fn corpus(&self) -> &Corpus {
        &self.library.corpus
    }

    pub fn labels(&self) -> Labels<'_> {
        Labels::new(self.corpus(), &self.script)
    }

    /// The tasting that `word` names.
    pub fn find(&self, word: &str) -> Attempt<&Noted> {
        // A faulty file is not taken for another whose id ends alike.
        let whole = self.notebook.all().iter().any(|one| one.id == word);
        if !whole && self.notebook.path(word).is_file() {
            return Err(self.left_out(word));
        }
        ask::find(&self.notebook, word)
    }

    /// Why a file that is there is no tasting.
    fn left_out(&self, id: &str) -> Box<Failure> {
        let path = self.notebook.path(id);
        let mut failure = Failure::new(format!(
            "{} is left out of the notebook; mend it in an editor",
            path.display()
        ));
        let mut findings = self.findings.clone();
        findings.retain(|one| Path::new(&one.file) == path);
        if !findings.is_empty() {
            failure.findings = Some(faults(findings, 1));
        }
        failure
    }

    /// Shows a tasting, with what was done with it.
    pub fn show(
        &self,
        noted: &Noted,
        file: &Path,
        done: Option<&str>,
        output: &Output,
    ) -> Attempt<()> {
        let view = TastingView::new(&self.labels(), file.display().to_string(), noted)?;
        if output.json() {
            return output.document(&view);
        }
        output.text(&text::tasting(output.page(), &view, done))
    }

    /// Tells beside the answer which files are faulty.
    fn tell_faults(&self, output: &Output) {
        if !self.findings.is_empty() && !output.json() {
            let view = faults(self.findings.clone(), self.notebook.files());
            output.beside(&text::first_findings(output.page(), &view, FAULTS_SHOWN));
        }
    }
}

/// Faults of tastings as a view.
pub(super) fn faults(findings: Vec<Finding>, files: usize) -> FindingsView {
    FindingsView {
        format: "kaoyi.check/1",
        files,
        entries: None,
        claims: None,
        findings,
    }
}

fn list(arguments: &TasteListArguments, output: &Output) -> Attempt<Outcome> {
    let desk = Desk::open(&arguments.scope)?;
    let herb = arguments.herb.as_deref().map(|name| {
        let (herb, notes) = ask::herb_of(desk.corpus(), &desk.notebook, name)?;
        output.notes(&notes);
        Attempt::Ok(herb)
    });
    let herb = herb.transpose()?;
    let listed = Listed {
        herb: herb.as_deref(),
        taster: arguments.taster.as_deref(),
        since: arguments.since,
        until: arguments.until,
    };
    let matching = ask::list(&desk.notebook, &listed)?;
    let view = TastingsView::new(
        &desk.labels(),
        &desk.notebook,
        &matching,
        arguments.top,
        desk.findings.clone(),
    )?;
    if output.json() {
        output.document(&view)?;
    } else {
        output.text(&text::tastings(output.page(), &view))?;
    }
    desk.tell_faults(output);
    Ok(if matching.is_empty() || !desk.findings.is_empty() {
        Outcome::Otherwise
    } else {
        Outcome::Answered
    })
}

fn show(arguments: &TasteShowArguments, output: &Output) -> Attempt<Outcome> {
    let desk = Desk::open(&arguments.scope)?;
    let noted = desk.find(&arguments.id)?;
    desk.show(noted, &desk.notebook.path(&noted.id), None, output)?;
    Ok(Outcome::Answered)
}

fn undo(arguments: &TasteUndoArguments, output: &Output) -> Attempt<Outcome> {
    let desk = Desk::open(&arguments.scope)?;
    let Some(last) = desk.notebook.last_added() else {
        let folder = desk.notebook.folder().display();
        output.note(&format!(
            "no tasting in {folder} was added by kaoyi: nothing was taken back"
        ));
        return Ok(Outcome::Otherwise);
    };
    let to = tasting::undo(desk.notebook.folder(), &last.id)?;
    desk.show(last, &to, Some("taken back; its file is now"), output)?;
    Ok(Outcome::Answered)
}
