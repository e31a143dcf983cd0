//! The page as HTML: one file, no script, nothing from elsewhere.

use maud::{DOCTYPE, Markup, PreEscaped, html as markup};

use super::parts::{self, Grid};
use super::rich::Rich;
use super::{Handout, HerbPart, Question, questions};
use crate::claim::Facet;
use crate::report::chart::{ChartKind, DARK, Dress, LIGHT, RULES, Sheet, TYPEFACES, draw, width};
use crate::report::text::Titles;
use crate::report::view::NOTICE;

/// What is the page's own; colours and the rules of drawings come from the drawings.
const PAGE: &str = include_str!("page.css");

/// The page as one HTML document.
#[must_use]
pub fn html(handout: &Handout) -> String {
    document(handout, &markup! { style { (PreEscaped(style())) } })
}

/// The page with its style sheet, which is [`style`], at the address `sheet`: for a server that allows no styles in a page.
#[must_use]
pub fn linked(handout: &Handout, sheet: &str) -> String {
    document(handout, &markup! { link rel="stylesheet" href=(sheet); })
}

fn document(handout: &Handout, styled: &Markup) -> String {
    let rich = Rich::new(handout);
    let title = handout.title();
    let several = handout.lesson.is_some() || handout.herbs.len() != 1;
    let level = if several { 2 } else { 1 };
    let page = markup! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                meta name="color-scheme" content="light dark";
                title { (title) }
                (styled)
            }
            body {
                @if several {
                    header.top {
                        h1 { (rich.text(&title)) }
                        @if let Some(lesson) = &handout.lesson {
                            p { "The herbs on whose " (handout.facet.name()) " the books differ most, of "
                                (lesson.herbs) " with at least " (lesson.least_witnesses) " witnesses. Discord is the mean \
                                distance of two witnesses, from 0 to 1." }
                        }
                        (contents(&rich, handout))
                    }
                }
                main {
                    @if let Some(lesson) = &handout.lesson {
                        section {
                            h2 #ranking { "The ranking" }
                            (table(&rich, "ranking", "Herbs by discord, the most disputed first", &parts::disputed(lesson)))
                        }
                    }
                    @for herb in &handout.herbs { (article(&rich, handout, herb, level)) }
                    section.books {
                        (heading(2, "books", markup! { "The books used" }))
                        (bibliography(&rich, handout))
                    }
                }
                footer { p { strong { (NOTICE) } }
                    p { "The figures count books as the record has them; each can be redone by hand from the entries." } }
            }
        }
    };
    page.into_string()
}

/// The style sheet of every page.
#[must_use]
pub fn style() -> String {
    format!(
        ":root{{color-scheme:light dark;{LIGHT}}}\n@media screen and (prefers-color-scheme:dark){{:root{{{DARK}}}}}\n@media print{{:root{{--k-paper:#fff}}}}\n\
         body{{{TYPEFACES}}}\n{PAGE}{RULES}\n"
    )
}

/// A heading of a level that is told when the page is made.
fn heading(level: usize, id: &str, words: Markup) -> Markup {
    markup! {
        @match level {
            1 => { h1 id=(id) { (words) } }
            2 => { h2 id=(id) { (words) } }
            _ => { h3 id=(id) { (words) } }
        }
    }
}

fn contents(rich: &Rich, handout: &Handout) -> Markup {
    markup! {
        nav aria-label="Contents" {
            ol {
                @for one in &handout.herbs {
                    @let herb = &one.comparison.herb;
                    li { a href=(format!("#{}", herb.id)) { (rich.plain(&herb.name)) " " (herb.pinyin) }
                        @if let Some(english) = &herb.english { ", " (english) } }
                }
            }
            p { a href="#books" { "The books used" } }
        }
    }
}

