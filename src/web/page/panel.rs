//! `/taste/panel`: a table of a class is read in memory and never written.

use maud::{Markup, html};

use super::books_side::{self, Whose};
use super::parts;
use super::taste::limits;
use crate::report::ask::{self, Failure};
use crate::report::view::{
    AgreementOfPanel, AttributeRef, AttributeView, MadeView, PanelView, RepeatView, RepeatsView,
    TasterView,
};
use crate::tasting::Gathered;
use crate::web::form_page::{failed, form as form_reply};
use crate::web::layout::{Leaf, han, text};
use crate::web::pieces::{self, Books, points};
use crate::web::reply::{Answer, HTML, Halt, Reply};
use crate::web::route::{Page, Parameter, Route, SCOPE, Takes};
use crate::web::visit::Visit;
use crate::web::words::{Lang, Word};

/// The panel of a table that was sent.
pub(crate) struct Panel;

const PATH: &str = "/taste/panel";

/// The form, and its answers as a page and as JSON.
pub(crate) fn routes() -> [Route; 3] {
    let [page, twin] = Route::page::<Panel>();
    let page = Route {
        respond: sent,
        ..page.posted(FIELDS, false)
    };
    let form = Route::file(PATH, HTML, "A form for the table of a class", &[], empty);
    [form, page, twin.posted(FIELDS, false)]
}

const FIELDS: &[Parameter] = &[
    Parameter::one(
        "table",
        Takes::File,
        "The table of the tasters, as comma-separated values",
    ),
    Parameter::one("herb", Takes::Text, "The herb, where the table has several"),
    SCOPE[1],
    SCOPE[2],
];

impl Page for Panel {
    type View = PanelView;
    const PATH: &'static str = PATH;
    const SUMMARY: &'static str = "Many tasters of one herb, beside the books";
    const PARAMETERS: &'static [Parameter] = &[];

    fn view(visit: &Visit<'_>) -> Answer<Self::View> {
        let posted = visit.posted.as_ref();
        let file = posted.and_then(|posted| posted.file("table"));
        let file = file.ok_or_else(|| {
            Failure::new("no table was sent")
                .with_hint("A file of comma-separated values in the field `table`.")
        })?;
        let gathered = Gathered::of_table(visit.corpus(), &ask::shorten(&file.name), &file.bytes);
        let field = |name: &str| posted.and_then(|posted| posted.fields.one(name));
        let year = |name: &str| field(name).and_then(|year| year.trim().parse().ok());
        let selection = ask::selection(visit.corpus(), &[], year("since"), year("until"))?;
        let herb = field("herb")
            .map(|name| ask::herb(visit.corpus(), name))
            .transpose()?;
        let herb = herb.map(|named| visit.corpus().place_of(named.herb));
        Ok(ask::panel(&visit.labels(), &selection, &gathered, herb)?)
    }

    fn page(visit: &Visit<'_>, view: &Self::View) -> Answer<Leaf> {
        Ok(leaf(visit, Some(view), None))
    }
}

fn empty(visit: &Visit<'_>) -> Answer<Reply> {
    Ok(form_reply(visit, &leaf(visit, None, None)))
}

fn sent(visit: &Visit<'_>) -> Answer<Reply> {
    match Panel::view(visit) {
        Ok(view) => Ok(form_reply(visit, &leaf(visit, Some(&view), None))),
        Err(Halt::Failure(status, failure)) => {
            Ok(form_reply(visit, &leaf(visit, None, Some(&failure))).with(status))
        }
        Err(elsewhere) => Err(elsewhere),
    }
}

fn leaf(visit: &Visit<'_>, view: Option<&PanelView>, failure: Option<&Failure>) -> Leaf {
    let title = visit.either("A panel", "品嘗小組");
    let main = html! {
        @if let Some(view) = view { (pieces::herb_heading(visit, &view.herb, &title)) } @else { h1 { (title) } }
        (failed(visit, failure))
        @if let Some(view) = view { (shown_panel(visit, view)) }
        (form(visit))
    };
    Leaf {
        title: title.into_owned(),
        section: "/taste",
        main,
    }
}

