//! What must be known of herbs that are named together: pairs that the trade forbids, and what the books say of one
//! beside the other.

use schemars::JsonSchema;
use serde::Serialize;

use super::labels::Labels;
use super::relations::StatementsView;
use super::state::HerbRef;
use crate::compare::Relations;
use crate::corpus::{AssembleError, Herb, HerbId, RelationKind};
use crate::pairing::{self, Forbidden};

/// Herbs that are named together. Nothing here follows the choice of works: a caution is no matter of selection.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, JsonSchema)]
pub struct TogetherView {
    /// Pairs that a rule of the trade forbids.
    pub forbidden: Vec<ForbiddenView>,
    /// What the books say of two of the herbs, warnings first.
    pub said: Vec<SaidView>,
}

/// A forbidden pair.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct ForbiddenView {
    /// The rule's id.
    pub rule: String,
    /// Its name in Han characters.
    pub han: String,
    /// Its name in English.
    pub english: String,
    /// Where it is published.
    pub source: String,
    /// The herb on its first side.
    pub one: HerbRef,
    /// What the rule calls it.
    pub one_as: String,
    /// The herb on the other side.
    pub other: HerbRef,
    /// What the rule calls it.
    pub other_as: String,
}

/// What the books say of one herb beside another.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct SaidView {
    /// The herb in whose articles it stands.
    pub one: HerbRef,
    /// How it stands to the other.
    pub kind: RelationKind,
    /// Whether that speaks against using the two together: opposition, aversion, fear.
    pub warns: bool,
    /// The word of the books.
    pub han: String,
    /// What the first is said to do.
    pub english: &'static str,
    /// The other herb.
    pub other: HerbRef,
    /// Who says so.
    #[serde(flatten)]
    pub said: StatementsView,
    /// Whether other herbs bear the name too by which the books mean it, in every one of the statements.
    pub ambiguous: bool,
}

impl TogetherView {
    /// What must be known of `herbs` together; of an herb that is named twice once.
    ///
    /// # Errors
    /// When an embedded record is faulty.
    pub fn new(
        labels: &Labels<'_>,
        relations: &Relations<'_>,
        herbs: &[&Herb],
    ) -> Result<Self, AssembleError> {
        let mut forbidden: Vec<ForbiddenView> = Vec::new();
        for pair in pairing::forbidden(labels.corpus, herbs) {
            let view = ForbiddenView::new(labels, herbs, &pair);
            // An herb named twice is warned of once.
            if !forbidden.contains(&view) {
                forbidden.push(view);
            }
        }
        let mut ids: Vec<HerbId> = Vec::new();
        for herb in herbs {
            let id = labels.corpus.place_of(herb);
            if !ids.contains(&id) {
                ids.push(id);
            }
        }
        let mut said = Vec::new();
        for (place, one) in ids.iter().enumerate() {
            for other in &ids[place + 1..] {
                said.extend(pair(labels, relations, *one, *other)?);
            }
        }
        // Stable: pairs stay in the order in which they are named.
        said.sort_by_key(|one| !one.warns);
        Ok(Self { forbidden, said })
    }
}

/// What is said of two herbs, kind by kind, in the articles on the one and on the other.
fn pair(
    labels: &Labels<'_>,
    relations: &Relations<'_>,
    one: HerbId,
    other: HerbId,
) -> Result<Vec<SaidView>, AssembleError> {
    let between = relations.between(one, other)?;
    let mut views = Vec::new();
    for kind in RelationKind::ALL {
        for (one, other) in [(one, other), (other, one)] {
            let of = between.iter();
            let of: Vec<_> = of
                .filter(|said| said.kind == kind && said.herb == one)
                .collect();
            if of.is_empty() {
                continue;
            }
            views.push(SaidView {
                one: HerbRef::new(labels, one),
                kind,
                warns: kind.warns(),
                han: labels.han(kind.hant()),
                english: kind.english(),
                other: HerbRef::new(labels, other),
                ambiguous: of.iter().all(|said| said.bearers.len() > 1),
                said: StatementsView::new(labels, &of),
            });
        }
    }
    Ok(views)
}

impl ForbiddenView {
    fn new(labels: &Labels<'_>, herbs: &[&Herb], pair: &Forbidden<'_>) -> Self {
        let herb = |place: usize| HerbRef::new(labels, labels.corpus.place_of(herbs[place]));
        Self {
            rule: pair.rule.id.clone(),
            han: labels.han(&pair.rule.hant),
            english: pair.rule.english.clone(),
            source: pair.rule.source.clone(),
            one: herb(pair.one.0),
            one_as: labels.han(pair.one.1),
            other: herb(pair.other.0),
            other_as: labels.han(pair.other.1),
        }
    }
}
