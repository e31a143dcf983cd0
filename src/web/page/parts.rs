//! What several pages show: values, works, cautions, the choice of works.

use std::borrow::Cow;

use maud::{Markup, html};

use crate::claim::{Facet, Severity};
use crate::compare::{DifferenceKind, Verdict};
use crate::report::text::Titles;
use crate::report::view::{
    CautionView, FilterView, HeedView, HerbRef, ListedCautions, SeverestView, ValueRef,
};
use crate::text::is_han;
use crate::web::layout::{plain, text};
use crate::web::visit::Visit;
use crate::web::words::{Lang, Word};

/// A facet in a word, as the vocabulary labels it.
pub(crate) fn facet(visit: &Visit<'_>, facet: Facet) -> Cow<'static, str> {
    match visit.lang {
        Lang::En => Cow::Borrowed(facet.name()),
        Lang::Zh => {
            let scheme = visit.corpus().vocabulary.scheme(facet);
            Cow::Owned(visit.han(&scheme.file().hant))
        }
    }
}

/// A value in the language of the page: `辛 acrid`, or 辛.
pub(crate) fn value(visit: &Visit<'_>, value: &ValueRef) -> Markup {
    html! {
        (plain(visit, &value.han))
        @if visit.lang == Lang::En { " " (value.english) }
    }
}

/// Values in a row.
pub(crate) fn values(visit: &Visit<'_>, values: &[ValueRef]) -> Markup {
    let between = match visit.lang {
        Lang::En => ", ",
        Lang::Zh => "、",
    };
    html! { @for (place, one) in values.iter().enumerate() { @if place > 0 { (between) } (value(visit, one)) } }
}

/// The kind of a difference in words.
pub(crate) fn kind(visit: &Visit<'_>, kind: DifferenceKind) -> Cow<'static, str> {
    visit.say(match kind {
        DifferenceKind::Single => Word::Single,
        DifferenceKind::Unanimous => Word::Unanimous,
        DifferenceKind::Nested => Word::Nested,
        DifferenceKind::Mixed => Word::Mixed,
        DifferenceKind::Graded => Word::Graded,
        DifferenceKind::Crossing => Word::Crossing,
        DifferenceKind::ByScope => Word::ByScope,
        DifferenceKind::OverTime => Word::OverTime,
    })
}

/// A verdict in words.
pub(crate) fn verdict(visit: &Visit<'_>, verdict: Verdict) -> Cow<'static, str> {
    visit.say(match verdict {
        Verdict::Yes => Word::Yes,
        Verdict::MostlyYes => Word::MostlyYes,
        Verdict::Disputed => Word::Disputed,
        Verdict::MostlyNo => Word::MostlyNo,
        Verdict::BySome => Word::BySome,
        Verdict::No => Word::No,
        Verdict::Silent => Word::Silent,
    })
}

/// A work by its title, which leads to its page; its date stands in the tip.
pub(crate) fn work(visit: &Visit<'_>, titles: &Titles<'_>, id: &str) -> Markup {
    let date = titles
        .work(id)
        .map(|work| format!("{}, {}", work.english, work.date));
    html! { a.work href=(visit.work_href(id)) title=[date] { (text(visit, &titles.title(id))) } }
}

/// Works in a row.
pub(crate) fn works(visit: &Visit<'_>, titles: &Titles<'_>, ids: &[String]) -> Markup {
    html! { @for (place, id) in ids.iter().enumerate() { @if place > 0 { " · " } (work(visit, titles, id)) } }
}

/// An herb by its name, which leads to its page.
pub(crate) fn herb(visit: &Visit<'_>, herb: &HerbRef) -> Markup {
    html! { a href=(visit.herb_href(&herb.id)) { (plain(visit, &herb.name)) " " (herb.pinyin) } }
}

/// A field in which one searches; suggestions come as one types, where there is a script.
pub(crate) fn seek_field(visit: &Visit<'_>, id: &str, typed: &str) -> Markup {
    let kept = visit.href("", &[]);
    html! {
        input id=(id) type="search" name="q" value=(typed) autocomplete="off" spellcheck="false" maxlength="120"
            data-suggest="/api/suggest" data-kept=(kept) data-none=(visit.say(Word::NothingFound));
    }
}

/// A table that may be wider than the screen: it scrolls by itself, by keys too.
pub(crate) fn scroll(label: &str, table: &Markup) -> Markup {
    html! { div.scroll role="group" tabindex="0" aria-label=(label) { (table) } }
}

/// Which works were counted, when not all.
pub(crate) fn filter(
    visit: &Visit<'_>,
    titles: &Titles<'_>,
    filter: Option<&FilterView>,
) -> Markup {
    html! {
        @if let Some(filter) = filter {
            p.note {
                (visit.say(Word::OnlyTheseWorks)) " "
                @if !filter.works.is_empty() { (works(visit, titles, &filter.works)) " " }
                @if let Some(year) = filter.since { (visit.fill(Word::SinceYear, &[&year.to_string()])) " " }
                @if let Some(year) = filter.until { (visit.fill(Word::UntilYear, &[&year.to_string()])) " " }
                a href=(visit.here(&[("works", None), ("since", None), ("until", None)])) { (visit.say(Word::AllWorks)) }
            }
        }
    }
}

/// The fields that choose which works count; they stand in a form of the page.
pub(crate) fn scope_fields(visit: &Visit<'_>) -> Markup {
    let asked = |name| visit.asked.one(name).unwrap_or_default();
    let works = visit.asked.list("works").join(",");
    html! {
        fieldset.scope {
            legend { (visit.say(Word::WhichWorks)) }
            label { (visit.say(Word::Since)) " " input type="number" name="since" min="-500" max="2100" value=(asked("since")); }
            label { (visit.say(Word::Until)) " " input type="number" name="until" min="-500" max="2100" value=(asked("until")); }
            label { (visit.say(Word::WorksListed)) " " input type="text" name="works" value=(works) maxlength="400"; }
        }
    }
}

/// The cautions of an herb: today's, then the severest word of the books. Nothing on the page stands before them.
pub(crate) fn heed(
    visit: &Visit<'_>,
    titles: &Titles<'_>,
    id: &str,
    head: &str,
    heed: &HeedView,
) -> Markup {
    html! {
        section.cautions id=(id) aria-labelledby={ (id) "-head" } {
            h2 id={ (id) "-head" } { (head) }
            ul {
                @for one in &heed.cautions { (caution(visit, one)) }
                @for one in &heed.warnings { li { (visit.say(Word::InTheBooks)) " " (severest(visit, titles, one)) } }
                @if heed.cautions.is_empty() && heed.warnings.is_empty() { li { (visit.say(Word::NoneOnRecord)) } }
            }
        }
    }
}

/// A caution as an item of a list.
pub(super) fn caution(visit: &Visit<'_>, one: &CautionView) -> Markup {
    let grave = one.severity == Severity::Grave;
    html! {
        li.grave[grave] {
            @if grave { strong { (visit.say(Word::Grave)) " " } }
            (caution_words(visit, one)) " " small { "(" (source(visit, &one.source)) ")" }
        }
    }
}

/// The words of a caution, in the language of the page where it is told in it.
pub(crate) fn caution_words(visit: &Visit<'_>, one: &CautionView) -> Markup {
    let words = text(visit, &one.text);
    let chinese = visit.lang == Lang::Zh && one.text.chars().next().is_some_and(is_han);
    html! { @if chinese { (words) } @else { span lang="en" { (words) } } }
}

/// Who says so, with the words for what has no book behind it in the language of the page.
pub(crate) fn source<'a>(visit: &Visit<'_>, source: &'a str) -> Cow<'a, str> {
    let said = [
        ("from memory", "憑記憶"),
        ("common practice, no source", "習用，無出處"),
        ("group 1", "第一類"),
    ];
    if visit.lang == Lang::En {
        return source.into();
    }
    let told = said
        .iter()
        .fold(source.to_owned(), |told, (english, chinese)| {
            told.replace(english, chinese)
        });
    visit.han(&told).into()
}

/// `toxic by 藥性論, 千金方 (閉口者)`
pub(crate) fn severest(visit: &Visit<'_>, titles: &Titles<'_>, severest: &SeverestView) -> Markup {
    html! {
        strong { (value(visit, &severest.value)) } ": "
        @for (place, one) in severest.by.iter().enumerate() {
            @if place > 0 { " · " }
            (work(visit, titles, &one.work))
            @if !one.scopes.is_empty() { " (" (text(visit, &one.scopes.join("; "))) ")" }
            @if one.doubtful { " ?" }
        }
    }
}

/// A strip that stays at the foot of the window: what is gravest of each herb in a line, with the way to all of it.
pub(crate) fn strip(visit: &Visit<'_>, herbs: &[(&str, &str, &HeedView)]) -> Markup {
    html! {
        aside.strip aria-label=(visit.say(Word::Cautions)) {
            @for (id, name, heed) in herbs {
                p {
                    a href={ "#" (id) } { strong { (visit.say(Word::Cautions)) } @if herbs.len() > 1 { " " (plain(visit, name)) } }
                    " "
                    @if let Some(first) = heed.cautions.first() { span.cut { (caution_words(visit, first)) } }
                    @else if let Some(first) = heed.warnings.first() { span.cut { (visit.say(Word::InTheBooks)) " " (value(visit, &first.value)) } }
                    @else { span.cut { (visit.say(Word::NoneOnRecord)) } }
                }
            }
        }
    }
}

/// The grave cautions of herbs that a list names.
pub(crate) fn listed(visit: &Visit<'_>, listed: &[ListedCautions]) -> Markup {
    html! {
        @if !listed.is_empty() {
            section.cautions aria-labelledby="cautions-head" {
                h2 #cautions-head { (visit.say(Word::Cautions)) }
                ul { @for one in listed { @for caution in &one.cautions {
                    li.grave { strong { (herb(visit, &one.herb)) } ": " (caution_words(visit, caution)) }
                } } }
                p { (visit.say(Word::GraveOnesOnly)) }
            }
        }
    }
}
