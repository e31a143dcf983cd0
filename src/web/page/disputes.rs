//! `/disputes`: the herbs on which the books differ most.

use std::borrow::Cow;

use maud::{Markup, html};

use crate::compare::{DifferenceKind, PERIODS, SetDistance};
use crate::report::ask;
use crate::report::view::{AgreementView, Asked, DisputeView, DisputedFacet, DisputesView};
use crate::web::fields::{self, Input};
use crate::web::layout::{Leaf, text};
use crate::web::pieces::{self, Books, SCALED};
use crate::web::reply::Answer;
use crate::web::route::{Page, Parameter, SCOPE, Takes};
use crate::web::visit::Visit;
use crate::web::words::Word;

/// The ranking of herbs by discord.
pub(crate) struct Disputes;

/// The kinds of difference, as the address names them.
const KINDS: [&str; 8] = {
    let mut names = [""; 8];
    let mut place = 0;
    while place < names.len() {
        names[place] = DifferenceKind::ALL[place].name();
        place += 1;
    }
    names
};

/// As many herbs as a page shows at the most.
const MOST: usize = 1000;

impl Page for Disputes {
    type View = DisputesView;
    const PATH: &'static str = "/disputes";
    const SUMMARY: &'static str = "The herbs by how much the books differ on them";
    const PARAMETERS: &'static [Parameter] = &[
        Parameter::many(
            "facet",
            Takes::OneOf(SCALED),
            "Rank by these facets; default: all three",
        ),
        Parameter::one(
            "kind",
            Takes::OneOf(&KINDS),
            "Only herbs with this kind of difference",
        ),
        Parameter::one(
            "witnesses",
            Takes::Whole,
            "Leave out facets with fewer witnesses; default: 5",
        ),
        Parameter::one("top", Takes::Whole, "Show so many herbs; default: 20"),
        Parameter::one(
            "jaccard",
            Takes::Flag,
            "Compare lists by the share of common values alone",
        ),
        Parameter::one(
            "intervals",
            Takes::Flag,
            "Give the agreement on all herbs an interval",
        ),
        SCOPE[0],
        SCOPE[1],
        SCOPE[2],
    ];

    fn view(visit: &Visit<'_>) -> Answer<Self::View> {
        let kind = visit.asked.one("kind");
        let asked = Asked {
            facets: ask::comparable(&pieces::facets(visit)),
            witnesses: visit.whole("witnesses", 5, MOST)?,
            top: visit.whole("top", 20, MOST)?,
            kind: DifferenceKind::ALL
                .into_iter()
                .find(|one| Some(one.name()) == kind),
            sets: match visit.asked.one("jaccard") {
                Some(_) => SetDistance::Jaccard,
                None => SetDistance::Masi,
            },
            intervals: visit.asked.one("intervals").is_some(),
        };
        let stands = visit.shelf().library.stands(&asked.facets)?;
        let selection = visit.selection()?;
        Ok(DisputesView::new(
            &visit.labels(),
            &stands,
            &selection,
            &asked,
        )?)
    }

    fn page(visit: &Visit<'_>, view: &Self::View) -> Answer<Leaf> {
        let books = Books(&view.works);
        let title = visit.say(Word::Disputes);
        let main = html! {
            h1 { (visit.either("Where the books differ most", "諸書爭議最多之藥")) }
            (form(visit))
            (periods(visit))
            (pieces::filter(visit, &books, view.filter.as_ref()))
            (pieces::listed(visit, &view.cautions))
            @if view.disputes.is_empty() {
                p role="status" { (visit.either("No herb has a facet with so many witnesses and the kind chosen.", "無藥合於所選之類與家數。")) }
            } @else { (ranking(visit, &books, view)) }
            (agreement(visit, &view.agreement))
            (pieces::downloads(visit, &lessons(visit)))
        };
        Ok(Leaf {
            title: title.into_owned(),
            section: "/disputes",
            main,
        })
    }
}

