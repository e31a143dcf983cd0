//! Text in XML.

use std::fmt::Write as _;

/// Puts text into XML: signs that mark elements and attributes as entities, characters that XML does not allow as the sign
/// of a lost one.
pub(super) fn escaped(text: &str) -> String {
    let mut escaped = String::with_capacity(text.len());
    for sign in text.chars() {
        match sign {
            '&' => escaped.push_str("&amp;"),
            '<' => escaped.push_str("&lt;"),
            '>' => escaped.push_str("&gt;"),
            '"' => escaped.push_str("&quot;"),
            '\'' => escaped.push_str("&#39;"),
            // In an attribute they would become blanks.
            '\t' | '\n' | '\r' => {
                // Writing to a string does not fail.
                let _ = write!(escaped, "&#{};", u32::from(sign));
            }
            '\u{0}'..='\u{1f}' | '\u{7f}'..='\u{9f}' | '\u{fffe}' | '\u{ffff}' => {
                escaped.push('\u{fffd}')
            }
            other => escaped.push(other),
        }
    }
    escaped
}

/// Elements as they are written.
#[derive(Default)]
pub(super) struct Xml {
    text: String,
}

impl Xml {
    /// Opens an element.
    pub fn open(&mut self, name: &str, attributes: &[(&str, String)]) {
        self.start(name, attributes);
        self.text.push_str(">\n");
    }

    /// Closes an element.
    pub fn close(&mut self, name: &str) {
        self.text.push_str(&format!("</{name}>\n"));
    }

    /// An element with text alone.
    pub fn with(&mut self, name: &str, attributes: &[(&str, String)], text: &str) {
        self.start(name, attributes);
        self.text
            .push_str(&format!(">{}</{name}>\n", escaped(text)));
    }

    /// An element without content.
    pub fn empty(&mut self, name: &str, attributes: &[(&str, String)]) {
        self.start(name, attributes);
        self.text.push_str("/>\n");
    }

    /// What was written since it was last taken.
    pub fn take(&mut self) -> String {
        std::mem::take(&mut self.text)
    }

    /// The beginning of a tag; attributes without a value are left out.
    fn start(&mut self, name: &str, attributes: &[(&str, String)]) {
        self.text.push_str(&format!("<{name}"));
        for (attribute, value) in attributes.iter().filter(|(_, value)| !value.is_empty()) {
            self.text
                .push_str(&format!(" {attribute}=\"{}\"", escaped(value)));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::escaped;

    #[test]
    fn nothing_in_a_text_is_markup() {
        assert_eq!(
            escaped("<script>\"&'\u{1}]]>"),
            "&lt;script&gt;&quot;&amp;&#39;\u{fffd}]]&gt;"
        );
    }
}
