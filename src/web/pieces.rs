//! Pieces that several pages share: links to herbs and works, cautions, tables, files to save.

use std::borrow::Cow;

use maud::{Markup, html};

use super::asked::encoded;
use super::layout::{han, text};
use super::page::parts;
use super::visit::Visit;
use super::words::Word;
use crate::claim::{Facet, Severity};
use crate::corpus::Finding;
use crate::report::text::Titles;
use crate::report::view::{
    CautionView, FilterView, HeedView, HerbRef, HerbView, SeverestView, WorkRef,
};

pub(crate) use super::page::parts::{facet, herb, kind, listed, value, values};

/// So many faults of files are shown.
const FINDINGS: usize = 20;

/// The facets on which stands can be held against each other, as an address names them.
pub(crate) const SCALED: &[&str] = &["flavour", "nature", "toxicity"];

/// The facets that an address names, in its order.
pub(crate) fn facets(visit: &Visit<'_>) -> Vec<Facet> {
    let named = |name: &str| Facet::ALL.into_iter().find(|facet| facet.name() == name);
    visit.asked.all("facet").filter_map(named).collect()
}

/// The heading of a page about an herb.
pub(crate) fn herb_heading(visit: &Visit<'_>, herb: &HerbView, about: &str) -> Markup {
    html! {
        h1 { a href=(visit.herb_href(&herb.id)) { span lang=(han(visit)) { (herb.name) } " " (herb.pinyin) } ": " (about) }
        @if let Some(english) = &herb.english { p.english lang="en" { (english) } }
    }
}

/// The works that an answer names, to be called by their ids.
pub(crate) struct Books<'v>(pub &'v [WorkRef]);

impl Books<'_> {
    /// The title of a work, leading to its page; `None` for none of them.
    fn one(&self, visit: &Visit<'_>, id: &str, dated: bool) -> Markup {
        let work = self.0.iter().find(|work| work.id == id);
        html! { @if let Some(work) = work {
            a href=(visit.work_href(id)) lang=(han(visit)) title=(format!("{} ({})", work.pinyin, work.english)) { (work.title) }
            @if dated { " " span.year { (work.date) } }
        } }
    }

    /// A work with its date.
    pub(crate) fn dated(&self, visit: &Visit<'_>, id: &str) -> Markup {
        self.one(visit, id, true)
    }

    /// A work.
    pub(crate) fn title(&self, visit: &Visit<'_>, id: &str) -> Markup {
        self.one(visit, id, false)
    }

    /// Works in a row.
    pub(crate) fn list(&self, visit: &Visit<'_>, ids: &[String]) -> Markup {
        html! { @for (place, id) in ids.iter().enumerate() {
            @if place > 0 { ", " }
            (self.title(visit, id))
        } }
    }
}

/// Which works were counted, when not all.
pub(crate) fn filter(visit: &Visit<'_>, books: &Books<'_>, filter: Option<&FilterView>) -> Markup {
    parts::filter(visit, &Titles::new(books.0), filter)
}

/// A caution as an item of a list; `of` is the herb.
pub(crate) fn caution(visit: &Visit<'_>, of: &HerbRef, one: &CautionView) -> Markup {
    let grave = one.severity == Severity::Grave;
    html! {
        li.grave[grave] {
            @if grave { strong { (visit.say(Word::Grave)) } " " }
            (herb(visit, of)) ": "
            (parts::caution_words(visit, one)) " (" (text(visit, &parts::source(visit, &one.source))) ")"
        }
    }
}

/// The most severe toxicity that books state, as an item of a list.
pub(crate) fn severest(
    visit: &Visit<'_>,
    books: &Books<'_>,
    of: &HerbRef,
    one: &SeverestView,
) -> Markup {
    html! { li { (herb(visit, of)) ": " (visit.say(Word::InTheBooks)) " " (parts::severest(visit, &Titles::new(books.0), one)) } }
}

/// What must be heeded of one herb; the gravest of it stays in view.
pub(crate) fn heed(visit: &Visit<'_>, books: &Books<'_>, heed: &HeedView) -> Markup {
    parts::heed(
        visit,
        &Titles::new(books.0),
        "cautions",
        &visit.say(Word::Cautions),
        heed,
    )
}

