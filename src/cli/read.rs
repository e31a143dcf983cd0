//! `kaoyi read`: a book's plain text into entries for review.

use std::fs;
use std::io::Read as _;
use std::path::Path;

use super::common;
use super::data_args::ReadArguments;
use super::outcome::{Attempt, Failure, Outcome};
use super::output::Output;
use crate::corpus::{self, Corpus, Target};
use crate::reader::{self, ArticleReading, Folder, Herbs, Layout, Reader, Tally};
use crate::report::text;
use crate::report::view::ReadingView;

pub(super) fn run(arguments: &ReadArguments, output: &Output) -> Attempt<Outcome> {
    let corpus = corpus(arguments)?;
    let bytes = bytes(&arguments.text)?;
    let shown = arguments.text.display();
    let (text, _) = reader::decode(&bytes, arguments.encoding).map_err(|error| {
        let failure = Failure::new(format!("{shown}: {error}; no property statement found"));
        match error {
            reader::DecodeError::Unknown => failure.with_hint("Tell the encoding with --encoding."),
            _ => failure,
        }
    })?;
    let layout = layout(arguments, &text)?;
    if !corpus.has_work(&arguments.work) {
        output.note(&format!(
            "no work here has the id `{}`; its own name in the text counts as another speaker",
            common::shorten(&arguments.work)
        ));
    }
    let readings = readings(output, &corpus, &arguments.work, &text, &layout)?;
    let tally = Tally::of(&readings);
    if !tally.is_materia_medica() {
        return Err(Failure::new(format!(
            "{shown}: no property statement found in {} articles",
            tally.articles
        ))
        .with_hint("A text on drugs names flavour, nature or toxicity under most of its headings; tell another layout with --layout."));
    }
    if output.json() {
        for reading in &readings {
            output.line(&ReadingView::new(reading, &corpus.vocabulary))?;
        }
    } else if let Some(folder) = &arguments.into {
        merge(folder, &corpus, &arguments.work, &readings, output)?;
    } else {
        output.text(&text::entries(
            &corpus,
            &mut Herbs::new(&corpus)?,
            &arguments.work,
            &readings,
        ))?;
    }
    output.beside(&text::reading_summary(output.page(), &tally));
    Ok(Outcome::Answered)
}

/// The corpus that gives works and words: the folder told, else the one merged into, else the shipped one.
fn corpus(arguments: &ReadArguments) -> Attempt<Corpus> {
    let into = arguments.into.as_deref().filter(|folder| {
        ["works", "herbs", "vocabulary"]
            .iter()
            .any(|name| folder.join(name).is_dir())
    });
    Ok(common::library(arguments.corpus.as_deref().or(into))?.corpus)
}

fn layout(arguments: &ReadArguments, text: &str) -> Attempt<Layout> {
    if let Some(file) = &arguments.layout {
        let yaml = fs::read_to_string(file)
            .map_err(|error| Failure::new(format!("{}: {error}", file.display())))?;
        return Layout::from_yaml(&yaml)
            .map_err(|error| Failure::new(format!("{}: {error}", file.display())));
    }
    Layout::recognise(text).ok_or_else(|| {
        Failure::new(format!(
            "{}: no property statement found, since no heading was recognised",
            arguments.text.display()
        ))
        .with_hint("Headings are lines that begin with <篇名>, # or 【…】; tell another layout with --layout FILE.")
    })
}

fn readings(
    output: &Output,
    corpus: &Corpus,
    work: &str,
    text: &str,
    layout: &Layout,
) -> Attempt<Vec<ArticleReading>> {
    let articles = reader::articles(text, layout);
    let reader = Reader::new(corpus)?;
    let mut folder = Folder::new();
    let bar = output.bar(articles.len(), "articles");
    let read = |article| {
        bar.inc(1);
        reader.read(article, work, layout, &mut folder)
    };
    let readings = articles.iter().map(read).collect();
    bar.finish_and_clear();
    Ok(readings)
}

fn merge(
    folder: &Path,
    corpus: &Corpus,
    work: &str,
    readings: &[ArticleReading],
    output: &Output,
) -> Attempt<()> {
    if !corpus.has_work(work) {
        return Err(Failure::new(format!(
            "no work has the id `{}`: write {} first",
            common::shorten(work),
            folder.join("works").join(format!("{work}.yaml")).display()
        )));
    }
    let mut herbs = Herbs::new(corpus)?;
    let mut entries = Vec::new();
    let mut left: Vec<String> = Vec::new();
    let mut unknown: Vec<String> = Vec::new();
    for reading in readings {
        let Some(draft) = reader::draft(reading, work, corpus) else {
            continue;
        };
        unknown.extend(draft.unknown);
        if draft.entry.sayings.is_empty() {
            continue;
        }
        let treats = reading
            .sayings
            .iter()
            .any(|saying| saying.has_property() || !saying.channel.is_empty());
        match herbs.target(reading, work) {
            // A preface or a list of illnesses is no article on a new herb.
            Some(Target::New(_)) if !treats => {}
            Some(target) => entries.push((target, draft.entry)),
            None => left.push(format!("{} {}", reading.ordinal, reading.heading.trim())),
        }
    }
    let is_new = |target: &Target| matches!(target, Target::New(_));
    let new = entries.iter().filter(|(target, _)| is_new(target)).count();
    let merged =
        corpus::merge(folder, corpus, entries).map_err(|error| Failure::new(error.to_string()))?;
    output.text(&text::merged(output.page(), &merged, new, &left, &unknown))
}

fn bytes(path: &Path) -> Attempt<Vec<u8>> {
    if path == Path::new("-") {
        let mut bytes = Vec::new();
        std::io::stdin().read_to_end(&mut bytes)?;
        return Ok(bytes);
    }
    fs::read(path).map_err(|error| Failure::new(format!("{}: {error}", path.display())))
}
