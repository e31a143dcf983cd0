//! `kaoyi taste panel`: many tasters of one herb, and the books beside them.

use super::common;
use super::outcome::{Attempt, Failure, Outcome};
use super::output::Output;
use super::taste_class_args::PanelArguments;
use crate::corpus::{Corpus, HerbId};
use crate::report::text;
use crate::report::view::{FindingsView, Labels, PanelView};
use crate::tasting::{self, ByHerb, Gathered};

/// How many faults of the files are shown; `--json` has them all.
const FAULTS_SHOWN: usize = 20;

pub(super) fn run(arguments: &PanelArguments, output: &Output) -> Attempt<Outcome> {
    let library = common::library(arguments.scope.corpus.as_deref())?;
    let corpus = &library.corpus;
    let selection = common::selection(corpus, &arguments.scope)?;
    let script = common::converter(&arguments.scope)?;
    let gathered = tasting::gather(corpus, &arguments.files, common::cache().as_deref());
    let sorted = tasting::by_herb(corpus, &gathered.tastings);
    let asked = match &arguments.herb {
        Some(name) => {
            let herb = common::herb(corpus, name, output)?;
            Some(corpus.place_of(herb))
        }
        None => None,
    };
    let herb = chosen(corpus, &gathered, &sorted, asked)?;
    let tastings = sorted.known.get(&herb).map_or(&[][..], Vec::as_slice);
    let labels = Labels::new(corpus, &script);
    let view = PanelView::new(&labels, corpus.herb(herb)?, &selection, &gathered, tastings);
    if output.json() {
        output.document(&view)?;
    } else {
        if !gathered.findings.is_empty() {
            let faults = text::faults(output.page(), &gathered.findings, FAULTS_SHOWN);
            output.beside(&format!("{faults}What is not at fault was used.\n\n"));
        }
        output.text(&text::panel(output.page(), &view))?;
    }
    Ok(if view.tasters == 0 || !view.findings.is_empty() {
        Outcome::Otherwise
    } else {
        Outcome::Answered
    })
}

/// The herb that was asked for, or the only one there is.
fn chosen(
    corpus: &Corpus,
    gathered: &Gathered,
    sorted: &ByHerb<'_>,
    asked: Option<HerbId>,
) -> Attempt<HerbId> {
    let herbs: Vec<HerbId> = sorted.known.keys().copied().collect();
    let lines = || {
        herbs
            .iter()
            .map(|herb| corpus.named(*herb).line())
            .collect()
    };
    let mut failure = match (asked, herbs.as_slice()) {
        (Some(herb), _) if herbs.contains(&herb) => return Ok(herb),
        (None, [herb]) => return Ok(*herb),
        (Some(herb), []) => Failure::new(format!(
            "no tasting of {} that could be used; the files hold none of another herb either",
            corpus.named(herb).names.hant
        )),
        (Some(herb), _) => Failure::new(format!(
            "no tasting of {} in these files; they hold:",
            corpus.named(herb).names.hant
        ))
        .with_candidates(lines()),
        (None, []) if !sorted.unknown.is_empty() => {
            let names: Vec<&str> = sorted.unknown.keys().copied().collect();
            Failure::new(format!(
                "no herb of the corpus is called {}",
                names.join(", ")
            ))
            .with_hint("Name the herb by its id, Han characters, pinyin or English name.")
        }
        (None, []) => Failure::new("no tasting that could be used in these files")
            .with_hint("An empty table to fill in: kaoyi taste form HERB --csv"),
        (None, _) => Failure::new(format!(
            "the files hold tastings of {} herbs; choose one with --herb:",
            herbs.len()
        ))
        .with_candidates(lines()),
    };
    failure.findings = Some(findings(gathered)).filter(|view| !view.findings.is_empty());
    Err(failure)
}

fn findings(gathered: &Gathered) -> FindingsView {
    FindingsView {
        format: "kaoyi.check/1",
        files: gathered.files,
        entries: None,
        claims: None,
        findings: gathered.findings.clone(),
    }
}
