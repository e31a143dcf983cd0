//! A page of text: headings, paragraphs and tables within a width.

use std::collections::HashMap;

use anstyle::{AnsiColor, Style};
use comfy_table::{ColumnConstraint, ContentArrangement, LineStyle, Table, TableStyle, Width};
use unicode_width::UnicodeWidthStr;

use crate::corpus::Origin;
use crate::report::view::WorkRef;

/// The narrowest page that is laid out; a narrower terminal wraps by itself.
const NARROWEST: usize = 40;

const HEADING: Style = Style::new().bold();
const QUIET: Style = Style::new().dimmed();
const ALERT: Style = Style::new()
    .bold()
    .fg_color(Some(anstyle::Color::Ansi(AnsiColor::Red)));

/// A rule under the header and nothing else: rows are read, not boxed.
const TABLE: TableStyle =
    TableStyle::new().header_separator(LineStyle::none().fill('─').junction('─'));

/// Keeps a column of a table as wide as its content.
pub(super) const WHOLE: u16 = u16::MAX;

/// Collects text, styled with escape codes that the caller strips where they are not wanted.
pub struct Page {
    width: usize,
    text: String,
}

impl Page {
    /// An empty page of `width` columns.
    #[must_use]
    pub fn new(width: usize) -> Self {
        Self {
            width: width.max(NARROWEST),
            text: String::new(),
        }
    }

    /// The width in columns.
    #[must_use]
    pub const fn width(&self) -> usize {
        self.width
    }

    /// The finished text.
    #[must_use]
    pub fn into_text(self) -> String {
        self.text
    }

    /// A heading with a blank line before it.
    pub fn heading(&mut self, words: &str) {
        if !self.text.is_empty() {
            self.text.push('\n');
        }
        self.styled(HEADING, words, "");
    }

    /// A paragraph.
    pub fn paragraph(&mut self, words: &str) {
        self.styled(Style::new(), words, "");
    }

    /// A paragraph in bold.
    pub fn strong(&mut self, words: &str) {
        self.styled(HEADING, words, "");
    }

    /// A paragraph of lesser weight.
    pub fn quiet(&mut self, words: &str) {
        self.styled(QUIET, words, "");
    }

    /// A paragraph that must not be overlooked; it also begins with a sign, for those without colour.
    pub fn alert(&mut self, words: &str) {
        self.styled(ALERT, &format!("! {words}"), "  ");
    }

    /// `lead`, then words that hang beside it when they wrap, from column `indent` on. A lead that is
    /// too long for that stands on lines of its own.
    pub fn hanging(&mut self, lead: &str, indent: usize, words: &str) {
        let lead = clean(lead);
        let spaces = SPACES.get(..indent).unwrap_or(SPACES);
        let first = if lead.trim_end().width() < indent {
            format!("{lead}{}", " ".repeat(indent.saturating_sub(lead.width())))
        } else {
            self.styled(Style::new(), lead.trim_end(), "    ");
            spaces.to_owned()
        };
        let options = textwrap::Options::new(self.width)
            .initial_indent(&first)
            .subsequent_indent(spaces)
            .word_separator(textwrap::WordSeparator::AsciiSpace)
            .word_splitter(textwrap::WordSplitter::NoHyphenation)
            .break_words(true);
        self.push_lines(Style::new(), &textwrap::wrap(&clean(words), options));
    }

    fn styled(&mut self, style: Style, words: &str, indent: &str) {
        let options = textwrap::Options::new(self.width)
            .subsequent_indent(indent)
            .word_separator(textwrap::WordSeparator::AsciiSpace)
            .word_splitter(textwrap::WordSplitter::NoHyphenation);
        self.push_lines(style, &textwrap::wrap(&clean(words), options));
    }