fn article(rich: &Rich, handout: &Handout, part: &HerbPart, level: usize) -> Markup {
    let herb = &part.comparison.herb;
    let view = &part.comparison;
    let section = Section {
        rich,
        part,
        handout,
        level: level + 1,
    };
    markup! {
        article {
            header.herb {
                div.cartouche lang=(handout.scales.names) aria-hidden="true" { (herb.name) }
                div {
                    (heading(level, &herb.id, markup! { (rich.plain(&herb.name)) " " (herb.pinyin) }))
                    @if let Some(english) = &herb.english { p.english { (english) } }
                    dl { @for (what, which) in parts::identity(herb) { div { dt { (what) } dd { (rich.text(&which)) } } } }
                }
            }
            (section.cautions())
            @if view.witnesses.is_empty() && view.on_actions_only.is_empty() {
                p { "No work takes a stand on it in the years and works asked for." }
            } @else {
                (section.all())
            }
        }
    }
}

/// What the sections of an herb are made from.
struct Section<'h> {
    rich: &'h Rich,
    part: &'h HerbPart,
    handout: &'h Handout,
    level: usize,
}

impl Section<'_> {
    fn id(&self, name: &str) -> String {
        format!("{}-{name}", self.part.comparison.herb.id)
    }

    fn head(&self, name: &str, words: &str) -> Markup {
        heading(self.level, &self.id(name), markup! { (words) })
    }

    fn all(&self) -> Markup {
        let (view, lesson) = (&self.part.comparison, self.handout.lesson.is_some());
        let stands = |facet: Facet| {
            view.witnesses
                .iter()
                .any(|row| row.stands.contains_key(&facet))
        };
        let (nature, flavour) = (stands(Facet::Nature), stands(Facet::Flavour));
        markup! {
            @if !lesson { (self.figure("time", "Its witnesses through time", ChartKind::Timeline,
                "A mark's shape tells how the work has come down; the words beside it say the same.")) }
            @if !view.witnesses.is_empty() && (!lesson || flavour) { (self.matrix()) }
            @if nature { (self.figure("scale", "From cold to hot", ChartKind::Nature,
                "Each row is a book, the oldest above; its place is the nature that it states.")) }
            @if stands(self.handout.facet) { (self.figure("lines", "Who draws on whom", ChartKind::Lines,
                "Books that repeat an older one are one line of transmission; count voices by lines too.")) }
            @if flavour { (self.figure("flavours", "How many books state each flavour", ChartKind::Flavours,
                "A flavour that a book leaves out of its list, it denies.")) }
            (self.differences())
            (self.opposed())
            (self.questions())
            (self.own())
        }
    }

    fn figure(&self, name: &str, words: &str, kind: ChartKind, caption: &str) -> Markup {
        let sheet = Sheet {
            comparison: &self.part.comparison,
            scales: &self.handout.scales,
            facet: self.handout.facet,
            own: self.part.own.as_ref(),
        };
        let svg = draw(kind, &sheet).to_svg(&self.id(kind.name()), Dress::Inline);
        markup! {
            section {
                (self.head(name, words))
                figure {
                    div.scroll role="group" tabindex="0" aria-labelledby=(self.id(name)) { (PreEscaped(svg)) }
                    figcaption { (caption) }
                }
            }
        }
    }

    fn matrix(&self) -> Markup {
        let grid = parts::matrix(&self.part.comparison, &self.handout.scales);
        let caption = "Flavours as signs, the rest in words; the oldest book first";
        markup! {
            section {
                (self.head("matrix", "What each book says"))
                (table(self.rich, &self.id("matrix"), caption, &grid))
                p.key { (parts::key()) }
                @let actions = &self.part.comparison.on_actions_only;
                @if !actions.is_empty() {
                    p.key { "On its actions only: "
                        (self.rich.text(&Titles::new(&self.part.comparison.works).list(actions))) "." }
                }
            }
        }
    }

    fn differences(&self) -> Markup {
        let differences = parts::differences(&self.part.comparison);
        markup! {
            @if !differences.is_empty() {
                section {
                    (self.head("differences", "Where the books agree and differ"))
                    dl.differences {
                        @for one in &differences {
                            div {
                                dt { (one.head) }
                                dd { (self.rich.text(&one.gist))
                                    @if !one.sides.is_empty() {
                                        ul { @for (label, by) in &one.sides { li { strong { (self.rich.text(label)) } " – " (self.rich.text(by)) } } }
                                    } }
                            }
                        }
                    }
                }
            }
        }
    }

    fn opposed(&self) -> Markup {
        let pairs = parts::opposed(&self.part.comparison);
        markup! {
            @if !pairs.is_empty() {
                (self.figure("opposed", "Opposed actions", ChartKind::Actions,
                    "Both are often true, of another dose, part, preparation or partner."))
                // What tells the two apart stands in the drawing already.
                @for (head, lines) in &pairs {
                    div.pair { p { strong { (self.rich.text(head)) } }
                        ul { @for line in lines.iter().take(2) { li { (self.rich.text(line)) } } } }
                }
            }
        }
    }

    fn questions(&self) -> Markup {
        let questions = questions(&self.part.comparison);
        let titles = Titles::new(&self.part.comparison.works);
        let one = |question: &Question| {
            markup! {
                li {
                    p { (self.rich.text(&question.text)) }
                    p.evidence { span.rule { (question.rule) } ": "
                        @for (place, (what, works)) in question.evidence.iter().enumerate() {
                            @if place > 0 { "; " }
                            (self.rich.text(&format!("{what} – {}", titles.list(works))))
                        } }
                }
            }
        };
        markup! {
            @if !questions.is_empty() {
                section {
                    (self.head("questions", "Questions for the circle"))
                    ol.questions { @for question in &questions { (one(question)) } }
                }
            }
        }
    }

    fn own(&self) -> Markup {
        markup! {
            @if let Some(own) = &self.part.own {
                section {
                    (self.head("tasted", "Our own tastings"))
                    (table(self.rich, &self.id("tasted"), &parts::whose(own), &parts::own(own)))
                }
            }
        }
    }

    /// Cautions stand before the record, so that no one who stops reading misses them.
    fn cautions(&self) -> Markup {
        markup! {
            section.cautions {
                (self.head("cautions", "Cautions"))
                ul { @for (grave, words) in parts::cautions(&self.part.comparison) {
                    @if grave { li.grave { strong { "Grave: " (self.rich.text(&words)) } } }
                    @else { li { (self.rich.text(&words)) } }
                } }
                p { (self.part.comparison.heed.notice) }
            }
        }
    }
}

