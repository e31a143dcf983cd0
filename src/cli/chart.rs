//! `kaoyi chart`: one picture of the record of an herb or of several.

use super::chart_args::ChartArguments;
use super::outcome::{Attempt, Failure, Outcome};
use super::output::Output;
use super::{common, file, notebook};
use crate::claim::Facet;
use crate::report::chart::{Drawing, Dress, Sheet, draw};
use crate::report::view::{ComparisonView, Labels, OwnView, ScalesView};

pub(super) fn run(arguments: &ChartArguments, output: &Output) -> Attempt<Outcome> {
    if output.json() {
        return Err(
            Failure::new("a chart is a picture and has no JSON").with_hint(format!(
                "What it shows: kaoyi compare {} --json",
                arguments.herbs.join(" ")
            )),
        );
    }
    let path = arguments.output.as_deref();
    let ending = path.map_or(Ok("svg"), |path| file::ending(path, &["svg", "png"]))?;
    let library = common::library(arguments.scope.corpus.as_deref())?;
    let corpus = &library.corpus;
    let herbs = common::all_herbs(corpus, &arguments.herbs, output)?;
    let selection = common::selection(corpus, &arguments.scope)?;
    let script = common::converter(&arguments.scope)?;
    let labels = Labels::new(corpus, &script);
    let scales = ScalesView::new(&labels);
    let mut whole: Option<Drawing> = None;
    let mut witnesses = 0;
    for herb in herbs {
        let comparison = ComparisonView::new(&labels, herb, &Facet::ALL, &selection);
        witnesses += comparison.witnesses.len() + comparison.on_actions_only.len();
        let own = match arguments.tasted {
            true => notebook::beside(corpus, herb, &arguments.own, output)?,
            false => None,
        };
        let own = own.map(|own| OwnView::new(&labels, &own));
        let sheet = Sheet {
            comparison: &comparison,
            scales: &scales,
            facet: arguments.facet,
            own: own.as_ref(),
        };
        let one = draw(arguments.kind, &sheet);
        match &mut whole {
            None => whole = Some(one),
            Some(whole) => whole.put_below(&one),
        }
    }
    let Some(drawing) = whole else {
        return Ok(Outcome::Otherwise);
    };
    match (path, ending) {
        (Some(path), "png") => file::write(path, &points(&drawing)?)?,
        (Some(path), _) => {
            file::write(path, drawing.to_svg("chart", Dress::Standalone).as_bytes())?;
        }
        (None, _) => output.text(&drawing.to_svg("chart", Dress::Standalone))?,
    }
    Ok(if witnesses == 0 {
        Outcome::Otherwise
    } else {
        Outcome::Answered
    })
}

#[cfg(feature = "png")]
fn points(drawing: &Drawing) -> Attempt<Vec<u8>> {
    use crate::report::chart::{Fonts, png};
    let mut fonts = Fonts::new();
    fonts.load_system_fonts();
    png(drawing, fonts).map_err(|error| Failure::new(error.to_string()))
}

#[cfg(not(feature = "png"))]
fn points(_: &Drawing) -> Attempt<Vec<u8>> {
    Err(
        Failure::new("this build of kaoyi draws no PNG; expected a file that ends in .svg")
            .with_hint("PNG comes with: cargo build --release --features png"),
    )
}
