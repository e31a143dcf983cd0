//! Queries to the index: phrases of wordings and names, with filters.

use tantivy::query::{
    BooleanQuery, ConstScoreQuery, Occur, PhraseQuery, Query, TermQuery, TermSetQuery,
};
use tantivy::schema::{Field, IndexRecordOption};
use tantivy::{DocId, DocSet, TERMINATED, TantivyError, Term};

use super::numbers::Every;
use super::search::Asked;
use super::tokens::Phrase;
use super::words::Words;

/// A query, and the one term that it is, if it is no more.
pub(super) struct Wording {
    pub query: Box<dyn Query>,
    pub term: Option<Term>,
}

impl Words {
    /// The documents with this term in a field, in order.
    pub(super) fn with_term(&self, field: Field, text: &str) -> Result<Vec<DocId>, TantivyError> {
        let terms = self.segment.inverted_index(field)?;
        let term = Term::from_field_text(field, text);
        let mut documents = Vec::new();
        if let Some(mut postings) = terms.read_postings(&term, IndexRecordOption::Basic)? {
            while postings.doc() != TERMINATED {
                documents.push(postings.doc());
                postings.advance();
            }
        }
        Ok(documents)
    }

    /// The herbs of which `name` is a name, by their numbers.
    fn bearing(&self, name: &str) -> Result<Vec<u64>, TantivyError> {
        let documents = self.with_term(self.fields.name, &self.key(name))?;
        let herbs = documents.into_iter().map(|one| self.numbers.herb(one));
        Ok(herbs.map(|herb| u64::from(herb.0)).collect())
    }

    /// The query for documents with one of these numbers in a field; it adds nothing to their score.
    fn only(field: Field, values: Vec<u64>) -> Box<dyn Query> {
        let terms = values
            .into_iter()
            .map(|value| Term::from_field_u64(field, value));
        Box::new(ConstScoreQuery::new(
            Box::new(TermSetQuery::new(terms)),
            0.0,
        ))
    }

    /// The query for sayings: every phrase, or any, in the wording or among the names of the herb, but one at least in the
    /// wording. `None` where nothing in the phrases can be looked for.
    pub(super) fn query(&self, asked: &Asked) -> Result<Option<Wording>, TantivyError> {
        let phrase_of =
            |phrase: &str| self.phrase(self.fields.wording, self.fields.wording_pairs, phrase);
        let filtered = asked.herb.is_some() || !asked.works.is_empty();
        let single = asked.phrases.len() == 1;
        if single && !filtered {
            return Ok(phrase_of(&asked.phrases[0]));
        }
        let mut wordings: Vec<Box<dyn Query>> = Vec::new();
        let mut parts: Vec<(Occur, Box<dyn Query>)> = Vec::new();
        let each = if asked.any {
            Occur::Should
        } else {
            Occur::Must
        };
        for phrase in &asked.phrases {
            let mut either: Vec<(Occur, Box<dyn Query>)> = Vec::new();
            let named = if single {
                Vec::new()
            } else {
                self.bearing(phrase)?
            };
            if !named.is_empty() {
                // That the herb bears the name says nothing of which saying answers best.
                either.push((Occur::Should, Self::only(self.fields.herb, named)));
            }
            if let Some(wording) = phrase_of(phrase) {
                either.push((Occur::Should, wording.query.box_clone()));
                wordings.push(wording.query);
            }
            parts.push((each, Box::new(BooleanQuery::new(either))));
        }
        if wordings.is_empty() {
            return Ok(None);
        }
        let any_wording = BooleanQuery::union(wordings);
        let mut all: Vec<(Occur, Box<dyn Query>)> = vec![
            (Occur::Must, Box::new(BooleanQuery::new(parts))),
            (
                Occur::Must,
                Box::new(ConstScoreQuery::new(Box::new(any_wording), 0.0)),
            ),
        ];
        if let Some(herb) = asked.herb {
            let herb = vec![u64::from(herb.0)];
            all.push((Occur::Must, Self::only(self.fields.herb, herb)));
        }
        if !asked.works.is_empty() {
            let works = asked.works.iter().map(|work| u64::from(work.0));
            all.push((Occur::Must, Self::only(self.fields.by, works.collect())));
        }
        Ok(Some(Wording {
            query: Box::new(BooleanQuery::new(all)),
            term: None,
        }))
    }

    /// The query for a phrase in the fields of its pieces and its pairs; `None` where it has no character that can be looked
    /// for.
    fn phrase(&self, pieces: Field, pairs: Field, phrase: &str) -> Option<Wording> {
        let term = match Phrase::of(&self.folded(phrase)) {
            Phrase::Empty => return None,
            Phrase::Single(piece) => Term::from_field_text(pieces, &piece),
            Phrase::Pairs(terms) => {
                let mut terms: Vec<Term> = terms
                    .iter()
                    .map(|pair| Term::from_field_text(pairs, pair))
                    .collect();
                if terms.len() > 1 {
                    return Some(Wording {
                        query: Box::new(PhraseQuery::new(terms)),
                        term: None,
                    });
                }
                terms.remove(0)
            }
        };
        Some(Wording {
            query: Box::new(TermQuery::new(term.clone(), IndexRecordOption::WithFreqs)),
            term: Some(term),
        })
    }

    /// The documents of herbs of which a name contains a phrase.
    pub(super) fn containing(&self, phrase: &str) -> Result<Vec<DocId>, TantivyError> {
        match self.phrase(self.fields.names, self.fields.names_pairs, phrase) {
            Some(wording) => self.documents(&*wording.query),
            None => Ok(Vec::new()),
        }
    }

    /// The documents that answer a query, in order.
    pub(super) fn documents(&self, query: &dyn Query) -> Result<Vec<DocId>, TantivyError> {
        let scored = self.searcher.search(query, &Every)?;
        Ok(scored.into_iter().map(|(document, _)| document).collect())
    }
}
