//! A pair or formula.

use schemars::JsonSchema;
use serde::Serialize;

use super::filter::FilterView;
use super::grade::GradeView;
use super::labels::{Labels, NOTICE, ValueRef, WorkRef};
use super::pair_aim::AimView;
use super::pair_cautions::PairCautions;
use super::pair_old::OldAmountView;
use super::state::HerbRef;
use super::weighed::PeriodRef;
use crate::claim::Facet;
use crate::compare::Relations;
use crate::corpus::AssembleError;
use crate::measure::Measures;
use crate::pairing::{
    self, Actions, Aim, Assumptions, Blend, BlendedFlavour, Counting, Formula, Joint, Member,
    Moves, NaturePlace, Opposition, Shared, Tasted, Unit, nearest_nature,
};

/// What `kaoyi pair --json` writes.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct FormulaView {
    /// Name and version of this format.
    pub format: &'static str,
    /// What the amounts are counted in: `g`, `parts`, or the id of a unit of old.
    pub unit: String,
    /// The period whose unit that is; `null` where it is none of old.
    pub period: Option<PeriodRef>,
    /// The herbs, in the order in which they are named; everything below refers to them by their places, from 0.
    pub herbs: Vec<MemberView>,
    /// What the arithmetic assumes.
    pub assumptions: AssumptionsView,
    /// Which works were counted; `null` for all.
    pub filter: Option<FilterView>,
    /// The flavours, the greatest share first.
    pub flavours: Vec<FlavourShare>,
    /// Herbs of which no flavour is known, left out of the shares.
    pub without_flavour: Vec<usize>,
    /// The nature; `null` where no herb has one.
    pub nature: Option<NatureView>,
    /// Herbs of which no nature is known.
    pub without_nature: Vec<usize>,
    /// Which way the flavours move.
    pub moves: MovesView,
    /// What is held of its flavours, and of its nature where that is not neutral.
    pub doctrine: Vec<HeldView>,
    /// Channels that two or more herbs enter.
    pub channels: Vec<SharedView>,
    /// Actions that two or more herbs have.
    pub reinforced: Vec<SharedView>,
    /// Actions of one herb that are contrary to one of another.
    pub opposed: Vec<OppositionView>,
    /// The balance that was sought; `null` where none was.
    pub aim: Option<AimView>,
    /// What must be heeded.
    pub cautions: PairCautions,
    /// What the program does not do.
    pub notice: &'static str,
    /// The works named here.
    pub works: Vec<WorkRef>,
}

/// An herb of a formula.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct MemberView {
    /// The herb.
    pub herb: HerbRef,
    /// Its English name.
    pub english: Option<String>,
    /// Of a prepared form what stood before the name; the record is that of the herb as such.
    pub prepared: Option<String>,
    /// How much of it; 0 of an herb that may be added.
    pub amount: f64,
    /// How that was written in units of old, and what it comes to; `null` where it was not.
    pub old: Option<OldAmountView>,
    /// Its share of the amounts, 0 to 1.
    pub share: f64,
    /// How strongly it is assumed to taste for its weight.
    pub strength: f64,
    /// Own tastings that stand in place of the books; `null` where the books speak.
    pub tasted: Option<TastedView>,
    /// How many voices state its flavour.
    pub voices: usize,
    /// The grade by the oldest work that states one; empty where none does.
    pub grades: Vec<GradeView>,
}

/// Own tastings in place of the books.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
pub struct TastedView {
    /// How many there are.
    pub tastings: usize,
    /// How many of them scored a flavour; of none the flavours are those of the books.
    pub flavour: usize,
    /// How many of them scored warmth; of none the nature is that of the books.
    pub warmth: usize,
}

impl TastedView {
    const fn new(tasted: &Tasted) -> Self {
        Self {
            tastings: tasted.tastings,
            flavour: tasted.flavours.len(),
            warmth: tasted.warmth.len(),
        }
    }
}

