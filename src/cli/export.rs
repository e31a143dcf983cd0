//! `kaoyi export`: claims and works for other programs.

use std::fs;
use std::io::{self, Write};
use std::panic::{self, AssertUnwindSafe};
use std::path::{Path, PathBuf};

use super::export_args::{ExportArguments, Shape};
use super::outcome::{Attempt, Failure, Outcome};
use super::output::Output;
use super::{common, file};
use crate::corpus::{Corpus, HerbId};
use crate::report::export::{self, Export, ExportError, Format};
use crate::report::view::{CorpusView, ExportedFile, ExportedView, Labels, NOTICE};

pub(super) fn run(arguments: &ExportArguments, output: &Output) -> Attempt<Outcome> {
    refuse(arguments, output)?;
    let corpus = &common::library(arguments.scope.corpus.as_deref())?.corpus;
    let herbs = herbs(corpus, &arguments.herbs, output)?;
    let selection = common::selection(corpus, &arguments.scope)?;
    let script = common::converter(&arguments.scope)?;
    let labels = Labels::new(corpus, &script);
    let about = CorpusView::new(corpus, arguments.scope.corpus.as_deref())?;
    let export = Export {
        labels: &labels,
        about: &about,
        herbs,
        whole: arguments.herbs.is_empty(),
        selection,
        raw: arguments.raw,
    };
    let mut paths = Vec::new();
    match (arguments.format, &arguments.output) {
        (Shape::File(format), None) => output.stream(|to| written(&export, format, to))?,
        (Shape::File(format), Some(path)) => {
            file::put(path, |to| {
                written(&export, format, to).map_err(|error| named(path, error))
            })?;
            paths.push(path.clone());
        }
        (Shape::Package, folder) => {
            let folder = folder.as_deref().unwrap_or_else(|| Path::new("."));
            fs::create_dir_all(folder).map_err(|error| file::unwritten(folder, &error))?;
            for (name, write) in export::package_files() {
                let path = folder.join(name);
                file::put(&path, |to| {
                    write(&export, to).map_err(|error| named(&path, error))
                })?;
                paths.push(path);
            }
        }
    }
    tell(&paths, output)?;
    output.note(NOTICE);
    Ok(if export.herbs.is_empty() {
        Outcome::Otherwise
    } else {
        Outcome::Answered
    })
}

/// Why a file could not be written, with its name.
fn named(path: &Path, error: ExportError) -> Box<Failure> {
    match error {
        ExportError::Write(error) => file::unwritten(path, &error),
        other => other.into(),
    }
}

/// Writes one format. The writer of workbooks keeps its rows in a temporary file and panics where the disk is full: that is
/// told as any other failure.
fn written(export: &Export<'_, '_>, format: Format, to: &mut dyn Write) -> Result<(), ExportError> {
    if format != Format::Xlsx {
        return export.write(format, to);
    }
    let hook = panic::take_hook();
    panic::set_hook(Box::new(|_| {}));
    let written = panic::catch_unwind(AssertUnwindSafe(|| export.write(format, to)));
    panic::set_hook(hook);
    written.unwrap_or_else(|payload| {
        let words = payload.downcast_ref::<String>().cloned();
        let words = words.unwrap_or_else(|| "its writer failed".to_owned());
        Err(ExportError::Write(io::Error::other(words)))
    })
}

/// Refuses what cannot be meant, before anything is read.
fn refuse(arguments: &ExportArguments, output: &Output) -> Attempt<()> {
    let Some(path) = &arguments.output else {
        if arguments.format == Shape::Package {
            return Err(Failure::new(
                "a package is a folder of files: tell which with -o DIR",
            ));
        }
        if arguments.format == Shape::File(Format::Xlsx) && output.on_terminal() {
            return Err(Failure::new(
                "a workbook is no text for a terminal: tell a file with -o FILE",
            ));
        }
        if output.json() {
            return Err(Failure::new(
                "--json tells of the files that -o writes, and there is no -o",
            )
            .with_hint("Claims as JSON: kaoyi export ndjson"));
        }
        return Ok(());
    };
    match arguments.format {
        Shape::File(_) if path.is_dir() => Err(Failure::new(format!(
            "{} is a folder; this format is one file",
            path.display()
        ))),
        Shape::Package if path.is_file() => Err(Failure::new(format!(
            "{} is a file; a package is a folder",
            path.display()
        ))),
        _ => Ok(()),
    }
}

/// The herbs named, each once, or all. Every name that is none is told at once.
fn herbs(corpus: &Corpus, names: &[String], output: &Output) -> Attempt<Vec<HerbId>> {
    if names.is_empty() {
        return Ok((0_u32..).map(HerbId).take(corpus.herb_count()).collect());
    }
    let mut herbs = Vec::new();
    let mut failures: Vec<Box<Failure>> = Vec::new();
    for name in names {
        match common::herb(corpus, name, output) {
            Ok(herb) => {
                let place = corpus.place_of(herb);
                if !herbs.contains(&place) {
                    herbs.push(place);
                }
            }
            Err(failure) => failures.push(failure),
        }
    }
    let Some(mut first) = failures.pop() else {
        return Ok(herbs);
    };
    while let Some(other) = failures.pop() {
        first.message = format!("{}; {}", other.message, first.message);
        first.candidates.splice(0..0, other.candidates);
    }
    Err(first)
}

/// Tells which files were written.
fn tell(paths: &[PathBuf], output: &Output) -> Attempt<()> {
    if paths.is_empty() {
        return Ok(());
    }
    let mut files = Vec::new();
    for path in paths {
        let bytes = fs::metadata(path)
            .map_err(|error| file::unwritten(path, &error))?
            .len();
        files.push(ExportedFile {
            path: path.display().to_string(),
            bytes,
        });
    }
    if output.json() {
        let format = ExportedView::FORMAT;
        return output.document(&ExportedView {
            format,
            files,
            notice: NOTICE,
        });
    }
    let lines = files
        .iter()
        .map(|file| format!("{} ({} bytes)\n", file.path, file.bytes));
    output.text(&lines.collect::<String>())
}
