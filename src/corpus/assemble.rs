//! Records to the corpus in memory: words become compact ids. The checks have run before; what they
//! would have found is an error here, never a panic.

use std::collections::HashMap;
use std::fmt;
use std::sync::{Arc, OnceLock};

use super::headings::{HeadingFile, Headings};
use super::model::{
    Basis, Claim, Date, Debt, Entry, Herb, HerbId, Origin, Saying, Scope, Work, WorkId,
};
use super::record::{
    DrawsOnRecord, EntryRecord, HerbRecord, SayingRecord, ScopeRecord, WorkRecord,
};
use super::shape::Placed;
use super::store::{Corpus, HerbNames, Packed, ReadingWords, Slot};
use crate::claim::{
    CautionFile, Facet, MeasureFile, PairingFile, PhraseFile, Scheme, SchemeFile, Thresholds,
    ValueId, Vocabulary,
};

/// All records that make a corpus.
#[derive(Debug, Default)]
pub(super) struct Records {
    pub schemes: Vec<SchemeFile>,
    pub cautions: Option<CautionFile>,
    pub thresholds: Option<Thresholds>,
    pub pairing: Option<Placed<PairingFile>>,
    pub measures: Option<MeasureFile>,
    pub phrases: Option<PhraseFile>,
    pub headings: Option<HeadingFile>,
    pub works: Vec<(Placed<WorkRecord>, Origin)>,
    pub herbs: Vec<(Placed<HerbRecord>, Origin)>,
    /// Names of the embedded herbs, in the order in which their records are packed.
    pub packed: Vec<HerbNames>,
}

impl Records {
    /// The vocabulary of these records; it is taken out of them.
    pub fn take_vocabulary(&mut self) -> Result<Vocabulary, crate::claim::VocabularyError> {
        let schemes = std::mem::take(&mut self.schemes)
            .into_iter()
            .map(Scheme::new)
            .collect();
        Vocabulary::new(
            schemes,
            self.cautions.take().map(|file| file.cautions),
            self.thresholds.take(),
            self.pairing.take().map(|placed| placed.record),
            self.measures.take(),
        )
    }
}

/// Records that do not fit together.
#[derive(Debug)]
pub struct AssembleError(pub(super) String);

impl fmt::Display for AssembleError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "the corpus is faulty: {}", self.0)
    }
}

impl std::error::Error for AssembleError {}

fn unknown(what: &str, word: &str) -> AssembleError {
    AssembleError(format!("unknown {what} `{word}`"))
}

/// The embedded corpus alone, with none of its herbs opened, from its other records.
pub(super) fn assemble_packed(mut records: Records, herbs: usize) -> Result<Corpus, AssembleError> {
    let vocabulary = records
        .take_vocabulary()
        .map_err(|error| AssembleError(error.to_string()))?;
    let (works, work_places) = works(records.works)?;
    let slots = (0..herbs).map(|place| Slot::packed(Packed::Embedded(place)));
    Ok(Corpus {
        vocabulary: Arc::new(vocabulary),
        works,
        work_places,
        names: OnceLock::new(),
        keyed: true,
        slots: slots.collect(),
        reading: OnceLock::new(),
        compiled: None,
    })
}

/// Puts records together under a vocabulary.
pub(super) fn assemble_with(
    vocabulary: Arc<Vocabulary>,
    records: Records,
) -> Result<Corpus, AssembleError> {
    let (works, work_places) = works(records.works)?;
    let mut reading = OnceLock::new();
    if records.packed.is_empty() {
        reading = OnceLock::from(ReadingWords {
            headings: Headings::new(records.headings.unwrap_or_default()),
            phrases: records.phrases.unwrap_or_default(),
        });
    }
    let packed = records.packed.into_iter().enumerate();
    let mut herbs: Vec<(HerbNames, Slot)> = packed.map(packed_slot).collect();
    let mut additions = Vec::new();
    for (placed, origin) in records.herbs {
        if placed.record.names.is_some() {
            let herb = herb(placed.record, origin, &vocabulary, &work_places)?;
            herbs.push(open_slot(herb));
        } else {
            additions.push((placed.record, origin));
        }
    }
    herbs.sort_by(|(a, _), (b, _)| a.id.cmp(&b.id));
    let (names, slots): (Vec<HerbNames>, Vec<Slot>) = herbs.into_iter().unzip();
    let mut corpus = Corpus {
        vocabulary,
        works,
        work_places,
        names: OnceLock::from(names),
        keyed: false,
        slots,
        reading,
        compiled: None,
    };
    for (record, origin) in additions {
        add(&mut corpus, record, origin)?;
    }
    Ok(corpus)
}

