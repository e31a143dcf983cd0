//! Weights and volumes as text.

use super::identity;
use super::page::{Page, Titles, WHOLE, count};
use super::together;
use crate::claim::{Known, Severity};
use crate::report::view::{
    AskedAmount, DailyView, HerbHeed, LeftOut, OpinionView, PeriodRef, QuantityRange, SpanView,
    WeighView, WeighedView,
};

/// An amount or a formula, period by period.
#[must_use]
pub fn weigh(mut page: Page, view: &WeighView) -> String {
    let titles = Titles::new(&view.works);
    let formula = !view.herbs.is_empty();
    page.strong(&title(view));
    for asked in &view.asked {
        for note in &asked.notes {
            page.quiet(&format!("note: {note}"));
        }
    }
    together::forbidden(&mut page, &view.together);
    if let Some(daily) = &view.daily {
        scaled(&mut page, view, daily);
    }
    for period in &view.periods {
        one_period(&mut page, view, period, formula);
    }
    left_out(&mut page, &view.left_out);
    page.raw("\n");
    page.quiet(
        "All published opinions on record, none preferred. Figures are exact until shown, then rounded to three places.",
    );
    if formula {
        grades(&mut page, &titles, &view.herbs);
        together::partners(&mut page, &titles, &view.together);
        cautions(&mut page, &titles, view);
    }
    page.paragraph(view.notice);
    page.into_text()
}

fn title(view: &WeighView) -> String {
    let herbs: Vec<String> = view
        .asked
        .iter()
        .map(|asked| match &asked.herb {
            Some(herb) => format!("{} {}", herb.name, written(asked)),
            None => written(asked),
        })
        .collect();
    let name = view.name.iter().map(|name| format!("{name}: "));
    format!("{}{}", name.collect::<String>(), herbs.join(", "))
}

/// `3 liang (三兩)`
fn written(asked: &AskedAmount) -> String {
    match &asked.han {
        Some(han) => format!("{} ({han})", asked.amount),
        None => asked.amount.clone(),
    }
}

fn heading(period: &PeriodRef) -> String {
    let years = match (period.from, period.to) {
        (Some(from), Some(to)) => format!(" {from}–{to}"),
        (Some(from), None) => format!(" since {from}"),
        _ => String::new(),
    };
    format!("{} {}{years}", period.english.to_uppercase(), period.name)
}

fn one_period(page: &mut Page, view: &WeighView, period: &WeighedView, formula: bool) {
    page.heading(&heading(&period.period));
    relations(page, period);
    if period.opinions.is_empty() {
        page.paragraph("No published opinion on what these units come to is on record here.");
    } else {
        opinions(page, view, period, formula);
    }
    if formula {
        page.raw("\n");
        herbs(page, view, period);
    }
}

/// What each opinion gives, and the range of all.
fn opinions(page: &mut Page, view: &WeighView, period: &WeighedView, formula: bool) {
    let asked = match (formula, view.asked.as_slice()) {
        (false, [one]) => one.amount.as_str(),
        _ => "all together",
    };
    page.table(
        &["one of it", asked, "who says so"],
        &[WHOLE, WHOLE, 0],
        period.opinions.iter().map(opinion).collect(),
    );
    for range in &period.ranges {
        page.paragraph(&summary(range));
    }
}

fn relations(page: &mut Page, period: &WeighedView) {
    let mut by_source: Vec<(String, Vec<&str>)> = Vec::new();
    for one in &period.relations {
        let source = match one.known {
            Known::Memory if !one.source.contains("no source") => {
                format!("{}; from memory", one.source)
            }
            _ => one.source.clone(),
        };
        match by_source.last_mut() {
            Some((last, relations)) if *last == source => relations.push(&one.relation),
            _ => by_source.push((source, vec![&one.relation])),
        }
    }
    for (source, relations) in by_source {
        page.quiet(&format!("{} ({source})", relations.join(", ")));
    }
}

fn opinion(one: &OpinionView) -> Vec<String> {
    let unit = one.measure.as_ref().unwrap_or(&one.unit);
    let mut source = one.source.clone();
    if one.known == Some(Known::Memory) {
        source.push_str(" (from memory)");
    }
    if let Some(note) = &one.note {
        source.push_str(&format!("; {note}"));
    }
    if one.commonest {
        source.push_str("; the commonest practice");
    }
    vec![
        format!("1 {unit} = {}", span(&one.each, one.sign)),
        span(&one.total, one.sign),
        source,
    ]
}

/// `13.75–13.875 g`
fn span(span: &SpanView, sign: &str) -> String {
    let SpanView {
        value,
        least,
        greatest,
    } = span;
    if least == greatest {
        format!("{} {sign}", value.shown)
    } else {
        format!("{}–{} {sign}", least.shown, greatest.shown)
    }
}

