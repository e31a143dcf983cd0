//! Reading: from a book's plain text to attributed sayings, ready for review. It owns layouts, voices
//! and the grammar of property statements; what the words mean is in the vocabulary, and nothing here
//! decides what is true.

mod action;
mod article;
mod attribution;
mod channel;
mod channel_list;
mod clause;
mod clause_reader;
mod drug;
mod drug_names;
mod encoding;
mod entries;
mod grade;
mod layout;
mod names;
mod passage;
mod reasons;
mod relation;
mod relation_clause;
mod run;
mod saying;
mod sections;
mod statement;
mod statement_channels;
mod statement_relations;
mod tally;
mod voice;
mod voice_marks;
mod words;

pub use article::{Article, articles};
pub use drug::Herbs;
pub use encoding::{DecodeError, Encoding, decode};
pub use entries::{Draft, draft};
pub use layout::{Layout, Marker};
pub use names::Speaker;
pub use passage::Folder;
pub use saying::{ArticleReading, Doubt, ReadSaying, Span, Unread};
pub use tally::Tally;
pub use words::Degree;

use crate::claim::{Facet, ValueId};
use crate::corpus::{AssembleError, Corpus, Kind, Scope};
use action::Actions;
use clause::Grammar;
use drug::Drug;
use drug_names::DrugNames;
use names::Names;
use relation::Relations;
use sections::Zone;
use statement::Statements;
use voice::{Utterance, Voices};
use words::Words;

/// So many characters are the opening of an article.
const OPENING: usize = 80;

/// Reads texts with the words and names of one corpus.
pub struct Reader<'c> {
    corpus: &'c Corpus,
    words: Words,
    names: Names,
    actions: Actions,
    drugs: DrugNames,
}

impl<'c> Reader<'c> {
    /// A reader with the vocabulary of `corpus` and the names by which its works are quoted.
    ///
    /// # Errors
    /// When the embedded words are faulty.
    pub fn new(corpus: &'c Corpus) -> Result<Self, AssembleError> {
        let hans = words::simplified();
        let reading = corpus.reading_words()?;
        Ok(Self {
            corpus,
            words: Words::new(&corpus.vocabulary, &hans),
            names: Names::new(corpus, &hans),
            actions: Actions::new(&corpus.vocabulary, &reading.phrases),
            drugs: DrugNames::new(corpus, &reading.headings),
        })
    }

    /// Reads one article of the work whose id is `work`.
    #[must_use]
    pub fn read(
        &self,
        article: &Article,
        work: &str,
        layout: &Layout,
        folder: &mut Folder,
    ) -> ArticleReading {
        let glyphs = passage::prepare(article.body, article.start, layout, folder);
        let heading = passage::prepare(article.heading, 0, layout, folder);
        let heading: String = heading
            .iter()
            .map(|glyph| glyph.read)
            .filter(|c| *c != passage::BREAK)
            .collect();
        let limit = |text: &str| self.part(text);
        let voices = Voices {
            names: &self.names,
            work,
            heading: &heading,
            limit: &limit,
        };
        let drug = Drug::new(&heading, &glyphs);
        let grammar = Grammar {
            words: &self.words,
            natures: self.corpus.vocabulary.scheme(Facet::Nature),
            names: drug.names,
        };
        let relations = Relations {
            drugs: &self.drugs,
            names: &self.names,
            work,
            noted: self.may_hold_notes(work),
            itself: &grammar.names,
        };
        let channels = self.corpus.vocabulary.scheme(Facet::Channel);
        let place = |id: &str| channels.place(id);
        let mut statements = Statements::new(&grammar, &place);
        if let Some(utterance) = heading_statement(article.heading, layout, folder) {
            statements.utterance(&utterance);
        }
        for utterance in voices.cut(&glyphs) {
            statements.utterance(&utterance);
            statements.actions(&utterance, &self.actions);
            statements.relations(&utterance, &relations);
        }
        let grades = self.corpus.vocabulary.scheme(Facet::Grade);
        let graded = grade::of_section(&article.section, grades, article.start)
            .into_iter()
            .chain(grade::of_opening(&glyphs, grades, &self.names, work));
        graded.for_each(|grade| statements.grade(grade));
        let headed = std::mem::take(&mut statements.headed);
        let (mut sayings, unread) = statements.finish();
        self.principal(&heading, article.start, &headed, &mut sayings);
        ArticleReading {
            ordinal: article.ordinal,
            section: article.section.clone(),
            heading: article.heading.to_owned(),
            drug: drug.name,
            sayings,
            unread,
        }
    }

