//! Herbs by discord, and how far the books agree on all of them.

use schemars::JsonSchema;
use serde::Serialize;

use super::differences::{DifferenceView, SideView};
use super::filter::FilterView;
use super::heed::ListedCautions;
use super::labels::{Labels, NOTICE, WorkRef};
use super::state::HerbRef;
use crate::claim::Facet;
use crate::compare::{
    self, Agreement, DifferenceKind, Discord, FacetDiscord, Field, PERIODS, Period, Selection,
    SetDistance,
};
use crate::corpus::AssembleError;
use crate::stats::{Alpha, Interval, Undefined};

/// An herb with its discord.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct DisputeView {
    /// The herb.
    pub herb: HerbRef,
    /// The mean distance of two witnesses, 0 to 1, over its facets.
    pub discord: f64,
    /// The interval at 95 %, the witnesses drawn again; `null` where it could not be computed.
    pub interval: Option<Interval>,
    /// Facet by facet.
    pub facets: Vec<DisputedFacet>,
}

/// One facet of a disputed herb.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct DisputedFacet {
    /// The facet.
    pub facet: Facet,
    /// The mean distance of two witnesses, 0 to 1.
    pub discord: f64,
    /// How many witnesses.
    pub witnesses: usize,
    /// In how many lines of transmission.
    pub lines: usize,
    /// The kinds of difference.
    pub kinds: Vec<DifferenceKind>,
    /// The two sides with most witnesses.
    pub sides: Vec<SideView>,
}

/// How far the books agree on all herbs.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct AgreementView {
    /// The facet.
    pub facet: Facet,
    /// The period by the works' latest year; `null` for all.
    pub period: Option<PeriodView>,
    /// Herbs with two witnesses or more.
    pub herbs: usize,
    /// Stands of witnesses on them.
    pub stands: usize,
    /// Krippendorff's alpha, stands being the same or not; `null` where it is undefined.
    pub alpha_nominal: Option<f64>,
    /// Krippendorff's alpha, by how far stands differ; `null` where it is undefined.
    pub alpha: Option<f64>,
    /// The interval of `alpha` at 95 %, the herbs drawn again; where it was asked for.
    pub interval: Option<Interval>,
    /// Why a coefficient is undefined.
    pub undefined: Option<&'static str>,
}

/// A period.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct PeriodView {
    /// In Han characters.
    pub han: String,
    /// In pinyin.
    pub pinyin: &'static str,
    /// The last year; `null` for the last period.
    pub to: Option<i32>,
}

/// What `kaoyi disputes --json` writes.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct DisputesView {
    /// Name and version of this format.
    pub format: &'static str,
    /// Which works were counted; `null` for all.
    pub filter: Option<FilterView>,
    /// The fewest witnesses that a facet must have.
    pub least_witnesses: usize,
    /// How many herbs have a facet with so many witnesses, of the kind asked for.
    pub herbs: usize,
    /// The most disputed ones.
    pub disputes: Vec<DisputeView>,
    /// How far the books agree on all herbs.
    pub agreement: Vec<AgreementView>,
    /// The grave cautions of the herbs shown.
    pub cautions: Vec<ListedCautions>,
    /// What the program does not do.
    pub notice: &'static str,
    /// The works named here.
    pub works: Vec<WorkRef>,
}

/// What is asked of a ranking.
#[derive(Debug, Clone)]
pub struct Asked {
    /// The facets.
    pub facets: Vec<Facet>,
    /// The fewest witnesses that a facet must have.
    pub witnesses: usize,
    /// How many herbs are shown.
    pub top: usize,
    /// Only herbs with this kind of difference.
    pub kind: Option<DifferenceKind>,
    /// How lists of values are compared.
    pub sets: SetDistance,
    /// Whether the agreements get intervals.
    pub intervals: bool,
}

