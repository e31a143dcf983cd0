//! A tasting's file, a class's table and the words of a form: what is read is written and read again as the same, a fault
//! has its place, and an edit keeps what it does not change.

use std::sync::OnceLock;

use kaoyi::corpus::{self, Corpus, Finding};
use kaoyi::tasting::{
    Field, Score, Tasting, Warmth, read_table, read_tasting, tasting_yaml, with_fields,
};

fn corpus() -> &'static Corpus {
    static CORPUS: OnceLock<Corpus> = OnceLock::new();
    CORPUS.get_or_init(|| corpus::embedded().unwrap())
}

/// The first byte tells what the rest is: `t` a table, `f` lines `field words` over a tasting, anything else a tasting's file.
pub fn run(data: &[u8]) {
    match data.split_first() {
        Some((b't', rest)) => table(rest),
        Some((b'f', rest)) => {
            if let Ok(text) = std::str::from_utf8(rest) {
                form(text);
            }
        }
        _ => {
            if let Ok(text) = std::str::from_utf8(data) {
                file(text);
            }
        }
    }
}

fn file(text: &str) {
    let vocabulary = &corpus().vocabulary;
    match read_tasting("cup.yaml", text, vocabulary) {
        Ok(tasting) => {
            kept(&tasting);
            // An edit that changes nothing changes nothing that is read; one that was made is made.
            let mut longer = tasting.clone();
            Field::Hours.set(&mut longer, "12").unwrap();
            Field::Words
                .set(&mut longer, "cool: \"then\" # sharp")
                .unwrap();
            for (to, keys) in [(&tasting, &[][..]), (&longer, &["hours", "words"][..])] {
                let edited = with_fields(text, to, keys);
                assert_eq!(
                    read_tasting("cup.yaml", &edited, vocabulary).as_ref(),
                    Ok(to),
                    "{edited}"
                );
                assert_eq!(with_fields(&edited, to, keys), edited, "edited twice");
            }
        }
        Err(findings) => {
            assert!(!findings.is_empty());
            findings.iter().for_each(|one| has_its_place(one, text));
        }
    }
}

fn has_its_place(finding: &Finding, text: &str) {
    assert!(
        !finding.found.is_empty() && !finding.expected.is_empty(),
        "{finding:?}"
    );
    if let Some(line) = finding.line {
        assert!(
            line >= 1 && line <= text.split('\n').count() + 1,
            "{finding:?}"
        );
        assert!(finding.column.is_none_or(|column| column >= 1));
    }
}

/// What is written is read as the same, and every score is within its range.
fn kept(tasting: &Tasting) {
    let written = tasting_yaml(tasting);
    let read = read_tasting("cup.yaml", &written, &corpus().vocabulary);
    assert_eq!(read.as_ref(), Ok(tasting), "{written}");
    assert_eq!(tasting_yaml(&read.unwrap()), written);
    let scores = &tasting.scores;
    let all = scores
        .flavours
        .values()
        .copied()
        .chain(scores.thickness)
        .chain(scores.lingering)
        .chain(scores.aroma);
    all.for_each(|score| assert!(Score::MIN <= score && score <= Score::MAX));
    assert!(
        scores
            .warmth
            .is_none_or(|warmth| Warmth::MIN <= warmth && warmth <= Warmth::MAX)
    );
}

fn table(bytes: &[u8]) {
    let table = read_table(corpus(), "class.csv", bytes);
    assert!(
        table.left_out + table.unfilled + table.tastings.len() <= table.rows.max(1),
        "{table:?}"
    );
    let text = String::from_utf8_lossy(bytes);
    table
        .findings
        .iter()
        .for_each(|one| has_its_place(one, &text));
    table.tastings.iter().for_each(kept);
}

fn form(text: &str) {
    let vocabulary = &corpus().vocabulary;
    let mut tasting = Tasting::on("bohe".to_owned(), "2026-03-14".parse().unwrap());
    let fields = [
        Field::Part,
        Field::Preparation,
        Field::Lot,
        Field::Supplier,
        Field::Amount,
        Field::Water,
        Field::Vessel,
        Field::Temperature,
        Field::Hours,
        Field::Date,
        Field::Taster,
        Field::Fasting,
        Field::Code,
        Field::Cup,
        Field::Places,
        Field::Direction,
        Field::Words,
        Field::Photos,
    ];
    for line in text.lines().take(30) {
        if let Ok((field, number)) = Field::score(vocabulary, line) {
            put(&field, &mut tasting, number);
        }
        let (name, words) = line.split_once(' ').unwrap_or((line, ""));
        if let Some(field) = fields.iter().find(|field| field.name() == name) {
            put(field, &mut tasting, words);
        }
    }
    kept(&tasting);
}

/// What a field gives back is what it takes.
fn put(field: &Field, tasting: &mut Tasting, words: &str) {
    let before = tasting.clone();
    if field.set(tasting, words).is_err() {
        assert_eq!(*tasting, before, "a refused value changes nothing");
        return;
    }
    if let Some(value) = field.get(tasting) {
        let mut again = tasting.clone();
        field.set(&mut again, &value).unwrap();
        assert_eq!(again, *tasting, "{value}");
    }
}