fn table(rich: &Rich, id: &str, caption: &str, grid: &Grid) -> Markup {
    let caption_id = format!("{id}-caption");
    markup! {
        div.scroll role="group" tabindex="0" aria-labelledby=(caption_id) {
            table {
                caption id=(caption_id) { (caption) }
                thead { tr { @for (head, english) in &grid.heads {
                    th scope="col" { (rich.text(head)) @if let Some(english) = english { br; small { (english) } } }
                } } }
                tbody { @for row in &grid.rows { tr {
                    @for (place, cell) in row.iter().enumerate() {
                        @if place == 0 { th scope="row" { (rich.text(cell)) } }
                        @else { td.short[width(cell) < 7.0] { (cell_of(rich, cell)) } }
                    }
                } } }
            }
        }
    }
}

/// A sign is read out by its word.
fn cell_of(rich: &Rich, cell: &str) -> Markup {
    let said = crate::report::chart::Said::ALL;
    let said = said
        .iter()
        .find(|said| !cell.is_empty() && said.sign() == cell);
    markup! {
        @if let Some(said) = said {
            span.sign aria-hidden="true" { (cell) } span.read { (said.word()) }
        } @else { (rich.text(cell)) }
    }
}

fn bibliography(rich: &Rich, handout: &Handout) -> Markup {
    markup! {
        ol { @for book in &handout.books {
            @let (title, rest) = parts::book(book);
            li { cite { (rich.text(&title)) } " " (rich.text(&rest))
                @if let Some(note) = &book.note { " " small { (rich.text(note)) } } }
        } }
    }
}
