//! Results with their labels, ready to be written as JSON or printed. The JSON Schemas in
//! `schema/output` are generated from these types.

mod actions;
mod affinity;
mod against;
mod answer;
mod best;
mod books;
mod cite;
mod claim;
mod comparison;
mod differences;
mod disputes;
mod error;
mod explain;
mod exported;
mod filter;
mod find;
mod findings;
mod grade;
mod heed;
mod herb;
mod labels;
mod name;
mod own;
mod pair;
mod pair_aim;
mod pair_cautions;
mod pair_old;
mod panel;
mod panel_books;
mod panel_tasters;
mod profile;
mod reading;
mod relations;
mod scales;
mod schemas;
mod state;
mod statement;
mod suggest;
mod taste;
mod taste_against;
mod taste_form;
mod taste_plan;
mod together;
mod weigh;
mod weighed;
mod weighted;
mod work_entry;
mod working;
mod works;

pub use actions::{ActionStatement, ConceptView, OpposedView, ReconciledView};
pub use affinity::{AffinityView, AskedOfWorks, ExampleView, MergeView, PairView, RecordedDebt};
pub use against::{ActionAgainst, AgainstView, SupportCell, ValueAgainst};
pub use answer::{AnswerView, ReplyView, SideCount, ValueAnswer};
pub use best::{BestView, FoundSaying, SayingOnHerb};
pub use books::BookView;
pub use cite::{CitationView, CiteView, CorpusView, saying_ids};
pub use claim::{ClaimView, ClaimsOf};
pub use comparison::{ComparisonView, StandView, WitnessRow};
pub use differences::{DifferenceView, SideView, TurningView};
pub use disputes::{AgreementView, Asked, DisputeView, DisputedFacet, DisputesView, PeriodView};
pub use error::ErrorView;
pub use explain::{ExpectationView, ExplainView, ShownView};
pub use exported::{ExportedFile, ExportedView};
pub use filter::FilterView;
pub use find::{BackingView, FacetCountView, FindView, FoundHerb, Shown, WantedView, WorkCount};
pub use findings::FindingsView;
pub use grade::GradeView;
pub use heed::{HeedView, ListedCautions};
pub use herb::{HerbView, SharedName};
pub use labels::{CautionView, Labels, NOTICE, Tongue, ValueRef, WorkRef};
pub use name::{BearerView, HeadingView, NameView, NearView};
pub use own::{OwnFigures, OwnFlavour, OwnOther, OwnView};
pub use pair::{
    AssumptionsView, FlavourShare, FormulaView, HeldView, JointView, MemberView, MovesView,
    NatureView, OppositionView, SharedView, TastedView,
};
pub use pair_aim::{AimView, ChangeView, NeededView};
pub use pair_cautions::{HerbCautions, LoudView, PairCautions};
pub use pair_old::{OldAmountView, OldGrams};
pub use panel::{AgreementOfPanel, AttributeRef, AttributeView, MadeView, PanelView, ReadView};
pub use panel_books::{AgainstBooksView, FlavourAgainstView, SideOfBooks, WarmthAgainstView};
pub use panel_tasters::{ApartView, RepeatView, RepeatsView, TasterView};
pub use profile::{
    ActionSupport, FacetProfile, FoundDebt, ProfileView, SeverestView, SupportView, WarnerView,
};
pub use reading::{ReadFlavourView, ReadSayingView, ReadScopeView, ReadingView, UnreadView};
pub use relations::{RelatedDrug, RelationEvidence, RelationGroup, RelationsView, StatementsView};
pub use scales::{RungView, ScalesView};
pub use schemas::schemas;
pub use state::{AloneView, DoubleView, HerbRef, HerbRow, OutlierView, SpreadView, StateView};
pub use statement::{StatedValue, StatementView};
pub use suggest::{SuggestView, SuggestedHerb, SuggestedValue, SuggestedWork};
pub use taste::{FlavourScore, RefusalView, TastingRow, TastingView, TastingsView};
pub use taste_against::{
    ChangeOfTaste, FlavourStandView, GroupView, NatureSideView, SidesView, SurprisingView,
    TasteAgainstView,
};
pub use taste_form::{CupView, FormRow, FormView, HerbForm, ScaleView};
pub use taste_plan::{DisputedSide, DisputedView, MeetingView, MomentView, PlanView};
pub use together::{ForbiddenView, SaidView, TogetherView};
pub use weigh::{AskedAmount, DailyView, HerbHeed, LeftOut, ScaledHerb, WeighError, WeighView};
pub use weighed::{
    AmountRange, CommonestView, FigureView, OpinionView, PeriodRef, QuantityRange, RelationView,
    SpanView, WeighedView,
};
pub use weighted::{ReliabilityView, WeightedValueView, WeightedView};
pub use work_entry::{ClaimDate, WorkEntry};
pub use working::{WorkedStand, WorkedValue, WorkingView};
pub use works::{AmountView, CarriedCount, DebtView, FacetCount, WorkRow, WorkView, WorksView};
