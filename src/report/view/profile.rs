//! The consensus profile in words.

use std::borrow::Cow;
use std::collections::BTreeSet;

use schemars::JsonSchema;
use serde::Serialize;

use super::filter::FilterView;
use super::heed::HeedView;
use super::herb::HerbView;
use super::labels::{Labels, ValueRef, WorkRef};
use super::own::OwnView;
use super::weighted::WeightedView;
use super::working::WorkingView;
use crate::claim::{Facet, ValueId};
use crate::compare::{self, Debts, FacetView, Profile, Selection, Severest, Stands, Verdict};
use crate::corpus::{Herb, HerbId, WorkId};
use crate::tasting::Own;

/// What `kaoyi profile --json` writes.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct ProfileView {
    /// Name and version of this format.
    pub format: &'static str,
    /// The herb.
    pub herb: HerbView,
    /// Which works were counted; `null` for all.
    pub filter: Option<FilterView>,
    /// All works named below, oldest first; elsewhere they are named by id.
    pub works: Vec<WorkRef>,
    /// The profile, facet by facet.
    pub profile: Vec<FacetProfile>,
    /// The actions that most works state, best supported first, with the number of works and lines.
    pub actions: Vec<ActionSupport>,
    /// The own tastings, where there are any; never counted among the books.
    pub own: Option<OwnView>,
    /// The working behind each figure, where it was asked for.
    pub working: Vec<WorkingView>,
    /// The estimate that weighs books by their reliability, where it was asked for.
    pub weighted: Vec<WeightedView>,
    /// The debts that were found and not recorded, where lines along them were asked for.
    pub found_debts: Vec<FoundDebt>,
    /// Warnings, cautions and the notice.
    #[serde(flatten)]
    pub heed: HeedView,
}

/// A debt that the works' stands on all herbs suggest and the corpus does not record.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct FoundDebt {
    /// The younger work.
    pub younger: String,
    /// The older work.
    pub older: String,
}

/// The support of an action.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct ActionSupport {
    /// The action.
    pub action: ValueRef,
    /// Works that state it of the herb as such.
    pub k: usize,
    /// Lines in which these stand.
    pub j: usize,
    /// Works that state it of a part, preparation or kind only.
    pub of_scope_only: usize,
    /// Works that state an opposed action of the herb as such.
    pub opposed: usize,
}

/// The profile of one facet.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct FacetProfile {
    /// The facet.
    pub facet: Facet,
    /// Witnesses.
    pub witnesses: usize,
    /// Lines of transmission among them.
    pub lines: usize,
    /// Lines along recorded and found debts, where these were asked for.
    pub found_lines: Option<usize>,
    /// Works with an article that are silent.
    pub silent: Vec<String>,
    /// Support of each value that is stated.
    pub values: Vec<SupportView>,
    /// For ordered facets, the median: one value, or the two middle ones.
    pub median: Vec<ValueRef>,
    /// For ordered facets, first and third quartile.
    pub quartiles: Vec<ValueRef>,
    /// For ordered facets, lowest and highest value stated.
    pub range: Vec<ValueRef>,
    /// For ordered facets, the value or values that most witnesses state.
    pub commonest: Vec<ValueRef>,
    /// For toxicity, the most severe value of all statements and, where that is of a scope only, the most
    /// severe of the herb as such.
    pub severest: Vec<SeverestView>,
}

/// The most severe toxicity that is stated.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct SeverestView {
    /// The value.
    pub value: ValueRef,
    /// Whether it is on the harmful side.
    pub harmful: bool,
    /// The works that state it, oldest first.
    pub by: Vec<WarnerView>,
}

/// A work that states the most severe toxicity.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct WarnerView {
    /// The work.
    pub work: String,
    /// What it limits the statement to; empty when it speaks of the herb as such.
    pub scopes: Vec<String>,
    /// Whether every reading of it is doubtful.
    pub doubtful: bool,
}

/// The support of one value.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct SupportView {
    /// The value.
    pub value: ValueRef,
    /// Whether its degrees are counted too. Then the value itself and each degree follow.
    pub any_degree: bool,
    /// Witnesses that state it.
    pub k: usize,
    /// Witnesses on the facet.
    pub n: usize,
    /// Lines that state it.
    pub j: usize,
    /// Lines on the facet.
    pub m: usize,
    /// Lines along recorded and found debts that state it, where these were asked for.
    pub found_lines: Option<usize>,
    /// Lower end of the Wilson 95 % interval for `k` of `n`, 0 to 1; `null` for open lists.
    pub low: Option<f64>,
    /// Upper end of the interval.
    pub high: Option<f64>,
    /// The oldest work that states it.
    pub first: String,
    /// The verdict; `null` for a single degree of a value whose degrees stand together above it.
    pub verdict: Option<Verdict>,
}

