//! Drawings of an herb's record: pure functions from views to SVG.
//!
//! Every drawing is 640 units wide and as high as it needs, tells what it shows in words for those who do not
//! see it, keeps apart what matters by shape and word and never by colour alone, and is light or dark as
//! the reader's screen is.

mod actions;
mod drawing;
mod flavours;
mod lines;
mod look;
mod matrix;
mod measure;
mod nature;
#[cfg(feature = "png")]
mod png;
mod said;
mod timeline;

pub use drawing::{Anchor, Drawing, LabelBox, SMALL, TEXT, WIDTH};
pub use look::Dress;
pub use measure::{fit, width, wrap};
#[cfg(feature = "png")]
pub use png::{Fonts, PngError, png};
pub use said::Said;

pub(in crate::report) use actions::told_apart;
pub(crate) use look::{DARK, LIGHT, RULES, TYPEFACES};
pub(crate) use measure::runs;
pub(in crate::report) use timeline::kind_in_words;

use super::text::{Titles, short_year};
use super::view::{ComparisonView, OwnView, ScalesView};
use crate::claim::Facet;

/// The kinds of drawing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ChartKind {
    /// The witnesses by date.
    Timeline,
    /// Flavours by witnesses.
    Matrix,
    /// Each witness on the scale from cold to hot.
    Nature,
    /// Who draws on whom, with the value that each holds.
    Lines,
    /// How many witnesses state each flavour, with intervals.
    Flavours,
    /// Opposed actions side by side.
    Actions,
}

impl ChartKind {
    /// All kinds.
    pub const ALL: [Self; 6] = [
        Self::Timeline,
        Self::Matrix,
        Self::Nature,
        Self::Lines,
        Self::Flavours,
        Self::Actions,
    ];

    /// The word by which it is asked for.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Timeline => "timeline",
            Self::Matrix => "matrix",
            Self::Nature => "nature",
            Self::Lines => "lines",
            Self::Flavours => "flavours",
            Self::Actions => "actions",
        }
    }
}

/// What a drawing is made from.
#[derive(Debug, Clone, Copy)]
pub struct Sheet<'v> {
    /// The comparison of the herb, on all facets.
    pub comparison: &'v ComparisonView,
    /// The scales.
    pub scales: &'v ScalesView,
    /// The facet of which lines of transmission are drawn.
    pub facet: Facet,
    /// The own tastings, laid over the books' word on flavours.
    pub own: Option<&'v OwnView>,
}

impl Sheet<'_> {
    /// An empty drawing with a title about the herb.
    fn drawing(&self, about: &str) -> Drawing {
        let herb = &self.comparison.herb;
        let title = format!("{} {}: {about}", herb.name, herb.pinyin);
        let mut drawing = Drawing::new(title.clone(), self.scales.names);
        drawing.label(
            (8.0, 22.0),
            Anchor::Start,
            (15.0, "k-strong"),
            (&title, WIDTH - 16.0),
        );
        drawing
    }

    /// The titles of the works.
    fn titles(&self) -> Titles<'_> {
        Titles::new(&self.comparison.works)
    }

    /// Writes year and title of a work at the left of a row with its baseline at `y`, within `room`.
    fn name_row(&self, drawing: &mut Drawing, (x, y): (f64, f64), work: &str, room: f64) {
        let titles = self.titles();
        let year = titles.work(work).map_or_else(String::new, short_year);
        drawing.label((x + 54.0, y), Anchor::End, (SMALL, "k-soft"), (&year, 54.0));
        drawing.label(
            (x + 61.0, y),
            Anchor::Start,
            (TEXT, "k-text"),
            (&titles.title(work), room - 61.0),
        );
    }
}

/// A drawing of one kind.
///
/// ```
/// use kaoyi::claim::Facet;
/// use kaoyi::report::chart::{ChartKind, Dress, Sheet, draw};
/// use kaoyi::report::view::{ComparisonView, Labels, ScalesView};
/// let corpus = kaoyi::corpus::embedded().unwrap();
/// let kaoyi::corpus::Lookup::One(mint) = corpus.find_herb("bohe") else { panic!() };
/// let script = kaoyi::text::Converter::default();
/// let labels = Labels::new(&corpus, &script);
/// let scales = ScalesView::new(&labels);
/// let comparison =
///     ComparisonView::new(&labels, corpus.herb(mint).unwrap(), &Facet::ALL, &Default::default());
/// let sheet = Sheet { comparison: &comparison, scales: &scales, facet: Facet::Nature, own: None };
/// let svg = draw(ChartKind::Nature, &sheet).to_svg("mint", Dress::Standalone);
/// assert!(svg.starts_with("<svg") && svg.contains("薄荷"));
/// ```
#[must_use]
pub fn draw(kind: ChartKind, sheet: &Sheet<'_>) -> Drawing {
    match kind {
        ChartKind::Timeline => timeline::timeline(sheet),
        ChartKind::Matrix => matrix::matrix(sheet),
        ChartKind::Nature => nature::nature(sheet),
        ChartKind::Lines => lines::lines(sheet),
        ChartKind::Flavours => flavours::flavours(sheet),
        ChartKind::Actions => actions::actions(sheet),
    }
}
