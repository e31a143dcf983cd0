//! A drawing: the one place that writes SVG. It escapes every text, knows the box of every label, and can
//! tell whether two of them overlap or one is cut off.

use std::fmt::Write as _;

use super::look::{Dress, STYLE_RESOLVED, STYLE_STANDALONE};
use super::measure::{fit, runs, width};

/// The width of every drawing, in its own units; it is shown at any width.
pub const WIDTH: f64 = 640.0;

/// The size of the text of a label.
pub const TEXT: f64 = 13.0;

/// The size of lesser text.
pub const SMALL: f64 = 11.0;

/// Where a label's place lies in it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Anchor {
    /// At its beginning.
    Start,
    /// In its middle.
    Middle,
    /// At its end.
    End,
}

/// The room that a label takes, from its upper left corner.
#[derive(Debug, Clone, PartialEq)]
pub struct LabelBox {
    /// From the left.
    pub x: f64,
    /// From above.
    pub y: f64,
    /// To the right.
    pub width: f64,
    /// Downward.
    pub height: f64,
    /// The text as drawn.
    pub text: String,
}

impl LabelBox {
    /// Whether the two have common room.
    #[must_use]
    pub fn overlaps(&self, other: &Self) -> bool {
        let apart = |a: f64, along: f64, b: f64, other: f64| a + along <= b || b + other <= a;
        !apart(self.x, self.width, other.x, other.width)
            && !apart(self.y, self.height, other.y, other.height)
    }
}

/// A drawing in the making.
#[derive(Debug, Clone)]
pub struct Drawing {
    height: f64,
    title: String,
    told: Vec<String>,
    body: String,
    labels: Vec<LabelBox>,
    lang: &'static str,
}

impl Drawing {
    /// An empty drawing called `title`, Han text being in the language `lang`.
    #[must_use]
    pub fn new(title: impl Into<String>, lang: &'static str) -> Self {
        Self {
            height: 0.0,
            title: title.into(),
            told: Vec::new(),
            body: String::new(),
            labels: Vec::new(),
            lang,
        }
    }

    /// Its title.
    #[must_use]
    pub fn title(&self) -> &str {
        &self.title
    }

    /// What it shows, in words.
    #[must_use]
    pub fn description(&self) -> String {
        self.told.join(" ")
    }

    /// How high it is so far.
    #[must_use]
    pub const fn height(&self) -> f64 {
        self.height
    }

    /// The boxes of its labels.
    #[must_use]
    pub fn labels(&self) -> &[LabelBox] {
        &self.labels
    }

    /// Adds a sentence to what is told to those who do not see it.
    pub fn tell(&mut self, sentence: &str) {
        self.told.push(sentence.to_owned());
    }

    /// Makes the drawing reach down to `y`.
    pub fn reach(&mut self, y: f64) {
        self.height = self.height.max(y);
    }

    /// Writes a label with its baseline at `at`, of a size and class, cut where it has no `room`. Gives back
    /// the width that it takes.
    pub fn label(
        &mut self,
        (x, y): (f64, f64),
        anchor: Anchor,
        (size, class): (f64, &str),
        (text, room): (&str, f64),
    ) -> f64 {
        let shown = fit(&cleaned(text), room / size);
        if shown.trim().is_empty() {
            return 0.0;
        }
        let wide = width(&shown) * size;
        let (left, word) = match anchor {
            Anchor::Start => (x, "start"),
            Anchor::Middle => (x - wide / 2.0, "middle"),
            Anchor::End => (x - wide, "end"),
        };
        self.labels.push(LabelBox {
            x: left,
            y: y - size * 0.86,
            width: wide,
            height: size * 1.1,
            text: shown.clone(),
        });
        self.reach(y + size * 0.3);
        let mut spans = String::new();
        for (han, run) in runs(&shown) {
            let run = escaped(&run);
            if han {
                let lang = self.lang;
                let _ = write!(
                    spans,
                    "<tspan lang=\"{lang}\" xml:lang=\"{lang}\">{run}</tspan>"
                );
            } else {
                spans.push_str(&run);
            }
        }
        let full = if shown == cleaned(text) {
            String::new()
        } else {
            format!("<title>{}</title>", escaped(&cleaned(text)))
        };
        let _ = writeln!(
            self.body,
            "<text class=\"{class}\" x=\"{x:.1}\" y=\"{y:.1}\" font-size=\"{size}\" text-anchor=\"{word}\" \
             xml:space=\"preserve\">{full}{spans}</text>"
        );
        wide
    }