/// What the arithmetic assumes.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
pub struct AssumptionsView {
    /// How much of a flavour "slightly" is, where a flavour alone is 1.
    pub slight: f64,
    /// How much of a flavour "greatly" is.
    pub great: f64,
    /// What has one voice: `works` or `lines`.
    pub count: &'static str,
}

/// A flavour's share.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct FlavourShare {
    /// The flavour.
    pub value: ValueRef,
    /// Its share of the whole, 0 to 1.
    pub share: f64,
    /// Its share with every herb at its least.
    pub least: f64,
    /// Its share with every herb at its most.
    pub most: f64,
    /// What of the share comes from each herb.
    pub from: Vec<f64>,
}

/// A place between the coldest, -1, and the hottest, 1.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct NatureView {
    /// The nature nearest to it.
    pub value: ValueRef,
    /// The place by the means.
    pub place: f64,
    /// The place with every herb at its coldest, and the nature nearest to that.
    pub coldest: (f64, ValueRef),
    /// The place with every herb at its hottest.
    pub hottest: (f64, ValueRef),
}

/// Which way the flavours move.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
pub struct MovesView {
    /// The share of those that move up and out.
    pub up_and_out: f64,
    /// The share of those that move down and in.
    pub down_and_in: f64,
    /// The share of those that hold the centre.
    pub centre: f64,
}

/// What is held of a flavour or a nature.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct HeldView {
    /// `flavour` or `nature`.
    pub facet: Facet,
    /// The value.
    pub value: ValueRef,
    /// Of a flavour its share.
    pub share: Option<f64>,
    /// The doctrine in the words of its source.
    pub han: String,
    /// What is held, in one line.
    pub holds: String,
    /// Where it is published.
    pub source: String,
}

/// A channel or an action of several herbs.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct SharedView {
    /// The value.
    pub value: ValueRef,
    /// The herbs, each with the number of works that say so.
    pub herbs: Vec<JointView>,
}

/// An herb and a number of works.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
pub struct JointView {
    /// The herb's place.
    pub herb: usize,
    /// Works that say so of the herb as such.
    pub works: usize,
}

/// An action against another.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct OppositionView {
    /// The action.
    pub value: ValueRef,
    /// Who has it.
    pub one: JointView,
    /// The contrary action.
    pub contrary: ValueRef,
    /// Who has that.
    pub other: JointView,
}

impl FormulaView {
    /// A formula, and how a balance can be reached.
    ///
    /// # Errors
    /// When an embedded record is faulty.
    pub fn new(
        labels: &Labels<'_>,
        (measures, relations): (&Measures<'_>, &Relations<'_>),
        formula: &Formula<'_>,
        aim: Option<&Aim>,
    ) -> Result<Self, AssembleError> {
        let corpus = labels.corpus;
        let (herbs, ingredients) = (formula.herbs(), formula.ingredients(corpus));
        let blend = pairing::blend(corpus, &ingredients);
        let whole: f64 = formula.members.iter().map(|one| one.amount).sum();
        let voices = ingredients.iter().map(|one| one.taste.voices);
        let members = formula.members.iter().zip(voices);
        let selection = &formula.selection;
        let weight = |member: &Member<'_>| OldAmountView::new(measures, formula, member, labels);
        let actions = Actions::of(corpus, &herbs, selection);
        let mut channels = pairing::shared_channels(corpus, &herbs, selection);
        channels.retain(|channel| channel.herbs.len() > 1);
        let sharing = |facet: Facet, all: &[Shared]| -> Vec<SharedView> {
            all.iter()
                .map(|one| SharedView::new(labels, facet, one))
                .collect()
        };
        Ok(Self {
            format: "kaoyi.pair/1",
            unit: match formula.unit {
                Unit::Grams => "g".to_owned(),
                Unit::Parts => "parts".to_owned(),
                Unit::Old(unit) => measures.unit(unit).id.clone(),
            },
            period: formula
                .period
                .map(|period| PeriodRef::new(labels, measures, period)),
            herbs: members
                .map(|(member, voices)| {
                    MemberView::new(labels, member, weight(member), whole, voices)
                })
                .collect(),
            assumptions: AssumptionsView::new(&formula.assumptions),
            filter: FilterView::new(labels, selection),
            nature: blend.nature.map(|place| NatureView::new(labels, place)),
            moves: blend.moves.into(),
            without_flavour: blend.without_flavour.clone(),
            without_nature: blend.without_nature.clone(),
            flavours: flavours(labels, &blend),
            doctrine: held(labels, &blend),
            channels: sharing(Facet::Channel, &channels),
            reinforced: sharing(Facet::Action, &actions.reinforced(corpus)),
            opposed: actions
                .opposed(corpus)
                .iter()
                .map(|one| OppositionView::new(labels, one))
                .collect(),
            aim: aim.map(|aim| AimView::new(labels, aim, &pairing::reach(aim, &ingredients))),
            cautions: PairCautions::new(labels, relations, measures, formula)?,
            notice: NOTICE,
            works: labels.named_works(),
        })
    }
}

