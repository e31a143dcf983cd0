//! Cutting a text into articles.

use super::layout::Layout;

/// One heading with the text up to the next.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Article<'t> {
    /// The number of its heading in the text, from 1.
    pub ordinal: u32,
    /// The section that it stands in.
    pub section: String,
    /// Its heading, as written.
    pub heading: &'t str,
    /// Its text.
    pub body: &'t str,
    /// The place of the first character of `body` in the text, counted in characters from 0.
    pub start: usize,
}

/// The articles of `text`, in order; what stands before the first heading is left out.
///
/// ```
/// use kaoyi::reader::{Layout, articles};
/// let text = "<目录>菜部\n<篇名>薄荷\n内容：味辛。\n<篇名>菊花\n内容：味苦。\n";
/// let layout = Layout::recognise(text).unwrap();
/// let all = articles(text, &layout);
/// assert_eq!((all[1].ordinal, all[1].section.as_str(), all[1].heading), (2, "菜部", "菊花"));
/// assert_eq!(text.chars().nth(all[1].start), Some('味'));
/// ```
#[must_use]
pub fn articles<'t>(text: &'t str, layout: &Layout) -> Vec<Article<'t>> {
    let mut cutter = Cutter {
        layout,
        text,
        found: Vec::new(),
        open: None,
        section: String::new(),
        levels: Vec::new(),
    };
    let (mut byte, mut chars) = (0, 0);
    for line in text.split_inclusive('\n') {
        cutter.line(line, byte, chars);
        byte += line.len();
        chars += line.chars().count();
    }
    cutter.close(text.len());
    cutter.found
}

struct Cutter<'t, 'l> {
    layout: &'l Layout,
    text: &'t str,
    found: Vec<Article<'t>>,
    /// Heading, section, first byte and first character of the article that is being read.
    open: Option<(&'t str, String, usize, usize)>,
    section: String,
    /// Words of the headings above, by their number of `#`.
    levels: Vec<(usize, &'t str)>,
}

impl<'t> Cutter<'t, '_> {
    fn line(&mut self, line: &'t str, byte: usize, chars: usize) {
        if let Some((words, _)) = self
            .layout
            .section
            .as_ref()
            .and_then(|marker| marker.split(line))
        {
            self.close(byte);
            words.clone_into(&mut self.section);
            return;
        }
        let Some((words, rest)) = self.layout.heading(line) else {
            return;
        };
        self.close(byte);
        if self.layout.nested {
            let level = line.chars().take_while(|c| *c == '#').count();
            self.levels.retain(|(above, _)| *above < level);
            let above: Vec<&str> = self.levels.iter().map(|(_, words)| *words).collect();
            self.section = above.join("\\");
            self.levels.push((level, words));
        }
        let body = byte + line.len() - rest.len();
        let rest = if rest.is_empty() { "" } else { rest };
        let body = if rest.trim().is_empty() {
            byte + line.len()
        } else {
            body
        };
        let start = chars + self.text[byte..body].chars().count();
        self.open = Some((words, self.section.clone(), body, start));
    }

    fn close(&mut self, end: usize) {
        let Some((heading, section, from, chars)) = self.open.take() else {
            return;
        };
        let whole = &self.text[from..end];
        let body = whole.trim_start();
        let body = body.strip_prefix(self.layout.body.as_str()).unwrap_or(body);
        let skipped = whole[..whole.len() - body.len()].chars().count();
        self.found.push(Article {
            ordinal: self.found.len() as u32 + 1,
            section,
            heading,
            body: body.trim_end(),
            start: chars + skipped,
        });
    }
}

#[cfg(test)]
mod tests {
    use super::articles;
    use crate::reader::Layout;
    use pretty_assertions::assert_eq;

    #[test]
    fn headings_of_fewer_hashes_are_the_section() {
        let text = "# 書\n## 草部\n### 薄荷\n味辛。\n### 菊花\n味苦。\n## 木部\n### 槐\n味苦。\n";
        let all = articles(text, &Layout::recognise(text).unwrap());
        let places: Vec<(u32, &str, &str)> = all
            .iter()
            .map(|one| (one.ordinal, one.section.as_str(), one.heading))
            .collect();
        assert_eq!(places[2], (3, "書\\草部", "薄荷"));
        assert_eq!(places[5], (6, "書\\木部", "槐"));
    }

    #[test]
    fn brackets_open_an_article_on_its_own_line_and_sections_in_brackets_do_not() {
        let text = "【薄荷】味辛，溫。\n【主治】風。\n【菊花】\n味苦。";
        let all = articles(text, &Layout::recognise(text).unwrap());
        assert_eq!(all.len(), 2);
        assert_eq!(all[0].body, "味辛，溫。\n【主治】風。");
        assert_eq!(all[1].body, "味苦。");
        assert_eq!(text.chars().nth(all[0].start), Some('味'));
    }
}
