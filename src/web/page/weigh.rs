//! `/weigh`: an amount or a formula in grams and millilitres, by every opinion.

use maud::{Markup, html};

use super::{pair_form, parts, together};
use crate::claim::Known;
use crate::measure::Measures;
use crate::report::ask::{self, Failure, WeighAsked};
use crate::report::view::{
    AskedAmount, HerbHeed, OpinionView, QuantityRange, SpanView, WeighView, WeighedView,
};
use crate::web::fields::{self, Input};
use crate::web::form_page::{FormPage, failed};
use crate::web::layout::{Leaf, text};
use crate::web::pieces::{self, Books};
use crate::web::reply::Answer;
use crate::web::route::{Page, Parameter, Takes};
use crate::web::visit::Visit;
use crate::web::words::{Lang, Word};

/// An amount or a formula.
pub(crate) struct Weigh;

impl Page for Weigh {
    type View = WeighView;
    const PATH: &'static str = "/weigh";
    const SUMMARY: &'static str =
        "What an amount or a formula comes to in grams, by every published opinion";
    const PARAMETERS: &'static [Parameter] = &[
        Parameter::many(
            "what",
            Takes::Text,
            "An amount as `3 liang`, or herbs with amounts as `芍藥=四兩`, several apart by commas",
        ),
        Parameter::one(
            "period",
            Takes::Text,
            "Only by the measures of this period; default: all, oldest first",
        ),
        Parameter::one(
            "daily",
            Takes::Text,
            "Scale the formula to so many grams a day",
        ),
    ];

    fn view(visit: &Visit<'_>) -> Answer<Self::View> {
        let measures = measures(visit)?;
        let words: Vec<String> = visit.asked.all("what").flat_map(ask::words_of).collect();
        if words.is_empty() {
            let nothing = Failure::new("nothing to weigh");
            return Err(nothing
                .with_hint("Such as what=3 liang, or what=芍藥=四兩,甘草=四兩.")
                .into());
        }
        let asked = WeighAsked {
            words: &words,
            period: visit.asked.one("period"),
            daily: visit.asked.one("daily"),
        };
        let library = &visit.shelf().library;
        Ok(ask::weigh(
            library,
            (&visit.labels(), &measures),
            &asked,
            None,
        )?)
    }

    fn page(visit: &Visit<'_>, view: &Self::View) -> Answer<Leaf> {
        Self::leaf(visit, Some(view), None)
    }
}

fn measures<'v>(visit: &Visit<'v>) -> Answer<Measures<'v>> {
    let measures = Measures::new(&visit.corpus().vocabulary.measures);
    Ok(measures.map_err(|error| Failure::new(error.to_string()))?)
}

impl FormPage for Weigh {
    fn is_asked(visit: &Visit<'_>) -> bool {
        visit.asked.one("what").is_some()
    }

    fn leaf(
        visit: &Visit<'_>,
        view: Option<&WeighView>,
        failure: Option<&Failure>,
    ) -> Answer<Leaf> {
        let title = visit.either("What old amounts weigh", "古今度量衡");
        let main = html! {
            h1 { (title) }
            (failed(visit, failure))
            @if let Some(view) = view { (cautions(visit, view)) }
            (form(visit)?)
            @if let Some(view) = view { (weighed(visit, view)) }
        };
        Ok(Leaf {
            title: title.into_owned(),
            section: "/weigh",
            main,
        })
    }
}

fn form(visit: &Visit<'_>) -> Answer<Markup> {
    let what = visit.asked.all("what").collect::<Vec<_>>().join(", ");
    let what = Input {
        value: Some(&what),
        example: Some("三兩 · 3 liang · 芍藥=四兩, 甘草=四兩"),
        needed: true,
        ..Input::TEXT
    };
    let daily = Input {
        example: Some("9"),
        ..Input::DECIMAL
    };
    let all = visit.say(Word::AllPeriods);
    Ok(html! {
        form.filters method="get" action="/weigh" {
            (visit.kept_fields())
            (fields::field(visit, "what", &visit.either("an amount, or herbs with amounts", "用量，或藥物與用量"), what))
            (pair_form::periods(visit, &measures(visit)?, &all))
            (fields::field(visit, "daily", &visit.either("scale a formula to so many grams a day", "將方折為一日幾克"), daily))
            button type="submit" { (visit.say(Word::Show)) }
        }
    })
}