impl DisputesView {
    /// The most disputed herbs of a corpus.
    ///
    /// # Errors
    /// When an embedded record is faulty.
    pub fn new(
        labels: &Labels<'_>,
        selection: &Selection,
        asked: &Asked,
    ) -> Result<Self, AssembleError> {
        let fields = compare::fields(labels.corpus, &asked.facets, selection)?;
        let mut all = compare::discord(labels.corpus, &fields, asked.witnesses, asked.sets);
        if let Some(kind) = asked.kind {
            all.retain(|one| one.facets.iter().any(|facet| has(labels, facet, kind)));
        }
        let whole_time = selection.since.is_none() && selection.until.is_none();
        let shown = &all[..all.len().min(asked.top)];
        let cautions = shown
            .iter()
            .map(|one| ListedCautions::new(labels, one.herb));
        let cautions = cautions.collect::<Result<Vec<_>, _>>()?;
        Ok(Self {
            format: "kaoyi.disputes/1",
            filter: FilterView::new(labels, selection),
            least_witnesses: asked.witnesses.max(2),
            herbs: all.len(),
            disputes: shown
                .iter()
                .map(|one| dispute(labels, asked, one))
                .collect(),
            agreement: agreements(labels, &fields, asked, whole_time),
            cautions: cautions.into_iter().flatten().collect(),
            notice: NOTICE,
            works: labels.named_works(),
        })
    }
}

fn has(labels: &Labels<'_>, facet: &FacetDiscord<'_>, kind: DifferenceKind) -> bool {
    let differences = compare::differences(labels.corpus, facet.view);
    differences.iter().any(|one| one.kind == kind)
}

fn dispute(labels: &Labels<'_>, asked: &Asked, discord: &Discord<'_>) -> DisputeView {
    let interval = compare::discord_interval(labels.corpus, asked.sets, discord);
    let facet = |one: &FacetDiscord<'_>| {
        let differences = compare::differences(labels.corpus, one.view);
        let mut kinds: Vec<DifferenceKind> = differences.iter().map(|one| one.kind).collect();
        kinds.dedup();
        let views = DifferenceView::all(labels, one.view, &differences);
        // The first difference is that of the whole stands; what comes after it are its aspects.
        let mut sides = views.into_iter().next().map(|first| first.sides);
        if let Some(sides) = &mut sides {
            sides.sort_by_key(|side| std::cmp::Reverse(side.witnesses.len()));
            sides.truncate(2);
        }
        DisputedFacet {
            facet: one.view.facet,
            discord: one.mean,
            witnesses: one.view.witnesses.len(),
            lines: compare::lines(labels.corpus, one.view).count,
            kinds,
            sides: sides.unwrap_or_default(),
        }
    };
    DisputeView {
        herb: HerbRef::new(labels, discord.herb),
        discord: discord.mean,
        interval: interval.map(|one| one.interval),
        facets: discord.facets.iter().map(facet).collect(),
    }
}

/// The agreement on each facet, of all works chosen and, where no years were chosen, of each period.
fn agreements(
    labels: &Labels<'_>,
    fields: &[Field],
    asked: &Asked,
    by_period: bool,
) -> Vec<AgreementView> {
    let periods = PERIODS.into_iter().filter(|_| by_period).map(Some);
    let periods: Vec<Option<Period>> = std::iter::once(None).chain(periods).collect();
    let mut views = Vec::new();
    for field in fields {
        for period in &periods {
            let units = compare::units(labels.corpus, field, *period);
            let agreement = compare::agreement(labels.corpus, &units, asked.sets);
            let interval = asked
                .intervals
                .then(|| compare::agreement_interval(labels.corpus, &units, asked.sets))
                .flatten();
            let period = period.map(|period| PeriodView {
                han: labels.han(period.han),
                pinyin: period.pinyin,
                to: (period.to < i32::MAX).then_some(period.to),
            });
            views.push(AgreementView::new(
                &agreement,
                period,
                interval.map(|one| one.interval),
            ));
        }
    }
    views
}

impl AgreementView {
    fn new(agreement: &Agreement, period: Option<PeriodView>, interval: Option<Interval>) -> Self {
        let value = |alpha: Result<Alpha, Undefined>| alpha.ok().map(|alpha| alpha.value);
        let undefined = match agreement.graded {
            Ok(_) => None,
            Err(Undefined::NoPairs) => Some("no herb has two witnesses"),
            Err(Undefined::NoVariation) => Some("all say the same"),
        };
        let counted = agreement.graded.ok();
        Self {
            facet: agreement.facet,
            period,
            herbs: counted.map_or(0, |alpha| alpha.units),
            stands: counted.map_or(0, |alpha| alpha.values),
            alpha_nominal: value(agreement.nominal),
            alpha: value(agreement.graded),
            interval,
            undefined,
        }
    }
}
