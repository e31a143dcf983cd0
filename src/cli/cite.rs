//! `kaoyi cite`: how the corpus and its claims are cited.

use super::common;
use super::export_args::CiteArguments;
use super::outcome::{Attempt, Failure, Outcome};
use super::output::Output;
use crate::compare::Selection;
use crate::corpus::{Corpus, Herb, Lookup};
use crate::report::export::{cited_bibtex, cited_csl};
use crate::report::text;
use crate::report::view::{CiteView, ClaimView, ClaimsOf, CorpusView, Labels};
use crate::text::nearest;

pub(super) fn run(arguments: &CiteArguments, output: &Output) -> Attempt<Outcome> {
    let corpus = &common::library(arguments.scope.corpus.as_deref())?.corpus;
    let selection = common::selection(corpus, &arguments.scope)?;
    let script = common::converter(&arguments.scope)?;
    let labels = Labels::new(corpus, &script);
    let about = CorpusView::new(corpus, arguments.scope.corpus.as_deref())?;
    let mut herbs: Vec<&Herb> = Vec::new();
    let mut claims: Vec<ClaimView> = Vec::new();
    for word in &arguments.claims {
        let (herb, rest) = parts(corpus, word, output)?;
        if !herbs.iter().any(|known| known.id == herb.id) {
            herbs.push(herb);
        }
        for claim in found(&labels, herb, rest, &selection)? {
            if !claims.iter().any(|known| known.claim == claim.claim) {
                claims.push(claim);
            }
        }
    }
    let view = CiteView::new(&labels, &about, &herbs, claims);
    if output.json() {
        output.document(&view)?;
    } else if arguments.bibtex {
        output.stream(|to| Ok(to.write_all(cited_bibtex(&view).as_bytes())?))?;
    } else if arguments.csl {
        output.document(&cited_csl(&view))?;
    } else {
        output.text(&text::cite(output.page(), &view))?;
    }
    if arguments.bibtex || arguments.csl {
        output.note(view.notice);
    }
    Ok(Outcome::Answered)
}

/// The herb, and what follows it in a claim's id.
fn parts<'c, 'w>(
    corpus: &'c Corpus,
    word: &'w str,
    output: &Output,
) -> Attempt<(&'c Herb, &'w str)> {
    // A name may hold a stroke itself.
    match (corpus.find_herb(word), word.split_once('/')) {
        (Lookup::None(_), Some((herb, rest))) => Ok((common::herb(corpus, herb, output)?, rest)),
        _ => Ok((common::herb(corpus, word, output)?, "")),
    }
}

/// The claims whose ids begin so, part by part.
fn found(
    labels: &Labels<'_>,
    herb: &Herb,
    rest: &str,
    selection: &Selection,
) -> Attempt<Vec<ClaimView>> {
    let all = ClaimsOf::new(labels, herb).all(selection);
    let rest = rest.trim_end_matches('/');
    if rest.is_empty() {
        return Ok(all);
    }
    let wanted = format!("{}/{rest}", herb.id);
    let under =
        |claim: &ClaimView| claim.claim == wanted || claim.claim.starts_with(&format!("{wanted}/"));
    let (found, others): (Vec<ClaimView>, Vec<ClaimView>) = all.into_iter().partition(under);
    if !found.is_empty() {
        return Ok(found);
    }
    let ids = others.iter().map(|claim| claim.claim.as_str());
    let mut near: Vec<String> = nearest(&wanted, ids)
        .into_iter()
        .map(str::to_owned)
        .collect();
    if near.is_empty() {
        let mut works: Vec<String> = others
            .iter()
            .map(|claim| format!("{}/{}", claim.herb, claim.work))
            .collect();
        works.dedup();
        near = works;
    }
    Err(Failure::new(format!(
        "no claim has the id `{}`; there are:",
        common::shorten(&wanted)
    ))
    .with_candidates(near)
    .with_hint(format!(
        "An id is herb/work/article/saying/facet/value. All of the herb: kaoyi cite {}",
        herb.id
    )))
}
