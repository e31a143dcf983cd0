//! What the books say of an herb beside other drugs (rule 37): opposition, aversion, fear, envoys, what it does well
//! with, whose poison it kills. Every statement is kept with its speaker; nothing is inferred from one drug to another.

use std::collections::{BTreeSet, HashMap};

use serde::{Deserialize, Serialize};

use crate::corpus::{
    AssembleError, Bearers, Corpus, Entry, HerbId, Origin, PlaceRecord, Relation, RelationKind,
    Saying, Scope, Status, WorkId,
};

/// One statement on two drugs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RelationStatement {
    /// The herb in whose article it stands.
    pub herb: HerbId,
    /// How this herb stands to the other drug.
    pub kind: RelationKind,
    /// The other drug, as the text names it.
    pub drug: String,
    /// The herbs that bear this name: several where it is ambiguous, none where the corpus has none.
    pub bearers: Vec<HerbId>,
    /// The work that asserts.
    pub by: WorkId,
    /// The works that carry it, oldest first; empty when the asserting work was read itself.
    pub carriers: Vec<WorkId>,
    /// Where the article stands.
    pub at: Option<PlaceRecord>,
    /// What it is limited to.
    pub scope: Scope,
    /// Why the reading is doubtful.
    pub doubt: Option<String>,
    /// The phrase it was read from.
    pub wording: Option<String>,
    /// How far the reading has been checked.
    pub status: Status,
    /// Whose record it is.
    pub origin: Origin,
}

/// An herb's relations both ways.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct HerbRelations {
    /// What its own articles say, by the time of the work that asserts.
    pub own: Vec<RelationStatement>,
    /// What the articles of other drugs say of it, by the time of the work that asserts.
    pub of_others: Vec<RelationStatement>,
}

/// Which herbs the articles on each herb speak of: every name that they give to another drug, with the herbs that bear it.
/// It is found once for a corpus, and can be kept.
///
/// ```
/// use kaoyi::{compare::Ties, corpus::embedded};
/// let corpus = embedded().unwrap();
/// let ties = Ties::new(&corpus).unwrap();
/// let [kansui, licorice] = ["gansui", "gancao"].map(|id| corpus.by_id(id).unwrap());
/// assert!(ties.of(kansui).iter().any(|(name, bearers)| name == "甘草" && *bearers == [licorice]));
/// ```
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Ties(Vec<Vec<(String, Vec<HerbId>)>>);

impl Ties {
    /// Reads what all articles say of other drugs, and looks the names up.
    ///
    /// # Errors
    /// When an embedded record is faulty.
    pub fn new(corpus: &Corpus) -> Result<Self, AssembleError> {
        let bearers = Bearers::new(corpus)?;
        let tie = |herb| -> Result<_, AssembleError> {
            let entries = corpus.related(herb)?;
            let sayings = entries.iter().flat_map(|entry| &entry.sayings);
            let relations = sayings.flat_map(|saying| &saying.relations);
            let names: BTreeSet<&str> = relations.map(|one| one.drug.as_str()).collect();
            let tied = |name: &str| (name.to_owned(), bearers.of(name));
            Ok(names.into_iter().map(tied).collect())
        };
        let herbs = (0..).map(HerbId).take(corpus.herb_count());
        Ok(Self(herbs.map(tie).collect::<Result<_, _>>()?))
    }

    /// How many herbs the corpus has.
    #[must_use]
    pub const fn herbs(&self) -> usize {
        self.0.len()
    }

    /// The names that the articles on `herb` give to other drugs, and who bears them: several herbs where a name is
    /// ambiguous, none where the corpus has none.
    #[must_use]
    pub fn of(&self, herb: HerbId) -> &[(String, Vec<HerbId>)] {
        self.0.get(herb.0 as usize).map_or(&[], Vec::as_slice)
    }
}

