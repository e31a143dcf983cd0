//! The query of an address and the fields of a form: read strictly, kept in their order.

use std::borrow::Cow;

use percent_encoding::{AsciiSet, NON_ALPHANUMERIC, percent_decode, utf8_percent_encode};

/// What is written as it is in a part of an address.
const PLAIN: &AsciiSet = &NON_ALPHANUMERIC
    .remove(b'-')
    .remove(b'_')
    .remove(b'.')
    .remove(b'~');

/// A word as part of an address.
pub(crate) fn encoded(word: &str) -> String {
    utf8_percent_encode(word, PLAIN).to_string()
}

/// Why a query could not be read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum BadQuery {
    /// A percent sign that begins no byte.
    Percent,
    /// Bytes that are no text.
    Utf8,
    /// A character that controls a terminal and no text holds.
    Control,
}

impl BadQuery {
    /// What is wrong, in words.
    pub(crate) const fn words(self) -> &'static str {
        match self {
            Self::Percent => {
                "a percent sign without two digits after it; expected %25 for the sign itself"
            }
            Self::Utf8 => "bytes that are no UTF-8; expected text in UTF-8",
            Self::Control => "a control character; expected text",
        }
    }
}

/// Names with their values, in the order of the address.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(crate) struct Asked {
    pairs: Vec<(String, String)>,
}

impl Asked {
    /// Reads a query or a form. Values without a word are left out: a form sends its empty fields too.
    pub(crate) fn read(text: &str) -> Result<Self, BadQuery> {
        let mut pairs = Vec::new();
        for pair in text.split('&').filter(|pair| !pair.is_empty()) {
            let (name, value) = pair.split_once('=').unwrap_or((pair, ""));
            let (name, value) = (decoded(name)?, decoded(value)?);
            if !value.trim().is_empty() {
                pairs.push((name, value));
            }
        }
        Ok(Self { pairs })
    }

    /// From pairs that were read already.
    pub(crate) fn of(pairs: Vec<(String, String)>) -> Self {
        Self { pairs }
    }

    /// All names with their values.
    pub(crate) fn pairs(&self) -> &[(String, String)] {
        &self.pairs
    }

    /// The first value of a name.
    pub(crate) fn one(&self, name: &str) -> Option<&str> {
        let mut named = self.pairs.iter().filter(|(one, _)| one == name);
        named.next().map(|(_, value)| value.as_str())
    }

    /// All values of a name.
    pub(crate) fn all<'a>(&'a self, name: &'a str) -> impl Iterator<Item = &'a str> {
        let named = self.pairs.iter().filter(move |(one, _)| one == name);
        named.map(|(_, value)| value.as_str())
    }

    /// The values of a name, each split at its commas, as the command line does.
    pub(crate) fn list(&self, name: &str) -> Vec<String> {
        let words = self.all(name).flat_map(|value| value.split(','));
        words
            .map(|word| word.trim().to_owned())
            .filter(|word| !word.is_empty())
            .collect()
    }

    /// As the query of an address, with its question mark; empty where nothing is asked.
    pub(crate) fn query(&self) -> String {
        let mut query = String::new();
        for (name, value) in &self.pairs {
            query.push(if query.is_empty() { '?' } else { '&' });
            query.push_str(&encoded(name));
            query.push('=');
            query.push_str(&encoded(value));
        }
        query
    }
}

/// A name or value as typed.
fn decoded(word: &str) -> Result<String, BadQuery> {
    let word = word.replace('+', " ");
    text(word.as_bytes())
}

/// Bytes of an address as text.
pub(crate) fn text(bytes: &[u8]) -> Result<String, BadQuery> {
    for (place, _) in bytes.iter().enumerate().filter(|(_, byte)| **byte == b'%') {
        let digits = bytes.get(place + 1..place + 3);
        if !digits.is_some_and(|two| two.iter().all(u8::is_ascii_hexdigit)) {
            return Err(BadQuery::Percent);
        }
    }
    let decoded: Cow<'_, [u8]> = percent_decode(bytes).into();
    let text = String::from_utf8(decoded.into_owned()).map_err(|_| BadQuery::Utf8)?;
    let bad = |c: char| c.is_control() && !matches!(c, '\n' | '\r' | '\t');
    if text.chars().any(bad) {
        return Err(BadQuery::Control);
    }
    Ok(text)
}

#[cfg(test)]
mod tests {
    use super::{Asked, BadQuery};
    use pretty_assertions::assert_eq;
    use proptest::prelude::*;

    #[test]
    fn empty_fields_are_left_out_and_others_keep_their_order() {
        let asked =
            Asked::read("q=%E8%96%84%E8%8D%B7&nature=&flavour=sweet&flavour=acrid,sour").unwrap();
        assert_eq!(asked.one("q"), Some("薄荷"));
        assert_eq!(asked.one("nature"), None);
        assert_eq!(asked.list("flavour"), ["sweet", "acrid", "sour"]);
    }

    #[test]
    fn what_is_no_text_is_told() {
        assert_eq!(Asked::read("q=%"), Err(BadQuery::Percent));
        assert_eq!(Asked::read("q=%G1"), Err(BadQuery::Percent));
        assert_eq!(Asked::read("q=%ff"), Err(BadQuery::Utf8));
        assert_eq!(Asked::read("q=%00"), Err(BadQuery::Control));
    }

    proptest! {
        #[test]
        fn a_query_that_was_written_is_read_back(pairs in prop::collection::vec(("[a-z]{1,8}", "\\PC{1,20}"), 0..6)) {
            prop_assume!(pairs.iter().all(|(_, value)| !value.trim().is_empty()));
            let asked = Asked::of(pairs);
            let query = asked.query();
            prop_assert_eq!(Asked::read(query.trim_start_matches('?')).unwrap(), asked);
        }
    }
}
