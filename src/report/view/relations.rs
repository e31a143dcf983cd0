//! What the books say of an herb beside other drugs.

use schemars::JsonSchema;
use serde::Serialize;

use super::labels::Labels;
use crate::compare::{HerbRelations, RelationStatement, Selection};
use crate::corpus::{HerbId, HerbNames, Origin, PlaceRecord, RelationKind, Status, WorkId};

/// An herb's relations to other drugs, both ways.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct RelationsView {
    /// What its own articles say, by kind.
    pub own: Vec<RelationGroup>,
    /// What the articles on other drugs say of it, by kind.
    pub of_others: Vec<RelationGroup>,
}

/// The drugs to which an herb stands in one way.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct RelationGroup {
    /// How the drug in whose article it stands is related to the other.
    pub kind: RelationKind,
    /// The word of the books.
    pub han: String,
    /// What the herb is said to do; of other drugs' articles what they are said to do with it.
    pub english: &'static str,
    /// The other drugs, those first that most works name.
    pub drugs: Vec<RelatedDrug>,
}

/// Another drug.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct RelatedDrug {
    /// Its name: that of the herb where one herb is meant, else as the texts have it.
    pub name: String,
    /// The ids of the herbs that bear the name: several where it is ambiguous, none where the corpus has none.
    pub herbs: Vec<String>,
    /// Who says so.
    #[serde(flatten)]
    pub said: StatementsView,
}

/// Statements of one kind on one drug.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct StatementsView {
    /// The works that say so, oldest first.
    pub works: Vec<String>,
    /// The oldest of them whose statement is not doubtful; where all are, the oldest of all.
    pub first: Option<String>,
    /// Whether every one of the statements is doubtful.
    pub doubtful: bool,
    /// Whether every one of the statements is on a part, preparation or kind.
    pub of_scope_only: bool,
    /// The statements, oldest speaker first.
    pub statements: Vec<RelationEvidence>,
}

/// One statement on another drug.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct RelationEvidence {
    /// The work that says so.
    pub work: String,
    /// The works that carry it, oldest first.
    pub through: Vec<String>,
    /// The name that the text gives to the other drug; of other drugs' articles, to this herb.
    pub drug: String,
    /// What it is limited to.
    pub scope: Option<String>,
    /// The phrase it was read from.
    pub wording: Option<String>,
    /// Where the article stands.
    pub at: Option<PlaceRecord>,
    /// Why the reading is doubtful.
    pub doubt: Option<String>,
    /// How far the reading has been checked.
    pub status: Status,
    /// Whose record it is.
    pub origin: Origin,
}

/// What makes two statements one row: the herb that is meant, or the name where that is open.
#[derive(PartialEq, Eq)]
enum Other {
    Herb(HerbId),
    Name(String),
}

impl RelationsView {
    /// The relations of one herb, as far as they are stated by works of the selection.
    #[must_use]
    pub fn new(labels: &Labels<'_>, relations: &HerbRelations, selection: &Selection) -> Self {
        let chosen = |all: &[RelationStatement]| {
            let all = all.iter();
            let all = all.filter(|one| selection.takes(labels.corpus, one.by));
            all.cloned().collect::<Vec<_>>()
        };
        let (own, of_others) = (chosen(&relations.own), chosen(&relations.of_others));
        Self {
            own: groups(labels, &own, |one| match one.bearers.as_slice() {
                [herb] => Other::Herb(*herb),
                _ => Other::Name(one.drug.clone()),
            }),
            of_others: groups(labels, &of_others, |one| Other::Herb(one.herb)),
        }
    }

    /// Whether nothing is said.
    #[must_use]
    pub const fn is_empty(&self) -> bool {
        self.own.is_empty() && self.of_others.is_empty()
    }
}

fn groups(
    labels: &Labels<'_>,
    statements: &[RelationStatement],
    other: impl Fn(&RelationStatement) -> Other,
) -> Vec<RelationGroup> {
    let mut groups = Vec::new();
    for kind in RelationKind::ALL {
        let mut rows: Vec<(Other, Vec<&RelationStatement>)> = Vec::new();
        for one in statements.iter().filter(|one| one.kind == kind) {
            let key = other(one);
            match rows.iter_mut().find(|row| row.0 == key) {
                Some(row) => row.1.push(one),
                None => rows.push((key, vec![one])),
            }
        }
        let mut drugs: Vec<RelatedDrug> = rows
            .iter()
            .map(|(key, statements)| drug(labels, key, statements))
            .collect();
        // Rows stand by their oldest speaker already.
        drugs.sort_by_key(|drug| std::cmp::Reverse(drug.said.works.len()));
        if !drugs.is_empty() {
            groups.push(RelationGroup {
                kind,
                han: labels.han(kind.hant()),
                english: kind.english(),
                drugs,
            });
        }
    }
    groups
}

fn drug(labels: &Labels<'_>, key: &Other, statements: &[&RelationStatement]) -> RelatedDrug {
    let herbs = match key {
        Other::Herb(herb) => vec![*herb],
        Other::Name(_) => statements
            .first()
            .map(|one| one.bearers.clone())
            .unwrap_or_default(),
    };
    RelatedDrug {
        name: match key {
            Other::Herb(herb) => labels.han(&herb_names(labels, *herb).names.hant),
            Other::Name(name) => labels.quoted(name),
        },
        herbs: herbs
            .iter()
            .map(|herb| herb_names(labels, *herb).id.clone())
            .collect(),
        said: StatementsView::new(labels, statements),
    }
}

impl StatementsView {
    /// Statements that stand by the time of the work that asserts.
    pub(super) fn new(labels: &Labels<'_>, statements: &[&RelationStatement]) -> Self {
        let mut works: Vec<WorkId> = statements.iter().map(|one| one.by).collect();
        works.sort_unstable();
        works.dedup();
        let firm = statements.iter().find(|one| one.doubt.is_none());
        let first = firm.or_else(|| statements.first());
        let evidence = statements.iter().map(|one| RelationEvidence {
            work: labels.work(one.by),
            through: labels.works(&one.carriers),
            drug: labels.quoted(&one.drug),
            scope: labels.scope(&one.scope),
            wording: one.wording.as_ref().map(|wording| labels.quoted(wording)),
            at: one.at.as_ref().map(|at| labels.place(at)),
            doubt: one.doubt.clone(),
            status: one.status,
            origin: one.origin,
        });
        Self {
            works: labels.works(&works),
            first: first.map(|one| labels.work(one.by)),
            doubtful: statements.iter().all(|one| one.doubt.is_some()),
            of_scope_only: statements.iter().all(|one| !one.scope.is_whole()),
            statements: evidence.collect(),
        }
    }
}

/// The names of one of many herbs: all names are opened at once, not each with its record.
fn herb_names<'c>(labels: &Labels<'c>, herb: HerbId) -> &'c HerbNames {
    &labels.corpus.names()[herb.0 as usize]
}
