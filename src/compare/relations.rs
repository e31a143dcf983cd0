//! What the books say of an herb beside other drugs (rule 38): opposition, aversion, fear, envoys, what it does well
//! with, whose poison it kills. Every statement is kept with its speaker; nothing is inferred from one drug to another.

use std::collections::HashMap;

use crate::corpus::{
    AssembleError, Bearers, Corpus, Entry, HerbId, Origin, PlaceRecord, Related, RelationKind,
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

/// All relations that a corpus holds.
///
/// ```
/// use kaoyi::{compare::Relations, corpus::{Lookup, RelationKind, embedded}};
/// let corpus = embedded().unwrap();
/// let one = |name: &str| match corpus.find_herb(name) {
///     Lookup::One(herb) => herb,
///     _ => panic!("{name}"),
/// };
/// let relations = Relations::new(&corpus).unwrap();
/// let between = relations.between(one("gancao"), one("gansui")).unwrap();
/// assert!(between.iter().any(|said| said.kind == RelationKind::Opposes && said.herb == one("gancao")));
/// assert!(between.iter().any(|said| said.kind == RelationKind::Opposes && said.herb == one("gansui")));
/// assert!(relations.between(one("gancao"), one("bohe")).unwrap().is_empty());
/// ```
pub struct Relations<'c> {
    related: Vec<Related<'c>>,
    bearers: Bearers<'c>,
}

impl<'c> Relations<'c> {
    /// The relations of `corpus`; statements are opened and names looked up when an herb is asked for.
    ///
    /// # Errors
    /// When an embedded record is faulty.
    pub fn new(corpus: &'c Corpus) -> Result<Self, AssembleError> {
        Ok(Self {
            related: corpus.related()?,
            bearers: Bearers::new(corpus)?,
        })
    }

    /// All statements that name `a` in an article on `b` or `b` in an article on `a`, through any name that the other
    /// bears, oldest speaker first.
    ///
    /// # Errors
    /// When an embedded record is faulty.
    pub fn between(&self, a: HerbId, b: HerbId) -> Result<Vec<RelationStatement>, AssembleError> {
        let mut found = self.said(a, |name| self.bearers.bears(b, name))?;
        if a != b {
            found.extend(self.said(b, |name| self.bearers.bears(a, name))?);
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
        let mut borne: HashMap<&str, bool> = HashMap::new();
        let others = (0..).map(HerbId).take(self.related.len());
        for other in others.filter(|other| *other != herb) {
            let said = self.said(other, |name| {
                *borne
                    .entry(name)
                    .or_insert_with(|| self.bearers.bears(herb, name))
            });
            relations.of_others.extend(said?);
        }
        relations.own.sort_by_key(|one| one.by);
        relations.of_others.sort_by_key(|one| one.by);
        Ok(relations)
    }

    /// The statements in the articles of one herb on the drugs whose name is wanted.
    fn said<'s>(
        &'s self,
        herb: HerbId,
        mut wanted: impl FnMut(&'s str) -> bool,
    ) -> Result<Vec<RelationStatement>, AssembleError> {
        let mut found = Vec::new();
        let Some(related) = self.related.get(herb.0 as usize) else {
            return Ok(found);
        };
        let names = related.names().iter().map(String::as_str);
        let names: Vec<&str> = names.filter(|name| wanted(name)).collect();
        if names.is_empty() {
            return Ok(found);
        }
        for entry in &related.entries()? {
            for saying in &entry.sayings {
                let chosen = saying.relations.iter();
                let chosen = chosen.filter(|one| names.contains(&one.drug.as_str()));
                found.extend(
                    chosen.map(|one| self.statement(herb, entry, saying, one.kind, &one.drug)),
                );
            }
        }
        Ok(found)
    }

    fn statement(
        &self,
        herb: HerbId,
        entry: &Entry,
        saying: &Saying,
        kind: RelationKind,
        drug: &str,
    ) -> RelationStatement {
        RelationStatement {
            herb,
            kind,
            drug: drug.to_owned(),
            bearers: self.bearers.of(drug),
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
}