/// A strip that stays in view: the way to all cautions, and the gravest of them in a line each.
pub(crate) fn strip(visit: &Visit<'_>, lines: &[Markup]) -> Markup {
    html! {
        aside.strip aria-label=(visit.say(Word::Cautions)) {
            @for line in lines {
                p { a href="#cautions" { strong { (visit.say(Word::Cautions)) } } " " span.cut { (line) } }
            }
        }
    }
}

/// A table that can be moved sideways where the screen is narrow; its first column names the rows.
pub(crate) fn table(
    id: &str,
    caption: &str,
    heads: &[Cow<'_, str>],
    rows: &[Vec<Markup>],
) -> Markup {
    let caption_id = format!("{id}-caption");
    html! {
        div.scroll role="group" tabindex="0" aria-labelledby=(caption_id) {
            table id=(id) {
                caption id=(caption_id) { (caption) }
                thead { tr { @for head in heads { th scope="col" { (head) } } } }
                tbody { @for row in rows { tr {
                    @for (place, cell) in row.iter().enumerate() {
                        @if place == 0 { th scope="row" { (cell) } } @else { td { (cell) } }
                    }
                } } }
            }
        }
    }
}

/// A plain cell.
pub(crate) fn cell(words: impl std::fmt::Display) -> Markup {
    html! { (words.to_string()) }
}

/// Files to save: what they are, and their addresses.
pub(crate) fn downloads(visit: &Visit<'_>, files: &[(Cow<'_, str>, String)]) -> Markup {
    html! {
        nav.downloads aria-labelledby="downloads" {
            h2 #downloads { (visit.say(Word::Downloads)) }
            ul { @for (what, address) in files { li { a href=(address) download { (what) } } } }
        }
    }
}

/// What can be saved of an herb.
pub(crate) fn herb_downloads(visit: &Visit<'_>, id: &str) -> Markup {
    let at = |path: &str| {
        let pairs = visit.asked.pairs().iter();
        let scope = pairs.filter(|(name, _)| ["works", "since", "until"].contains(&name.as_str()));
        let scope: Vec<(&str, &str)> = scope
            .map(|(name, value)| (name.as_str(), value.as_str()))
            .collect();
        visit.href(&path.replace("{id}", &encoded(id)), &scope)
    };
    let chart = |english: &'static str, chinese: &'static str, path: &str| {
        (visit.either(english, chinese), at(path))
    };
    let files = [
        chart(
            "Handout, one file of HTML",
            "講義（HTML 單檔）",
            "/handout/{id}/html",
        ),
        chart(
            "Handout in Markdown",
            "講義（Markdown）",
            "/handout/{id}/markdown",
        ),
        chart("Timeline, SVG", "年表（SVG）", "/chart/{id}/timeline"),
        chart("Matrix, SVG", "異同表（SVG）", "/chart/{id}/matrix"),
        chart("Nature, SVG", "寒熱圖（SVG）", "/chart/{id}/nature"),
        chart("Lines, SVG", "傳承圖（SVG）", "/chart/{id}/lines"),
        chart("Flavours, SVG", "五味圖（SVG）", "/chart/{id}/flavours"),
        chart("Actions, SVG", "功用圖（SVG）", "/chart/{id}/actions"),
        chart("Claims, CSV", "各家之說（CSV）", "/export/{id}/csv"),
    ];
    downloads(visit, &files)
}

/// A share as a percentage.
pub(crate) fn percent(share: f64) -> String {
    format!("{:.0} %", share * 100.0)
}

/// Points with at most two decimals, halves rounded away from zero as by hand.
pub(crate) fn points(value: f64) -> String {
    let words = format!("{:.2}", (value * 100.0).round() / 100.0);
    let words = words.trim_end_matches('0').trim_end_matches('.');
    if words == "-0" { "0" } else { words }.to_owned()
}

/// What is wrong in files, the first of it.
pub(crate) fn findings(visit: &Visit<'_>, all: &[Finding]) -> Markup {
    html! { @if !all.is_empty() {
        section.fault role="status" {
            p { strong { (visit.fill(Word::FaultsNotUsed, &[&all.len().to_string()])) } }
            ul.findings { @for one in all.iter().take(FINDINGS) {
                li { code { (one.file) @if let Some(line) = one.line { ":" (line) @if let Some(column) = one.column { ":" (column) } } } " "
                    (visit.say(Word::Found)) " " (one.found) "; " (visit.say(Word::Expected)) " " (one.expected)
                    @if !one.nearest.is_empty() { " (" (one.nearest.join(", ")) ")" } }
            } }
        }
    } }
}
