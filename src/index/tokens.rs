//! Terms of a folded text: Han characters and words of other letters one by one, and pairs of neighbours.

use std::iter::Peekable;
use std::str::CharIndices;

use tantivy::tokenizer::{Token, TokenStream, Tokenizer};

use crate::text::is_han;

/// Cuts a text that [`crate::text::HanFolder`] has folded into its pieces: each Han character, each word of other letters.
/// Punctuation is passed over; a lost character (□) and a gap (…) keep their place and match nothing.
#[derive(Debug, Clone, Default)]
pub(super) struct Singles;

/// Cuts a folded text into pairs of neighbouring pieces, each at the place of the first, so that 辛甘 is found in 辛、甘.
#[derive(Debug, Clone, Default)]
pub(super) struct Pairs;

/// Whether a character stands for one that is lost or left out.
const fn lost(c: char) -> bool {
    matches!(c, '□' | '…' | '\0')
}

/// Whether a character joins others to a word, as Han characters do not.
fn of_word(c: char) -> bool {
    c.is_ascii_alphanumeric() || (!is_han(c) && c.is_alphabetic())
}

/// The pieces of a text in order; `None` for what is lost.
struct Pieces<'t> {
    text: &'t str,
    characters: Peekable<CharIndices<'t>>,
}

impl<'t> Pieces<'t> {
    fn of(text: &'t str) -> Self {
        Self {
            text,
            characters: text.char_indices().peekable(),
        }
    }
}

impl<'t> Iterator for Pieces<'t> {
    type Item = Option<&'t str>;

    fn next(&mut self) -> Option<Self::Item> {
        loop {
            let (start, c) = self.characters.next()?;
            if lost(c) {
                return Some(None);
            }
            let mut end = start + c.len_utf8();
            if of_word(c) {
                while let Some((at, next)) = self.characters.next_if(|(_, next)| of_word(*next)) {
                    end = at + next.len_utf8();
                }
            } else if !is_han(c) && !c.is_alphanumeric() {
                continue;
            }
            return Some(Some(&self.text[start..end]));
        }
    }
}

/// Puts two neighbouring pieces into one term. A space between words keeps apart what other words would run together to.
fn put_pair(term: &mut String, first: &str, second: &str) {
    let han = |piece: &str| piece.chars().next().is_some_and(is_han);
    term.clear();
    term.push_str(first);
    if !(han(first) && han(second)) {
        term.push(' ');
    }
    term.push_str(second);
}

/// What stands in a text if a phrase does.
#[derive(Debug, PartialEq, Eq)]
pub(super) enum Phrase {
    /// Nothing that could be looked for.
    Empty,
    /// One piece alone.
    Single(String),
    /// Pairs, each one place behind the last.
    Pairs(Vec<String>),
}

impl Phrase {
    /// The terms of a folded phrase.
    pub(super) fn of(text: &str) -> Self {
        let pieces: Vec<&str> = Pieces::of(text).flatten().collect();
        match pieces.as_slice() {
            [] => Self::Empty,
            [one] => Self::Single((*one).to_owned()),
            several => {
                let pair = |pair: &[&str]| {
                    let mut term = String::new();
                    put_pair(&mut term, pair[0], pair[1]);
                    term
                };
                Self::Pairs(several.windows(2).map(pair).collect())
            }
        }
    }
}

/// Where a folded phrase stands in a folded text: spans of characters, from the first to behind the last.
///
/// ```
/// assert_eq!(kaoyi::index::places_of("辛甘", "味辛、甘，辛甘"), [(1, 4), (5, 7)]);
/// assert!(kaoyi::index::places_of("辛甘", "辛□甘").is_empty());
/// ```
#[must_use]
pub fn places_of(phrase: &str, text: &str) -> Vec<(usize, usize)> {
    let wanted: Vec<char> = phrase.chars().filter(|c| c.is_alphanumeric()).collect();
    let characters: Vec<char> = text.chars().collect();
    let told: Vec<usize> = (0..characters.len())
        .filter(|place| characters[*place].is_alphanumeric() || lost(characters[*place]))
        .collect();
    if wanted.is_empty() {
        return Vec::new();
    }
    let (mut found, mut from) = (Vec::new(), 0);
    while from + wanted.len() <= told.len() {
        let here = &told[from..from + wanted.len()];
        if here
            .iter()
            .map(|place| characters[*place])
            .eq(wanted.iter().copied())
        {
            found.push((here[0], here[wanted.len() - 1] + 1));
            from += wanted.len();
        } else {
            from += 1;
        }
    }
    found
}