    /// A straight line.
    pub fn line(&mut self, from: (f64, f64), to: (f64, f64), class: &str) {
        self.reach(from.1.max(to.1));
        let _ = writeln!(
            self.body,
            "<line class=\"{class}\" x1=\"{:.1}\" y1=\"{:.1}\" x2=\"{:.1}\" y2=\"{:.1}\"/>",
            from.0, from.1, to.0, to.1
        );
    }

    /// A rectangle from its upper left corner.
    pub fn rect(&mut self, (x, y): (f64, f64), (wide, high): (f64, f64), class: &str) {
        self.reach(y + high);
        let (wide, high) = (wide.max(0.0), high.max(0.0));
        let _ = writeln!(
            self.body,
            "<rect class=\"{class}\" x=\"{x:.1}\" y=\"{y:.1}\" width=\"{wide:.1}\" height=\"{high:.1}\"/>"
        );
    }

    /// A circle.
    pub fn circle(&mut self, (x, y): (f64, f64), radius: f64, class: &str) {
        self.reach(y + radius);
        let _ = writeln!(
            self.body,
            "<circle class=\"{class}\" cx=\"{x:.1}\" cy=\"{y:.1}\" r=\"{radius:.1}\"/>"
        );
    }

    /// A line through points, closed or open.
    pub fn path(&mut self, points: &[(f64, f64)], closed: bool, class: &str) {
        let mut way = String::new();
        for (place, (x, y)) in points.iter().enumerate() {
            let command = if place == 0 { "M" } else { "L" };
            let _ = write!(way, "{command}{x:.1} {y:.1}");
            self.reach(*y);
        }
        let end = if closed { "Z" } else { "" };
        let _ = writeln!(self.body, "<path class=\"{class}\" d=\"{way}{end}\"/>");
    }

    /// A bow to the left between two places on one upright line, `depth` wide.
    pub fn bow(&mut self, x: f64, (above, below): (f64, f64), depth: f64, class: &str) {
        let middle = x - depth;
        let _ = writeln!(
            self.body,
            "<path class=\"{class}\" d=\"M{x:.1} {above:.1}C{middle:.1} {above:.1} {middle:.1} {below:.1} {x:.1} {below:.1}\"/>"
        );
    }

    /// Puts another drawing below this one; it brings its title as a heading.
    pub fn put_below(&mut self, other: &Self) {
        let gap = if self.height > 0.0 { 22.0 } else { 0.0 };
        let down = self.height + gap;
        let moved = other.labels.iter().map(|label| LabelBox {
            y: label.y + down,
            ..label.clone()
        });
        self.labels.extend(moved);
        let _ = writeln!(
            self.body,
            "<g transform=\"translate(0 {down:.1})\">\n{}</g>",
            other.body
        );
        self.told.push(format!("{}.", other.title));
        self.told.extend(other.told.iter().cloned());
        self.height = down + other.height;
    }

    /// The document. `id` makes the names in it unique on a page, `dress` tells where it gets its colours.
    #[must_use]
    pub fn to_svg(&self, id: &str, dress: Dress) -> String {
        let height = self.height + 10.0;
        let style = match dress {
            Dress::Standalone => STYLE_STANDALONE,
            Dress::Resolved => STYLE_RESOLVED,
            Dress::Inline => "",
        };
        let paper = if dress == Dress::Inline {
            String::new()
        } else {
            format!("<rect class=\"k-paper\" width=\"{WIDTH}\" height=\"{height:.0}\"/>\n")
        };
        let (title, told) = (
            escaped(&cleaned(&self.title)),
            escaped(&cleaned(&self.description())),
        );
        format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"k-chart\" viewBox=\"0 0 {WIDTH} {height:.0}\" width=\"{WIDTH}\" \
             height=\"{height:.0}\" role=\"img\" lang=\"en\" xml:lang=\"en\" aria-labelledby=\"{id}-title {id}-desc\">\n\
             <title id=\"{id}-title\">{title}</title>\n<desc id=\"{id}-desc\">{told}</desc>\n{style}{paper}{}</svg>\n",
            self.body
        )
    }
}

/// Text as XML takes it between tags and in attributes.
pub(in crate::report) fn escaped(text: &str) -> String {
    let mut safe = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => safe.push_str("&amp;"),
            '<' => safe.push_str("&lt;"),
            '>' => safe.push_str("&gt;"),
            '"' => safe.push_str("&quot;"),
            _ => safe.push(c),
        }
    }
    safe
}

/// `text` without what XML forbids and what turns a line round.
fn cleaned(text: &str) -> String {
    let kept = |c: &char| {
        !c.is_control()
            && !matches!(*c, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}' | '\u{fffe}' | '\u{ffff}')
    };
    text.chars().filter(kept).collect()
}
