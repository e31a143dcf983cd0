//! `/taste/against/{id}`: the own tongue beside the books.

use std::borrow::Cow;

use maud::{Markup, html};

use super::books_side::{self, Whose};
use super::parts;
use super::taste::notebook;
use crate::report::ask::{self, Failure};
use crate::report::view::{
    ChangeOfTaste, GroupView, OwnFigures, SidesView, SurprisingView, TasteAgainstView,
};
use crate::web::layout::{Leaf, text};
use crate::web::pieces::{self, Books, points};
use crate::web::reply::{Answer, Halt};
use crate::web::route::{AS, Page, Parameter, SCOPE, Takes};
use crate::web::visit::Visit;
use crate::web::words::Word;

/// Own tastings of an herb against the books.
pub(crate) struct TasteAgainst;

impl Page for TasteAgainst {
    type View = TasteAgainstView;
    const PATH: &'static str = "/taste/against/{id}";
    const SUMMARY: &'static str = "The tastings of an herb in the notebook, beside the books";
    const PARAMETERS: &'static [Parameter] = &[
        AS,
        Parameter::one("taster", Takes::Text, "Only tastings by this taster"),
        SCOPE[0],
        SCOPE[1],
        SCOPE[2],
    ];

    fn view(visit: &Visit<'_>) -> Answer<Self::View> {
        let herb = visit.herb("id")?;
        let (notebook, findings) = notebook(visit)?;
        let tastings = ask::of_herb(&notebook, herb, visit.asked.one("taster"));
        let view = TasteAgainstView::new(
            &visit.labels(),
            herb,
            &visit.selection()?,
            &tastings,
            findings,
        );
        view.ok_or_else(|| {
            let hant = &herb.names.hant;
            let none = Failure::new(format!("no tasting of {hant} in the notebook"));
            Halt::missing(none.with_hint(format!("Note one: /taste/add?herb={}", herb.id)))
        })
    }

    fn page(visit: &Visit<'_>, view: &Self::View) -> Answer<Leaf> {
        let books = Books(&view.works);
        let about = visit.either("own tastings beside the books", "自嘗與諸書");
        let own = &view.own;
        let main = html! {
            (pieces::herb_heading(visit, &view.herb, &about))
            (pieces::heed(visit, &books, &view.heed))
            (pieces::filter(visit, &books, view.filter.as_ref()))
            (pieces::findings(visit, &view.findings))
            p { (visit.fill(Word::TastingsNumber, &[&own.tastings.to_string()])) ", " (own.first) @if own.last != own.first { " – " (own.last) }
                @if !own.tasters.is_empty() { " · " (own.tasters.join(", ")) } }
            @let others = own.others.iter().filter(|one| one.name != "warmth");
            ul.inline { @for one in others { li { (attribute(visit, one.name)) " " (figures(&one.figures)) } } }
            (books_side::against(visit, &view.against, Whose::OwnTongue))
            (surprising(visit, &view.surprising))
            (sides(visit, &books, &view.sides))
            @for change in &view.changes { (changed(visit, change)) }
            (parts::strip(visit, &[("cautions", &view.herb.name, &view.heed)]))
        };
        Ok(Leaf {
            title: format!("{} {}: {about}", view.herb.name, view.herb.pinyin),
            section: "/taste",
            main,
        })
    }
}

