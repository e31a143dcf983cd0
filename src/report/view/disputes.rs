//! Herbs by discord, and how far the books agree on all of them.

use std::borrow::Cow;

use schemars::JsonSchema;
use serde::Serialize;

use super::differences::{DifferenceView, SideView};
use super::filter::FilterView;
use super::heed::ListedCautions;
use super::labels::{Labels, NOTICE, WorkRef};
use super::state::HerbRef;
use crate::claim::Facet;
use crate::compare::{
    self, Agreement, DifferenceKind, Discord, Discords, FacetDiscord, FacetView, Period, Selection,
    SetDistance, Stands,
};
use crate::corpus::{AssembleError, HerbId};
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
    /// The most disputed herbs of a corpus, of which `stands` are those on the facets asked for.
    ///
    /// # Errors
    /// When an embedded record is faulty.
    pub fn new(
        labels: &Labels<'_>,
        stands: &[&Stands],
        selection: &Selection,
        asked: &Asked,
    ) -> Result<Self, AssembleError> {
        let chosen = stands.iter();
        let stands: Vec<Cow<'_, Stands>> = chosen
            .map(|one| one.chosen(labels.corpus, selection))
            .collect();
        let ranking = Ranking {
            labels,
            discords: Discords::new(labels.corpus, &stands, asked.sets),
            selection,
            asked,
        };
        let all = ranking.herbs()?;
        let shown = &all[..all.len().min(asked.top)];
        let cautions = shown
            .iter()
            .map(|one| ListedCautions::new(labels, one.herb));
        let cautions = cautions.collect::<Result<Vec<_>, _>>()?;
        let disputes = shown.iter().map(|one| ranking.dispute(one));
        Ok(Self {
            format: "kaoyi.disputes/1",
            filter: FilterView::new(labels, selection),
            least_witnesses: asked.witnesses.max(2),
            herbs: all.len(),
            disputes: disputes.collect::<Result<_, _>>()?,
            agreement: ranking.agreements(),
            cautions: cautions.into_iter().flatten().collect(),
            notice: NOTICE,
            works: labels.named_works(),
        })
    }
}

/// What a ranking is made from.
struct Ranking<'a> {
    labels: &'a Labels<'a>,
    discords: Discords<'a>,
    selection: &'a Selection,
    asked: &'a Asked,
}

impl Ranking<'_> {
    /// The herbs that qualify, the most disputed first.
    fn herbs(&self) -> Result<Vec<Discord>, AssembleError> {
        let all = self.discords.ranked(self.asked.witnesses);
        let Some(kind) = self.asked.kind else {
            return Ok(all);
        };
        let mut of_kind = Vec::new();
        for one in all {
            let mut has = false;
            for facet in &one.facets {
                let view = self.view(one.herb, facet.facet)?;
                let differences = compare::differences(self.labels.corpus, &view);
                has |= differences.iter().any(|one| one.kind == kind);
            }
            if has {
                of_kind.push(one);
            }
        }
        Ok(of_kind)
    }

    fn view(&self, herb: HerbId, facet: Facet) -> Result<FacetView, AssembleError> {
        let corpus = self.labels.corpus;
        Ok(compare::view(
            corpus,
            corpus.herb(herb)?,
            facet,
            self.selection,
        ))
    }

    fn dispute(&self, discord: &Discord) -> Result<DisputeView, AssembleError> {
        let interval = self.discords.interval(discord);
        let facets = discord
            .facets
            .iter()
            .map(|one| self.facet(discord.herb, one));
        Ok(DisputeView {
            herb: HerbRef::new(self.labels, discord.herb),
            discord: discord.mean,
            interval: interval.map(|one| one.interval),
            facets: facets.collect::<Result<_, _>>()?,
        })
    }

    fn facet(&self, herb: HerbId, one: &FacetDiscord) -> Result<DisputedFacet, AssembleError> {
        let view = self.view(herb, one.facet)?;
        let differences = compare::differences(self.labels.corpus, &view);
        let mut kinds: Vec<DifferenceKind> = differences.iter().map(|one| one.kind).collect();
        kinds.dedup();
        let views = DifferenceView::all(self.labels, &view, &differences);
        // The first difference is that of the whole stands; what comes after it are its aspects.
        let mut sides = views.into_iter().next().map(|first| first.sides);
        if let Some(sides) = &mut sides {
            sides.sort_by_key(|side| std::cmp::Reverse(side.witnesses.len()));
            sides.truncate(2);
        }
        Ok(DisputedFacet {
            facet: one.facet,
            discord: one.mean,
            witnesses: one.witnesses,
            lines: compare::lines(self.labels.corpus, &view).count,
            kinds,
            sides: sides.unwrap_or_default(),
        })
    }

    /// The agreement on each facet, of all works chosen and, where no years were chosen, of each period.
    fn agreements(&self) -> Vec<AgreementView> {
        let whole_time = self.selection.since.is_none() && self.selection.until.is_none();
        let corpus = self.labels.corpus;
        let found = (self.discords).agreements(corpus, whole_time, self.asked.intervals);
        let named = |period: Period| PeriodView {
            han: self.labels.han(period.han),
            pinyin: period.pinyin,
            to: (period.to < i32::MAX).then_some(period.to),
        };
        let views = found.iter();
        views
            .map(|(period, one)| AgreementView::new(one, period.map(named)))
            .collect()
    }
}

impl AgreementView {
    fn new(agreement: &Agreement, period: Option<PeriodView>) -> Self {
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
            interval: agreement.interval.map(|one| one.interval),
            undefined,
        }
    }
}
