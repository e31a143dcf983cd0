//! The panel of files or of a table, on the herb that is asked for.

use super::failure::{Attempt, Failure};
use crate::compare::Selection;
use crate::corpus::{Corpus, HerbId};
use crate::report::view::{FindingsView, Labels, PanelView};
use crate::tasting::{ByHerb, Gathered, by_herb};

/// The panel on the herb that was asked for, or on the only one there is.
///
/// # Errors
/// When what was gathered holds no tasting of it, or tastings of several herbs and none was asked for.
pub(crate) fn panel(
    labels: &Labels<'_>,
    selection: &Selection,
    gathered: &Gathered,
    asked: Option<HerbId>,
) -> Attempt<PanelView> {
    let corpus = labels.corpus;
    let sorted = by_herb(corpus, &gathered.tastings);
    let herb = chosen(corpus, gathered, &sorted, asked)?;
    let tastings = sorted.known.get(&herb).map_or(&[][..], Vec::as_slice);
    let herb = corpus.herb(herb)?;
    Ok(PanelView::new(labels, herb, selection, gathered, tastings))
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
            "the files hold tastings of {} herbs; choose one of them (--herb):",
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
