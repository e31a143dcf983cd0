//! The one place that writes to the terminal: answers to standard output, all else to standard
//! error.

use std::io::{self, IsTerminal, Write};
use std::process::ExitCode;

use anstream::{AutoStream, ColorChoice};
use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};
use serde::Serialize;

use super::args::{Colour, Global};
use super::outcome::{Attempt, Failure, Outcome};
use crate::report::export::ExportError;
use crate::report::text::{self, Page};

/// The width of a page that no terminal gives.
const PIPED_WIDTH: usize = 80;
/// The width of a page with `--wide`, at the least.
const WIDE_WIDTH: usize = 140;

/// Below so many steps no bar is shown.
const BAR_FROM: usize = 400;

/// Where and how to write.
pub(super) struct Output {
    json: bool,
    colour: ColorChoice,
    width: usize,
}

impl Output {
    pub fn new(global: &Global) -> Self {
        let terminal = io::stdout()
            .is_terminal()
            .then(terminal_size::terminal_size)
            .flatten();
        let width = terminal.map_or(PIPED_WIDTH, |(width, _)| usize::from(width.0));
        let colour = match global.color {
            Colour::Auto => ColorChoice::Auto,
            Colour::Always => ColorChoice::AlwaysAnsi,
            Colour::Never => ColorChoice::Never,
        };
        Self {
            json: global.json,
            colour,
            width: if global.wide {
                width.max(WIDE_WIDTH)
            } else {
                width
            },
        }
    }

    /// An empty page of the right width.
    pub fn page(&self) -> Page {
        Page::new(self.width)
    }

    /// Whether the answer is to be one JSON document.
    pub const fn json(&self) -> bool {
        self.json
    }

    /// Writes a page.
    pub fn text(&self, text: &str) -> Attempt<()> {
        unless_closed(write!(
            AutoStream::new(io::stdout().lock(), self.colour),
            "{text}"
        ))
    }

    /// Writes one JSON document.
    pub fn document(&self, document: &impl Serialize) -> Attempt<()> {
        let text = serde_json::to_string_pretty(document)?;
        unless_closed(writeln!(io::stdout().lock(), "{text}"))
    }

    /// Writes one JSON document on a line of its own.
    pub fn line(&self, document: &impl Serialize) -> Attempt<()> {
        let text = serde_json::to_string(document)?;
        unless_closed(writeln!(io::stdout().lock(), "{text}"))
    }

    /// Lets `write` write to standard output.
    pub fn stream(
        &self,
        write: impl FnOnce(&mut dyn Write) -> Result<(), ExportError>,
    ) -> Attempt<()> {
        let mut buffered = io::BufWriter::new(io::stdout().lock());
        let written = write(&mut buffered).and_then(|()| Ok(buffered.flush()?));
        match written {
            Err(ExportError::Write(error)) => unless_closed(Err(error)),
            other => Ok(other?),
        }
    }

    /// Whether the answer goes to a terminal.
    pub fn on_terminal(&self) -> bool {
        io::stdout().is_terminal()
    }

    /// A bar for `steps` steps on a terminal; nothing elsewhere, and nothing for what is over before a
    /// bar is seen.
    pub fn bar(&self, steps: usize, of: &str) -> ProgressBar {
        let bar = ProgressBar::new(steps as u64);
        if steps < BAR_FROM || self.json || !io::stderr().is_terminal() {
            bar.set_draw_target(ProgressDrawTarget::hidden());
        }
        if let Ok(style) =
            ProgressStyle::with_template(&format!("{{bar:40}} {{pos}} of {{len}} {of}"))
        {
            bar.set_style(style);
        }
        bar
    }

    /// Writes a page beside the answer: a count, a summary.
    pub fn beside(&self, text: &str) {
        let mut stream = AutoStream::new(io::stderr().lock(), self.colour);
        // The answer stands; a count that nobody can read is no failure.
        let _ = write!(stream, "{text}");
    }

    /// Says something beside the answer.
    pub fn note(&self, words: &str) {
        let mut page = self.page();
        page.paragraph(&format!("note: {words}"));
        let mut stream = AutoStream::new(io::stderr().lock(), self.colour);
        // The answer stands; a note that nobody can read is no failure.
        let _ = write!(stream, "{}", page.into_text());
    }

    /// Says several things beside the answer.
    pub fn notes(&self, notes: &[String]) {
        for note in notes {
            self.note(note);
        }
    }

    /// Whether somebody sits at a terminal who can be asked.
    pub fn can_ask(&self) -> bool {
        !self.json && io::stdin().is_terminal() && io::stderr().is_terminal()
    }

    /// Asks at the terminal and gives the answer, without the end of the line; `None` when the input has ended.
    pub fn ask(&self, question: &str) -> io::Result<Option<String>> {
        let mut stream = AutoStream::new(io::stderr().lock(), self.colour);
        write!(stream, "{question}")?;
        stream.flush()?;
        let mut answer = String::new();
        let read = io::stdin().read_line(&mut answer)?;
        Ok((read > 0).then(|| answer.trim().to_owned()))
    }

    /// Says why the command could not run. There is nobody left to tell when this fails.
    pub fn failure(&self, failure: &Failure) {
        let mut stream = AutoStream::new(io::stderr().lock(), self.colour);
        let _ = if self.json {
            let document = error_document(failure);
            writeln!(stream, "{document}")
        } else {
            write!(stream, "{}", self.failure_text(failure))
        };
    }

    fn failure_text(&self, failure: &Failure) -> String {
        let mut page = self.page();
        if let Some(view) = &failure.findings {
            page.raw(&text::first_findings(
                self.page(),
                view,
                failure.findings_shown,
            ));
        }
        page.strong(&format!("kaoyi: {}", failure.message));
        for candidate in &failure.candidates {
            page.hanging(" ", 2, candidate);
        }
        if let Some(hint) = &failure.hint {
            page.paragraph(hint);
        }
        page.into_text()
    }
}

/// A reader that has gone away (`kaoyi compare bohe | head -1`) is no failure.
fn unless_closed(written: io::Result<()>) -> Attempt<()> {
    match written {
        Err(error) if error.kind() != io::ErrorKind::BrokenPipe => Err(error.into()),
        _ => Ok(()),
    }
}

/// Help, version, or a misuse of the command line, in the words of the argument parser; a misuse as
/// JSON when JSON was asked for.
pub(super) fn usage(error: &clap::Error, json: bool) -> ExitCode {
    if json && error.use_stderr() {
        let message = error.render().to_string();
        let lines: Vec<&str> = message
            .lines()
            .filter(|line| !line.trim().is_empty())
            .collect();
        let document = error_document(&Failure::new(lines.join(" ")));
        let _ = writeln!(io::stderr().lock(), "{document}");
        return Outcome::Failed.into();
    }
    match error.print() {
        Err(failure) if failure.kind() != io::ErrorKind::BrokenPipe => Outcome::Failed.into(),
        _ if error.use_stderr() => Outcome::Failed.into(),
        _ => Outcome::Answered.into(),
    }
}

/// A failure as the one JSON document that is written to standard error.
fn error_document(failure: &Failure) -> String {
    serde_json::to_string_pretty(&failure.view()).unwrap_or_else(|_| failure.message.clone())
}