/// What was scored, by the name that the view gives it.
pub(super) fn attribute(visit: &Visit<'_>, name: &str) -> Cow<'static, str> {
    match name {
        "thickness" => visit.either("thickness", "厚薄"),
        "lingering" => visit.either("lingering", "餘味"),
        "aroma" => visit.either("aroma", "香氣"),
        "warmth" => visit.say(Word::Warmth),
        "amount" => visit.say(Word::Amount),
        "hours" => visit.either("hours", "浸泡（小時）"),
        "lot" => visit.either("lot", "批號"),
        other => Cow::Owned(other.to_owned()),
    }
}

/// The median, and lowest to highest where they differ.
fn figures(one: &OwnFigures) -> String {
    if one.lowest == one.highest {
        points(one.median)
    } else {
        format!(
            "{} ({}–{})",
            points(one.median),
            points(one.lowest),
            points(one.highest)
        )
    }
}

fn surprising(visit: &Visit<'_>, view: &SurprisingView) -> Markup {
    let nothing = view.tasted_unnamed.is_empty() && view.named_untasted.is_empty() && !view.warmth;
    html! {
        h2 { (visit.either("What is surprising", "出人意料者")) }
        ul {
            @if !view.tasted_unnamed.is_empty() { li { (pieces::values(visit, &view.tasted_unnamed)) ": " (visit.either("tasted, and no book names it", "嘗得，而無書言之")) } }
            @if !view.named_untasted.is_empty() { li { (pieces::values(visit, &view.named_untasted)) ": " (visit.either("named by most books, and not tasted", "多書言之，而未嘗得")) } }
            @if view.warmth { li { (visit.either("what was felt lies on a side on which few books stand", "所感寒熱，書中少有從之者")) } }
            @if nothing { li { (visit.either("Nothing that the books do not lead one to expect.", "皆在書中意料之中。")) } }
        }
    }
}

fn sides(visit: &Visit<'_>, books: &Books<'_>, view: &SidesView) -> Markup {
    html! { @if !(view.flavours.is_empty() && view.natures.is_empty()) {
        h2 { (visit.either("Where the tongue stands among the books", "自嘗在諸書間之位置")) }
        @if !view.flavours.is_empty() {
            p { (visit.either("Tasted", "嘗得")) ": "
                @if view.tasted.is_empty() { (visit.either("nothing from 1 point on", "皆不足 1 分")) } @else { (pieces::values(visit, &view.tasted)) } }
            ul { @for one in &view.flavours {
                li { (format!("{:.2}", one.distance)) " " (pieces::values(visit, &one.values)) ": " (books.list(visit, &one.works)) }
            } }
            p.note { (visit.either("The figure: MASI distance, from 0 for the same flavours to 1 for none in common.", "數為 MASI 距離：全同為 0，全異為 1。")) }
        }
        ul { @for one in view.natures.iter().filter(|one| !one.works.is_empty()) {
            li { (books_side::side(visit, one.side)) @if one.felt { ", " (visit.either("as felt", "如所感")) } ": " (books.list(visit, &one.works)) }
        } }
    } }
}

fn changed(visit: &Visit<'_>, change: &ChangeOfTaste) -> Markup {
    let mut heads = vec![
        attribute(visit, change.varied),
        visit.either("tastings", "次數"),
    ];
    heads.extend(change.attributes.iter().map(|name| attribute(visit, name)));
    let row = |group: &GroupView| {
        let mut row = vec![html! { (text(visit, &group.value)) }, pieces::cell(group.n)];
        row.extend(group.figures.iter().map(|one| {
            let one = one.as_ref();
            html! { @if let Some(one) = one { (figures(one)) @if one.n != group.n { " n=" (one.n) } } }
        }));
        row
    };
    let rows: Vec<Vec<Markup>> = change.groups.iter().map(row).collect();
    let caption = visit.either(
        "Median, and lowest to highest where they differ; so few tastings make no curve",
        "中位數，有異則附最低與最高；次數無多，不作曲線",
    );
    html! {
        h2 { (visit.either("By", "按")) " " (attribute(visit, change.varied)) }
        (pieces::table(&format!("by-{}", change.varied), &caption, &heads, &rows))
        @if change.untold > 0 { p { (change.untold) " " (visit.either("tastings do not tell it", "次未記此項")) } }
        @if !change.also.is_empty() { p { @for (place, also) in change.also.iter().enumerate() { @if place > 0 { ", " } (attribute(visit, also)) }
            " " (visit.either("differ too, so that a difference may come from there", "亦有異，其別或由此來")) } }
    }
}
