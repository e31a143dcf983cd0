//! From what was read to records for review.

use super::drug::substance;
use super::names::Speaker;
use super::saying::{ArticleReading, ReadSaying};
use super::words::Degree;
use crate::claim::{Facet, Scheme, ValueId};
use crate::corpus::Scope;
use crate::corpus::{
    Corpus, EntryRecord, FlavourRecord, PlaceRecord, SayingRecord, ScopeRecord, Status, Substance,
    WORDING_LIMIT,
};

/// An article's entry, and the names of speakers who are no work of the corpus: what they say has to
/// wait until they are.
#[derive(Debug)]
pub struct Draft {
    /// The entry, with status `read`.
    pub entry: EntryRecord,
    /// Names of speakers who are no work.
    pub unknown: Vec<String>,
}

/// The record of what was read from one article of `work`; `None` where nothing was.
#[must_use]
pub fn draft(reading: &ArticleReading, work: &str, corpus: &Corpus) -> Option<Draft> {
    let animal = substance(&reading.section) == Some(Substance::Animal);
    let writer = Writer { corpus, animal };
    let mut unknown: Vec<String> = Vec::new();
    let mut sayings: Vec<SayingRecord> = Vec::new();
    for saying in &reading.sayings {
        match writer.by(saying) {
            Ok(by) => {
                for record in writer.records(saying, by, work) {
                    if !sayings.contains(&record) {
                        sayings.push(record);
                    }
                }
            }
            Err(name) if !unknown.contains(&name) => unknown.push(name),
            Err(_) => {}
        }
    }
    (!sayings.is_empty() || !unknown.is_empty()).then(|| Draft {
        entry: EntryRecord {
            work: work.to_owned(),
            at: Some(PlaceRecord {
                ordinal: Some(reading.ordinal),
                section: Some(reading.section.clone()).filter(|section| !section.is_empty()),
                heading: match reading.heading.trim() {
                    "" => "□".to_owned(),
                    heading => heading.to_owned(),
                },
            }),
            status: Status::Read,
            note: None,
            sayings,
        },
        unknown,
    })
}

struct Writer<'c> {
    corpus: &'c Corpus,
    /// Whether the article stands among those on animals.
    animal: bool,
}

impl Writer<'_> {
    /// The id of the work that asserts, `None` for the work itself.
    ///
    /// # Errors
    /// The name of a speaker who is no work.
    fn by(&self, saying: &ReadSaying) -> Result<Option<String>, String> {
        match &saying.by {
            Speaker::Work => Ok(None),
            Speaker::Other(name) if self.corpus.has_work(name) => Ok(Some(name.clone())),
            Speaker::Other(name) => Err(name.clone()),
        }
    }

    fn records(&self, saying: &ReadSaying, by: Option<String>, work: &str) -> Vec<SayingRecord> {
        let words =
            |facet: Facet, values: &[ValueId]| ids(self.corpus.vocabulary.scheme(facet), values);
        let carrier = match &saying.through {
            // Who carries a saying is younger than who makes it; else the quotation ends elsewhere.
            Some(Speaker::Other(name))
                if self.corpus.has_work(name)
                    && name != work
                    && self.corpus.work_rank(name)
                        >= by.as_deref().map_or(0, |by| self.corpus.work_rank(by)) =>
            {
                Some(name)
            }
            _ => None,
        };
        let first = SayingRecord {
            through: carrier
                .filter(|carrier| by.as_ref() != Some(carrier))
                .into_iter()
                .cloned()
                .collect(),
            by,
            flavour: self.flavours(saying),
            nature: words(Facet::Nature, &saying.nature).into_iter().next(),
            toxicity: saying
                .toxicity
                .and_then(|value| words(Facet::Toxicity, &[value]).pop()),
            grade: saying
                .grade
                .and_then(|value| words(Facet::Grade, &[value]).pop()),
            channel: words(Facet::Channel, &saying.channel),
            action: words(Facet::Action, &saying.action),
            relations: saying.relations.clone(),
            scope: self.scope(&saying.limit),
            doubt: saying.doubt.map(|doubt| doubt.to_string()),
            status: None,
            wording: Some(wording(&saying.phrase)).filter(|wording| !wording.is_empty()),
        };
        // A saying has one nature: each further one is a saying of its own with the same wording.
        let more = words(Facet::Nature, saying.nature.get(1..).unwrap_or_default());
        let more: Vec<SayingRecord> = more
            .into_iter()
            .map(|nature| SayingRecord {
                nature: Some(nature),
                flavour: Vec::new(),
                toxicity: None,
                grade: None,
                channel: Vec::new(),
                action: Vec::new(),
                relations: Vec::new(),
                ..first.clone()
            })
            .collect();
        std::iter::once(first).chain(more).collect()
    }

    fn flavours(&self, saying: &ReadSaying) -> Vec<FlavourRecord> {
        let scheme = self.corpus.vocabulary.scheme(Facet::Flavour);
        let record = |(value, degree): &(ValueId, Option<Degree>)| {
            let id = scheme.value(*value).id.clone();
            match degree {
                None => FlavourRecord::Plain(id),
                Some(degree) => FlavourRecord::WithDegree([(id, degree.id().to_owned())].into()),
            }
        };
        saying.flavour.iter().map(record).collect()
    }

    /// One word is the pulp of a fruit and the flesh of an animal.
    fn part(&self, id: &str) -> String {
        let of_animal = match id {
            "pulp" => "flesh",
            "resin" => "fat",
            "seed-coat" => "shell",
            other => other,
        };
        if self.animal { of_animal } else { id }.to_owned()
    }

    fn scope(&self, limit: &Scope) -> Option<ScopeRecord> {
        let vocabulary = &self.corpus.vocabulary;
        (!limit.is_whole()).then(|| ScopeRecord {
            part: limit
                .part
                .map(|value| self.part(&vocabulary.parts.value(value).id)),
            preparation: limit
                .preparation
                .map(|value| vocabulary.preparations.value(value).id.clone()),
            kind: limit.kind.clone(),
        })
    }
}

fn ids(scheme: &Scheme, values: &[ValueId]) -> Vec<String> {
    values
        .iter()
        .map(|value| scheme.value(*value).id.clone())
        .collect()
}

/// The phrase, no longer than a record may quote; what is left out is a gap.
fn wording(phrase: &str) -> String {
    if phrase.chars().count() <= WORDING_LIMIT {
        return phrase.to_owned();
    }
    let mut short: String = phrase.chars().take(WORDING_LIMIT - 1).collect();
    short.push('…');
    short
}
