//! The comparison of an herb, with the evidence for every cell.

use std::collections::BTreeMap;

use schemars::JsonSchema;
use serde::Serialize;

use super::actions::{ConceptView, OpposedView};
use super::differences::DifferenceView;
use super::filter::FilterView;
use super::heed::HeedView;
use super::herb::HerbView;
use super::labels::{Labels, ValueRef, WorkRef};
use super::own::OwnView;
use super::profile::FacetProfile;
use super::relations::RelationsView;
use super::statement::{StatementView, in_words};
use super::working::WorkingView;
use crate::claim::Facet;
use crate::compare::{self, Concept, FacetView, Relations, Selection, Witness};
use crate::corpus::{AssembleError, Herb, Origin, WorkId};
use crate::tasting::Own;

/// What `kaoyi compare --json` writes.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct ComparisonView {
    /// Name and version of this format.
    pub format: &'static str,
    /// The herb.
    pub herb: HerbView,
    /// Which works were counted; `null` for all.
    pub filter: Option<FilterView>,
    /// All works named below, oldest first; elsewhere they are named by id.
    pub works: Vec<WorkRef>,
    /// One row a witness, oldest first.
    pub witnesses: Vec<WitnessRow>,
    /// Works that speak of the herb's actions only, oldest first.
    pub on_actions_only: Vec<String>,
    /// The differences, facet by facet.
    pub differences: Vec<DifferenceView>,
    /// The actions, best supported first.
    pub actions: Vec<ConceptView>,
    /// Opposed actions that are both stated.
    pub opposed: Vec<OpposedView>,
    /// What is said of it and other drugs; `null` where facets were chosen.
    pub relations: Option<RelationsView>,
    /// The own tastings, where there are any; never counted among the books.
    pub own: Option<OwnView>,
    /// The consensus profile, facet by facet.
    pub profile: Vec<FacetProfile>,
    /// The working behind each figure of the profile and the actions, where it was asked for.
    pub working: Vec<WorkingView>,
    /// Warnings, cautions and the notice.
    #[serde(flatten)]
    pub heed: HeedView,
}

/// What one work says.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct WitnessRow {
    /// The id of the work that asserts.
    pub work: String,
    /// The works through which it is known here, oldest first; empty when it was read itself.
    pub through: Vec<String>,
    /// Whether any of it comes from the user's own folder.
    pub user: bool,
    /// Its stand on each facet on which it takes one.
    pub stands: BTreeMap<Facet, StandView>,
    /// Facets on which it is silent although it has an article on the herb.
    pub silent: Vec<Facet>,
}

/// A witness's stand on one facet.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct StandView {
    /// The values that count, in the order stated; none when all is said of a scope.
    pub values: Vec<ValueRef>,
    /// The stand in words, with degrees and scope.
    pub text: String,
    /// The number of its line of transmission, from 1; `null` when all is said of a part, preparation
    /// or kind, so that the stand does not count.
    pub line: Option<usize>,
    /// Whether the carriers of its sayings give different values.
    pub carriers_differ: bool,
    /// Every statement behind it, those included that do not count.
    pub statements: Vec<StatementView>,
}

/// The facets that have a column in the comparison.
const COLUMNS: [Facet; 5] = [
    Facet::Flavour,
    Facet::Nature,
    Facet::Toxicity,
    Facet::Grade,
    Facet::Channel,
];

impl ComparisonView {
    /// Compares the sources on `herb`, on all facets or only on `facets`.
    #[must_use]
    pub fn new(labels: &Labels<'_>, herb: &Herb, facets: &[Facet], selection: &Selection) -> Self {
        let corpus = labels.corpus;
        let views: Vec<FacetView> = facets
            .iter()
            .map(|facet| compare::view(corpus, herb, *facet, selection))
            .collect();
        let differences = views.iter().flat_map(|view| {
            DifferenceView::all(labels, view, &compare::differences(corpus, view))
        });
        let differences = differences.collect();
        let concepts: Vec<Concept> = views
            .iter()
            .filter(|view| view.facet == Facet::Action)
            .flat_map(|view| compare::concepts(corpus, view))
            .collect();
        let opposed = compare::opposed_pairs(corpus, &concepts);
        let (witnesses, on_actions_only) = rows(labels, herb, &views);
        let profile = views.iter().filter(|view| view.facet != Facet::Action);
        let profile = profile
            .map(|view| FacetProfile::new(labels, view))
            .collect();
        Self {
            format: "kaoyi.compare/1",
            herb: HerbView::new(labels, herb),
            filter: FilterView::new(labels, selection),
            witnesses,
            on_actions_only,
            differences,
            actions: concepts
                .iter()
                .map(|one| ConceptView::new(labels, herb, one))
                .collect(),
            opposed: opposed
                .iter()
                .map(|pair| OpposedView::new(labels, herb, pair))
                .collect(),
            relations: None,
            own: None,
            profile,
            working: Vec::new(),
            heed: HeedView::new(labels, herb),
            works: labels.named_works(),
        }
    }