/// All relations that a corpus holds.
///
/// ```
/// use kaoyi::{compare::{Relations, Ties}, corpus::{RelationKind, embedded}};
/// let corpus = embedded().unwrap();
/// let one = |id: &str| corpus.by_id(id).unwrap();
/// let ties = Ties::new(&corpus).unwrap();
/// let relations = Relations::new(&corpus, &ties);
/// let between = relations.between(one("gancao"), one("gansui")).unwrap();
/// assert!(between.iter().any(|said| said.kind == RelationKind::Opposes && said.herb == one("gancao")));
/// assert!(between.iter().any(|said| said.kind == RelationKind::Opposes && said.herb == one("gansui")));
/// assert!(relations.between(one("gancao"), one("bohe")).unwrap().is_empty());
/// ```
pub struct Relations<'c> {
    corpus: &'c Corpus,
    ties: &'c Ties,
}

impl<'c> Relations<'c> {
    /// The relations of `corpus`; statements are opened when an herb is asked for.
    #[must_use]
    pub const fn new(corpus: &'c Corpus, ties: &'c Ties) -> Self {
        Self { corpus, ties }
    }

    /// All statements that name `a` in an article on `b` or `b` in an article on `a`, through any name that the other
    /// bears, oldest speaker first.
    ///
    /// # Errors
    /// When an embedded record is faulty.
    pub fn between(&self, a: HerbId, b: HerbId) -> Result<Vec<RelationStatement>, AssembleError> {
        let mut found = self.said(a, |bearers| bearers.contains(&b))?;
        if a != b {
            found.extend(self.said(b, |bearers| bearers.contains(&a))?);
        }
        found.sort_by_key(|one| one.by);
        Ok(found)
    }

    /// All statements on `herb`: those of its own articles, and those of other drugs' articles that name it.
    ///
    /// # Errors
    /// When an embedded record is faulty.
    pub fn of(&self, herb: HerbId) -> Result<HerbRelations, AssembleError> {
        let mut relations = HerbRelations {
            own: self.said(herb, |_| true)?,
            of_others: Vec::new(),
        };
        let others = (0..).map(HerbId).take(self.ties.herbs());
        for other in others.filter(|other| *other != herb) {
            let said = self.said(other, |bearers| bearers.contains(&herb))?;
            relations.of_others.extend(said);
        }
        relations.own.sort_by_key(|one| one.by);
        relations.of_others.sort_by_key(|one| one.by);
        Ok(relations)
    }

    /// The statements in the articles on one herb on the drugs whose bearers are wanted.
    fn said(
        &self,
        herb: HerbId,
        wanted: impl Fn(&[HerbId]) -> bool,
    ) -> Result<Vec<RelationStatement>, AssembleError> {
        let tied = self.ties.of(herb).iter();
        let tied = tied.filter(|(_, bearers)| wanted(bearers));
        let tied: HashMap<&str, &Vec<HerbId>> = tied
            .map(|(name, bearers)| (name.as_str(), bearers))
            .collect();
        let mut found = Vec::new();
        if tied.is_empty() {
            return Ok(found);
        }
        for entry in &self.corpus.related(herb)? {
            for saying in &entry.sayings {
                for one in &saying.relations {
                    if let Some(bearers) = tied.get(one.drug.as_str()) {
                        found.push(statement(herb, (entry, saying), one, bearers));
                    }
                }
            }
        }
        Ok(found)
    }
}

fn statement(
    herb: HerbId,
    (entry, saying): (&Entry, &Saying),
    relation: &Relation,
    bearers: &[HerbId],
) -> RelationStatement {
    RelationStatement {
        herb,
        kind: relation.kind,
        drug: relation.drug.clone(),
        bearers: bearers.to_vec(),
        by: saying.by,
        carriers: saying.carriers.clone(),
        at: entry.at.clone(),
        scope: saying.scope.clone(),
        doubt: saying.doubt.clone(),
        wording: saying.wording.clone(),
        status: saying.status_in(entry),
        origin: entry.origin,
    }
}