    /// Whether a work was put together again from others' quotations and nobody knows who wrote it: what such a text has
    /// in brackets may be those others' notes.
    fn may_hold_notes(&self, work: &str) -> bool {
        let work = self.corpus.work_place(work);
        let work = work.map(|place| self.corpus.work(place));
        work.is_some_and(|work| work.kind == Kind::Reconstructed && work.author == "unknown")
    }

    /// Whether a limit is to what an animal leaves behind, which is never the drug of its heading.
    fn is_waste(&self, limit: &Scope) -> bool {
        let id = limit
            .part
            .map(|part| self.corpus.vocabulary.parts.value(part).id.as_str());
        matches!(id, Some("dung" | "urine"))
    }

    /// The part that a sub-heading names.
    fn part(&self, text: &str) -> Option<Scope> {
        let chars: Vec<char> = text.chars().collect();
        match self.words.longest(&chars) {
            (words::Word::Part(part), length) if length == chars.len() => Some(Scope {
                part: Some(part),
                ..Scope::default()
            }),
            (words::Word::Preparation(preparation), length) if length == chars.len() => {
                Some(Scope {
                    preparation: Some(preparation),
                    ..Scope::default()
                })
            }
            _ => None,
        }
    }

    /// The part that an article is about, named by the heading or treated first, is the drug itself. A
    /// part is treated first where a sub-heading or the opening of the article names it.
    fn principal(&self, heading: &str, start: usize, headed: &[Scope], sayings: &mut [ReadSaying]) {
        let named: Option<ValueId> = heading
            .chars()
            .next_back()
            .and_then(|last| self.part(&last.to_string()).and_then(|limit| limit.part));
        let first = sayings
            .iter()
            .find(|saying| saying.has_property() && saying.by == Speaker::Work);
        let part = |part| Scope {
            part: Some(part),
            ..Scope::default()
        };
        let treated = |limit: &Scope| {
            sayings
                .iter()
                .any(|saying| saying.limit == *limit && saying.has_property())
        };
        let principal = match (first, named.map(part).filter(treated)) {
            (_, Some(named)) => Some(named),
            (Some(first), None)
                if first.limit.preparation.is_none()
                    && !first.limit.is_whole()
                    && !self.is_waste(&first.limit)
                    && (first.span.start < start + OPENING || headed.contains(&first.limit)) =>
            {
                Some(first.limit.clone())
            }
            _ => None,
        };
        if let Some(principal) = principal {
            for saying in sayings
                .iter_mut()
                .filter(|saying| saying.limit == principal)
            {
                saying.limit = Scope::default();
            }
        }
    }
}

/// 田螺〈大寒〉: a nature that stands beside the heading.
fn heading_statement(heading: &str, layout: &Layout, folder: &mut Folder) -> Option<Utterance> {
    let glyphs = passage::prepare(heading, 0, layout, folder);
    let open = glyphs
        .iter()
        .rposition(|glyph| "〈（[".contains(glyph.read))?;
    let close = glyphs
        .iter()
        .rposition(|glyph| "〉）]".contains(glyph.read))
        .filter(|close| *close > open)?;
    let inner = glyphs[open + 1..close].to_vec();
    (inner.len() <= 8).then(|| Utterance {
        speakers: vec![Speaker::Work],
        through: None,
        zone: Zone::Properties,
        limit: Scope::default(),
        opening: true,
        summary: false,
        glyphs: inner,
        asides: Vec::new(),
    })
}
