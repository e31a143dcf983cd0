//! The frame of every page: head, ways to the sections, switches of language and script, the notice.

use axum::http::StatusCode;
use maud::{DOCTYPE, Markup, html};

use super::page::parts;
use super::reply::{HTML, Reply};
use super::visit::Visit;
use super::words::{Lang, Word};
use crate::corpus::{Finding, Lookup};
use crate::report::ask::Failure;
use crate::report::chart::runs;
use crate::text::Script;

/// What a page puts into the frame.
#[derive(Debug)]
pub(crate) struct Leaf {
    /// What it is called, for the window.
    pub title: String,
    /// To which section it belongs, by its address; none for what belongs to no section.
    pub section: &'static str,
    /// What it shows; its first heading is an `h1`.
    pub main: Markup,
}

/// The sections in their order.
const SECTIONS: &[(&str, Word)] = &[
    ("/", Word::Herbs),
    ("/find", Word::Find),
    ("/name", Word::Names),
    ("/disputes", Word::Disputes),
    ("/works", Word::Works),
    ("/affinity", Word::Affinity),
    ("/pair", Word::Pair),
    ("/weigh", Word::Weigh),
    ("/taste", Word::Taste),
];

/// A whole page.
pub(crate) fn page(visit: &Visit<'_>, leaf: &Leaf) -> Markup {
    framed(visit, leaf, true)
}

/// A page that has no JSON of its own, such as a form.
pub(crate) fn alone(visit: &Visit<'_>, leaf: &Leaf) -> Markup {
    framed(visit, leaf, false)
}

fn framed(visit: &Visit<'_>, leaf: &Leaf, twin: bool) -> Markup {
    html! {
        (DOCTYPE)
        html lang=(language(visit)) {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                meta name="color-scheme" content="light dark";
                title { (leaf.title) " · 考異 Kaoyi" }
                link rel="stylesheet" href="/style.css";
                link rel="icon" href="/sign.svg" type="image/svg+xml";
                @if twin { link rel="alternate" type="application/json" href=(visit.twin()); }
                script src="/script.js" defer {}
            }
            body {
                a.skip href="#text" { (visit.say(Word::SkipToText)) }
                (head(visit, leaf))
                main #text tabindex="-1" {
                    (faults(visit))
                    (leaf.main)
                }
                (foot(visit, twin))
            }
        }
    }
}

/// The language of the page by its tag.
fn language(visit: &Visit<'_>) -> &'static str {
    match visit.lang {
        Lang::En => "en",
        Lang::Zh if visit.script.script() == Script::Hans => "zh-Hans",
        Lang::Zh => "zh-Hant",
    }
}

/// The language of Han text by its tag.
pub(crate) fn han(visit: &Visit<'_>) -> &'static str {
    match visit.script.script() {
        Script::Recorded => "zh",
        Script::Hant => "zh-Hant",
        Script::Hans => "zh-Hans",
    }
}

/// Words with every run of Han characters marked as such; names have their pinyin over them where that is wished.
pub(crate) fn text(visit: &Visit<'_>, words: &str) -> Markup {
    let lang = han(visit);
    html! {
        @for (is_han, run) in runs(words) {
            @if !is_han { (run) }
            @else if let Some(sound) = sound(visit, &run) {
                ruby { span lang=(lang) { (run) } rp { " (" } rt lang="zh-Latn-pinyin" { (sound) } rp { ")" } }
            } @else { span lang=(lang) { (run) } }
        }
    }
}

/// A name beside which its pinyin stands already.
pub(crate) fn plain(visit: &Visit<'_>, name: &str) -> Markup {
    html! { span lang=(han(visit)) { (name) } }
}

/// The pinyin of a name, where it is wished and known.
fn sound<'v>(visit: &Visit<'v>, run: &str) -> Option<&'v str> {
    let sounds = visit.pinyin.then(|| visit.shelf().sounds())?;
    sounds.get(run).map(String::as_str)
}

fn head(visit: &Visit<'_>, leaf: &Leaf) -> Markup {
    html! {
        header.top {
            a.house href=(visit.href("/", &[])) {
                span.seal lang="zh-Hant" aria-hidden="true" { "考異" }
                span.house-name { "Kaoyi" span.motto { (visit.say(Word::Motto)) } }
            }
            // Where the page itself has a search field, a second one would be in the way.
            @if !matches!(visit.path, "/" | "/find") { (seek(visit)) }
            nav.sections aria-label=(visit.say(Word::Sections)) {
                ul { @for (path, word) in SECTIONS {
                    li { a href=(visit.href(path, &[])) aria-current=[(leaf.section == *path).then_some("page")] { (visit.say(*word)) } }
                } }
            }
            (switches(visit))
        }
    }
}

