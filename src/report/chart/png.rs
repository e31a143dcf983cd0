//! A drawing as a picture of points.

use std::fmt;

use resvg::tiny_skia::{Pixmap, Transform};
use resvg::usvg::fontdb::Database;
use resvg::usvg::{Options, Tree};

use super::drawing::Drawing;
use super::look::Dress;
use super::measure::in_han_text;

/// Typefaces to draw with; who calls decides where they come from.
pub type Fonts = Database;

/// Points for each unit of the drawing: enough for print at the width of a page.
const SCALE: f32 = 3.0;

/// Names of families that hold Han characters, those with serifs first.
const HAN_FAMILIES: [&str; 10] = [
    "Noto Serif CJK",
    "Source Han Serif",
    "Noto Serif TC",
    "Noto Serif SC",
    "Songti",
    "SimSun",
    "MingLiU",
    "Noto Sans CJK",
    "Source Han Sans",
    "WenQuanYi",
];

/// Why no picture could be made.
#[derive(Debug)]
pub enum PngError {
    /// No typeface holds Han characters.
    NoHanFont,
    /// The drawing could not be read or written.
    Faulty(String),
}

impl fmt::Display for PngError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoHanFont => f.write_str(
                "no typeface with Han characters was found, so that names would be blank; install one, such as \
                 the package fonts-noto-cjk (Debian, Ubuntu), google-noto-serif-cjk-fonts (Fedora) or noto-fonts-cjk \
                 (Arch), or write .svg",
            ),
            Self::Faulty(why) => write!(f, "the picture could not be made: {why}"),
        }
    }
}

impl std::error::Error for PngError {}

/// `drawing` as PNG, three points for each of its units, on light paper.
///
/// # Errors
/// When the drawing holds Han characters and none of `fonts` has any, or the picture cannot be made.
///
/// ```
/// use kaoyi::report::chart::{Drawing, Fonts, PngError, png};
/// let mut drawing = Drawing::new("empty", "zh-Hant");
/// drawing.reach(20.0);
/// assert!(png(&drawing, Fonts::new()).unwrap().starts_with(b"\x89PNG"));
/// ```
pub fn png(drawing: &Drawing, mut fonts: Fonts) -> Result<Vec<u8>, PngError> {
    let faulty = |error: &dyn fmt::Display| PngError::Faulty(error.to_string());
    let family = han_family(&fonts);
    let needs = drawing
        .labels()
        .iter()
        .any(|label| label.text.chars().any(in_han_text));
    match family {
        // Han fonts have Latin letters too: one family for all.
        Some(family) => fonts.set_serif_family(family),
        None if needs => return Err(PngError::NoHanFont),
        None => {}
    }
    let mut options = Options::default();
    *options.fontdb_mut() = fonts;
    let svg = drawing.to_svg("chart", Dress::Resolved);
    let tree = Tree::from_str(&svg, &options).map_err(|error| faulty(&error))?;
    let size = tree.size().to_int_size();
    let points = |units: u32| (units as f32 * SCALE) as u32;
    let mut picture = Pixmap::new(points(size.width()), points(size.height()))
        .ok_or_else(|| PngError::Faulty("it is too large".to_owned()))?;
    resvg::render(
        &tree,
        Transform::from_scale(SCALE, SCALE),
        &mut picture.as_mut(),
    );
    picture.encode_png().map_err(|error| faulty(&error))
}

/// The best family that holds Han characters.
fn han_family(fonts: &Fonts) -> Option<String> {
    HAN_FAMILIES.iter().find_map(|start| {
        let mut families = fonts.faces().flat_map(|face| &face.families);
        families
            .find(|(family, _)| family.starts_with(start))
            .map(|(family, _)| family.clone())
    })
}
