//! `kaoyi handout`: a page to print and hand out.

use super::handout_args::{HandoutArguments, PageFormat};
use super::outcome::{Attempt, Failure, Outcome};
use super::output::Output;
use super::{common, file, notebook};
use crate::claim::Facet;
use crate::compare::{Selection, SetDistance};
use crate::corpus::{Herb, Lookup};
use crate::index::Library;
use crate::report::handout::{Handout, HerbPart, html, markdown};
use crate::report::view::{
    Asked, BookView, ComparisonView, DisputesView, Labels, OwnView, ScalesView,
};

/// The fewest witnesses of an herb in a lesson, as in `disputes`.
const LEAST_WITNESSES: usize = 5;

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
    let named = common::all_herbs(corpus, &arguments.herbs, output)?;
    let selection = common::selection(corpus, &arguments.scope)?;
    let script = common::converter(&arguments.scope)?;
    let labels = Labels::new(corpus, &script);
    let mut lesson = None;
    let mut herbs = named;
    if let Some(facet) = arguments.disputes {
        let view = disputes(&library, &labels, &selection, facet, arguments.top)?;
        herbs = disputed(&library, &view)?;
        lesson = Some(view);
    }
    // A lesson keeps to its theme.
    let theme = arguments.disputes.map(|facet| vec![facet]);
    let facets = common::facets(theme.as_deref().unwrap_or_default());
    let part = |herb: &&Herb| -> Attempt<HerbPart> {
        let own = match arguments.tasted {
            true => notebook::beside(corpus, herb, &arguments.own, output)?,
            false => None,
        };
        Ok(HerbPart {
            comparison: ComparisonView::new(&labels, herb, &facets, &selection),
            own: own.map(|own| OwnView::new(&labels, &own)),
        })
    };
    let herbs: Vec<HerbPart> = herbs.iter().map(part).collect::<Attempt<_>>()?;
    let heard =
        |one: &HerbPart| !one.comparison.witnesses.is_empty() || !one.comparison.actions.is_empty();
    let any = herbs.iter().any(heard);
    let handout = Handout {
        herbs,
        lesson,
        facet: arguments.disputes.unwrap_or(Facet::Nature),
        scales: ScalesView::new(&labels),
        books: BookView::named(&labels),
        ruby: arguments.ruby,
    };
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

fn disputes(
    library: &Library,
    labels: &Labels<'_>,
    selection: &Selection,
    facet: Facet,
    top: usize,
) -> Attempt<DisputesView> {
    let asked = Asked {
        facets: vec![facet],
        witnesses: LEAST_WITNESSES,
        top,
        kind: None,
        sets: SetDistance::Masi,
        intervals: false,
    };
    let stands = library.stands(&asked.facets)?;
    Ok(DisputesView::new(labels, &stands, selection, &asked)?)
}

/// The herbs of a ranking.
fn disputed<'c>(library: &'c Library, view: &DisputesView) -> Attempt<Vec<&'c Herb>> {
    let corpus = &library.corpus;
    let mut herbs = Vec::new();
    for one in &view.disputes {
        if let Lookup::One(id) = corpus.find_herb(&one.herb.id) {
            herbs.push(corpus.herb(id)?);
        }
    }
    Ok(herbs)
}
