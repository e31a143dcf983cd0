//! `/works` and `/works/{id}`: the books, and one of them with what the corpus holds of it.

use maud::{Markup, html};

use super::affinity;
use crate::compare::coverage;
use crate::corpus::Kind;
use crate::report::view::{AmountView, CarriedCount, DebtView, WorkRow, WorkView, WorksView};
use crate::web::layout::{Leaf, han, text};
use crate::web::pieces::{self, Books};
use crate::web::reply::Answer;
use crate::web::route::{Page, Parameter};
use crate::web::visit::Visit;
use crate::web::words::Word;

/// The list of works.
pub(crate) struct Works;

/// One work.
pub(crate) struct Work;

impl Page for Works {
    type View = WorksView;
    const PATH: &'static str = "/works";
    const SUMMARY: &'static str = "The works, oldest first, with what the corpus holds of each";
    const PARAMETERS: &'static [Parameter] = &[];

    fn view(visit: &Visit<'_>) -> Answer<Self::View> {
        Ok(WorksView::new(&visit.labels(), &coverage(visit.corpus())?))
    }

    fn page(visit: &Visit<'_>, view: &Self::View) -> Answer<Leaf> {
        let (read, other): (Vec<&WorkRow>, Vec<&WorkRow>) = view
            .coverage
            .iter()
            .partition(|row| row.articles.entries > 0);
        let books = Books(&view.works);
        let main = html! {
            h1 { (visit.say(Word::Works)) }
            p { (view.whole.claims) " " (visit.say(Word::Claims)) ", " (view.whole.entries) " " (visit.say(Word::Entries)) ", "
                (view.herbs) " " (visit.say(Word::Herbs)) }
            (read_table(visit, &books, &read))
            p.note { (visit.either(
                "Claims: all that its articles hold, quotations included. Reviewed: entries compared with the text by a second reader; the others were read by the program.",
                "之說：其條文所載全部，連引文在內。已校：由第二人與原文對勘之條；其餘由程式讀出。")) }
            (known_table(visit, &books, &other))
        };
        Ok(Leaf {
            title: visit.say(Word::Works).into_owned(),
            section: "/works",
            main,
        })
    }
}

fn read_table(visit: &Visit<'_>, books: &Books<'_>, rows: &[&WorkRow]) -> Markup {
    let heads = [
        visit.say(Word::Work),
        visit.say(Word::Entries),
        visit.say(Word::Claims),
        visit.say(Word::Reviewed),
    ];
    let row = |row: &&WorkRow| {
        vec![
            books.dated(visit, &row.work),
            pieces::cell(row.articles.entries),
            pieces::cell(row.articles.claims),
            pieces::cell(reviewed(&row.articles)),
        ]
    };
    let rows: Vec<Vec<Markup>> = rows.iter().map(row).collect();
    pieces::table(
        "read",
        &visit.either("Works read", "已讀之書"),
        &heads,
        &rows,
    )
}

fn known_table(visit: &Visit<'_>, books: &Books<'_>, rows: &[&WorkRow]) -> Markup {
    let heads = [
        visit.say(Word::Work),
        visit.say(Word::Herbs),
        visit.say(Word::Claims),
    ];
    let row = |row: &&WorkRow| {
        vec![
            books.dated(visit, &row.work),
            pieces::cell(row.herbs),
            pieces::cell(row.own_claims),
        ]
    };
    let rows: Vec<Vec<Markup>> = rows.iter().map(row).collect();
    pieces::table(
        "known",
        &visit.either("Known through them", "由諸書引用而知"),
        &heads,
        &rows,
    )
}

/// The share of entries that were reviewed, rounded down, so that 100 % means all.
fn reviewed(amount: &AmountView) -> String {
    match amount.entries {
        0 => String::new(),
        entries => format!("{} %", amount.reviewed * 100 / entries),
    }
}

impl Page for Work {
    type View = WorkView;
    const PATH: &'static str = "/works/{id}";
    const SUMMARY: &'static str =
        "One work: what the corpus holds of it, whom it quotes and follows";
    const PARAMETERS: &'static [Parameter] = &[];

    fn view(visit: &Visit<'_>) -> Answer<Self::View> {
        let work = visit.work("id")?;
        let coverage = coverage(visit.corpus())?;
        Ok(WorkView::new(
            &visit.labels(),
            &coverage.works[usize::from(work.0)],
        ))
    }

