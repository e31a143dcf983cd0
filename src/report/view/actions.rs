//! Actions with their works and statements.

use schemars::JsonSchema;
use serde::Serialize;

use super::labels::{Labels, ValueRef};
use super::statement::StatementView;
use crate::claim::{Direction, Facet};
use crate::compare::{Concept, OpposedPair, Reconciliation, reconcile};
use crate::corpus::Herb;

/// An action with the works that state it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct ConceptView {
    /// The action.
    pub action: ValueRef,
    /// The way it moves.
    pub direction: Option<Direction>,
    /// Works that state it of the herb as such, oldest first.
    pub witnesses: Vec<String>,
    /// In how many lines these stand.
    pub lines: usize,
    /// Works that state it of a part, preparation or kind only; they are not counted.
    pub of_scope_only: Vec<String>,
    /// The statements behind it, oldest work first.
    pub statements: Vec<ActionStatement>,
}

/// A statement of an action.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct ActionStatement {
    /// The work that states it.
    pub work: String,
    /// The statement, which may name other actions as well.
    pub statement: StatementView,
}

/// Two opposed actions.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct OpposedView {
    /// The one that more works state.
    pub stronger: ConceptView,
    /// The one that fewer works state.
    pub weaker: ConceptView,
    /// Works that state both of the herb as such.
    pub both: Vec<String>,
    /// Works that state both, but one of them of a part, preparation or kind only.
    pub both_by_scope: Vec<String>,
    /// What the record tells apart, so that both may be true; empty where it tells nothing.
    pub reconciled: Vec<ReconciledView>,
}

/// One thing that tells two opposed actions apart.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct ReconciledView {
    /// The action that is stated so.
    pub action: ValueRef,
    /// The part, preparation or kind of which the other action is not stated; `null` where it is a partner.
    pub scope: Option<String>,
    /// The phrase that names a partner; `null` where it is a scope.
    pub partner: Option<String>,
    /// The works that state it so.
    pub works: Vec<String>,
}

impl ReconciledView {
    fn new(labels: &Labels<'_>, reconciliation: &Reconciliation) -> Self {
        match reconciliation {
            Reconciliation::Scope {
                action,
                scope,
                works,
            } => Self {
                action: labels.value(Facet::Action, *action),
                scope: labels.scope(scope),
                partner: None,
                works: labels.works(works),
            },
            Reconciliation::Partner {
                action,
                work,
                wording,
            } => Self {
                action: labels.value(Facet::Action, *action),
                scope: None,
                partner: Some(labels.quoted(wording)),
                works: vec![labels.work(*work)],
            },
        }
    }
}

impl ConceptView {
    /// An action of `herb`.
    #[must_use]
    pub fn new(labels: &Labels<'_>, herb: &Herb, concept: &Concept) -> Self {
        let scheme = labels.corpus.vocabulary.scheme(Facet::Action);
        let statements = concept
            .statements
            .iter()
            .map(|(work, statement)| ActionStatement {
                work: labels.work(*work),
                statement: StatementView::new(labels, herb, Facet::Action, statement),
            });
        Self {
            action: labels.value(Facet::Action, concept.value),
            direction: scheme.value(concept.value).direction,
            witnesses: labels.works(&concept.witnesses),
            lines: concept.lines,
            of_scope_only: labels.works(&concept.of_scope_only),
            statements: statements.collect(),
        }
    }
}

impl OpposedView {
    /// A pair of opposed actions of `herb`.
    #[must_use]
    pub fn new(labels: &Labels<'_>, herb: &Herb, pair: &OpposedPair) -> Self {
        Self {
            stronger: ConceptView::new(labels, herb, &pair.stronger),
            weaker: ConceptView::new(labels, herb, &pair.weaker),
            both: labels.works(&pair.both),
            both_by_scope: labels.works(&pair.both_by_scope),
            reconciled: reconcile(herb, pair)
                .iter()
                .map(|one| ReconciledView::new(labels, one))
                .collect(),
        }
    }
}
