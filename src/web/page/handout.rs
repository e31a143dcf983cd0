//! What can be saved or printed of an herb: handouts, drawings, claims as a table; and lessons on what is disputed.

use axum::http::StatusCode;

use super::taste::notebook;
use crate::claim::Facet;
use crate::corpus::Herb;
use crate::report::ask::{self, Attempt, Failure, HandoutAsked};
use crate::report::chart::{ChartKind, Dress, Sheet, draw};
use crate::report::export::{Export, Format};
use crate::report::handout::{Handout, html, linked, markdown, style};
use crate::report::view::{ComparisonView, CorpusView, OwnView, ScalesView};
use crate::tasting::Own;
use crate::web::pieces::SCALED;
use crate::web::reply::{Answer, HTML, Halt, Reply};
use crate::web::route::{AS, Parameter, Route, SCOPE, Takes};
use crate::web::visit::Visit;

const MARKDOWN: &str = "text/markdown; charset=utf-8";
const SVG: &str = "image/svg+xml";
const CSV: &str = "text/csv; charset=utf-8";
const CSS: &str = "text/css; charset=utf-8";

/// Where the style sheet of handouts is.
const SHEET: &str = "/handout.css";

const RUBY: Parameter = Parameter::one(
    "ruby",
    Takes::Flag,
    "Put pinyin over the names of herbs and books",
);
const TASTED: Parameter = Parameter::one(
    "tasted",
    Takes::Flag,
    "Show your own tastings beside the books",
);
const TASTER: Parameter = Parameter::one("taster", Takes::Text, "Only tastings by this taster");

const PAGE: &[Parameter] = &[AS, RUBY, TASTED, TASTER, SCOPE[0], SCOPE[1], SCOPE[2]];
const LESSON: &[Parameter] = &[
    Parameter::one(
        "facet",
        Takes::OneOf(SCALED),
        "The herbs on whose facet the books differ most; default: nature",
    ),
    Parameter::one("top", Takes::Whole, "How many herbs; default: 10"),
    RUBY,
    TASTED,
    TASTER,
    SCOPE[0],
    SCOPE[1],
    SCOPE[2],
];
const CHART: &[Parameter] = &[
    AS,
    Parameter::one(
        "facet",
        Takes::OneOf(SCALED),
        "The facet whose lines are drawn; default: nature",
    ),
    TASTED,
    TASTER,
    SCOPE[0],
    SCOPE[1],
    SCOPE[2],
];
const CLAIMS: &[Parameter] = &[AS, SCOPE[0], SCOPE[1], SCOPE[2]];

/// All of them.
pub(crate) fn routes() -> [Route; 9] {
    [
        Route::file(
            "/handout/{id}",
            HTML,
            "A page to print: the record of an herb with drawings and questions",
            PAGE,
            page,
        ),
        Route::file(
            "/handout/{id}/html",
            HTML,
            "The same as one file of HTML to save",
            PAGE,
            saved_page,
        ),
        Route::file(
            "/handout/{id}/markdown",
            MARKDOWN,
            "The same in Markdown to save",
            PAGE,
            saved_markdown,
        ),
        Route::file(
            "/lesson",
            HTML,
            "A page to print on the herbs that the books dispute most",
            LESSON,
            lesson,
        ),
        Route::file(
            "/lesson/html",
            HTML,
            "The same as one file of HTML to save",
            LESSON,
            saved_lesson,
        ),
        Route::file(
            "/lesson/markdown",
            MARKDOWN,
            "The same in Markdown to save",
            LESSON,
            lesson_markdown,
        ),
        Route::file(SHEET, CSS, "The style sheet of pages to print", &[], sheet),
        Route::file(
            "/chart/{id}/{kind}",
            SVG,
            "A drawing of an herb's record: timeline, matrix, nature, lines, flavours, actions",
            CHART,
            chart,
        ),
        Route::file(
            "/export/{id}/csv",
            CSV,
            "The claims on an herb, a row each",
            CLAIMS,
            claims,
        ),
    ]
}

/// The own tastings that are asked for.
fn own(visit: &Visit<'_>, herb: &Herb) -> Attempt<Option<Own>> {
    if visit.asked.one("tasted").is_none() {
        return Ok(None);
    }
    let (notebook, _) = notebook(visit).map_err(|halt| match halt {
        Halt::Failure(_, failure) => failure,
        Halt::Elsewhere(address) => Failure::new(address),
    })?;
    let tastings = ask::of_herb(&notebook, herb, visit.asked.one("taster"));
    Ok(Own::new(visit.corpus(), &tastings))
}