fn packed_slot((place, names): (usize, HerbNames)) -> (HerbNames, Slot) {
    (names, Slot::packed(Packed::Embedded(place)))
}

fn open_slot(herb: Herb) -> (HerbNames, Slot) {
    let names = HerbNames::of(&herb);
    let slot = Slot {
        packed: None,
        names: OnceLock::new(),
        herb: OnceLock::from(Box::new(herb)),
    };
    (names, slot)
}

/// Adds what a user's file says of an herb that is there.
fn add(corpus: &mut Corpus, record: HerbRecord, origin: Origin) -> Result<(), AssembleError> {
    let place = corpus
        .names()
        .binary_search_by(|one| one.id.as_str().cmp(&record.id))
        .map_err(|_| unknown("herb", &record.id))?;
    let mut herb = corpus.herb(HerbId(place as u32))?.clone();
    for caution in cautions(&record.cautions, &corpus.vocabulary)? {
        if !herb.cautions.contains(&caution) {
            herb.cautions.push(caution);
        }
    }
    for added in record.entries {
        let added = entry(added, origin, &corpus.vocabulary, &corpus.work_places)?;
        add_entry(&mut herb, added);
    }
    herb.entries.sort_by_key(|entry| entry.work);
    corpus.slots[place] = open_slot(herb).1;
    Ok(())
}

/// Adds a user's entry; it takes the place of a shipped entry for the same article.
fn add_entry(herb: &mut Herb, added: Entry) {
    let same =
        |entry: &Entry| entry.work == added.work && entry.at.is_some() && entry.at == added.at;
    match herb.entries.iter().position(same) {
        Some(place) => herb.entries[place] = added,
        None => herb.entries.push(added),
    }
}

pub(super) type WorkPlaces = HashMap<String, WorkId>;

fn works(
    records: Vec<(Placed<WorkRecord>, Origin)>,
) -> Result<(Vec<Work>, WorkPlaces), AssembleError> {
    let records = records
        .into_iter()
        .map(|(placed, origin)| (placed.record, origin));
    let mut records: Vec<(WorkRecord, Origin)> = records.collect();
    // By the latest year, then by the earliest, an unknown one first; then by id.
    records.sort_by(|(a, _), (b, _)| {
        (a.date.to, a.date.from, &a.id).cmp(&(b.date.to, b.date.from, &b.id))
    });
    let mut places = WorkPlaces::with_capacity(records.len());
    for (place, (record, _)) in records.iter().enumerate() {
        let place =
            u16::try_from(place).map_err(|_| AssembleError("more than 65,535 works".to_owned()))?;
        places.insert(record.id.clone(), WorkId(place));
    }
    let works = records
        .into_iter()
        .map(|(record, origin)| work(record, origin, &places))
        .collect::<Result<_, _>>()?;
    Ok((works, places))
}

fn work(record: WorkRecord, origin: Origin, places: &WorkPlaces) -> Result<Work, AssembleError> {
    let debt = |debt: DrawsOnRecord| {
        Ok(Debt {
            work: work_place(places, &debt.work)?,
            why: debt.why,
        })
    };
    let draws_on = record
        .draws_on
        .into_iter()
        .map(debt)
        .collect::<Result<_, _>>()?;
    Ok(Work {
        id: record.id,
        origin,
        hant: record.title.hant,
        pinyin: record.title.pinyin,
        english: record.title.english,
        cited_as: record.title.cited_as,
        author: record.author,
        kind: record.kind,
        date: Date {
            from: record.date.from,
            to: record.date.to,
            about: record.date.about,
        },
        juan: record.juan,
        text: record.text,
        draws_on,
        note: record.note,
    })
}

fn work_place(places: &WorkPlaces, id: &str) -> Result<WorkId, AssembleError> {
    places.get(id).copied().ok_or_else(|| unknown("work", id))
}

/// Puts one herb together.
pub(super) fn herb(
    record: HerbRecord,
    origin: Origin,
    vocabulary: &Vocabulary,
    places: &WorkPlaces,
) -> Result<Herb, AssembleError> {
    let missing = |what: &str| AssembleError(format!("{} has no {what}", record.id));
    let names = record.names.ok_or_else(|| missing("names"))?;
    let part = record.part.as_deref();
    let entries = entries(record.entries, origin, vocabulary, places)?;
    Ok(Herb {
        part: part
            .map(|part| value(&vocabulary.parts, part))
            .transpose()?,
        substance: record.substance,
        cautions: cautions(&record.cautions, vocabulary)?,
        entries,
        id: record.id,
        names,
        species: record.species,
        identity: record.identity.unwrap_or(Basis::Memory),
        note: record.note,
    })
}

