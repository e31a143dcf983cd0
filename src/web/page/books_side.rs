//! What was tasted beside what the books say: of one's own tongue and of a panel alike.

use std::borrow::Cow;

use maud::{Markup, html};

use crate::report::view::{AgainstBooksView, FlavourAgainstView, WarmthAgainstView};
use crate::web::pieces::{self, points};
use crate::web::visit::Visit;
use crate::web::words::Word;

/// Who tasted.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Whose {
    /// A panel.
    Panel,
    /// The user.
    OwnTongue,
}

/// Flavour by flavour, and warmth beside nature.
pub(super) fn against(visit: &Visit<'_>, view: &AgainstBooksView, whose: Whose) -> Markup {
    let (heading, who) = match whose {
        Whose::Panel => (
            visit.either("The panel and the books", "品嘗小組與諸書"),
            visit.either("panel", "小組"),
        ),
        Whose::OwnTongue => (
            visit.either("Your tongue and the books", "自嘗與諸書"),
            visit.either("tongue", "自嘗"),
        ),
    };
    let heads = [
        visit.say(Word::Flavour),
        who,
        visit.either("books", "諸書"),
        visit.either("which means", "即"),
    ];
    let row = |one: &FlavourAgainstView| {
        vec![
            pieces::value(visit, &one.value),
            pieces::cell(
                one.median
                    .map_or_else(|| visit.say(Word::Unsaid).into_owned(), points),
            ),
            pieces::cell(format!("{}/{}", one.k, one.n)),
            pieces::cell(standing(visit, one.standing)),
        ]
    };
    let rows: Vec<Vec<Markup>> = view.flavours.iter().map(row).collect();
    html! {
        h2 { (heading) }
        (pieces::table("against", &visit.either(
            "Median of the scores; from 1 point on a flavour counts as tasted. Books: how many of those that state a flavour name it",
            "評分之中位數；滿 1 分為嘗得。諸書：言味之書中言此味者"), &heads, &rows))
        @if view.of > 0 { p { (visit.either("They agree on", "相合者")) " " (view.agreed) "/" (view.of) " "
            (visit.either("flavours on which the books are not divided.", "味（書中不兩歧者）。")) } }
        (warmth(visit, &view.warmth))
        p.note { (visit.either(
            "The nature of an herb is a judgement on what it does, not only on what is felt in the mouth: where the two differ neither is refuted.",
            "藥性乃論其所為，不獨口中所感：二者有異，不足互駁。")) }
    }
}

fn standing(visit: &Visit<'_>, standing: &str) -> Cow<'static, str> {
    match standing {
        "agreed" => visit.either("both: tasted, and named by most", "皆有：嘗得，且多書言之"),
        "agreed-absent" => visit.either("neither", "皆無"),
        "tasted-some-name" => visit.either("tasted; named by some books", "嘗得；數書言之"),
        "tasted-none-name" => visit.either("tasted, and no book names it", "嘗得，而無書言之"),
        "named-not-tasted" => visit.either("named by most, and not tasted", "多書言之，而未嘗得"),
        "some-name-not-tasted" => {
            visit.either("not tasted; named by some books", "未嘗得；數書言之")
        }
        _ => Cow::Borrowed(""),
    }
}

/// A side of neutral.
pub(super) fn side(visit: &Visit<'_>, side: &str) -> Cow<'static, str> {
    match side {
        "cold" => visit.either("cold side", "寒涼"),
        "warm" => visit.either("warm side", "溫熱"),
        _ => visit.either("neutral", "平"),
    }
}

fn warmth(visit: &Visit<'_>, warmth: &WarmthAgainstView) -> Markup {
    let felt = warmth.median.zip(warmth.side);
    html! {
        p { strong { (visit.say(Word::Warmth)) } ": "
            @if let Some((median, felt)) = felt { (visit.either("felt", "感")) " " (side(visit, felt)) " (" (points(median)) ")" }
            @else { (visit.say(Word::Unsaid)) }
            "; " (warmth.n) " " (visit.either("books on nature", "書言性")) ": "
            @for (place, one) in warmth.sides.iter().enumerate() { @if place > 0 { ", " } (side(visit, one.side)) " " (one.k) }
            @if !warmth.middle.is_empty() { " (" (visit.either("median", "中位")) " " (pieces::values(visit, &warmth.middle)) ")" }
            @match warmth.agrees {
                Some(true) => { "; " (visit.either("most books stand there too", "多書亦然")) }
                Some(false) => { "; " (visit.either("few books stand there", "少有書從之")) }
                None => { @if felt.is_some() && warmth.n > 0 { "; " (visit.either("the books are divided", "諸書兩歧")) } }
            } }
    }
}
