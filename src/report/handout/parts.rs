//! The parts of a handout as plain words, from which the HTML and the Markdown are both made.

use crate::claim::{Facet, Severity};
use crate::corpus::Basis;
use crate::report::chart::{Said, kind_in_words, told_apart};
use crate::report::text::{Titles, count, gist, severest, short_year, told_here, whose_tastings};
use crate::report::view::{
    BookView, ComparisonView, DisputesView, HerbView, OwnFigures, OwnView, ScalesView, StandView,
    WitnessRow,
};

/// A table in words.
pub(super) struct Grid {
    /// The heads of its columns, each with its English word where the head is Han.
    pub heads: Vec<(String, Option<String>)>,
    /// Its rows: the first cell names the row.
    pub rows: Vec<Vec<String>>,
}

impl Grid {
    fn new(heads: &[&str]) -> Self {
        Self {
            heads: heads
                .iter()
                .map(|head| ((*head).to_owned(), None))
                .collect(),
            rows: Vec::new(),
        }
    }
}

/// Who the herb is: pairs of what and which.
pub(super) fn identity(herb: &HerbView) -> Vec<(&'static str, String)> {
    let memory = if herb.identity == Basis::Memory {
        " (from memory)"
    } else {
        ""
    };
    let mut rows: Vec<(&'static str, String)> = Vec::new();
    rows.extend(
        herb.latin
            .iter()
            .map(|latin| ("Latin", format!("{latin}{memory}"))),
    );
    if !herb.species.is_empty() {
        rows.push(("Species", format!("{}{memory}", herb.species.join(", "))));
    }
    rows.extend(herb.part.iter().map(|part| ("Part used", part.clone())));
    if !herb.also.is_empty() {
        rows.push(("Also called", herb.also.join(", ")));
    }
    if !herb.shared.is_empty() {
        let names = herb
            .shared
            .iter()
            .map(|one| format!("{} ({})", one.name, one.note));
        rows.push((
            "Names of other drugs too",
            names.collect::<Vec<_>>().join("; "),
        ));
    }
    rows.extend(herb.note.iter().map(|note| ("Note", note.clone())));
    rows.push((
        "Reading",
        format!(
            "{} of {} compared with the text by a second reader",
            herb.reviewed,
            count(herb.entries, "article")
        ),
    ));
    rows
}

/// What each book says: flavours as signs, then the other facets in words.
pub(super) fn matrix(view: &ComparisonView, scales: &ScalesView) -> Grid {
    let titles = Titles::new(&view.works);
    let said = |row: &WitnessRow, id: &str| Said::of(row, id);
    let named = |said: Said| !matches!(said, Said::Denied | Said::Silent | Said::Unquoted);
    let flavours: Vec<_> = scales
        .flavours
        .iter()
        .filter(|flavour| {
            view.witnesses
                .iter()
                .any(|row| named(said(row, &flavour.id)))
        })
        .collect();
    let others = [Facet::Nature, Facet::Toxicity, Facet::Channel];
    let others = others.into_iter().filter(|facet| {
        view.witnesses
            .iter()
            .any(|row| row.stands.contains_key(facet))
    });
    let others: Vec<Facet> = others.collect();
    let mut grid = Grid::new(&["work", "year"]);
    for flavour in &flavours {
        grid.heads
            .push((flavour.han.clone(), Some(flavour.english.clone())));
    }
    grid.heads
        .extend(others.iter().map(|facet| (facet.name().to_owned(), None)));
    for row in &view.witnesses {
        let year = titles.work(&row.work).map_or_else(String::new, short_year);
        let mut cells = vec![titles.title(&row.work), year];
        cells.extend(
            flavours
                .iter()
                .map(|flavour| said(row, &flavour.id).sign().to_owned()),
        );
        cells.extend(others.iter().map(|facet| stand(row, *facet)));
        grid.rows.push(cells);
    }
    grid
}

fn stand(row: &WitnessRow, facet: Facet) -> String {
    match row.stands.get(&facet) {
        Some(stand) => in_words(stand),
        None if row.silent.contains(&facet) => "–".to_owned(),
        None => String::new(),
    }
}

/// A stand with the signs of the comparison: ≠ carriers differ, ? doubtful.
fn in_words(stand: &StandView) -> String {
    let mut words = stand.text.clone();
    if stand.carriers_differ {
        words.push_str(" ≠");
    }
    if stand
        .statements
        .iter()
        .any(|one| one.counted && one.doubt.is_some())
    {
        words.push_str(" ?");
    }
    words
}

/// How the signs of the matrix are read.
pub(super) fn key() -> String {
    let signs = Said::ALL
        .iter()
        .map(|said| format!("{} {}", said.sign(), said.word()));
    format!(
        "{}. (…) said of that only, not counted; ≠ carriers differ; ? doubtful; * your own folder.",
        signs
            .map(|one| one.trim().to_owned())
            .collect::<Vec<_>>()
            .join("; ")
    )
}

/// A facet with its witnesses in their lines: title, date, value, line.
pub(super) fn lines(view: &ComparisonView, facet: Facet) -> Grid {
    let titles = Titles::new(&view.works);
    let mut grid = Grid::new(&["work", "date", facet.name(), "line", "draws on"]);
    for row in &view.witnesses {
        let (Some(stand), Some(work)) = (row.stands.get(&facet), titles.work(&row.work)) else {
            continue;
        };
        let here = |id: &&String| {
            view.witnesses
                .iter()
                .any(|row| row.work == **id && row.stands.contains_key(&facet))
        };
        let older: Vec<String> = work
            .draws_on
            .iter()
            .filter(here)
            .map(|id| titles.title(id))
            .collect();
        let line = stand
            .line
            .map_or_else(|| "not counted".to_owned(), |line| line.to_string());
        grid.rows.push(vec![
            titles.title(&row.work),
            work.date.clone(),
            stand.text.clone(),
            line,
            older.join(", "),
        ]);
    }
    grid
}

/// How many books state each value of a facet, with the interval.
pub(super) fn support(view: &ComparisonView, facet: Facet) -> Grid {
    let mut grid = Grid::new(&["value", "books", "lines", "interval"]);
    let profile = view.profile.iter().find(|profile| profile.facet == facet);
    for one in profile.iter().flat_map(|profile| &profile.values) {
        let degrees = if one.any_degree {
            ", in any degree"
        } else {
            ""
        };
        let interval = match (one.low, one.high) {
            (Some(low), Some(high)) => format!("{:.0}–{:.0} %", low * 100.0, high * 100.0),
            _ => String::new(),
        };
        grid.rows.push(vec![
            format!("{} {}{degrees}", one.value.han, one.value.english),
            format!("{} of {}", one.k, one.n),
            format!("{} of {}", one.j, one.m),
            interval,
        ]);
    }
    grid
}

/// A difference in words with its sides.
pub(super) struct DifferencePart {
    /// `nature, crossing`
    pub head: String,
    /// What it comes to.
    pub gist: String,
    /// What each side says, and by whom.
    pub sides: Vec<(String, String)>,
}

pub(super) fn differences(view: &ComparisonView) -> Vec<DifferencePart> {
    let titles = Titles::new(&view.works);
    let part = |one: &crate::report::view::DifferenceView| DifferencePart {
        head: format!("{}, {}", one.facet.name(), one.kind.word()),
        gist: gist(&titles, one),
        sides: one
            .sides
            .iter()
            .filter(|side| one.sides.len() > 1 && told_here(one, side))
            .map(|side| {
                let n = count(side.witnesses.len(), "book");
                (
                    side.label.clone(),
                    format!("{n}: {}", titles.list(&side.witnesses)),
                )
            })
            .collect(),
    };
    view.differences.iter().map(part).collect()
}

/// Opposed actions in words.
pub(super) fn opposed(view: &ComparisonView) -> Vec<(String, Vec<String>)> {
    let titles = Titles::new(&view.works);
    let mut pairs = Vec::new();
    for pair in &view.opposed {
        let mut words = Vec::new();
        for one in [&pair.stronger, &pair.weaker] {
            let mut line = format!(
                "{}: {} in {}",
                one.action.english,
                count(one.witnesses.len(), "work"),
                count(one.lines, "line")
            );
            if !one.witnesses.is_empty() {
                line.push_str(&format!(": {}", titles.list(&one.witnesses)));
            }
            if !one.of_scope_only.is_empty() {
                line.push_str(&format!(
                    "; of a part, preparation or kind only: {}",
                    titles.list(&one.of_scope_only)
                ));
            }
            words.push(line);
        }
        if !pair.both.is_empty() {
            words.push(format!("both: {}", titles.list(&pair.both)));
        }
        words.extend(
            told_apart(&titles, pair)
                .iter()
                .map(|one| format!("told apart: {one}")),
        );
        let (a, b) = (&pair.stronger.action, &pair.weaker.action);
        pairs.push((
            format!("{} {} – {} {}", a.han, a.english, b.han, b.english),
            words,
        ));
    }
    pairs
}

/// The cautions, each with whether it is grave.
pub(super) fn cautions(view: &ComparisonView) -> Vec<(bool, String)> {
    let titles = Titles::new(&view.works);
    let heed = &view.heed;
    let today = heed.cautions.iter().map(|one| {
        let grave = one.severity == Severity::Grave;
        (grave, format!("{} ({})", one.text, one.source))
    });
    let mut all: Vec<(bool, String)> = today.collect();
    let books = heed.warnings.iter();
    all.extend(books.map(|one| {
        (
            false,
            format!("in the books: called {}", severest(&titles, one)),
        )
    }));
    if all.is_empty() {
        all.push((
            false,
            "None on record here, which is no proof of harmlessness.".to_owned(),
        ));
    }
    all
}

/// The own tastings: what was scored, with the median and the lowest and highest score.
pub(super) fn own(own: &OwnView) -> Grid {
    let mut grid = Grid::new(&["scored", "tastings", "median", "lowest", "highest"]);
    let mut row = |name: String, one: &OwnFigures| {
        let figures = [one.median, one.lowest, one.highest].map(|score| score.to_string());
        let mut cells = vec![name, one.n.to_string()];
        cells.extend(figures);
        grid.rows.push(cells);
    };
    for one in &own.flavours {
        row(
            format!("{} {}", one.value.han, one.value.english),
            &one.figures,
        );
    }
    for one in &own.others {
        row(one.name.to_owned(), &one.figures);
    }
    grid
}

/// Whose tastings they are, and what they are not.
pub(super) fn whose(own: &OwnView) -> String {
    format!(
        "{}. Scores from 0 to 10, warmth from -5 (cold) to 5 (hot); not counted among the books.",
        whose_tastings(own)
    )
}

/// A work as a bibliography names it: title, the rest in words.
pub(super) fn book(book: &BookView) -> (String, String) {
    let work = &book.work;
    let juan = book.juan.map(|juan| format!("; {juan} juan"));
    let rest = format!(
        "{} ({}). {}. {}{}. {}.",
        work.pinyin,
        work.english,
        book.author.trim_end_matches('.'),
        work.date,
        juan.unwrap_or_default(),
        kind_in_words(work.kind)
    );
    (work.title.clone(), rest)
}

/// The herbs of a lesson in their order.
pub(super) fn disputed(view: &DisputesView) -> Grid {
    let titles = Titles::new(&view.works);
    let mut grid = Grid::new(&["herb", "discord", "books", "lines", "kind", "sides"]);
    for one in &view.disputes {
        for facet in &one.facets {
            let kinds: Vec<&str> = facet.kinds.iter().map(|kind| kind.word()).collect();
            let sides = facet.sides.iter().map(|side| {
                format!(
                    "{} {} ({})",
                    side.label,
                    side.witnesses.len(),
                    titles.list(&side.witnesses)
                )
            });
            grid.rows.push(vec![
                format!("{} {}", one.herb.name, one.herb.pinyin),
                format!("{:.2}", facet.discord),
                facet.witnesses.to_string(),
                facet.lines.to_string(),
                kinds.join(", "),
                sides.collect::<Vec<_>>().join("; "),
            ]);
        }
    }
    grid
}