fn form(visit: &Visit<'_>) -> Markup {
    html! {
        form.filters method="post" action=(visit.href(PATH, &[])) enctype="multipart/form-data" aria-label=(visit.either("A table", "評分表")) {
            (visit.token_field())
            p { (visit.either(
                "The table is read in memory and never written to disk. Its first row names the columns: herb, taster, date, flavours, thickness, lingering, aroma, warmth and others.",
                "評分表只在記憶體中讀取，不寫入磁碟。首行為欄名：herb、taster、date、各味、thickness、lingering、aroma、warmth 等。"))
                " " (visit.either("An empty one:", "空表：")) " " code { "kaoyi taste form HERB --csv" } }
            p { strong { (limits(visit)) } }
            div.field {
                label for="table" { (visit.either("the table (CSV, at most 2 MiB)", "評分表（CSV，至多 2 MiB）")) }
                input #table name="table" type="file" accept=".csv,.tsv,.txt,text/csv" required;
            }
            div.field {
                label for="herb" { (visit.either("the herb, where there are several", "藥物（表中有多味時）")) }
                input #herb name="herb" type="text" maxlength="60";
            }
            button type="submit" { (visit.say(Word::Show)) }
        }
    }
}

fn shown_panel(visit: &Visit<'_>, view: &PanelView) -> Markup {
    let books = Books(&view.works);
    html! {
        (pieces::heed(visit, &books, &view.heed))
        (pieces::findings(visit, &view.findings))
        (read(visit, view))
        p { (made(&view.made)) }
        (pieces::filter(visit, &books, view.filter.as_ref()))
        (attributes(visit, &view.attributes))
        h2 { (visit.either("Agreement of the tasters", "品嘗者之一致度")) }
        @if let Some(found) = &view.agreement { p { (alpha(found)) } }
        @else { p { (visit.either("Cannot be told", "不可得")) @if let Some(why) = &view.no_agreement { ": " span lang="en" { (why) } } } }
        p.note { (visit.either(
            "Krippendorff's alpha by points: 1 where all score alike, 0 where they agree as by chance. Where an herb has little of anything it is low however near the scores are: read it beside the deviations.",
            "按分數之 Krippendorff α：評分全同為 1，如出偶然為 0。味皆淡者，分數雖近而 α 亦低：當與偏差並看。")) }
        (tasters(visit, &view.beside_others))
        @if let Some(repeats) = &view.repeats { (repeated(visit, repeats)) }
        (books_side::against(visit, &view.against_books, Whose::Panel))
        (parts::strip(visit, &[("cautions", &view.herb.name, &view.heed)]))
    }
}

fn read(visit: &Visit<'_>, view: &PanelView) -> Markup {
    let read = &view.read;
    let more = [
        (
            read.of_other_herbs,
            visit.either("more of other herbs", "次屬他藥"),
        ),
        (
            read.not_counted,
            visit.either(
                "without taster or score, not counted",
                "次未記品嘗者或評分，未計",
            ),
        ),
        (
            read.left_out,
            visit.either("left out for a fault", "行有誤未取"),
        ),
        (read.unfilled, visit.either("not filled in", "行未填")),
    ];
    html! {
        p { (visit.fill(Word::TastersTastingsCups, &[&view.tasters.to_string(), &read.counted.to_string(), &view.cups.to_string()]))
            @for (number, what) in more { @if number > 0 { "; " (number) " " (what) } } }
    }
}

fn made(made: &MadeView) -> String {
    let list = |values: &[String], unit: &str| {
        (!values.is_empty()).then(|| format!("{}{unit}", values.join("; ")))
    };
    let days = match made.dates.as_slice() {
        [first, .., last] => Some(format!("{first} – {last}")),
        one => one.first().cloned(),
    };
    let parts = [
        days,
        list(&made.lots, ""),
        list(&made.parts, ""),
        list(&made.preparations, ""),
        list(&made.amounts, " g"),
        list(&made.water, " ml"),
        list(&made.hours, " h"),
    ];
    parts.into_iter().flatten().collect::<Vec<_>>().join(" · ")
}

/// What an attribute is called.
fn name(visit: &Visit<'_>, attribute: &AttributeRef) -> Markup {
    html! { @match &attribute.han {
        Some(label) => { span lang=(han(visit)) { (label) } @if visit.lang == Lang::En { " " (attribute.english) } }
        None => { (super::taste_against::attribute(visit, &attribute.id)) }
    } }
}