fn held(labels: &Labels<'_>, blend: &Blend) -> Vec<HeldView> {
    let held = pairing::held(labels.corpus, blend).into_iter();
    held.map(|(doctrine, value, share)| HeldView {
        facet: doctrine.facet,
        value: labels.value(doctrine.facet, value),
        share,
        han: labels.han(&doctrine.hant),
        holds: doctrine.holds.clone(),
        source: doctrine.source.clone(),
    })
    .collect()
}

fn flavours(labels: &Labels<'_>, blend: &Blend) -> Vec<FlavourShare> {
    let view = |one: &BlendedFlavour| FlavourShare {
        value: labels.value(Facet::Flavour, one.value),
        share: one.share,
        least: one.least,
        most: one.most,
        from: one.from.clone(),
    };
    blend.flavours.iter().map(view).collect()
}

impl AssumptionsView {
    const fn new(assumptions: &Assumptions) -> Self {
        Self {
            slight: assumptions.slight,
            great: assumptions.great,
            count: match assumptions.counting {
                Counting::Works => "works",
                Counting::Lines => "lines",
            },
        }
    }
}

impl MemberView {
    fn new(
        labels: &Labels<'_>,
        member: &Member<'_>,
        old: Option<OldAmountView>,
        whole: f64,
        voices: usize,
    ) -> Self {
        Self {
            herb: HerbRef::new(labels, labels.corpus.place_of(member.herb)),
            english: member.herb.names.english.clone(),
            prepared: member.prepared.clone(),
            amount: member.amount,
            old,
            share: member.amount / whole,
            strength: member.strength,
            tasted: member.tasted.as_ref().map(TastedView::new),
            voices,
            grades: GradeView::oldest(labels, member.herb),
        }
    }
}

impl NatureView {
    fn new(labels: &Labels<'_>, place: NaturePlace) -> Self {
        let scheme = labels.corpus.vocabulary.scheme(Facet::Nature);
        let near = |at: f64| labels.value(Facet::Nature, nearest_nature(scheme, at));
        Self {
            value: near(place.mean),
            place: place.mean,
            coldest: (place.coldest, near(place.coldest)),
            hottest: (place.hottest, near(place.hottest)),
        }
    }
}

impl From<Moves> for MovesView {
    fn from(moves: Moves) -> Self {
        Self {
            up_and_out: moves.up_and_out,
            down_and_in: moves.down_and_in,
            centre: moves.centre,
        }
    }
}

impl From<Joint> for JointView {
    fn from(joint: Joint) -> Self {
        Self {
            herb: joint.herb,
            works: joint.works,
        }
    }
}

impl SharedView {
    fn new(labels: &Labels<'_>, facet: Facet, shared: &Shared) -> Self {
        Self {
            value: labels.value(facet, shared.value),
            herbs: shared.herbs.iter().map(|one| (*one).into()).collect(),
        }
    }
}

impl OppositionView {
    fn new(labels: &Labels<'_>, pair: &Opposition) -> Self {
        Self {
            value: labels.value(Facet::Action, pair.value),
            one: pair.one.into(),
            contrary: labels.value(Facet::Action, pair.contrary),
            other: pair.other.into(),
        }
    }
}
