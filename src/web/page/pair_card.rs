//! The card of a formula.

use maud::{Markup, html};

use super::{parts, together};
use crate::report::view::{
    AimView, FlavourShare, FormulaView, JointView, MemberView, NeededView, SharedView,
};
use crate::web::layout::{han, text};
use crate::web::pieces::{self, Books, percent, points};
use crate::web::visit::Visit;
use crate::web::words::Word;

/// What must be heeded: it stays in view while the rest is read.
pub(super) fn cautions(visit: &Visit<'_>, view: &FormulaView) -> Markup {
    let books = Books(&view.works);
    html! {
        section.cautions aria-labelledby="cautions" {
            h2 #cautions { (visit.say(Word::Cautions)) }
            ul {
                (together::warnings(visit, &books, &view.cautions.together))
                @for one in &view.cautions.loud {
                    li.grave { strong { (visit.say(Word::Grave)) " " } (points(one.grams)) " g " (pieces::herb(visit, &one.herb)) " "
                        @if one.grave { (visit.either("is far beyond what is given in a day, and of such an herb it can kill", "遠逾一日之量，此等藥可致命")) }
                        @else { (visit.either("is far beyond what is given in a day", "遠逾一日之量")) }
                        " (≥ " (points(one.above)) " g; " (visit.either("common practice, no source", "習用，無出處")) ")" }
                }
                @for one in &view.cautions.herbs {
                    @for caution in &one.cautions { (pieces::caution(visit, &one.herb, caution)) }
                    @for warning in &one.warnings { (pieces::severest(visit, &books, &one.herb, warning)) }
                }
            }
            p { strong { (visit.say(Word::Notice)) } }
        }
    }
}

/// All else.
pub(super) fn card(visit: &Visit<'_>, view: &FormulaView) -> Markup {
    let books = Books(&view.works);
    html! {
        (pieces::filter(visit, &books, view.filter.as_ref()))
        (members(visit, view))
        (flavours(visit, view))
        (nature(visit, view))
        (doctrine(visit, view))
        (shared(visit, view, "channels", &visit.either("Channels that they share", "同歸之經"), &view.channels))
        (shared(visit, view, "reinforced", &visit.either("Actions that reinforce each other", "彼此相助之功用"), &view.reinforced))
        (opposed(visit, view))
        @if let Some(aim) = &view.aim { (sought(visit, view, aim)) }
        (together::partners(visit, &books, &view.cautions.together))
        (grades(visit, &books, view))
        (assumptions(visit, view))
        (pieces::strip(visit, &gravest(visit, view)))
    }
}

/// What stays in view: every forbidden pair and loud amount; where there is none, the first caution of each herb.
fn gravest(visit: &Visit<'_>, view: &FormulaView) -> Vec<Markup> {
    let heeded = &view.cautions;
    let forbidden = heeded.together.forbidden.iter();
    let forbidden = forbidden.map(|pair| html! { (text(visit, &pair.one.name)) " " (visit.say(Word::MustNotMeet)) " " (text(visit, &pair.other.name)) });
    let loud = heeded.loud.iter();
    let loud = loud.map(|one| html! { (text(visit, &one.herb.name)) " " (points(one.grams)) " g: " (visit.either("far beyond what is given in a day", "遠逾一日之量")) });
    let mut lines: Vec<Markup> = forbidden.chain(loud).collect();
    let first = heeded.herbs.iter().map(|one| html! {
        (text(visit, &one.herb.name)) ": "
        @if let Some(caution) = one.cautions.first() { (parts::caution_words(visit, caution)) }
        @else if let Some(warning) = one.warnings.first() { (visit.say(Word::InTheBooks)) " " (pieces::value(visit, &warning.value)) }
    });
    if lines.is_empty() {
        lines.extend(first);
    }
    if lines.is_empty() {
        lines.push(html! { (visit.say(Word::NoneOnRecord)) });
    }
    lines
}

fn amount(view: &FormulaView, amount: f64) -> String {
    format!("{} {}", points(amount), view.unit)
}

/// An herb's name as it was asked for.
fn name(visit: &Visit<'_>, member: &MemberView) -> Markup {
    html! {
        @if let Some(prefix) = &member.prepared { span lang=(han(visit)) { (prefix) } }
        (pieces::herb(visit, &member.herb))
    }
}

