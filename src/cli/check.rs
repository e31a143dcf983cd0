//! `kaoyi check`: every fault of a corpus, with its place.

use super::data_args::CheckArguments;
use super::outcome::{Attempt, Failure, Outcome};
use super::output::Output;
use crate::compare::{coverage, doubles, outliers};
use crate::corpus::{Code, Corpus, check_embedded, load_folder};
use crate::report::text;
use crate::report::view::{FindingsView, Labels, StateView};
use crate::text::{Converter, Script, nearest};

pub(super) fn run(arguments: &CheckArguments, output: &Output) -> Attempt<Outcome> {
    if let Some(name) = &arguments.explain {
        return explain(name, output);
    }
    let loaded = match &arguments.folder {
        Some(folder) => load_folder(folder)?,
        None => check_embedded()?,
    };
    if let (Some(corpus), true) = (&loaded.corpus, arguments.report) {
        return report(corpus, output);
    }
    let view = FindingsView::new(&loaded)?;
    if output.json() {
        output.document(&view)?;
    } else {
        output.text(&text::findings(output.page(), &view, arguments.brief))?;
    }
    Ok(match (loaded.ran, view.findings.is_empty()) {
        (false, _) => Outcome::Failed,
        (true, true) => Outcome::Answered,
        (true, false) => Outcome::Otherwise,
    })
}

fn report(corpus: &Corpus, output: &Output) -> Attempt<Outcome> {
    let script = Converter::new(Script::Recorded)?;
    let labels = Labels::new(corpus, &script);
    let (coverage, doubles) = (coverage(corpus)?, doubles(corpus)?);
    let view = StateView::new(&labels, &coverage, &doubles, &outliers(corpus)?)?;
    if output.json() {
        output.document(&view)?;
    } else {
        output.text(&text::state(output.page(), &view))?;
    }
    Ok(Outcome::Answered)
}

fn explain(name: &str, output: &Output) -> Attempt<Outcome> {
    if name.is_empty() {
        output.text(&text::codes(output.page()))?;
        return Ok(Outcome::Answered);
    }
    let Some(code) = Code::named(name) else {
        let names = Code::ALL.iter().map(|code| code.name());
        let near = nearest(name, names)
            .into_iter()
            .map(str::to_owned)
            .collect();
        return Err(Failure::new(format!("there is no code `{name}`"))
            .with_candidates(near)
            .with_hint("All codes: kaoyi check --explain"));
    };
    output.text(&text::explanation(output.page(), code))?;
    Ok(Outcome::Answered)
}