/// What must be heeded of a formula; of an amount alone the notice.
fn cautions(visit: &Visit<'_>, view: &WeighView) -> Markup {
    let books = Books(&view.works);
    html! {
        section.cautions aria-labelledby="cautions" {
            h2 #cautions { (visit.say(Word::Cautions)) }
            @if !view.herbs.is_empty() {
                ul {
                    (together::warnings(visit, &books, &view.together))
                    @for one in &view.herbs { (heed(visit, &books, one)) }
                }
            }
            p { strong { (visit.say(Word::Notice)) } }
        }
    }
}

fn heed(visit: &Visit<'_>, books: &Books<'_>, one: &HerbHeed) -> Markup {
    html! {
        @for caution in &one.cautions { (pieces::caution(visit, &one.herb, caution)) }
        @for warning in &one.warnings { (pieces::severest(visit, books, &one.herb, warning)) }
        @if one.cautions.is_empty() && one.warnings.is_empty() {
            li { (pieces::herb(visit, &one.herb)) ": " (visit.say(Word::NoneOnRecord)) }
        }
    }
}

fn weighed(visit: &Visit<'_>, view: &WeighView) -> Markup {
    let books = Books(&view.works);
    html! {
        h2 { @if let Some(name) = &view.name { (text(visit, name)) ": " }
            @for (place, asked) in view.asked.iter().enumerate() { @if place > 0 { ", " } (named(visit, asked)) " " (written(visit, asked)) } }
        @for note in view.asked.iter().flat_map(|asked| &asked.notes) { p.note role="status" { (text(visit, note)) } }
        (daily(visit, view))
        @for period in &view.periods { (one_period(visit, view, period)) }
        @if !view.left_out.is_empty() {
            h2 { (visit.either("Not weighed in", "未能折算之時代")) }
            ul { @for one in &view.left_out {
                li { (period_name(visit, &one.period.name, &one.period.english)) ": " (one.unit) " "
                    (visit.either("is no unit of it on record; known:", "未見著錄；已知者：")) " " (one.known.join(", ")) }
            } }
        }
        p.note { (visit.either(
            "All published opinions on record, none preferred. Figures are exact until shown, then rounded to three places.",
            "所列為已著錄之全部公開見解，不作取捨。數值至顯示時方捨入至三位。")) }
        (grades(visit, &books, view))
        (together::partners(visit, &books, &view.together))
        (pieces::strip(visit, &gravest(visit, view)))
    }
}

/// What stays in view: every forbidden pair; where there is none, the first caution of each herb.
fn gravest(visit: &Visit<'_>, view: &WeighView) -> Vec<Markup> {
    let forbidden = view.together.forbidden.iter();
    let forbidden = forbidden.map(|pair| html! { (text(visit, &pair.one.name)) " " (visit.say(Word::MustNotMeet)) " " (text(visit, &pair.other.name)) });
    let mut lines: Vec<Markup> = forbidden.collect();
    if lines.is_empty() {
        lines.extend(view.herbs.iter().map(|one| html! {
            (text(visit, &one.herb.name)) ": "
            @if let Some(caution) = one.cautions.first() { (parts::caution_words(visit, caution)) }
            @else { (visit.say(Word::NoneOnRecord)) }
        }));
    }
    if lines.is_empty() {
        lines.push(html! { (visit.say(Word::Notice)) });
    }
    lines
}

fn period_name(visit: &Visit<'_>, name: &str, english: &str) -> Markup {
    html! { (text(visit, name)) @if visit.lang == Lang::En { " " (english) } }
}

fn named(visit: &Visit<'_>, asked: &AskedAmount) -> Markup {
    html! { @if let Some(herb) = &asked.herb { (pieces::herb(visit, herb)) } }
}

fn written(visit: &Visit<'_>, asked: &AskedAmount) -> Markup {
    html! { (asked.amount) @if let Some(han) = &asked.han { " (" (text(visit, han)) ")" } }
}

fn daily(visit: &Visit<'_>, view: &WeighView) -> Markup {
    let heads = [
        visit.say(Word::Herb),
        visit.say(Word::Amount),
        visit.say(Word::Share),
        visit.either("a day", "一日"),
    ];
    html! { @if let Some(daily) = &view.daily {
        @let rows: Vec<Vec<Markup>> = view.asked.iter().zip(&daily.herbs).map(|(asked, one)| vec![
            named(visit, asked), written(visit, asked),
            pieces::cell(format!("{} %", one.share.shown)), pieces::cell(format!("{} g", one.grams.shown)),
        ]).collect();
        @let caption = format!("{} {} g", visit.either("Scaled to a day's", "折為一日"), daily.grams.shown);
        (pieces::table("scaled", &caption, &heads, &rows))
    } }
}