/// Puts entries together, oldest work first.
pub(super) fn entries(
    records: Vec<EntryRecord>,
    origin: Origin,
    vocabulary: &Vocabulary,
    places: &WorkPlaces,
) -> Result<Vec<Entry>, AssembleError> {
    let entries = records.into_iter();
    let mut entries = entries
        .map(|one| entry(one, origin, vocabulary, places))
        .collect::<Result<Vec<_>, _>>()?;
    entries.sort_by_key(|entry| entry.work);
    Ok(entries)
}

/// Places of cautions in the vocabulary.
fn cautions(ids: &[String], vocabulary: &Vocabulary) -> Result<Vec<usize>, AssembleError> {
    let place = |id: &String| {
        let mut all = vocabulary.cautions.iter();
        all.position(|caution| caution.id == *id)
            .ok_or_else(|| unknown("caution", id))
    };
    ids.iter().map(place).collect()
}

fn entry(
    record: EntryRecord,
    origin: Origin,
    vocabulary: &Vocabulary,
    places: &WorkPlaces,
) -> Result<Entry, AssembleError> {
    let work = work_place(places, &record.work)?;
    let sayings = record
        .sayings
        .into_iter()
        .map(|one| saying(one, work, vocabulary, places))
        .collect::<Result<_, _>>()?;
    Ok(Entry {
        work,
        at: record.at,
        status: record.status,
        origin,
        note: record.note,
        sayings,
    })
}

fn saying(
    record: SayingRecord,
    work: WorkId,
    vocabulary: &Vocabulary,
    places: &WorkPlaces,
) -> Result<Saying, AssembleError> {
    let claims = claims(&record, vocabulary)?;
    let by = record
        .by
        .as_deref()
        .map_or(Ok(work), |by| work_place(places, by))?;
    let mut carriers = record
        .through
        .iter()
        .map(|id| work_place(places, id))
        .collect::<Result<Vec<_>, _>>()?;
    if by != work {
        carriers.push(work);
    }
    let scope = record.scope.map_or_else(
        || Ok(Scope::default()),
        |scope| self::scope(scope, vocabulary),
    )?;
    Ok(Saying {
        by,
        carriers,
        claims,
        relations: record.relations,
        scope,
        doubt: record.doubt,
        status: record.status,
        wording: record.wording,
    })
}

fn claims(record: &SayingRecord, vocabulary: &Vocabulary) -> Result<Vec<Claim>, AssembleError> {
    let mut claims = Vec::new();
    for flavour in &record.flavour {
        let (flavour, degree) = flavour.parts();
        let degree = degree
            .map(|degree| value(&vocabulary.degrees, degree))
            .transpose()?;
        let value = value(vocabulary.scheme(Facet::Flavour), flavour)?;
        claims.push(Claim {
            facet: Facet::Flavour,
            value,
            degree,
        });
    }
    let single = [
        (Facet::Nature, &record.nature),
        (Facet::Toxicity, &record.toxicity),
        (Facet::Grade, &record.grade),
    ];
    let single = single
        .into_iter()
        .filter_map(|(facet, word)| word.as_ref().map(|word| (facet, word)));
    let channels = record.channel.iter().map(|word| (Facet::Channel, word));
    let actions = record.action.iter().map(|word| (Facet::Action, word));
    for (facet, word) in single.chain(channels).chain(actions) {
        claims.push(Claim {
            facet,
            value: value(vocabulary.scheme(facet), word)?,
            degree: None,
        });
    }
    Ok(claims)
}

fn scope(record: ScopeRecord, vocabulary: &Vocabulary) -> Result<Scope, AssembleError> {
    Ok(Scope {
        part: record
            .part
            .map(|word| value(&vocabulary.parts, &word))
            .transpose()?,
        preparation: record
            .preparation
            .map(|word| value(&vocabulary.preparations, &word))
            .transpose()?,
        kind: record.kind,
    })
}

fn value(scheme: &Scheme, word: &str) -> Result<ValueId, AssembleError> {
    scheme
        .place(word)
        .ok_or_else(|| unknown(scheme.facet(), word))
}