fn handout(
    visit: &Visit<'_>,
    herbs: Vec<&Herb>,
    lesson: Option<(Facet, usize)>,
) -> Answer<Handout> {
    let asked = HandoutAsked {
        herbs,
        lesson,
        selection: visit.selection()?,
        ruby: visit.asked.one("ruby").is_some(),
        own: &|herb| own(visit, herb),
    };
    Ok(ask::handout(
        &visit.shelf().library,
        &visit.labels(),
        asked,
    )?)
}

fn of_herb(visit: &Visit<'_>) -> Answer<(Handout, String)> {
    let herb = visit.herb("id")?;
    Ok((handout(visit, vec![herb], None)?, herb.id.clone()))
}

fn page(visit: &Visit<'_>) -> Answer<Reply> {
    Ok(Reply::new(HTML, linked(&of_herb(visit)?.0, SHEET)))
}

fn saved_page(visit: &Visit<'_>) -> Answer<Reply> {
    let (handout, id) = of_herb(visit)?;
    Ok(Reply::download(HTML, format!("{id}.html"), html(&handout)))
}

fn saved_markdown(visit: &Visit<'_>) -> Answer<Reply> {
    let (handout, id) = of_herb(visit)?;
    Ok(Reply::download(
        MARKDOWN,
        format!("{id}.md"),
        markdown(&handout),
    ))
}

fn of_dispute(visit: &Visit<'_>) -> Answer<(Handout, Facet)> {
    let facet = crate::web::pieces::facets(visit)
        .first()
        .copied()
        .unwrap_or(Facet::Nature);
    let top = visit.whole("top", 10, 100)?;
    Ok((handout(visit, Vec::new(), Some((facet, top)))?, facet))
}

fn lesson(visit: &Visit<'_>) -> Answer<Reply> {
    Ok(Reply::new(HTML, linked(&of_dispute(visit)?.0, SHEET)))
}

fn saved_lesson(visit: &Visit<'_>) -> Answer<Reply> {
    let (handout, facet) = of_dispute(visit)?;
    Ok(Reply::download(
        HTML,
        format!("lesson-{facet}.html"),
        html(&handout),
    ))
}

fn lesson_markdown(visit: &Visit<'_>) -> Answer<Reply> {
    let (handout, facet) = of_dispute(visit)?;
    Ok(Reply::download(
        MARKDOWN,
        format!("lesson-{facet}.md"),
        markdown(&handout),
    ))
}

fn sheet(_: &Visit<'_>) -> Answer<Reply> {
    Ok(Reply::new(CSS, style()))
}

fn chart(visit: &Visit<'_>) -> Answer<Reply> {
    let word = visit.name("kind");
    let kind = ChartKind::ALL.into_iter().find(|kind| kind.name() == word);
    let kind = kind.ok_or_else(|| {
        let names = ChartKind::ALL.map(ChartKind::name).join(", ");
        let none = Failure::new(format!(
            "no drawing is called `{}`; expected one of {names}",
            ask::shorten(word)
        ));
        Halt::missing(none)
    })?;
    let herb = visit.herb("id")?;
    let labels = visit.labels();
    let scales = ScalesView::new(&labels);
    let comparison = ComparisonView::new(&labels, herb, &Facet::ALL, &visit.selection()?);
    let own = own(visit, herb)?.map(|own| OwnView::new(&labels, &own));
    let sheet = Sheet {
        comparison: &comparison,
        scales: &scales,
        facet: crate::web::pieces::facets(visit)
            .first()
            .copied()
            .unwrap_or(Facet::Nature),
        own: own.as_ref(),
    };
    let svg = draw(kind, &sheet).to_svg("chart", Dress::Standalone);
    Ok(Reply::download(
        SVG,
        format!("{}-{}.svg", herb.id, kind.name()),
        svg,
    ))
}

fn claims(visit: &Visit<'_>) -> Answer<Reply> {
    let herb = visit.herb("id")?;
    let labels = visit.labels();
    let about = CorpusView::new(visit.corpus(), visit.room.settings.corpus.as_deref())?;
    let export = Export {
        labels: &labels,
        about: &about,
        herbs: vec![visit.corpus().place_of(herb)],
        whole: false,
        selection: visit.selection()?,
        raw: false,
    };
    let mut table = Vec::new();
    export.write(Format::Csv, &mut table).map_err(|error| {
        Halt::Failure(
            StatusCode::INTERNAL_SERVER_ERROR,
            Failure::new(error.to_string()),
        )
    })?;
    Ok(Reply::download(CSV, format!("{}.csv", herb.id), table))
}