    fn page(visit: &Visit<'_>, view: &Self::View) -> Answer<Leaf> {
        let books = Books(&view.works);
        let near = affinity::of_work(visit, visit.work("id")?)?;
        let work = &view.work;
        let main = html! {
            h1 { span lang=(han(visit)) { (work.title) } " " (work.pinyin) }
            p.english lang="en" { (work.english) }
            p { (text(visit, &view.author)) " · " (work.date) " · " (kind(visit, work.kind))
                @if let Some(juan) = view.juan { " · " (juan) " " (visit.either("juan", "卷")) } }
            dl.facts {
                @if !view.cited_as.is_empty() { div { dt { (visit.either("cited as", "引作")) } dd { (text(visit, &view.cited_as.join(", "))) } } }
                @if let Some(note) = &view.note { div { dt { (visit.say(Word::Note)) } dd lang="en" { (text(visit, note)) } } }
            }
            (held(visit, view))
            (carried(visit, &books, "carries", &visit.either("Carries sayings of", "引述諸家"), &view.carries))
            (carried(visit, &books, "carried-by", &visit.either("Is quoted by", "為諸書所引"), &view.carried_by))
            (debts(visit, &books, &visit.either("Draws on", "所本"), &view.draws_on))
            (debts(visit, &books, &visit.either("Is drawn on by", "以此書為本者"), &view.drawn_on_by))
            (affinity::nearest(visit, &near, &work.id))
            p { a href=(visit.href("/affinity", &[("work", &work.id)])) { (visit.either("All that it shares with others", "與他書相近之詳")) } }
        };
        Ok(Leaf {
            title: format!("{} {}", work.title, work.pinyin),
            section: "/works",
            main,
        })
    }
}

fn kind(visit: &Visit<'_>, kind: Kind) -> std::borrow::Cow<'static, str> {
    match kind {
        Kind::Extant => visit.either("extant", "今存"),
        Kind::Reconstructed => visit.either("put together again from quotations", "輯佚本"),
        Kind::Lost => visit.either("lost, known through quotations", "已佚，由引文而知"),
        Kind::Authority => visit.either(
            "an authority, known through quotations",
            "名家之說，由引文而知",
        ),
    }
}

fn held(visit: &Visit<'_>, view: &WorkView) -> Markup {
    let row = &view.coverage;
    let articles = &row.articles;
    html! {
        h2 { (visit.either("What is held of it", "所收")) }
        dl.facts {
            @if articles.entries > 0 {
                div { dt { (visit.say(Word::Entries)) } dd { (articles.entries) "; " (articles.reviewed) " " (visit.say(Word::Reviewed)) " (" (reviewed(articles)) "); "
                    (articles.doubtful) " / " (articles.sayings) " " (visit.either("sayings doubtful", "句存疑")) } }
            }
            @if let Some(text) = &row.text {
                div { dt { (visit.either("text", "原文")) } dd { (text.articles) " " (visit.either("articles, statements found in", "條，讀得其說者")) " " (text.with_statements) "; "
                    (text.unread_clauses) " " (visit.either("clauses not understood", "句未解")) } }
            }
            div { dt { (visit.either("says itself", "自言")) } dd { (row.own_claims) " " (visit.say(Word::Claims)) ", " (row.herbs) " " (visit.say(Word::Herbs))
                @for one in view.claims.iter().filter(|one| one.claims > 0) { "; " (pieces::facet(visit, one.facet)) " " (one.claims) } } }
        }
    }
}

fn carried(
    visit: &Visit<'_>,
    books: &Books<'_>,
    id: &str,
    heading: &str,
    counts: &[CarriedCount],
) -> Markup {
    html! { @if !counts.is_empty() {
        section aria-labelledby=(id) {
            h2 id=(id) { (heading) }
            ul.inline { @for one in counts { li { (books.title(visit, &one.work)) " " (one.sayings) } } }
        }
    } }
}

fn debts(visit: &Visit<'_>, books: &Books<'_>, heading: &str, debts: &[DebtView]) -> Markup {
    html! { @if !debts.is_empty() {
        h2 { (heading) }
        ul { @for debt in debts { li { (books.dated(visit, &debt.work)) ": " span lang="en" { (text(visit, &debt.why)) } } } }
    } }
}
