//! `kaoyi handout`: a page to print and hand out.

use super::handout_args::{HandoutArguments, PageFormat};
use super::outcome::{Attempt, Failure, Outcome};
use super::output::Output;
use super::{common, file, notebook};
use crate::corpus::Herb;
use crate::report::ask::{self, HandoutAsked};
use crate::report::handout::{HerbPart, html, markdown};
use crate::report::view::Labels;

pub(super) fn run(arguments: &HandoutArguments, output: &Output) -> Attempt<Outcome> {
    if output.json() {
        return Err(
            Failure::new("a handout is a page and has no JSON").with_hint(
                "What it shows: kaoyi compare HERB --json, or kaoyi disputes --facet FACET --json",
            ),
        );
    }
    let format = format(arguments)?;
    let library = common::library(arguments.scope.corpus.as_deref())?;
    let corpus = &library.corpus;
    let herbs = common::all_herbs(corpus, &arguments.herbs, output)?;
    let selection = common::selection(corpus, &arguments.scope)?;
    let script = common::converter(&arguments.scope)?;
    let labels = Labels::new(corpus, &script);
    let lesson = arguments.disputes.map(|facet| (facet, arguments.top));
    let own = |herb: &Herb| match arguments.tasted {
        true => notebook::beside(corpus, herb, &arguments.own, output),
        false => Ok(None),
    };
    let asked = HandoutAsked {
        herbs,
        lesson,
        selection,
        ruby: arguments.ruby,
        own: &own,
    };
    let handout = ask::handout(&library, &labels, asked)?;
    let heard =
        |one: &HerbPart| !one.comparison.witnesses.is_empty() || !one.comparison.actions.is_empty();
    let any = handout.herbs.iter().any(heard);
    let page = match format {
        PageFormat::Html => html(&handout),
        PageFormat::Markdown => markdown(&handout),
    };
    match &arguments.output {
        Some(path) => file::write(path, page.as_bytes())?,
        None => output.text(&page)?,
    }
    Ok(if any {
        Outcome::Answered
    } else {
        Outcome::Otherwise
    })
}

/// The format asked for, or that of the file's ending.
fn format(arguments: &HandoutArguments) -> Attempt<PageFormat> {
    if let Some(format) = arguments.format {
        return Ok(format);
    }
    let Some(path) = &arguments.output else {
        return Ok(PageFormat::Html);
    };
    Ok(match file::ending(path, &["html", "htm", "md"])? {
        "md" => PageFormat::Markdown,
        _ => PageFormat::Html,
    })
}