/// The terms of one text.
pub(super) struct TermsOf<'t> {
    pieces: Pieces<'t>,
    /// Of pairs the piece before the next one; `None` also where it is lost.
    last: Option<&'t str>,
    in_pairs: bool,
    /// How many pieces have been passed.
    place: usize,
    token: Token,
}

impl<'t> TermsOf<'t> {
    fn of(text: &'t str, in_pairs: bool) -> Self {
        Self {
            pieces: Pieces::of(text),
            last: None,
            in_pairs,
            place: 0,
            token: Token::default(),
        }
    }
}

impl Tokenizer for Singles {
    type TokenStream<'t> = TermsOf<'t>;

    fn token_stream<'t>(&'t mut self, text: &'t str) -> TermsOf<'t> {
        TermsOf::of(text, false)
    }
}

impl Tokenizer for Pairs {
    type TokenStream<'t> = TermsOf<'t>;

    fn token_stream<'t>(&'t mut self, text: &'t str) -> TermsOf<'t> {
        TermsOf::of(text, true)
    }
}

impl TokenStream for TermsOf<'_> {
    fn advance(&mut self) -> bool {
        for piece in self.pieces.by_ref() {
            self.place += 1;
            let last = std::mem::replace(&mut self.last, piece);
            let Some(piece) = piece else { continue };
            if !self.in_pairs {
                self.token.position = self.place - 1;
                self.token.text.clear();
                self.token.text.push_str(piece);
                return true;
            }
            if let Some(last) = last {
                // A pair stands at the place of its first piece.
                self.token.position = self.place - 2;
                put_pair(&mut self.token.text, last, piece);
                return true;
            }
        }
        false
    }

    fn token(&self) -> &Token {
        &self.token
    }

    fn token_mut(&mut self) -> &mut Token {
        &mut self.token
    }
}

#[cfg(test)]
mod tests {
    use super::{Pairs, Phrase, Singles};
    use pretty_assertions::assert_eq;
    use tantivy::tokenizer::{TokenStream, Tokenizer};

    fn terms(mut tokenizer: impl Tokenizer, text: &str) -> Vec<(String, usize)> {
        let mut terms = Vec::new();
        tokenizer
            .token_stream(text)
            .process(&mut |token| terms.push((token.text.clone(), token.position)));
        terms
    }

    fn placed(terms: &[(&str, usize)]) -> Vec<(String, usize)> {
        let terms = terms.iter();
        terms
            .map(|(text, place)| ((*text).to_owned(), *place))
            .collect()
    }

    #[test]
    fn characters_and_pairs_stand_at_their_places() {
        let text = "味辛、温";
        assert_eq!(
            terms(Singles, text),
            placed(&[("味", 0), ("辛", 1), ("温", 2)])
        );
        assert_eq!(terms(Pairs, text), placed(&[("味辛", 0), ("辛温", 1)]));
    }

    #[test]
    fn a_lost_character_keeps_its_place_and_matches_nothing() {
        let text = "甲□乙丙";
        assert_eq!(
            terms(Singles, text),
            placed(&[("甲", 0), ("乙", 2), ("丙", 3)])
        );
        assert_eq!(terms(Pairs, text), placed(&[("乙丙", 2)]));
    }

    #[test]
    fn words_of_letters_stay_whole_and_pair_with_their_neighbours() {
        let text = "menthae herba 薄荷";
        assert_eq!(
            terms(Singles, text),
            placed(&[("menthae", 0), ("herba", 1), ("薄", 2), ("荷", 3)])
        );
        assert_eq!(
            terms(Pairs, text),
            placed(&[("menthae herba", 0), ("herba 薄", 1), ("薄荷", 2)])
        );
    }

    #[test]
    fn a_phrase_is_its_pairs_and_a_single_character_itself() {
        assert_eq!(Phrase::of("、□"), Phrase::Empty);
        assert_eq!(Phrase::of("辛。"), Phrase::Single("辛".to_owned()));
        assert_eq!(
            Phrase::of("味辛温"),
            Phrase::Pairs(vec!["味辛".to_owned(), "辛温".to_owned()])
        );
    }
}