    fn push_lines(&mut self, style: Style, lines: &[std::borrow::Cow<'_, str>]) {
        for line in lines {
            let line = line.trim_end();
            self.text.push_str(&format!("{style}{line}{style:#}"));
            self.text.push('\n');
        }
    }

    /// A table; `upper` limits the width of a column where it is not zero, and `WHOLE` keeps a column
    /// as wide as its content, so that only others shrink, and none below its
    /// longest word.
    pub(super) fn table(&mut self, header: &[&str], upper: &[u16], rows: Vec<Vec<String>>) {
        let mut table = Table::new();
        table.load_style(TABLE);
        table.set_content_arrangement(ContentArrangement::Dynamic);
        table.set_width(u16::try_from(self.width).unwrap_or(u16::MAX));
        table.set_header(
            header
                .iter()
                .map(|cell| (*cell).to_owned())
                .collect::<Vec<_>>(),
        );
        let rows_text: Vec<Vec<String>> = rows
            .iter()
            .map(|row| row.iter().map(|cell| cell_text(cell)).collect())
            .collect();
        for row in &rows_text {
            table.add_row(row.clone());
        }
        let last = header.len().saturating_sub(1);
        let longest = longest_words(header, &rows_text);
        for (place, column) in table.column_iter_mut().enumerate() {
            column.set_padding((0, if place == last { 0 } else { 1 }));
            match upper.get(place) {
                None | Some(0) => {}
                Some(&WHOLE) => {
                    column.set_constraint(ColumnConstraint::ContentWidth);
                }
                Some(width) => {
                    // A word is never cut, a comma never pushed to the next line.
                    let padding = if place == last { 0 } else { 1 };
                    let lower = longest.get(place).copied().unwrap_or_default() + padding;
                    column.set_constraint(ColumnConstraint::Boundaries {
                        lower: Width::Fixed(lower),
                        upper: Width::Fixed(lower.max(*width)),
                    });
                }
            }
        }
        for line in table.lines() {
            self.text.push_str(line.trim_end());
            self.text.push('\n');
        }
    }

    /// Text that is laid out already, such as a source excerpt.
    pub fn raw(&mut self, text: &str) {
        self.text.push_str(text);
    }
}

/// The width of the longest word in each column.
fn longest_words(header: &[&str], rows: &[Vec<String>]) -> Vec<u16> {
    let word = |cell: &str| {
        cell.split([' ', '\n'])
            .map(UnicodeWidthStr::width)
            .max()
            .unwrap_or_default()
    };
    let column = |place: usize| {
        let cells = rows
            .iter()
            .filter_map(|row| row.get(place))
            .map(|cell| word(cell));
        cells.chain([word(header[place])]).max().unwrap_or_default()
    };
    (0..header.len())
        .map(|place| u16::try_from(column(place)).unwrap_or(u16::MAX))
        .collect()
}

const SPACES: &str = "                                        ";

/// A cell: the line breaks in it are the renderer's own.
fn cell_text(cell: &str) -> String {
    cell.split('\n').map(clean).collect::<Vec<_>>().join("\n")
}

/// `text` with control and direction characters named: escape sequences in data must not reach the
/// terminal, and no text may turn the line round.
pub(super) fn clean(text: &str) -> String {
    let named =
        |c: char| c.is_control() || matches!(c, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}');
    let mut cleaned = String::with_capacity(text.len());
    for c in text.chars() {
        if named(c) {
            cleaned.extend(c.escape_unicode());
        } else {
            cleaned.push(c);
        }
    }
    cleaned
}

/// Works by id, to name them in text.
pub(crate) struct Titles<'v>(HashMap<&'v str, &'v WorkRef>);

impl<'v> Titles<'v> {
    pub(crate) fn new(works: &'v [WorkRef]) -> Self {
        Self(works.iter().map(|work| (work.id.as_str(), work)).collect())
    }

    /// The work called `id`.
    pub(crate) fn work(&self, id: &str) -> Option<&'v WorkRef> {
        self.0.get(id).copied()
    }

    /// The title of the work called `id`, with * when it is the user's own.
    pub(crate) fn title(&self, id: &str) -> String {
        self.work(id).map_or_else(String::new, |work| {
            let own = if work.origin == Origin::User { "*" } else { "" };
            format!("{}{own}", work.title)
        })
    }

    /// Title and latest year, for narrow cells: `新修本草 659`, `神農 by 239`.
    pub(crate) fn with_year(&self, id: &str) -> String {
        self.work(id).map_or_else(String::new, |work| {
            let year = short_year(work);
            format!(
                "{} {}",
                self.title(id),
                year.strip_prefix("c. ").unwrap_or(&year)
            )
        })
    }

    /// Title and date.
    pub(crate) fn dated(&self, id: &str) -> String {
        self.work(id).map_or_else(String::new, |work| {
            format!("{} ({})", self.title(id), work.date)
        })
    }

    /// Titles in a row.
    pub(crate) fn list(&self, ids: &[String]) -> String {
        ids.iter()
            .map(|id| self.title(id))
            .collect::<Vec<_>>()
            .join(", ")
    }
}

/// The year by which a work is ordered, with `c.` or `by` where its date has it.
pub(crate) fn short_year(work: &WorkRef) -> String {
    match work.date.split_once(' ') {
        Some((lead @ ("c." | "by"), _)) => format!("{lead} {}", work.year),
        _ => work.year.to_string(),
    }
}

/// `1 work`, `2 works`.
pub(in crate::report) fn count(n: usize, one: &str) -> String {
    match (n, one.strip_suffix("ss")) {
        (1, _) => format!("1 {one}"),
        (_, Some(_)) => format!("{n} {one}es"),
        _ => format!("{n} {one}s"),
    }
}

#[cfg(test)]
mod tests {
    use super::{Page, clean, count};
    use pretty_assertions::assert_eq;
    use unicode_width::UnicodeWidthStr;

    #[test]
    fn double_width_characters_count_twice_when_a_line_is_wrapped() {
        let mut page = Page::new(40);
        page.hanging("side", 10, &"新修本草, ".repeat(12));
        assert!(page.into_text().lines().all(|line| line.width() <= 40 + 8));
    }

    #[test]
    fn escape_sequences_in_data_do_not_reach_the_terminal() {
        assert_eq!(clean("薄荷\u{1b}[31m\u{202e}"), r"薄荷\u{1b}[31m\u{202e}");
    }

    #[test]
    fn nouns_agree_with_their_number() {
        assert_eq!(
            (count(1, "witness"), count(3, "witness"), count(2, "line")),
            (
                "1 witness".to_owned(),
                "3 witnesses".to_owned(),
                "2 lines".to_owned()
            )
        );
    }
}
