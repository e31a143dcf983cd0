//! `/affinity`: which works agree, and which seem to follow which.

use maud::{Markup, html};

use crate::compare::{Selection, SetDistance};
use crate::corpus::WorkId;
use crate::report::ask;
use crate::report::view::{AffinityView, AskedOfWorks, PairView, RecordedDebt};
use crate::web::fields::{self, Input};
use crate::web::layout::{Leaf, han};
use crate::web::pieces::{self, Books, SCALED};
use crate::web::reply::{Answer, Halt};
use crate::web::route::{Page, Parameter, SCOPE, Takes};
use crate::web::visit::Visit;
use crate::web::words::Word;

/// The works beside each other.
pub(crate) struct Affinity;

/// So many stands a pair must share, as on the command line.
const SHARED: usize = 30;
/// So many pairs a page shows.
const SHOWN: usize = 40;
/// So many of the nearest works.
const NEAREST: usize = 10;

impl Page for Affinity {
    type View = AffinityView;
    const PATH: &'static str = "/affinity";
    const SUMMARY: &'static str = "Which works agree, and which seem to follow which";
    const PARAMETERS: &'static [Parameter] = &[
        Parameter::one(
            "work",
            Takes::Text,
            "The work to show among the others; default: all",
        ),
        Parameter::many(
            "facet",
            Takes::OneOf(SCALED),
            "Compare on these facets; default: all three",
        ),
        Parameter::one(
            "shared",
            Takes::Whole,
            "Leave out pairs that share fewer stands; default: 30",
        ),
        SCOPE[0],
        SCOPE[1],
        SCOPE[2],
    ];

    fn view(visit: &Visit<'_>) -> Answer<Self::View> {
        let name = visit.asked.one("work");
        let work = name
            .map(|name| ask::work(visit.corpus(), name))
            .transpose()?;
        if let (Some(work), Some(name)) = (work, name) {
            let id = &visit.corpus().work(work).id;
            if id != name {
                return Err(Halt::Elsewhere(visit.here(&[("work", Some(id))])));
            }
        }
        let shared = visit.whole("shared", SHARED, 10_000)?;
        view(visit, work, shared, &visit.selection()?)
    }

    fn page(visit: &Visit<'_>, view: &Self::View) -> Answer<Leaf> {
        let books = Books(&view.works);
        let body = html! {
            @if view.pairs.is_empty() {
                p role="status" { (visit.either("No two works of those chosen share so many stands. Try fewer.", "所選之書，無兩書共有如許之說。請減其數。")) }
            } @else if let Some(work) = &view.work {
                h2 { (books.dated(visit, work)) }
                (nearest(visit, view, work))
                (pairs(visit, &books, view))
                (examples(visit, &books, view, work))
            } @else {
                (matrix(visit, &books, view))
                (tree(visit, &books, view))
                (pairs(visit, &books, view))
            }
        };
        let main = html! {
            h1 { (visit.either("Which works agree, and who seems to follow whom", "諸書之相近與相承")) }
            (form(visit))
            (pieces::filter(visit, &books, view.filter.as_ref()))
            (body)
            p.note { (visit.either(
                "Rate: the share of its stands that the younger seems to take from the older; likely: the probability that it follows at all. A common source looks like a debt: read it as a hint, with the examples.",
                "比率：後書之說似取自前書者之比；可能：其確有相承之概率。同出一源者亦似相承，故只作線索，當並看例證。")) }
        };
        Ok(Leaf {
            title: visit.say(Word::Affinity).into_owned(),
            section: "/affinity",
            main,
        })
    }
}

fn view(
    visit: &Visit<'_>,
    work: Option<WorkId>,
    shared: usize,
    selection: &Selection,
) -> Answer<AffinityView> {
    let asked = AskedOfWorks {
        facets: ask::comparable(&pieces::facets(visit)),
        shared: shared.max(1),
        work,
        sets: SetDistance::Masi,
    };
    let stands = visit.shelf().library.stands(&asked.facets)?;
    Ok(AffinityView::new(
        &visit.labels(),
        &stands,
        selection,
        &asked,
    ))
}

/// One work among all others.
pub(super) fn of_work(visit: &Visit<'_>, work: WorkId) -> Answer<AffinityView> {
    view(visit, Some(work), SHARED, &Selection::default())
}

fn form(visit: &Visit<'_>) -> Markup {
    let shared = Input {
        least: Some("1"),
        example: Some("30"),
        ..Input::WHOLE
    };
    html! {
        form.filters method="get" action="/affinity" {
            (visit.kept_fields())
            (fields::field(visit, "work", &visit.either("one work among the others", "單看一書"), Input { example: Some("本草從新"), ..Input::TEXT }))
            (fields::facet_ticks(visit))
            (fields::field(visit, "shared", &visit.either("stands in common at least", "至少共有之說"), shared))
            (fields::scope_fields(visit))
            button type="submit" { (visit.say(Word::Show)) }
        }
    }
}

