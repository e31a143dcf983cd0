//! The page as Markdown: the same parts, the drawings as tables.

use super::parts::{self, Grid};
use super::{Handout, HerbPart, questions};
use crate::claim::Facet;
use crate::report::text::Titles;
use crate::report::view::NOTICE;

/// The page as Markdown.
#[must_use]
pub fn markdown(handout: &Handout) -> String {
    let mut page = Page::default();
    let several = handout.lesson.is_some() || handout.herbs.len() != 1;
    let level = if several { 2 } else { 1 };
    if several {
        page.heading(1, &handout.title());
    }
    if several && handout.lesson.is_none() {
        page.list(
            &handout
                .herbs
                .iter()
                .map(|one| {
                    let herb = &one.comparison.herb;
                    format!("{} {}", herb.name, herb.pinyin)
                })
                .collect::<Vec<_>>(),
        );
    }
    if let Some(lesson) = &handout.lesson {
        page.paragraph(&format!(
            "The herbs on whose {} the books differ most, of {} with at least {} witnesses.",
            handout.facet.name(),
            lesson.herbs,
            lesson.least_witnesses
        ));
        page.table(&parts::disputed(lesson));
    }
    for herb in &handout.herbs {
        article(&mut page, handout, herb, level);
    }
    page.heading(2, "The books used");
    page.list(
        &handout
            .books
            .iter()
            .map(|book| {
                let (title, rest) = parts::book(book);
                let note = book.note.iter().map(|note| format!(" {note}"));
                format!("{title} {rest}{}", note.collect::<String>())
            })
            .collect::<Vec<_>>(),
    );
    page.paragraph(NOTICE);
    page.text
}

fn article(page: &mut Page, handout: &Handout, part: &HerbPart, level: usize) {
    let view = &part.comparison;
    let herb = &view.herb;
    let english = herb.english.iter().map(|name| format!(" · {name}"));
    page.heading(
        level,
        &format!(
            "{} {}{}",
            herb.name,
            herb.pinyin,
            english.collect::<String>()
        ),
    );
    page.list(
        &parts::identity(herb)
            .iter()
            .map(|(what, which)| format!("{what}: {which}"))
            .collect::<Vec<_>>(),
    );
    let under = level + 1;
    page.heading(under, "Cautions");
    let cautions = parts::cautions(view);
    let cautions = cautions.iter().map(|(grave, words)| {
        if *grave {
            format!("Grave: {words}")
        } else {
            words.clone()
        }
    });
    page.list(&cautions.collect::<Vec<_>>());
    page.paragraph(view.heed.notice);
    if !view.witnesses.is_empty() {
        page.heading(under, "What each book says");
        page.table(&parts::matrix(view, &handout.scales));
        page.paragraph(&parts::key());
    }
    if !view.on_actions_only.is_empty() {
        let works = Titles::new(&view.works).list(&view.on_actions_only);
        page.paragraph(&format!("On its actions only: {works}."));
    }
    tables(page, handout, part, under);
    words(page, part, under);
    if let Some(own) = &part.own {
        page.heading(under, "Our own tastings");
        page.paragraph(&parts::whose(own));
        page.table(&parts::own(own));
    }
}

fn tables(page: &mut Page, handout: &Handout, part: &HerbPart, level: usize) {
    let lines = parts::lines(&part.comparison, handout.facet);
    if !lines.rows.is_empty() {
        page.heading(
            level,
            &format!("Who draws on whom, of {}", handout.facet.name()),
        );
        page.table(&lines);
    }
    for facet in [Facet::Flavour, Facet::Nature] {
        let support = parts::support(&part.comparison, facet);
        if !support.rows.is_empty() {
            page.heading(
                level,
                &format!("How many books state each {}", facet.name()),
            );
            page.table(&support);
        }
    }
}

fn words(page: &mut Page, part: &HerbPart, level: usize) {
    let view = &part.comparison;
    let differences = parts::differences(view);
    if !differences.is_empty() {
        page.heading(level, "Where the books agree and differ");
        for one in &differences {
            page.paragraph(&format!("{}: {}", one.head, one.gist));
            page.list(
                &one.sides
                    .iter()
                    .map(|(label, by)| format!("{label} – {by}"))
                    .collect::<Vec<_>>(),
            );
        }
    }
    let opposed = parts::opposed(view);
    if !opposed.is_empty() {
        page.heading(level, "Opposed actions");
        for (head, lines) in &opposed {
            page.paragraph(head);
            page.list(lines);
        }
    }
    let questions = questions(view);
    if !questions.is_empty() {
        page.heading(level, "Questions for the circle");
        let titles = Titles::new(&view.works);
        page.list(
            &questions
                .iter()
                .map(|one| {
                    let evidence = one
                        .evidence
                        .iter()
                        .map(|(what, works)| format!("{what} – {}", titles.list(works)));
                    format!(
                        "{} ({}: {})",
                        one.text,
                        one.rule,
                        evidence.collect::<Vec<_>>().join("; ")
                    )
                })
                .collect::<Vec<_>>(),
        );
    }
}

/// Collects Markdown; every text goes through [`plain`].
#[derive(Default)]
struct Page {
    text: String,
}

impl Page {
    fn block(&mut self, block: &str) {
        if !self.text.is_empty() {
            self.text.push('\n');
        }
        self.text.push_str(block);
        self.text.push('\n');
    }

    fn heading(&mut self, level: usize, words: &str) {
        self.block(&format!("{} {}", "#".repeat(level), plain(words)));
    }

    fn paragraph(&mut self, words: &str) {
        self.block(&plain(words));
    }

    fn list(&mut self, items: &[String]) {
        if !items.is_empty() {
            let lines = items.iter().map(|item| format!("- {}", plain(item)));
            self.block(&lines.collect::<Vec<_>>().join("\n"));
        }
    }

    fn table(&mut self, grid: &Grid) {
        let row = |cells: Vec<String>| format!("| {} |", cells.join(" | "));
        let head = |(head, english): &(String, Option<String>)| {
            plain(
                &english
                    .as_ref()
                    .map_or_else(|| head.clone(), |english| format!("{head} {english}")),
            )
        };
        let mut lines = vec![
            row(grid.heads.iter().map(head).collect()),
            row(grid.heads.iter().map(|_| "---".to_owned()).collect()),
        ];
        lines.extend(
            grid.rows
                .iter()
                .map(|cells| row(cells.iter().map(|cell| plain(cell)).collect())),
        );
        self.block(&lines.join("\n"));
    }
}

/// `words` with everything escaped that Markdown or HTML within it would take for a sign, on one line.
fn plain(words: &str) -> String {
    let mut safe = String::with_capacity(words.len());
    for c in words.chars() {
        match c {
            '<' => safe.push_str("&lt;"),
            '>' => safe.push_str("&gt;"),
            '&' => safe.push_str("&amp;"),
            '\\' | '`' | '*' | '_' | '[' | ']' | '|' | '#' | '~' => {
                safe.push('\\');
                safe.push(c);
            }
            c if c.is_control() => safe.push(' '),
            c => safe.push(c),
        }
    }
    safe
}

#[cfg(test)]
mod tests {
    use super::plain;
    use pretty_assertions::assert_eq;

    #[test]
    fn signs_of_markdown_in_data_are_text() {
        assert_eq!(
            plain("a|b <i> *c*\n[d](e)"),
            "a\\|b &lt;i&gt; \\*c\\* \\[d\\](e)"
        );
    }
}