impl FacetProfile {
    /// The profile of a facet's witnesses.
    #[must_use]
    pub fn new(labels: &Labels<'_>, view: &FacetView) -> Self {
        let Profile {
            facet,
            n,
            m,
            supports,
            scaled,
            severest,
        } = compare::profile(labels.corpus, view);
        let value = |place: usize| labels.value(facet, ValueId(place as u16));
        let mut this = Self {
            facet,
            witnesses: n,
            lines: m,
            found_lines: None,
            silent: labels.works(&view.silent),
            values: Vec::new(),
            median: Vec::new(),
            quartiles: Vec::new(),
            range: Vec::new(),
            commonest: Vec::new(),
            severest: Vec::new(),
        };
        this.values = supports
            .iter()
            .map(|one| SupportView {
                value: labels.value(facet, one.value),
                any_degree: one.any_degree,
                k: one.k,
                n: one.n,
                j: one.j,
                m: one.m,
                found_lines: None,
                low: one.interval.map(|interval| interval.low),
                high: one.interval.map(|interval| interval.high),
                first: labels.work(one.by[0]),
                verdict: one.verdict,
            })
            .collect();
        this.severest = severest
            .iter()
            .map(|one| SeverestView::new(labels, one))
            .collect();
        if let Some(scaled) = scaled {
            let spread = scaled.spread;
            this.median = vec![value(spread.median.0)];
            if spread.median.0 != spread.median.1 {
                this.median.push(value(spread.median.1));
            }
            this.quartiles = vec![value(spread.quartiles.0), value(spread.quartiles.1)];
            this.range = vec![value(spread.lowest), value(spread.highest)];
            this.commonest = scaled
                .commonest
                .iter()
                .map(|value| labels.value(facet, *value))
                .collect();
        }
        this
    }
}

impl SeverestView {
    fn new(labels: &Labels<'_>, severest: &Severest) -> Self {
        let value = labels
            .corpus
            .vocabulary
            .scheme(Facet::Toxicity)
            .value(severest.value);
        let by = severest.by.iter().map(|one| WarnerView {
            work: labels.work(one.work),
            scopes: one
                .scopes
                .iter()
                .filter_map(|scope| labels.scope(scope))
                .collect(),
            doubtful: one.doubtful,
        });
        Self {
            value: labels.value(Facet::Toxicity, severest.value),
            harmful: value.side.as_deref() == Some("harmful"),
            by: by.collect(),
        }
    }

    /// What the severest books say of `herb`, whatever was asked for; empty when none calls it toxic.
    #[must_use]
    pub fn warnings(labels: &Labels<'_>, herb: &Herb) -> Vec<Self> {
        let view = compare::view(labels.corpus, herb, Facet::Toxicity, &Selection::default());
        let severest = compare::profile(labels.corpus, &view).severest;
        let views = severest.iter().map(|one| Self::new(labels, one));
        views.filter(|one| one.harmful).collect()
    }
}

impl ProfileView {
    /// The profile of `herb` on `facets`.
    #[must_use]
    pub fn new(labels: &Labels<'_>, herb: &Herb, facets: &[Facet], selection: &Selection) -> Self {
        let corpus = labels.corpus;
        let of_values = facets.iter().filter(|facet| **facet != Facet::Action);
        let profile = of_values
            .map(|facet| FacetProfile::new(labels, &compare::view(corpus, herb, *facet, selection)))
            .filter(|profile| profile.witnesses > 0 || !profile.severest.is_empty())
            .collect();
        let mut actions = Vec::new();
        if facets.contains(&Facet::Action) {
            actions = action_supports(labels, herb, selection);
        }
        Self {
            format: "kaoyi.profile/1",
            herb: HerbView::new(labels, herb),
            filter: FilterView::new(labels, selection),
            profile,
            actions,
            own: None,
            working: Vec::new(),
            weighted: Vec::new(),
            found_debts: Vec::new(),
            heed: HeedView::new(labels, herb),
            works: labels.named_works(),
        }
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

    /// Adds the estimate that weighs books by their reliability.
    pub fn weigh(&mut self, labels: &Labels<'_>, herb: HerbId, stands: &[Cow<'_, Stands>]) {
        self.weighted = WeightedView::all(labels, herb, stands);
        self.works = labels.named_works();
    }

    /// Adds the lines along found debts, each the younger work and the older, to those along the recorded ones.
    pub fn add_found_lines(
        &mut self,
        labels: &Labels<'_>,
        herb: &Herb,
        selection: &Selection,
        found: &[(WorkId, WorkId)],
    ) {
        let corpus = labels.corpus;
        let debts = Debts::recorded(corpus).and(found.iter().copied());
        for facet in &mut self.profile {
            let view = compare::view(corpus, herb, facet.facet, selection);
            let lines = compare::lines_along(&debts, &view);
            facet.found_lines = Some(lines.count);
            let supports = compare::profile(corpus, &view).supports;
            for (one, support) in facet.values.iter_mut().zip(supports) {
                let of = view.witnesses.iter().zip(&lines.line_of);
                let of = of.filter(|(witness, _)| support.by.contains(&witness.work));
                let stating: BTreeSet<_> = of.map(|(_, line)| line).collect();
                one.found_lines = Some(stating.len());
            }
        }
        let unrecorded = found
            .iter()
            .filter(|(younger, older)| compare::steps_to(corpus, *younger, *older).is_none());
        self.found_debts = unrecorded
            .map(|(younger, older)| FoundDebt {
                younger: labels.work(*younger),
                older: labels.work(*older),
            })
            .collect();
        self.works = labels.named_works();
    }
}

fn action_supports(labels: &Labels<'_>, herb: &Herb, selection: &Selection) -> Vec<ActionSupport> {
    let corpus = labels.corpus;
    let view = compare::view(corpus, herb, Facet::Action, selection);
    let concepts = compare::concepts(corpus, &view);
    let scheme = corpus.vocabulary.scheme(Facet::Action);
    let support = |one: &compare::Concept| {
        let contrary = concepts
            .iter()
            .filter(|other| scheme.opposed(one.value, other.value));
        let opposed: BTreeSet<_> = contrary.flat_map(|other| &other.witnesses).collect();
        ActionSupport {
            action: labels.value(Facet::Action, one.value),
            k: one.witnesses.len(),
            j: one.lines,
            of_scope_only: one.of_scope_only.len(),
            opposed: opposed.len(),
        }
    };
    concepts.iter().map(support).collect()
}
