//! How much the corpus holds, by work and by herb, and how far it has been reviewed (rule 23).

use std::collections::{BTreeMap, BTreeSet};

use crate::claim::Facet;
use crate::corpus::{AssembleError, Corpus, Entry, HerbId, Status, WorkId};

/// An amount of text that was read.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Amount {
    /// Entries.
    pub entries: usize,
    /// Entries that a second reader compared with the text.
    pub reviewed: usize,
    /// Sayings.
    pub sayings: usize,
    /// Sayings whose reading is doubtful.
    pub doubtful: usize,
    /// Claims.
    pub claims: usize,
}

impl Amount {
    fn add(&mut self, entry: &Entry) {
        let doubtful = |saying: &&crate::corpus::Saying| saying.doubt.is_some();
        self.entries += 1;
        self.reviewed += usize::from(entry.status == Status::Reviewed);
        self.sayings += entry.sayings.len();
        self.doubtful += entry.sayings.iter().filter(doubtful).count();
        self.claims += entry
            .sayings
            .iter()
            .map(|one| one.claims.len())
            .sum::<usize>();
    }
}

/// What the corpus holds of one work.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WorkCoverage {
    /// The work.
    pub work: WorkId,
    /// What was read in its own articles, whoever speaks there.
    pub articles: Amount,
    /// On how many herbs it makes a claim itself, wherever that was read.
    pub herbs: usize,
    /// How many claims of each facet it makes itself, in the order of [`Facet::ALL`].
    pub asserts: [usize; Facet::ALL.len()],
    /// Whose sayings its articles carry, and how many.
    pub carries: BTreeMap<WorkId, usize>,
    /// In whose articles its own sayings stand, and how many.
    pub carried_by: BTreeMap<WorkId, usize>,
}

/// What the corpus holds of one herb.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct HerbCoverage {
    /// The herb.
    pub herb: HerbId,
    /// What was read of it.
    pub amount: Amount,
    /// In how many works it has an article.
    pub works: usize,
}

/// What the corpus holds.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Coverage {
    /// All of it.
    pub whole: Amount,
    /// By work, oldest first.
    pub works: Vec<WorkCoverage>,
    /// By herb, in the order of their ids.
    pub herbs: Vec<HerbCoverage>,
}

/// Counts what the corpus holds.
///
/// ```
/// let corpus = kaoyi::corpus::embedded().unwrap();
/// let coverage = kaoyi::compare::coverage(&corpus).unwrap();
/// let entries: usize = coverage.works.iter().map(|work| work.articles.entries).sum();
/// assert_eq!(coverage.whole.entries, entries);
/// ```
///
/// # Errors
/// When an embedded record is faulty.
pub fn coverage(corpus: &Corpus) -> Result<Coverage, AssembleError> {
    let mut whole = Amount::default();
    let mut works: Vec<WorkCoverage> = (0..corpus.works().len()).map(empty).collect();
    let mut herbs = Vec::with_capacity(corpus.herb_count());
    for (place, herb) in corpus.herbs()?.into_iter().enumerate() {
        let mut amount = Amount::default();
        let mut asserting = BTreeSet::new();
        for entry in &herb.entries {
            whole.add(entry);
            amount.add(entry);
            works[usize::from(entry.work.0)].articles.add(entry);
            for saying in &entry.sayings {
                asserting.insert(saying.by);
                let speaker = &mut works[usize::from(saying.by.0)];
                for claim in &saying.claims {
                    speaker.asserts[claim.facet as usize] += 1;
                }
                if saying.by != entry.work {
                    *speaker.carried_by.entry(entry.work).or_default() += 1;
                    let carrier = &mut works[usize::from(entry.work.0)];
                    *carrier.carries.entry(saying.by).or_default() += 1;
                }
            }
        }
        for work in asserting {
            works[usize::from(work.0)].herbs += 1;
        }
        let in_works: BTreeSet<WorkId> = herb.entries.iter().map(|entry| entry.work).collect();
        herbs.push(HerbCoverage {
            herb: HerbId(place as u32),
            amount,
            works: in_works.len(),
        });
    }
    Ok(Coverage {
        whole,
        works,
        herbs,
    })
}

fn empty(place: usize) -> WorkCoverage {
    WorkCoverage {
        work: WorkId(place as u16),
        articles: Amount::default(),
        herbs: 0,
        asserts: [0; Facet::ALL.len()],
        carries: BTreeMap::new(),
        carried_by: BTreeMap::new(),
    }
}