fn one_period(visit: &Visit<'_>, view: &WeighView, period: &WeighedView) -> Markup {
    let about = &period.period;
    let year = |year: Option<i32>| year.map_or_else(String::new, |year| year.to_string());
    html! {
        section {
            h2 { (period_name(visit, &about.name, &about.english)) @if about.from.is_some() || about.to.is_some() { " (" (year(about.from)) "–" (year(about.to)) ")" } }
            @for one in &period.relations { p.note { (one.relation) " (" span lang="en" { (text(visit, &one.source)) }
                @if one.known == Known::Memory { " " (visit.say(Word::FromMemory)) } ")" } }
            @if period.opinions.is_empty() { p { (visit.either("No opinion on record of what it weighs.", "其重未見有說。")) } }
            @else { (opinions(visit, period)) }
            @for range in &period.ranges { p { strong { (summary(visit, range)) } } }
            @if !view.herbs.is_empty() { (amounts(visit, view, period)) }
        }
    }
}

fn opinions(visit: &Visit<'_>, period: &WeighedView) -> Markup {
    let heads = [
        visit.either("one of it", "一單位"),
        visit.either("all together", "合計"),
        visit.either("who says so", "出處"),
    ];
    let row = |one: &OpinionView| {
        let unit = one.measure.as_ref().unwrap_or(&one.unit);
        vec![
            pieces::cell(format!("1 {unit} = {}", span(&one.each, one.sign))),
            pieces::cell(span(&one.total, one.sign)),
            html! { span lang="en" { (text(visit, &one.source)) @if let Some(note) = &one.note { "; " (text(visit, note)) } }
            @if one.known == Some(Known::Memory) { " " (visit.say(Word::FromMemory)) }
            @if one.commonest { "; " strong { (visit.either("the commonest practice", "最通行")) } } },
        ]
    };
    let rows: Vec<Vec<Markup>> = period.opinions.iter().map(row).collect();
    let id = format!("opinions-{}", period.period.id);
    pieces::table(
        &id,
        &visit.either("By each opinion", "各家之說"),
        &heads,
        &rows,
    )
}

/// `13.75–13.875 g`
fn span(span: &SpanView, sign: &str) -> String {
    if span.least == span.greatest {
        format!("{} {sign}", span.value.shown)
    } else {
        format!("{}–{} {sign}", span.least.shown, span.greatest.shown)
    }
}

fn summary(visit: &Visit<'_>, range: &QuantityRange) -> Markup {
    html! {
        (range.least.shown) @if range.least != range.greatest { "–" (range.greatest.shown) } " " (range.sign) " ("
        (range.opinions) " " (visit.either("opinions", "說")) ")"
        @if let Some(one) = &range.commonest { "; " (visit.either("the commonest practice", "最通行")) ": " (one.figure.shown) " " (range.sign) }
    }
}

fn amounts(visit: &Visit<'_>, view: &WeighView, period: &WeighedView) -> Markup {
    let heads = [
        visit.say(Word::Herb),
        visit.say(Word::Amount),
        visit.say(Word::Share),
        visit.either("by all opinions", "諸說"),
        visit.either("commonest practice", "最通行"),
    ];
    let rows: Vec<Vec<Markup>> = view
        .asked
        .iter()
        .zip(&period.amounts)
        .map(|(asked, one)| {
            vec![
                named(visit, asked),
                written(visit, asked),
                html! { @if let Some(share) = &one.share { (share.shown) " %" } @else { "–" } },
                html! { @match (&one.least, &one.greatest) {
                    (Some(least), Some(greatest)) if least == greatest => { (least.shown) " " (one.sign) }
                    (Some(least), Some(greatest)) => { (least.shown) "–" (greatest.shown) " " (one.sign) }
                    _ => { (visit.either("no opinion", "無說")) }
                } },
                html! { @if let Some(figure) = &one.commonest { (figure.shown) " " (one.sign) } @else { "–" } },
            ]
        })
        .collect();
    let id = format!("amounts-{}", period.period.id);
    pieces::table(&id, &visit.either("The herbs", "藥物"), &heads, &rows)
}

fn grades(visit: &Visit<'_>, books: &Books<'_>, view: &WeighView) -> Markup {
    html! { @if view.herbs.iter().any(|one| !one.grades.is_empty()) {
        h2 { (visit.either("What the oldest grade implies", "最早之品第與用量")) }
        ul { @for (one, grade) in view.herbs.iter().flat_map(|one| one.grades.iter().map(move |grade| (one, grade))) {
            li { (pieces::herb(visit, &one.herb)) ": " (pieces::value(visit, &grade.grade)) " (" (books.dated(visit, &grade.work)) ")"
                @if let Some(implies) = &grade.implies { ": " span lang="en" { (text(visit, implies)) } } }
        } }
    } }
}