fn members(visit: &Visit<'_>, view: &FormulaView) -> Markup {
    let heads = [
        visit.say(Word::Herb),
        visit.say(Word::Amount),
        visit.say(Word::Share),
        visit.either("in grams", "合今"),
        visit.either("voices on flavour", "言味之家"),
    ];
    let row = |one: &MemberView| {
        let written = one
            .old
            .as_ref()
            .map(|old| old.han.clone().unwrap_or_else(|| old.words.clone()));
        vec![
            name(visit, one),
            html! { @if let Some(written) = &written { (text(visit, written)) } @else { (amount(view, one.amount)) }
            @if one.strength != 1.0 { " × " (points(one.strength)) } },
            html! { (percent(one.share)) },
            html! { @if let Some(grams) = one.old.as_ref().and_then(|old| old.grams.as_ref()) {
                (grams.least.shown) "–" (grams.greatest.shown) " g"
                @if let Some(common) = &grams.commonest { "; " (visit.either("commonest", "通行")) " " (common.shown) " g" }
            } },
            html! { @if let Some(tasted) = &one.tasted { (tasted.tastings) " " (visit.either("own tastings", "次自嘗")) } @else { (one.voices) } },
        ]
    };
    let rows: Vec<Vec<Markup>> = view.herbs.iter().map(row).collect();
    html! {
        h2 { @for (place, one) in view.herbs.iter().enumerate() { @if place > 0 { " + " } (name(visit, one)) } }
        (pieces::table("members", &visit.either("The herbs", "藥物"), &heads, &rows))
    }
}

fn flavours(visit: &Visit<'_>, view: &FormulaView) -> Markup {
    let mut heads = vec![
        visit.say(Word::Flavour),
        visit.say(Word::Share),
        visit.either("between", "介乎"),
    ];
    heads.extend(view.herbs.iter().map(|one| one.herb.name.clone().into()));
    let row = |one: &FlavourShare| {
        let mut row = vec![
            pieces::value(visit, &one.value),
            html! { (percent(one.share)) " " meter min="0" max="1" value=(one.share) aria-label=(one.value.english) {} },
            pieces::cell(format!(
                "{:.0}–{:.0} %",
                one.least * 100.0,
                one.most * 100.0
            )),
        ];
        row.extend(one.from.iter().map(|part| {
            pieces::cell(if *part == 0.0 {
                "·".to_owned()
            } else {
                percent(*part)
            })
        }));
        row
    };
    let rows: Vec<Vec<Markup>> = view.flavours.iter().map(row).collect();
    html! {
        h2 { (visit.say(Word::Flavours)) }
        @if rows.is_empty() { p { (visit.either("No work states a flavour of any of them.", "諸書皆未言其味。")) } }
        @else { (pieces::table("flavours", &visit.either(
            "Shares of the whole; between: every herb at the least and at the most that any of its voices gives",
            "各味所佔；介乎：各藥取其最少與最多之說"), &heads, &rows)) }
        (without(visit, view, &view.without_flavour, &visit.either("Left out, since no work states its flavour", "無書言其味，未計")))
    }
}

fn without(visit: &Visit<'_>, view: &FormulaView, places: &[usize], words: &str) -> Markup {
    html! { @if !places.is_empty() {
        p { (words) ": " @for (n, place) in places.iter().enumerate() { @if n > 0 { ", " } (name(visit, &view.herbs[*place])) } }
    } }
}

fn nature(visit: &Visit<'_>, view: &FormulaView) -> Markup {
    let moves = view.moves;
    html! {
        h2 { (visit.either("Nature and movement", "寒熱與升降")) }
        @if let Some(nature) = &view.nature {
            p { (visit.either("nearest to", "近於")) " " (pieces::value(visit, &nature.value)) (format!(" ({:+.2})", nature.place)) "; "
                (visit.either("between", "介乎")) " " (pieces::value(visit, &nature.coldest.1)) (format!(" ({:+.2}) – ", nature.coldest.0))
                (pieces::value(visit, &nature.hottest.1)) (format!(" ({:+.2})", nature.hottest.0)) }
            p.scale { (visit.either("coldest", "極寒")) " "
                meter min="-1" max="1" value=(nature.place) aria-label=(visit.either("nature, from -1 coldest to 1 hottest", "性，由 -1 極寒至 1 極熱")) {}
                " " (visit.either("hottest", "極熱")) }
        } @else { p { (visit.either("No work states a nature of any of them.", "諸書皆未言其性。")) } }
        (without(visit, view, &view.without_nature, &visit.either("Left out, since no work states its nature", "無書言其性，未計")))
        @if !view.flavours.is_empty() {
            p { (visit.either("By flavour, up and out", "以味論，升浮")) " " (percent(moves.up_and_out)) " · "
                (visit.either("down and in", "沉降")) " " (percent(moves.down_and_in)) " · "
                (visit.either("holding the centre", "居中")) " " (percent(moves.centre)) }
        }
    }
}

fn doctrine(visit: &Visit<'_>, view: &FormulaView) -> Markup {
    html! { @if !view.doctrine.is_empty() {
        h2 { (visit.either("What the doctrine holds", "依理而論")) }
        ul { @for one in &view.doctrine {
            li { (pieces::value(visit, &one.value)) @if let Some(share) = one.share { " " (percent(share)) }
                ": " (text(visit, &one.han)) ": " span lang="en" { (one.holds) " (" (text(visit, &one.source)) ")" } }
        } }
    } }
}