/// The works nearest to one, by agreement.
pub(super) fn nearest(visit: &Visit<'_>, view: &AffinityView, work: &str) -> Markup {
    let books = Books(&view.works);
    let mut near: Vec<&PairView> = view.pairs.iter().collect();
    near.sort_by(|a, b| b.agreement.total_cmp(&a.agreement));
    let heads = [
        visit.say(Word::Work),
        visit.either("agreement", "一致"),
        visit.either("same", "相同"),
    ];
    let row = |pair: &&PairView| {
        vec![
            books.dated(visit, other(pair, work)),
            pieces::cell(pieces::percent(pair.agreement)),
            pieces::cell(format!("{}/{}", pair.same, pair.shared)),
        ]
    };
    let rows: Vec<Vec<Markup>> = near.iter().take(NEAREST).map(row).collect();
    html! { @if !rows.is_empty() { (pieces::table("nearest", &visit.either("Nearest works", "最相近之書"), &heads, &rows)) } }
}

fn other<'v>(pair: &'v PairView, work: &str) -> &'v str {
    if pair.older == work {
        &pair.younger
    } else {
        &pair.older
    }
}

fn pairs(visit: &Visit<'_>, books: &Books<'_>, view: &AffinityView) -> Markup {
    let heads = [
        visit.either("younger", "後書"),
        visit.either("older", "前書"),
        visit.either("rate", "比率"),
        visit.either("likely", "可能"),
        visit.either("same", "相同"),
        visit.either("on record", "已著錄"),
    ];
    let row = |pair: &PairView| {
        vec![
            books.dated(visit, &pair.younger),
            books.dated(visit, &pair.older),
            pieces::cell(format!("{:.2}", pair.rate)),
            pieces::cell(likely(pair)),
            pieces::cell(format!("{}/{}", pair.same, pair.shared)),
            html! { (recorded(visit, pair)) },
        ]
    };
    let rows: Vec<Vec<Markup>> = view.pairs.iter().take(SHOWN).map(row).collect();
    html! {
        (pieces::table("pairs", &visit.either("Who seems to follow whom", "似相承者"), &heads, &rows))
        @if view.pairs.len() > SHOWN { p { (view.pairs.len() - SHOWN) " " (visit.either("more pairs in the JSON", "對見 JSON")) } }
    }
}

fn likely(pair: &PairView) -> String {
    match pair.probability {
        p if p >= 0.9995 => "> 0.999".to_owned(),
        p => format!("{p:.3}"),
    }
}

fn recorded(visit: &Visit<'_>, pair: &PairView) -> Markup {
    let debt = match pair.recorded {
        RecordedDebt::Direct => visit.either("yes", "是"),
        RecordedDebt::ThroughOthers => visit.either("through others", "經他書"),
        RecordedDebt::None => visit.either("no", "否"),
    };
    html! { (debt) @if !pair.order_known { "; " (visit.either("perhaps the other way", "先後或相反")) } }
}

fn examples(visit: &Visit<'_>, books: &Books<'_>, view: &AffinityView, work: &str) -> Markup {
    let told = view
        .pairs
        .iter()
        .filter(|pair| pair.probability >= 0.5 && !pair.examples.is_empty());
    html! {
        h2 { (visit.either("What both say and hardly another", "兩書同言而他書罕言者")) }
        ul { @for pair in told.take(NEAREST) {
            li { (books.title(visit, other(pair, work))) ": "
                @for (place, one) in pair.examples.iter().enumerate() {
                    @if place > 0 { "; " }
                    (pieces::herb(visit, &one.herb)) " " (pieces::values(visit, &one.values))
                } }
        } }
    }
}

fn matrix(visit: &Visit<'_>, books: &Books<'_>, view: &AffinityView) -> Markup {
    let works = &view.matrix_works;
    html! {
        div.scroll role="group" tabindex="0" aria-labelledby="matrix-caption" {
            table.matrix #matrix {
                caption #matrix-caption { (visit.either("Agreement in hundredths", "一致度（百分）")) }
                thead { tr { th scope="col" { (visit.say(Word::Work)) }
                    @for (place, _) in works.iter().enumerate() { th scope="col" { (place + 1) } } } }
                tbody { @for (place, row) in view.matrix.iter().enumerate() { tr {
                    th scope="row" { (place + 1) " " (books.title(visit, &works[place])) }
                    @for (column, value) in row.iter().enumerate() {
                        // The lower half says all.
                        td { @if column < place { (format!("{:.0}", (value * 100.0).min(99.4))) } }
                    }
                } } }
            }
        }
    }
}

/// The clustering as lists in lists.
fn tree(visit: &Visit<'_>, books: &Books<'_>, view: &AffinityView) -> Markup {
    let works = view.matrix_works.len();
    html! { @if let Some(last) = view.clustering.len().checked_sub(1) {
        h2 { (visit.either("Who stands near whom", "遠近")) }
        p.note { (visit.either("Each fork with the mean distance of its two sides.", "每一分叉附兩邊之平均距離。")) }
        div.scroll role="group" tabindex="0" aria-label=(visit.either("Who stands near whom", "遠近")) lang=(han(visit)) {
            ul.tree { (branch(visit, books, view, works + last)) }
        }
    } }
}

fn branch(visit: &Visit<'_>, books: &Books<'_>, view: &AffinityView, cluster: usize) -> Markup {
    let works = view.matrix_works.len();
    html! {
        @if cluster < works { li { (books.dated(visit, &view.matrix_works[cluster])) } }
        @else {
            @let merge = &view.clustering[cluster - works];
            li { span.fork { (format!("{:.2}", merge.height)) }
                ul { (branch(visit, books, view, merge.clusters.0)) (branch(visit, books, view, merge.clusters.1)) } }
        }
    }
}