fn summary(range: &QuantityRange) -> String {
    let QuantityRange {
        sign,
        opinions,
        least,
        greatest,
        commonest,
    } = range;
    let mut words = if least.shown == greatest.shown {
        format!("{} {sign} by {}", least.shown, count(*opinions, "opinion"))
    } else {
        format!(
            "From {} to {} {sign} by {}",
            least.shown,
            greatest.shown,
            count(*opinions, "opinion")
        )
    };
    if let Some(one) = commonest {
        words.push_str(&format!(
            "; the commonest practice: {} {sign} ({})",
            one.figure.shown, one.source
        ));
    }
    words.push('.');
    words
}

/// The herbs of a formula with shares and ranges.
fn herbs(page: &mut Page, view: &WeighView, period: &WeighedView) {
    let common = period.amounts.iter().any(|one| one.commonest.is_some());
    let mut header = vec!["herb", "amount", "share", "by all opinions"];
    if common {
        header.push("commonest practice");
    }
    let rows = view.asked.iter().zip(&period.amounts).map(|(asked, one)| {
        let share = one.share.as_ref();
        let range = match (&one.least, &one.greatest) {
            (Some(least), Some(greatest)) if least == greatest => {
                format!("{} {}", least.shown, one.sign)
            }
            (Some(least), Some(greatest)) => {
                format!("{}–{} {}", least.shown, greatest.shown, one.sign)
            }
            _ => "no opinion".to_owned(),
        };
        let mut row = vec![
            named(asked),
            written(asked),
            share.map_or("–".to_owned(), |share| format!("{} %", share.shown)),
            range,
        ];
        if common {
            let figure = one.commonest.as_ref();
            row.push(figure.map_or("–".to_owned(), |one_figure| {
                format!("{} {}", one_figure.shown, one.sign)
            }));
        }
        row
    });
    page.table(&header, &[], rows.collect());
}

fn named(asked: &AskedAmount) -> String {
    let herb = asked.herb.as_ref();
    herb.map_or_else(String::new, |herb| format!("{} {}", herb.name, herb.pinyin))
}

fn scaled(page: &mut Page, view: &WeighView, daily: &DailyView) {
    page.heading(&format!("SCALED TO {} G A DAY", daily.grams.shown));
    let rows = view.asked.iter().zip(&daily.herbs).map(|(asked, one)| {
        vec![
            named(asked),
            written(asked),
            format!("{} %", one.share.shown),
            format!("{} g", one.grams.shown),
        ]
    });
    page.table(&["herb", "amount", "share", "a day"], &[], rows.collect());
    page.quiet(
        "Whatever one of the units weighs: every opinion leaves the proportions as they are.",
    );
}

fn left_out(page: &mut Page, left_out: &[LeftOut]) {
    if left_out.is_empty() {
        return;
    }
    page.heading("NOT WEIGHED IN");
    for one in left_out {
        page.hanging(
            &one.period.english,
            24,
            &format!(
                "{} is no unit of it on record (known: {})",
                one.unit,
                one.known.join(", ")
            ),
        );
    }
}

/// What the grade in the oldest books implies for the amount.
fn grades(page: &mut Page, titles: &Titles<'_>, herbs: &[HerbHeed]) {
    page.heading("WHAT THE OLDEST GRADE IMPLIES");
    for one in herbs {
        let name = format!("{} {}", one.herb.name, one.herb.pinyin);
        if one.grades.is_empty() {
            page.hanging(&name, 22, "no grade on record");
        }
        for grade in &one.grades {
            let implies = grade.implies.iter().map(|words| format!(": {words}"));
            page.hanging(
                &name,
                22,
                &format!(
                    "{} in {}{}",
                    grade.grade.english,
                    titles.dated(&grade.work),
                    implies.collect::<String>()
                ),
            );
        }
    }
}

fn cautions(page: &mut Page, titles: &Titles<'_>, view: &WeighView) {
    page.heading("CAUTIONS");
    together::warnings(page, titles, &view.together);
    for one in &view.herbs {
        let name = &one.herb.name;
        for caution in &one.cautions {
            let words = format!("{name}: {} ({})", caution.text, caution.source);
            match caution.severity {
                Severity::Grave => page.alert(&words),
                Severity::Care => page.hanging("·", 2, &words),
            }
        }
        for warning in &one.warnings {
            let words = identity::severest(titles, warning);
            page.hanging("·", 2, &format!("{name}: in the books: called {words}"));
        }
        if one.cautions.is_empty() && one.warnings.is_empty() {
            page.hanging(
                "·",
                2,
                &format!("{name}: none on record here, which is no proof of harmlessness"),
            );
        }
    }
}