/// An herb with the number of works that say so.
fn joint(visit: &Visit<'_>, view: &FormulaView, one: &JointView) -> Markup {
    html! { span lang=(han(visit)) { (view.herbs[one.herb].herb.name) } " " (one.works) }
}

fn shared(
    visit: &Visit<'_>,
    view: &FormulaView,
    id: &str,
    heading: &str,
    all: &[SharedView],
) -> Markup {
    html! { @if !all.is_empty() {
        section aria-labelledby=(id) {
            h2 id=(id) { (heading) }
            ul { @for one in all {
                li { (pieces::value(visit, &one.value)) ": "
                    @for (place, herb) in one.herbs.iter().enumerate() { @if place > 0 { " · " } (joint(visit, view, herb)) } }
            } }
            p.note { (visit.either("Behind a name: how many works say so of that herb.", "名後之數：言此者幾書。")) }
        }
    } }
}

fn opposed(visit: &Visit<'_>, view: &FormulaView) -> Markup {
    html! { @if !view.opposed.is_empty() {
        h2 { (visit.either("Actions that oppose each other", "彼此對立之功用")) }
        ul { @for pair in &view.opposed {
            li { (pieces::value(visit, &pair.value)) ": " (joint(visit, view, &pair.one)) " – "
                (pieces::value(visit, &pair.contrary)) ": " (joint(visit, view, &pair.other)) }
        } }
        p.note { (visit.either("Opposed actions may hold of another dose, part or partner.", "對立之功用，或因用量、部位、配伍而異。")) }
    } }
}

fn sought(visit: &Visit<'_>, view: &FormulaView, aim: &AimView) -> Markup {
    html! {
        section aria-labelledby="aim" {
            h2 #aim { (pieces::value(visit, &aim.flavour)) " "
                @if aim.more { (visit.either("more than", "多於")) } @else { (visit.either("less than", "少於")) } " "
                @if let Some(than) = &aim.than { @if aim.times != 1.0 { (points(aim.times)) " × " } (pieces::value(visit, than)) }
                @else { (percent(aim.times)) } }
            p { (match (aim.reached, aim.surely) {
                (true, true) => visit.either("Reached, whatever book is followed.", "已達，無論從何書。"),
                (true, false) => visit.either("Reached by the means of the books, but not whatever book is followed.", "取諸書之平均則達，非從任何一書皆達。"),
                (false, _) => visit.either("Not reached with these amounts.", "依此用量未達。"),
            }) }
            ul { @for (herb, change) in view.herbs.iter().zip(&aim.changes) {
                li { (name(visit, herb)) " " (visit.either("alone changed", "單改")) ": " (needed(visit, view, change.by_means)) "; "
                    (visit.either("whatever book is followed", "無論從何書")) ": " (needed(visit, view, change.surely)) }
            } }
        }
    }
}

fn needed(visit: &Visit<'_>, view: &FormulaView, needed: NeededView) -> Markup {
    html! { @match (needed.needs, needed.amount) {
        ("more", Some(0.0)) => { (visit.either("any of it", "有之即可")) }
        ("more", Some(above)) => { (visit.either("more than", "多於")) " " (amount(view, above)) }
        ("less", Some(below)) => { (visit.either("less than", "少於")) " " (amount(view, below)) }
        ("any", _) => { (visit.either("any amount", "任何用量")) }
        _ => { (visit.either("no amount", "無用量可達")) }
    } }
}

fn grades(visit: &Visit<'_>, books: &Books<'_>, view: &FormulaView) -> Markup {
    let graded = view
        .herbs
        .iter()
        .flat_map(|herb| herb.grades.iter().map(move |one| (herb, one)));
    html! { @if view.herbs.iter().any(|herb| !herb.grades.is_empty()) {
        h2 { (visit.either("Grade and amount", "品第與用量")) }
        ul { @for (herb, grade) in graded {
            li { (name(visit, herb)) ": " (pieces::value(visit, &grade.grade)) " (" (books.title(visit, &grade.work)) ")"
                @if let Some(implies) = &grade.implies { ": " span lang="en" { (text(visit, implies)) } } }
        } }
    } }
}

fn assumptions(visit: &Visit<'_>, view: &FormulaView) -> Markup {
    let assumed = &view.assumptions;
    let voices = match assumed.count {
        "lines" => visit.either("each line of transmission has one voice", "每一傳承一票"),
        _ => visit.either("each work has one voice", "每書一票"),
    };
    html! {
        p.note { (visit.either(
            "An arithmetic of what books say, weighted by amount, and no measurement.",
            "此乃就書中之說按用量加權之算術，非測量。"))
            " " (visit.either("slightly", "微")) " " (points(assumed.slight)) ", " (visit.either("greatly", "大")) " " (points(assumed.great)) "; " (voices) "."
            @if view.herbs.iter().any(|herb| herb.prepared.is_some()) {
                " " (visit.either("The record of a prepared form is that of the herb as such.", "炮製品取其原藥之記載。"))
            } }
    }
}