fn attributes(visit: &Visit<'_>, all: &[AttributeView]) -> Markup {
    let heads = [
        visit.either("scored", "所評"),
        visit.either("tasters", "人數"),
        visit.say(Word::Median),
        visit.either("middle half", "中間半數"),
        visit.either("from lowest to highest", "最低至最高"),
        visit.either("deviation", "偏差"),
    ];
    let span = |pair: Option<(f64, f64)>| {
        pieces::cell(pair.map_or_else(String::new, |(low, high)| {
            format!("{} – {}", points(low), points(high))
        }))
    };
    let one = |value: Option<f64>| pieces::cell(value.map_or_else(String::new, points));
    let row = |of: &AttributeView| {
        vec![
            name(visit, &of.attribute),
            pieces::cell(of.n),
            one(of.median),
            span(of.quartiles),
            span(of.range),
            one(of.deviation),
        ]
    };
    let rows: Vec<Vec<Markup>> = all.iter().filter(|one| one.n > 0).map(row).collect();
    let caption = visit.either(
        "What the panel tastes: points 0 to 10, warmth -5 (cold) to 5 (hot); what a taster left empty is unsaid and not zero",
        "小組所嘗：0 至 10 分，寒熱由 -5（寒）至 5（熱）；未填者為未言，非零",
    );
    html! {
        @if rows.is_empty() { p { (visit.either("Nobody scored anything.", "無人評分。")) } }
        @else { (pieces::table("attributes", &caption, &heads, &rows)) }
        @if all.iter().any(|one| one.n == 0) {
            p { (visit.say(Word::Unsaid)) ": "
                @for (place, one) in all.iter().filter(|one| one.n == 0).enumerate() { @if place > 0 { ", " } (name(visit, &one.attribute)) } }
        }
    }
}

fn alpha(found: &AgreementOfPanel) -> String {
    let mut words = format!("α {:.2}", found.alpha);
    if let Some((low, high)) = found.interval {
        words.push_str(&format!(" (95 %: {low:.2} – {high:.2})"));
    }
    if let Some((low, high)) = found.without_one {
        words.push_str(&format!("; n−1: {low:.2} – {high:.2}"));
    }
    if let Some(ordinal) = found.ordinal {
        words.push_str(&format!("; ordinal {ordinal:.2}"));
    }
    words
}

fn tasters(visit: &Visit<'_>, all: &[TasterView]) -> Markup {
    let heads = [
        visit.say(Word::Taster),
        visit.either("attributes", "項數"),
        visit.either("distance", "距離"),
        visit.either("lean", "偏向"),
        visit.either("farthest", "最遠者"),
    ];
    let row = |one: &TasterView| {
        vec![
            html! { @if one.outlying { strong { "! " (text(visit, &one.taster)) } } @else { (text(visit, &one.taster)) } },
            pieces::cell(one.n),
            pieces::cell(one.distance.map_or_else(String::new, points)),
            pieces::cell(one.lean.map_or_else(String::new, |lean| {
                format!("{}{}", if lean > 0.0 { "+" } else { "" }, points(lean))
            })),
            html! { @for (place, apart) in one.farthest.iter().enumerate() {
                @if place > 0 { ", " } (name(visit, &apart.attribute)) " " (points(apart.own)) " (" (visit.either("others", "他人")) " " (points(apart.others)) ")"
            } },
        ]
    };
    let rows: Vec<Vec<Markup>> = all.iter().map(row).collect();
    let caption = visit.either(
        "The tasters beside the others. Distance: mean difference to the median of the others, in points; !: out of the common run, which may be a finer tongue as well as a coarser one",
        "各人與他人。距離：與他人中位數之平均差；!：異於常者，或舌更敏，或更鈍",
    );
    html! { @if all.iter().any(|one| one.distance.is_some()) { (pieces::table("tasters", &caption, &heads, &rows)) } }
}

fn repeated(visit: &Visit<'_>, repeats: &RepeatsView) -> Markup {
    let heads = [
        visit.say(Word::Taster),
        visit.either("cups", "杯"),
        visit.either("own cups apart", "自異"),
        visit.either("from others apart", "與人異"),
    ];
    let row = |one: &RepeatView| {
        vec![
            html! { (text(visit, &one.taster)) },
            pieces::cell(one.cups),
            pieces::cell(points(one.within)),
            pieces::cell(one.between.map_or_else(String::new, points)),
        ]
    };
    let rows: Vec<Vec<Markup>> = repeats.tasters.iter().map(row).collect();
    html! {
        h2 { (visit.either("The same thing twice", "同物再嘗")) }
        p { (visit.either("Two own cups differ on average by", "自己兩杯平均相差")) " " (points(repeats.within))
            @if let Some(between) = repeats.between { "; " (visit.either("an own cup and another taster's by", "自己與他人相差")) " " (points(between)) } }
        (pieces::table("repeats", &visit.either("Mean differences in points", "平均差（分）"), &heads, &rows))
    }
}