fn form(visit: &Visit<'_>) -> Markup {
    let kinds = DifferenceKind::ALL.map(|kind| (kind.name(), pieces::kind(visit, kind)));
    let mut options: Vec<(&str, Cow<'_, str>)> = vec![("", visit.say(Word::Any))];
    options.extend(kinds);
    let count = Input {
        least: Some("2"),
        example: Some("5"),
        ..Input::WHOLE
    };
    let top = Input {
        least: Some("1"),
        most: Some("1000"),
        example: Some("20"),
        ..Input::WHOLE
    };
    html! {
        form.filters method="get" action="/disputes" {
            (visit.kept_fields())
            (fields::facet_ticks(visit))
            (fields::choice(visit, "kind", &visit.say(Word::Kind), &options))
            (fields::field(visit, "witnesses", &visit.either("witnesses at least", "至少幾家"), count))
            (fields::field(visit, "top", &visit.either("show so many", "顯示幾味"), top))
            (fields::scope_fields(visit))
            (fields::tick(visit, "jaccard", "yes", &visit.either("lists by common values alone", "只計共有之值")))
            (fields::tick(visit, "intervals", "yes", &visit.either("intervals of agreement (slower)", "一致度之區間（較慢）")))
            button type="submit" { (visit.say(Word::Show)) }
        }
    }
}

/// The periods as links that set the years.
fn periods(visit: &Visit<'_>) -> Markup {
    html! {
        nav.choices aria-label=(visit.say(Word::Period)) {
            ul {
                li { a href=(visit.here(&[("since", None), ("until", None)])) { (visit.say(Word::AllPeriods)) } }
                @for period in &PERIODS {
                    @let from = (period.from > i32::MIN).then(|| period.from.to_string());
                    @let to = (period.to < i32::MAX).then(|| period.to.to_string());
                    @let chosen = visit.asked.one("since") == from.as_deref() && visit.asked.one("until") == to.as_deref();
                    li { a href=(visit.here(&[("since", from.as_deref()), ("until", to.as_deref())]))
                        aria-current=[chosen.then_some("true")] { (visit.either(period.pinyin, period.han)) } }
                }
            }
        }
    }
}

fn ranking(visit: &Visit<'_>, books: &Books<'_>, view: &DisputesView) -> Markup {
    let heads = [
        visit.say(Word::Herb),
        visit.say(Word::Discord),
        visit.either("behind it", "所據"),
    ];
    let row = |(place, one): (usize, &DisputeView)| {
        vec![
            html! { (place + 1) ". " (pieces::herb(visit, &one.herb)) },
            html! {
                strong { (format!("{:.2}", one.discord)) }
                @if let Some(interval) = &one.interval { br; small { (format!("{:.2}–{:.2}", interval.low, interval.high)) } }
            },
            html! { @for facet in &one.facets { (disputed(visit, books, facet)) } },
        ]
    };
    let rows: Vec<Vec<Markup>> = view.disputes.iter().enumerate().map(row).collect();
    let caption = match visit.lang {
        crate::web::words::Lang::En => format!(
            "{} of {} herbs with {} witnesses or more; discord is the mean distance of two witnesses, 0 to 1, with its interval at 95 %",
            view.disputes.len(),
            view.herbs,
            view.least_witnesses
        ),
        crate::web::words::Lang::Zh => format!(
            "有 {} 家以上之藥 {} 味，列 {} 味；分歧為兩家之平均距離，由 0 至 1，附 95 % 區間",
            view.least_witnesses,
            view.herbs,
            view.disputes.len()
        ),
    };
    pieces::table("ranking", &caption, &heads, &rows)
}

fn disputed(visit: &Visit<'_>, books: &Books<'_>, one: &DisputedFacet) -> Markup {
    html! {
        details {
            summary {
                (pieces::facet(visit, one.facet)) " " (format!("{:.2}", one.discord)) " · "
                @for (place, kind) in one.kinds.iter().enumerate() { @if place > 0 { ", " } (pieces::kind(visit, *kind)) }
                " · " (one.witnesses) " " (visit.say(Word::WitnessesShort)) ", " (one.lines) " " (visit.say(Word::LinesShort))
            }
            ul { @for side in &one.sides {
                li { strong { (text(visit, &side.label)) } " " (side.witnesses.len()) ": " (books.list(visit, &side.witnesses)) }
            } }
        }
    }
}

fn agreement(visit: &Visit<'_>, agreements: &[AgreementView]) -> Markup {
    let two = |value: Option<f64>| {
        pieces::cell(value.map_or_else(|| "–".to_owned(), |value| format!("{value:.2}")))
    };
    let row = |one: &AgreementView| {
        vec![
            html! { (pieces::facet(visit, one.facet))
            @if let Some(period) = &one.period { ", " @if visit.lang == crate::web::words::Lang::Zh { (text(visit, &period.han)) } @else { (period.pinyin) } } },
            two(one.alpha),
            html! { @if let Some(interval) = &one.interval { (format!("{:.2}–{:.2}", interval.low, interval.high)) } },
            two(one.alpha_nominal),
            pieces::cell(one.herbs),
            pieces::cell(one.stands),
        ]
    };
    let heads = [
        visit.say(Word::Facet),
        visit.either("alpha", "α"),
        visit.either("interval", "區間"),
        visit.either("same or not", "只計同異"),
        visit.say(Word::Herbs),
        visit.say(Word::Stands),
    ];
    let rows: Vec<Vec<Markup>> = agreements.iter().map(row).collect();
    html! {
        h2 { (visit.either("How far the books agree on all herbs", "諸書於全部藥物之一致度")) }
        (pieces::table("agreement", &visit.either(
            "Krippendorff's alpha: 1 where all say the same, 0 where they agree as by chance",
            "Krippendorff 之 α：全同為 1，如出偶然為 0"), &heads, &rows))
    }
}

/// The lessons that can be saved: one a facet.
fn lessons(visit: &Visit<'_>) -> Vec<(Cow<'static, str>, String)> {
    let named = [
        (
            "flavour",
            "Lesson on flavours, HTML",
            "五味爭議講義（HTML）",
        ),
        ("nature", "Lesson on nature, HTML", "寒熱爭議講義（HTML）"),
        (
            "toxicity",
            "Lesson on toxicity, HTML",
            "毒性爭議講義（HTML）",
        ),
    ];
    let lesson = |(facet, english, chinese)| {
        (
            visit.either(english, chinese),
            visit.href("/lesson/html", &[("facet", facet)]),
        )
    };
    named.map(lesson).to_vec()
}
