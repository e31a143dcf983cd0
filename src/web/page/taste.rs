//! `/taste` and `/taste/note/{id}`: the notebook, and one tasting of it.

use std::path::Path;

use maud::{Markup, html};

use crate::corpus::Finding;
use crate::report::ask::{self, Failure, Listed};
use crate::report::view::{TastingRow, TastingView, TastingsView};
use crate::tasting::{Day, Field, Notebook, Why};
use crate::web::asked::encoded;
use crate::web::fields::{self, Input};
use crate::web::layout::{Leaf, han, text};
use crate::web::pieces::{self, Books};
use crate::web::reply::{Answer, Halt};
use crate::web::route::{Page, Parameter, Takes};
use crate::web::visit::Visit;
use crate::web::words::Word;

/// The list of tastings.
pub(crate) struct Tastings;

/// One tasting.
pub(crate) struct Note;

/// The notebook of the room, with what is wrong in it; a folder that is not there yet is an empty notebook.
pub(super) fn notebook(visit: &Visit<'_>) -> Answer<(Notebook, Vec<Finding>)> {
    let settings = &visit.room.settings;
    let Some(folder) = settings.notebook.as_deref() else {
        let failure = Failure::new("no notebook is open in this room");
        return Err(Halt::missing(
            failure.with_hint("Name one: kaoyi serve --notebook DIR"),
        ));
    };
    let cache = settings.cache.as_deref();
    Ok(Notebook::open_with(folder, visit.corpus(), cache))
}

/// A path as it is told: to others than this machine's user by its last part alone.
fn told(visit: &Visit<'_>, path: &Path) -> String {
    let whole = path.display().to_string();
    match path.file_name() {
        Some(name) if visit.room.settings.read_only => name.to_string_lossy().into_owned(),
        _ => whole,
    }
}

impl Page for Tastings {
    type View = TastingsView;
    const PATH: &'static str = "/taste";
    const SUMMARY: &'static str = "The tastings of the notebook, newest first";
    const PARAMETERS: &'static [Parameter] = &[
        Parameter::one("herb", Takes::Text, "Only tastings of this herb"),
        Parameter::one("taster", Takes::Text, "Only tastings by this taster"),
        Parameter::one(
            "since",
            Takes::Text,
            "Only tastings of this day or later: 2026-03-14",
        ),
        Parameter::one("until", Takes::Text, "Only tastings of this day or earlier"),
        Parameter::one("top", Takes::Whole, "Show so many; default: 20"),
    ];

    fn view(visit: &Visit<'_>) -> Answer<Self::View> {
        let (notebook, findings) = notebook(visit)?;
        let herb = visit.asked.one("herb");
        let herb = herb.map(|name| ask::herb_of(visit.corpus(), &notebook, name));
        let herb = herb.transpose()?.map(|(herb, _)| herb);
        let listed = Listed {
            herb: herb.as_deref(),
            taster: visit.asked.one("taster"),
            since: day(visit, "since")?,
            until: day(visit, "until")?,
        };
        let matching = ask::list(&notebook, &listed)?;
        let top = visit.whole("top", 20, 100_000)?;
        let mut view = TastingsView::new(&visit.labels(), &notebook, &matching, top, findings)?;
        view.notebook = told(visit, notebook.folder());
        for finding in &mut view.findings {
            finding.file = told(visit, Path::new(&finding.file));
        }
        Ok(view)
    }

    fn page(visit: &Visit<'_>, view: &Self::View) -> Answer<Leaf> {
        let main = html! {
            h1 { (visit.say(Word::Taste)) }
            p { (view.total) " " (visit.either("tastings in", "次品嘗，載於")) " " code { (view.notebook) }
                @if view.matching < view.total { "; " (view.matching) " " (visit.either("as asked for", "合於所求")) } }
            (ways(visit))
            (form(visit))
            (pieces::findings(visit, &view.findings))
            @if !view.tastings.is_empty() { (table(visit, view)) }
            (passed_over(visit, view))
            p { (limits(visit)) }
            (pieces::listed(visit, &view.cautions))
        };
        Ok(Leaf {
            title: visit.say(Word::Taste).into_owned(),
            section: "/taste",
            main,
        })
    }
}

