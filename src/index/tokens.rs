//! Terms of a folded text: Han characters one by one and in pairs, other words whole.

use tantivy::tokenizer::{Token, TokenStream, Tokenizer};

/// Cuts a text that [`crate::text::HanFolder`] has folded. A pair stands at the place of its first character. Punctuation is
/// passed over, so that 辛甘 is found in 辛、甘; a lost character (□) and a gap (…) keep their place and match nothing.
#[derive(Debug, Clone, Default)]
pub(super) struct CharactersAndPairs;

/// A text's term at a place.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Term {
    pub text: String,
    pub place: usize,
}

/// Whether a character stands for one that is lost or left out.
const fn lost(c: char) -> bool {
    matches!(c, '□' | '…' | '\0')
}

/// Pieces of a text in order: a Han character or a whole word of other letters; `None` for what is lost.
fn pieces(text: &str) -> Vec<Option<String>> {
    let mut pieces: Vec<Option<String>> = Vec::new();
    let mut word = String::new();
    for c in text.chars().chain(['\n']) {
        if c.is_ascii_alphanumeric() || (c.is_alphabetic() && !is_han(c)) {
            word.push(c);
            continue;
        }
        if !word.is_empty() {
            pieces.push(Some(std::mem::take(&mut word)));
        }
        if lost(c) {
            pieces.push(None);
        } else if c.is_alphanumeric() {
            pieces.push(Some(c.to_string()));
        }
    }
    pieces
}

/// Whether a character is one of the Han script: those of the blocks of unified ideographs and their extensions.
fn is_han(c: char) -> bool {
    matches!(c, '\u{2e80}'..='\u{2fdf}' | '\u{3007}' | '\u{3400}'..='\u{9fff}' | '\u{f900}'..='\u{faff}' | '\u{20000}'..='\u{323af}')
}

/// The terms by which a text is found.
pub(super) fn terms(text: &str) -> Vec<Term> {
    let pieces = pieces(text);
    let mut terms = Vec::new();
    for (place, piece) in pieces.iter().enumerate() {
        let Some(piece) = piece else { continue };
        terms.push(Term {
            text: piece.clone(),
            place,
        });
        let next = pieces.get(place + 1).and_then(Option::as_ref);
        if let Some(next) = next.filter(|next| of_han(piece) && of_han(next)) {
            terms.push(Term {
                text: format!("{piece}{next}"),
                place,
            });
        }
    }
    terms
}

fn of_han(piece: &str) -> bool {
    piece.chars().all(is_han)
}

/// The terms that must stand one after another for a phrase to be found: pairs where there are pairs, each with its place.
pub(super) fn phrase(text: &str) -> Vec<Term> {
    let pieces: Vec<String> = pieces(text).into_iter().flatten().collect();
    let mut terms = Vec::new();
    for (place, piece) in pieces.iter().enumerate() {
        let next = pieces
            .get(place + 1)
            .filter(|next| of_han(piece) && of_han(next));
        let last = place.checked_sub(1).map(|before| &pieces[before]);
        match next {
            Some(next) => terms.push(Term {
                text: format!("{piece}{next}"),
                place,
            }),
            // The second half of a pair says nothing more.
            None if of_han(piece) && last.is_some_and(|last| of_han(last)) => {}
            None => terms.push(Term {
                text: piece.clone(),
                place,
            }),
        }
    }
    terms
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
pub(super) struct Terms {
    terms: std::vec::IntoIter<Term>,
    token: Token,
}

impl Tokenizer for CharactersAndPairs {
    type TokenStream<'a> = Terms;

    fn token_stream<'a>(&'a mut self, text: &'a str) -> Terms {
        Terms {
            terms: terms(text).into_iter(),
            token: Token::default(),
        }
    }
}

impl TokenStream for Terms {
    fn advance(&mut self) -> bool {
        let Some(term) = self.terms.next() else {
            return false;
        };
        self.token.position = term.place;
        self.token.text = term.text;
        true
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
    use super::{phrase, terms};
    use pretty_assertions::assert_eq;

    fn words(terms: Vec<super::Term>) -> Vec<(String, usize)> {
        terms
            .into_iter()
            .map(|term| (term.text, term.place))
            .collect()
    }

    #[test]
    fn characters_and_pairs_stand_at_their_places() {
        let found = words(terms("味辛、温"));
        let expected = [("味", 0), ("味辛", 0), ("辛", 1), ("辛温", 1), ("温", 2)];
        assert_eq!(
            found,
            expected.map(|(text, place)| (text.to_owned(), place))
        );
    }

    #[test]
    fn a_lost_character_keeps_its_place_and_matches_nothing() {
        let found = words(terms("甲□乙"));
        assert_eq!(found, [("甲".to_owned(), 0), ("乙".to_owned(), 2)]);
    }

    #[test]
    fn a_phrase_is_its_pairs_and_a_single_character_itself() {
        assert_eq!(words(phrase("辛")), [("辛".to_owned(), 0)]);
        assert_eq!(
            words(phrase("味辛温")),
            [("味辛".to_owned(), 0), ("辛温".to_owned(), 1)]
        );
        assert_eq!(
            words(phrase("menthae herba")),
            [("menthae".to_owned(), 0), ("herba".to_owned(), 1)]
        );
    }
}