    /// Adds what the books say of the herb and other drugs.
    ///
    /// # Errors
    /// When an embedded record is faulty.
    pub fn relate(
        &mut self,
        labels: &Labels<'_>,
        relations: &Relations<'_>,
        herb: &Herb,
        selection: &Selection,
    ) -> Result<(), AssembleError> {
        let relations = relations.of(labels.corpus.place_of(herb))?;
        self.relations = Some(RelationsView::new(labels, &relations, selection));
        self.works = labels.named_works();
        Ok(())
    }

    /// Adds the own tastings.
    pub fn taste(&mut self, labels: &Labels<'_>, own: &Own) {
        self.own = Some(OwnView::new(labels, own));
    }

    /// Adds the working behind each figure.
    pub fn explain(
        &mut self,
        labels: &Labels<'_>,
        herb: &Herb,
        facets: &[Facet],
        selection: &Selection,
    ) {
        self.working = WorkingView::all(labels, herb, facets, selection);
        self.works = labels.named_works();
    }
}

/// The rows, and the works that have none because they speak of actions only.
fn rows(labels: &Labels<'_>, herb: &Herb, views: &[FacetView]) -> (Vec<WitnessRow>, Vec<String>) {
    let mut all: BTreeMap<WorkId, BTreeMap<Facet, (&Witness, Option<usize>)>> = BTreeMap::new();
    let mut silent: BTreeMap<WorkId, Vec<Facet>> = BTreeMap::new();
    for view in views {
        let lines = compare::lines(labels.corpus, view).line_of;
        let lines = lines
            .into_iter()
            .map(|line| Some(line + 1))
            .chain(std::iter::repeat(None));
        for (witness, line) in view.all().zip(lines) {
            all.entry(witness.work)
                .or_default()
                .insert(view.facet, (witness, line));
        }
        for work in &view.silent {
            all.entry(*work).or_default();
            silent.entry(*work).or_default().push(view.facet);
        }
    }
    let (mut rows, mut on_actions_only) = (Vec::new(), Vec::new());
    for (work, witnesses) in all {
        let speaks = witnesses.keys().any(|facet| COLUMNS.contains(facet));
        if !speaks {
            if !witnesses.is_empty() {
                on_actions_only.push(labels.work(work));
            }
            continue;
        }
        let statements = || {
            witnesses
                .values()
                .flat_map(|(witness, _)| &witness.statements)
        };
        let own = statements().any(|statement| statement.carriers.is_empty());
        let mut through: Vec<WorkId> = Vec::new();
        if !own {
            through = statements()
                .flat_map(|statement| &statement.carriers)
                .copied()
                .collect();
            through.sort_unstable();
            through.dedup();
        }
        let user = statements().any(|one| herb.entries[one.evidence.0].origin == Origin::User);
        let columns = witnesses
            .iter()
            .filter(|(facet, _)| COLUMNS.contains(facet));
        rows.push(WitnessRow {
            work: labels.work(work),
            through: labels.works(&through),
            user,
            stands: columns
                .map(|(facet, (witness, line))| {
                    (*facet, StandView::new(labels, herb, *facet, witness, *line))
                })
                .collect(),
            silent: silent.remove(&work).unwrap_or_default(),
        });
    }
    (rows, on_actions_only)
}

impl StandView {
    fn new(
        labels: &Labels<'_>,
        herb: &Herb,
        facet: Facet,
        witness: &Witness,
        line: Option<usize>,
    ) -> Self {
        Self {
            values: witness
                .values
                .iter()
                .filter(|_| line.is_some())
                .map(|value| labels.value(facet, *value))
                .collect(),
            text: stand_in_words(labels, facet, witness),
            line,
            carriers_differ: witness.carriers_differ(),
            statements: witness
                .statements
                .iter()
                .map(|one| StatementView::new(labels, herb, facet, one))
                .collect(),
        }
    }
}

/// A stand in words; what is said of a scope only carries it: `cool (raw), warm (cooked)`.
fn stand_in_words(labels: &Labels<'_>, facet: Facet, witness: &Witness) -> String {
    let of_scope_only = witness.counted().next().is_none();
    let words = witness.values.iter().map(|value| {
        let word = in_words(labels, facet, *value, witness.degree(*value));
        let mut stating = witness
            .statements
            .iter()
            .filter(|one| one.values.iter().any(|(v, _)| v == value));
        let scope = stating
            .find_map(|one| labels.scope(&one.scope))
            .filter(|_| of_scope_only);
        scope.map_or_else(|| word.clone(), |scope| format!("{word} ({scope})"))
    });
    labels.row(&words.collect::<Vec<_>>())
}