/// What holds for every tasting.
pub(super) fn limits(visit: &Visit<'_>) -> std::borrow::Cow<'static, str> {
    visit.either(
        crate::tasting::LIMITS,
        "為識藥而嘗之量，非日用之量。有毒之藥，絕不可嘗。",
    )
}

fn day(visit: &Visit<'_>, name: &str) -> Answer<Option<Day>> {
    let day = visit.asked.one(name).map(str::parse::<Day>).transpose();
    Ok(day.map_err(|error| Failure::new(format!("`{name}`: {error}")))?)
}

fn ways(visit: &Visit<'_>) -> Markup {
    html! {
        nav.choices aria-label=(visit.say(Word::Taste)) { ul {
            @if !visit.room.settings.read_only { li { a href=(visit.href("/taste/add", &[])) { (visit.either("Note a tasting", "記一次品嘗")) } } }
            li { a href=(visit.href("/taste/panel", &[])) { (visit.either("A class: read a table of scores", "一班之評分表")) } }
        } }
    }
}

fn form(visit: &Visit<'_>) -> Markup {
    let date = Input {
        kind: "date",
        ..Input::TEXT
    };
    let top = Input {
        least: Some("1"),
        example: Some("20"),
        ..Input::WHOLE
    };
    html! {
        form.filters method="get" action="/taste" {
            (visit.kept_fields())
            (fields::field(visit, "herb", &visit.say(Word::Herb), Input::TEXT))
            (fields::field(visit, "taster", &visit.say(Word::Taster), Input::TEXT))
            (fields::field(visit, "since", &visit.either("from the day", "自"), date))
            (fields::field(visit, "until", &visit.either("to the day", "至"), date))
            (fields::field(visit, "top", &visit.either("show so many", "顯示幾次"), top))
            button type="submit" { (visit.say(Word::Show)) }
        }
    }
}

/// An herb of a tasting; one that the corpus does not have is not linked.
fn herb(visit: &Visit<'_>, row: &TastingRow) -> Markup {
    html! { @if row.known { (pieces::herb(visit, &row.herb)) } @else { (text(visit, &row.herb.name)) " ?" } }
}

fn flavours(visit: &Visit<'_>, row: &TastingRow) -> Markup {
    html! { @for (place, one) in row.flavours.iter().enumerate() {
        @if place > 0 { ", " } (pieces::value(visit, &one.flavour)) " " (one.score.to_string())
    } }
}

fn table(visit: &Visit<'_>, view: &TastingsView) -> Markup {
    let heads = [
        visit.say(Word::Day),
        visit.say(Word::Herb),
        visit.say(Word::Taster),
        visit.either("cup", "杯"),
        visit.say(Word::Flavours),
        visit.say(Word::Warmth),
    ];
    let row = |row: &TastingRow| {
        let get = |field: Field| field.get(&row.tasting).unwrap_or_default();
        let cup = [
            (Field::Amount, " g"),
            (Field::Hours, " h"),
            (Field::Code, ""),
        ];
        let cup = cup.map(|(field, unit)| {
            field
                .get(&row.tasting)
                .map(|value| format!("{value}{unit}"))
        });
        let cup: Vec<String> = cup.into_iter().flatten().collect();
        vec![
            html! { a href=(note_href(visit, &row.id)) { (row.tasting.date.to_string()) } },
            herb(visit, row),
            pieces::cell(get(Field::Taster)),
            pieces::cell(cup.join(", ")),
            flavours(visit, row),
            pieces::cell(get(Field::Warmth)),
        ]
    };
    let rows: Vec<Vec<Markup>> = view.tastings.iter().map(row).collect();
    let caption = visit.either("Newest first", "新者在前");
    html! {
        (pieces::table("tastings", &caption, &heads, &rows))
        @if view.tastings.len() < view.matching {
            @let all = view.matching.to_string();
            p { a href=(visit.here(&[("top", Some(all.as_str()))])) { (visit.either("Show all", "全部顯示")) " (" (view.matching) ")" } }
        }
    }
}

fn passed_over(visit: &Visit<'_>, view: &TastingsView) -> Markup {
    html! { @if !view.passed_over.is_empty() {
        details {
            summary { (view.passed_over.len()) " " (visit.either("files passed over", "文件未取")) }
            ul { @for one in &view.passed_over {
                li { code { (one.file) } ": " (match one.why {
                    Why::Copy => visit.either("says the same as another file, which counts", "與他文件同，只計其一"),
                    Why::Conflict => visit.either("another state of a file that counts: keep one of the two", "同一文件之另一狀態：請留其一"),
                    Why::Unfinished => visit.either("left by a run that was ended while it wrote", "書寫中斷所遺"),
                    Why::Name => visit.either("its name does not end in .yaml", "其名不以 .yaml 結尾"),
                    Why::Folder => visit.either("a folder", "文件夾"),
                }) @if let Some(counts) = &one.counts { " (" code { (counts) } ")" } }
            } }
        }
    } }
}

/// The address of a tasting's page.
pub(super) fn note_href(visit: &Visit<'_>, id: &str) -> String {
    visit.href(&format!("/taste/note/{}", encoded(id)), &[])
}

impl Page for Note {
    type View = TastingView;
    const PATH: &'static str = "/taste/note/{id}";
    const SUMMARY: &'static str =
        "One tasting of the notebook, by its id, its beginning or end, or `last`";
    const PARAMETERS: &'static [Parameter] = &[Parameter::one(
        "done",
        Takes::Flag,
        "It was written just now",
    )];

    fn view(visit: &Visit<'_>) -> Answer<Self::View> {
        let (notebook, _) = notebook(visit)?;
        let word = visit.name("id");
        let noted = ask::find(&notebook, word).map_err(Halt::missing)?;
        if noted.id != word {
            let api = if visit.path.starts_with("/api/") {
                "/api"
            } else {
                ""
            };
            return Err(Halt::Elsewhere(format!(
                "{api}{}",
                note_href(visit, &noted.id)
            )));
        }
        let file = told(visit, &notebook.path(&noted.id));
        Ok(TastingView::new(&visit.labels(), file, noted)?)
    }

    fn page(visit: &Visit<'_>, view: &Self::View) -> Answer<Leaf> {
        let row = &view.row;
        let day = row.tasting.date.to_string();
        let main = html! {
            h1 { span lang=(han(visit)) { (row.herb.name) } " " (row.herb.pinyin) ": " (day) }
            @if visit.asked.one("done").is_some() { p.done role="status" { (visit.either("Written.", "已記下。")) } }
            @if !row.known { p { (visit.either("No herb here is called so: nothing of the books or of cautions is known of it.", "此處無此藥名：書中之說與警示皆不知。")) } }
            (facts(visit, view))
            @if let Some(one) = &row.tasting.overridden {
                p.grave { strong { (visit.either("Tasted in spite of what is against it", "不顧所戒而嘗")) ": " (one.reason) } }
            }
            @if row.known { p {
                a href=(visit.herb_href(&row.herb.id)) { (visit.either("What the books say", "諸書之說")) } " · "
                a href=(visit.href(&format!("/taste/against/{}", encoded(&row.herb.id)), &[])) { (visit.either("My tastings beside the books", "自嘗與諸書")) }
            } }
            p { (limits(visit)) }
            (pieces::heed(visit, &Books(&view.works), &view.heed))
        };
        Ok(Leaf {
            title: format!("{} {day}", row.herb.name),
            section: "/taste",
            main,
        })
    }
}

/// What was written down.
fn facts(visit: &Visit<'_>, view: &TastingView) -> Markup {
    let row = &view.row;
    let told = |field: Field| {
        let value = field.get(&row.tasting);
        html! { @if let Some(value) = value { div { dt { (super::taste_fields::name(visit, &field)) } dd { (text(visit, &value)) (super::taste_fields::unit(&field)) } } } }
    };
    html! {
        dl.facts {
            div { dt { (visit.say(Word::Herb)) } dd { (herb(visit, row)) } }
            @for field in super::taste_fields::CUP { (told(field.clone())) }
            @if !row.flavours.is_empty() { div { dt { (visit.say(Word::Flavours)) } dd { (flavours(visit, row)) } } }
            @for field in super::taste_fields::FELT { (told(field.clone())) }
            div { dt { (visit.either("file", "文件")) } dd { code { (view.file) } } }
        }
    }
}
