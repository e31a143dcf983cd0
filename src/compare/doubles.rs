//! Herbs that may be one drug under two records: they share wordings, and few books treat both (rule 24).

use std::collections::{BTreeMap, BTreeSet, HashMap};

use crate::corpus::{AssembleError, Corpus, Herb, HerbId, WorkId};

/// A shared wording has at least so many characters: shorter ones are formulas of the trade.
pub const LONG: usize = 6;
/// At least so many wordings are shared.
pub const SHARED: usize = 3;

/// Two herbs that may be one drug.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Double {
    /// The two herbs, in the order of their ids.
    pub herbs: (HerbId, HerbId),
    /// How many different wordings of at least [`LONG`] characters both have.
    pub shared: usize,
    /// How many such wordings the one with fewer has.
    pub of: usize,
    /// How many works have an article on each of the two.
    pub works_in_common: usize,
}

/// All pairs that share at least [`SHARED`] wordings and a quarter of those of the one with fewer, while at most a
/// quarter of the works that treat the one with fewer works treat both. The most alike come first.
///
/// ```
/// let corpus = kaoyi::corpus::embedded().unwrap();
/// let doubles = kaoyi::compare::doubles(&corpus).unwrap();
/// assert!(doubles.iter().all(|one| one.shared * 4 >= one.of));
/// ```
///
/// # Errors
/// When an embedded record is faulty.
pub fn doubles(corpus: &Corpus) -> Result<Vec<Double>, AssembleError> {
    let herbs = corpus.herbs()?;
    let wordings: Vec<BTreeSet<&str>> = herbs.iter().map(|herb| wordings(herb)).collect();
    let works: Vec<BTreeSet<WorkId>> = herbs
        .iter()
        .map(|herb| herb.entries.iter().map(|entry| entry.work).collect())
        .collect();
    let mut bearers: HashMap<&str, Vec<usize>> = HashMap::new();
    for (place, wordings) in wordings.iter().enumerate() {
        for wording in wordings {
            bearers.entry(wording).or_default().push(place);
        }
    }
    let mut shared: BTreeMap<(usize, usize), usize> = BTreeMap::new();
    for herbs in bearers.values() {
        for (n, a) in herbs.iter().enumerate() {
            for b in &herbs[n + 1..] {
                *shared.entry((*a, *b)).or_default() += 1;
            }
        }
    }
    let mut found: Vec<Double> = shared
        .into_iter()
        .map(|((a, b), shared)| Double {
            herbs: (HerbId(a as u32), HerbId(b as u32)),
            shared,
            of: wordings[a].len().min(wordings[b].len()),
            works_in_common: works[a].intersection(&works[b]).count(),
        })
        .filter(|one| {
            let (a, b) = (one.herbs.0.0 as usize, one.herbs.1.0 as usize);
            let fewer = works[a].len().min(works[b].len());
            one.shared >= SHARED && one.shared * 4 >= one.of && one.works_in_common * 4 <= fewer
        })
        .collect();
    found.sort_by(|a, b| {
        let share = |one: &Double, other: &Double| one.shared * other.of;
        share(b, a).cmp(&share(a, b)).then(a.herbs.cmp(&b.herbs))
    });
    Ok(found)
}

fn wordings(herb: &Herb) -> BTreeSet<&str> {
    let sayings = herb.entries.iter().flat_map(|entry| &entry.sayings);
    sayings
        .filter(|saying| !saying.claims.is_empty())
        .filter_map(|saying| saying.wording.as_deref())
        .filter(|wording| wording.chars().count() >= LONG)
        .collect()
}
