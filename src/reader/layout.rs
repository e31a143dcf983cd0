//! How a book's plain text is laid out: what opens an article, names a section, marks a lost
//! character. Three layouts are known and recognised; others are told in a small YAML file.

use schemars::JsonSchema;
use serde::Deserialize;

/// The layout of a text.
///
/// ```
/// use kaoyi::reader::Layout;
/// assert_eq!(Layout::recognise("# 草部\n## 薄荷\n味辛。").map(|one| one.name), Some("headings".into()));
/// assert_eq!(Layout::recognise("【薄荷】味辛。").map(|one| one.name), Some("brackets".into()));
/// ```
#[derive(Debug, Clone, Deserialize, JsonSchema, PartialEq, Eq)]
#[serde(deny_unknown_fields)]
pub struct Layout {
    /// What the layout is called in messages.
    pub name: String,
    /// What the line that opens an article looks like.
    pub heading: Marker,
    /// What the line that names the section of the following articles looks like.
    #[serde(default)]
    #[schemars(with = "Marker")]
    pub section: Option<Marker>,
    /// Words before the article itself, left out.
    #[serde(default)]
    pub body: String,
    /// Whether a blank within a line stands for a character that the transcription lacks.
    #[serde(default)]
    pub blank_is_lost: bool,
    /// Whether lines are broken anywhere, as a page is, and have to be joined.
    #[serde(default)]
    pub wrapped: bool,
    /// Whether a heading of fewer `#` names the section of those with more.
    #[serde(default)]
    pub nested: bool,
}

/// What stands around the words of a heading, at the start of its line.
#[derive(Debug, Clone, Deserialize, JsonSchema, PartialEq, Eq)]
#[serde(deny_unknown_fields)]
pub struct Marker {
    /// Before the words; it opens the line.
    #[schemars(length(min = 1))]
    pub before: String,
    /// After the words; where it is left out, the heading is the rest of the line.
    #[serde(default)]
    pub after: String,
}

impl Marker {
    fn new(before: &str, after: &str) -> Self {
        Self {
            before: before.into(),
            after: after.into(),
        }
    }

    /// The words of the heading that opens `line`, and what follows them on the line.
    pub(super) fn split<'l>(&self, line: &'l str) -> Option<(&'l str, &'l str)> {
        let rest = line.trim_start().strip_prefix(self.before.as_str())?;
        if self.after.is_empty() {
            return Some((rest.trim(), ""));
        }
        let (words, rest) = rest.split_once(self.after.as_str())?;
        Some((words.trim(), rest))
    }
}

/// Words in black brackets that open a part of an article, never an article.
pub(super) const SECTION_WORDS: [&str; 12] = [
    "气味", "性味", "味性", "主治", "发明", "集解", "释名", "修治", "附方", "正误", "功用", "别名",
];

impl Layout {
    /// The layouts that are known without being told.
    #[must_use]
    pub fn known() -> [Self; 3] {
        [
            Self {
                name: "tags".into(),
                heading: Marker::new("<篇名>", ""),
                section: Some(Marker::new("<目录>", "")),
                body: "内容：".into(),
                blank_is_lost: true,
                wrapped: true,
                nested: false,
            },
            Self {
                name: "headings".into(),
                heading: Marker::new("#", ""),
                section: None,
                body: String::new(),
                blank_is_lost: false,
                wrapped: false,
                nested: true,
            },
            Self {
                name: "brackets".into(),
                heading: Marker::new("【", "】"),
                section: None,
                body: String::new(),
                blank_is_lost: false,
                wrapped: false,
                nested: false,
            },
        ]
    }

    /// The first known layout with a heading in `text`.
    #[must_use]
    pub fn recognise(text: &str) -> Option<Self> {
        Self::known()
            .into_iter()
            .find(|layout| text.lines().any(|line| layout.heading(line).is_some()))
    }

    /// A layout told in a file.
    ///
    /// # Errors
    /// When the YAML does not hold a layout; the message names line and column.
    ///
    /// ```
    /// use kaoyi::reader::Layout;
    /// let layout = Layout::from_yaml("name: dots\nheading: {before: '●'}\nwrapped: true\n").unwrap();
    /// assert!(layout.wrapped);
    /// assert!(Layout::from_yaml("name: dots\nheding: {before: '●'}\n").is_err());
    /// ```
    pub fn from_yaml(text: &str) -> Result<Self, String> {
        let layout: Self =
            serde_yaml::from_str(text).map_err(|error| error.without_snippet().to_string())?;
        let markers = std::iter::once(&layout.heading).chain(&layout.section);
        for marker in markers {
            if marker.before.trim().is_empty() {
                return Err("`before` is empty: every line would be a heading".into());
            }
        }
        Ok(layout)
    }

    /// The words of the heading that `line` is, and the rest of the line.
    pub(super) fn heading<'l>(&self, line: &'l str) -> Option<(&'l str, &'l str)> {
        let (words, rest) = self.heading.split(line)?;
        if self.nested {
            // Hashes without a blank behind them are no heading.
            let words = words.trim_start_matches('#');
            return line
                .trim_start_matches('#')
                .starts_with([' ', '\u{3000}', '\t'])
                .then(|| (words.trim(), rest));
        }
        let opens_part = self.heading.before == "【" && SECTION_WORDS.contains(&words);
        (!opens_part && words.chars().count() <= 60).then_some((words, rest))
    }
}