fn seek(visit: &Visit<'_>) -> Markup {
    html! {
        form.seek role="search" action="/find" method="get" {
            (visit.kept_fields())
            label.read for="seek" { (visit.say(Word::SearchLabel)) }
            (parts::seek_field(visit, "seek", ""))
            button type="submit" { (visit.say(Word::Search)) }
        }
    }
}

/// The switches are links: what they choose stands in the address, so that it can be shared and needs no cookie.
fn switches(visit: &Visit<'_>) -> Markup {
    let one = |name: &'static str, value: Option<&'static str>, words: &str, lang: &'static str| {
        let chosen = visit.asked.one(name) == value
            || (name == "lang" && value.is_none() && visit.lang == Lang::En);
        html! { li { a href=(visit.here(&[(name, value)])) lang=(lang) aria-current=[chosen.then_some("true")] { (words) } } }
    };
    let own = language(visit);
    html! {
        div.switches {
            ul aria-label=(visit.say(Word::Language)) {
                (one("lang", None, "English", "en"))
                (one("lang", Some("zh"), "中文", "zh"))
            }
            ul aria-label=(visit.say(Word::Script)) {
                (one("script", None, &visit.say(Word::ScriptRecorded), own))
                (one("script", Some("hant"), "繁體", "zh-Hant"))
                (one("script", Some("hans"), "简体", "zh-Hans"))
            }
            ul aria-label=(visit.say(Word::Pinyin)) {
                (one("pinyin", None, &format!("{} {}", visit.say(Word::Pinyin), visit.say(Word::Off)), own))
                (one("pinyin", Some("yes"), &format!("{} {}", visit.say(Word::Pinyin), visit.say(Word::On)), own))
            }
        }
    }
}

/// What is wrong with the folder that is read.
fn faults(visit: &Visit<'_>) -> Markup {
    html! {
        @if let Some(fault) = &visit.state.fault {
            section.fault role="status" {
                p { strong { (visit.say(Word::FaultyFolder)) } }
                (told(visit, fault))
            }
        }
        @for note in visit.notes() { p.note role="status" { (text(visit, &note)) } }
    }
}

fn foot(visit: &Visit<'_>, twin: bool) -> Markup {
    html! {
        footer {
            p { strong { (visit.say(Word::Notice)) } }
            p { @if twin { a href=(visit.twin()) { (visit.say(Word::Json)) } " · " }
                a href="/api/openapi.json" { (visit.say(Word::Description)) } }
        }
    }
}

/// A failure in words: what happened, what may be meant, what to do next, and the faults of files with their places.
pub(crate) fn told(visit: &Visit<'_>, failure: &Failure) -> Markup {
    let all = failure.findings.iter().flat_map(|view| &view.findings);
    html! {
        p { (text(visit, &failure.message)) }
        @if !failure.candidates.is_empty() {
            ul.near { @for candidate in &failure.candidates { li { (candidate_of(visit, candidate)) } } }
        }
        @if let Some(hint) = &failure.hint { p { (text(visit, hint)) } }
        @if failure.findings.is_some() { (findings(visit, all.take(failure.findings_shown))) }
    }
}

/// Faults of files with their places.
pub(crate) fn findings<'f>(
    visit: &Visit<'_>,
    findings: impl Iterator<Item = &'f Finding>,
) -> Markup {
    html! {
        ul.findings { @for one in findings {
            li {
                code { (one.file) @if let Some(line) = one.line { ":" (line) @if let Some(column) = one.column { ":" (column) } } }
                " " (visit.say(Word::Found)) " " (one.found) "; " (visit.say(Word::Expected)) " " (one.expected)
                @if let Some(excerpt) = &one.excerpt { pre { (excerpt) } }
            }
        } }
    }
}

/// A candidate begins with an id where it is an herb; then it leads to its page.
fn candidate_of(visit: &Visit<'_>, candidate: &str) -> Markup {
    let id = candidate.split_whitespace().next().unwrap_or_default();
    let herb = candidate
        .contains("  ")
        .then(|| visit.corpus().find_herb(id));
    let known = matches!(herb, Some(Lookup::One(_)));
    html! {
        @if known { a href=(visit.herb_href(id)) { (text(visit, candidate)) } } @else { (text(visit, candidate)) }
    }
}

/// A page that says why there is no other.
pub(crate) fn failure(
    visit: &Visit<'_>,
    status: StatusCode,
    failure: &Failure,
    form: Option<Markup>,
) -> Reply {
    let word = match status {
        StatusCode::NOT_FOUND => Word::NotFound,
        StatusCode::FORBIDDEN => Word::Refused,
        _ => Word::NotAnswered,
    };
    let leaf = Leaf {
        title: visit.say(word).into_owned(),
        section: "",
        main: html! {
            h1 { (visit.say(word)) }
            div.refusal role="status" { (told(visit, failure)) }
            @if let Some(form) = form { (form) }
        },
    };
    Reply::new(HTML, page(visit, &leaf).into_string()).with(status)
}
