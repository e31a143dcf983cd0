//! What is generated from types, vocabulary and arguments is current. To rewrite it all:
//! `KAOYI_REWRITE=1 cargo test generated`.

use std::fmt::Write as _;
use std::fs;

use crate::support::{current, files_below, root};
use kaoyi::claim::{Facet, Known, Scheme};
use kaoyi::corpus::{Code, Corpus, embedded, schemas};
use kaoyi::report::view;
use pretty_assertions::assert_eq;

#[test]
fn schemas_are_current_and_no_other_file_is_among_them() {
    let corpus = embedded().unwrap();
    let mut all = schemas(&corpus);
    all.push(kaoyi::tasting::schema(&corpus));
    all.extend(view::schemas());
    for (name, schema) in &all {
        current(
            &format!("schema/{name}"),
            &format!("{}\n", serde_json::to_string_pretty(schema).unwrap()),
        );
    }
    assert_eq!(files_below(&root().join("schema")).len(), all.len());
}

#[test]
fn every_corpus_file_names_the_schema_of_its_kind() {
    for file in files_below(&root().join("corpus")) {
        let head = fs::read_to_string(&file).unwrap();
        let head = head.lines().next().unwrap_or_default();
        let folder = file
            .parent()
            .unwrap()
            .file_name()
            .unwrap()
            .to_str()
            .unwrap();
        let kind = match (folder, file.file_stem().unwrap().to_str().unwrap()) {
            ("herbs", _) => "herb",
            ("works", _) => "work",
            (
                _,
                stem
                @ ("cautions" | "headings" | "measures" | "pairing" | "phrases" | "thresholds"),
            ) => stem,
            _ => "vocabulary",
        };
        let wanted = format!("# yaml-language-server: $schema=../../schema/{kind}.schema.json");
        assert_eq!(head, wanted, "{}", file.display());
    }
}

#[test]
fn the_corpus_files_pass_the_schemas_that_editors_use() {
    for (name, schema) in schemas(&embedded().unwrap()) {
        let validator = jsonschema::validator_for(&schema).unwrap();
        for file in files_below(&root().join("corpus")) {
            let text = fs::read_to_string(&file).unwrap();
            if text
                .lines()
                .next()
                .is_some_and(|head| head.ends_with(&format!("/{name}")))
            {
                let value: serde_json::Value = serde_yaml::from_str(&text).unwrap();
                assert!(validator.is_valid(&value), "{}", file.display());
            }
        }
    }
}

#[test]
fn an_editor_is_offered_the_words_of_every_place_that_takes_one() {
    let corpus = embedded().unwrap();
    let all = schemas(&corpus);
    let herb = &all
        .iter()
        .find(|(name, _)| *name == "herb.schema.json")
        .unwrap()
        .1;
    let offered = herb.to_string().matches("\"examples\"").count();
    assert_eq!(offered, 14, "places in an herb file that take a word");
}

#[test]
fn the_command_reference_is_current() {
    let mut command = kaoyi::cli::command().term_width(100);
    command.build();
    let mut text =
        String::from("# Commands\n\nThis page is generated from the program's own help.\n");
    let mut section = |name: &str, command: &mut clap::Command| {
        let help = command.render_long_help().to_string();
        let help = help
            .lines()
            .map(str::trim_end)
            .collect::<Vec<_>>()
            .join("\n");
        write!(text, "\n## {name}\n\n```text\n{}\n```\n", help.trim_end()).unwrap();
    };
    section("kaoyi", &mut command);
    let names: Vec<String> = command
        .get_subcommands()
        .map(|one| one.get_name().to_owned())
        .collect();
    for name in names.iter().filter(|name| *name != "help") {
        let one = command.find_subcommand_mut(name).unwrap();
        section(&format!("kaoyi {name}"), one);
        let below: Vec<String> = one
            .get_subcommands()
            .map(|below| below.get_name().to_owned())
            .filter(|below| below != "help")
            .collect();
        for below in below {
            section(
                &format!("kaoyi {name} {below}"),
                one.find_subcommand_mut(&below).unwrap(),
            );
        }
    }
    current("docs/commands.md", &text);
}

#[test]
fn the_reference_of_findings_is_current() {
    let mut text = String::from(
        "# Findings of `kaoyi check`\n\nThis page is generated. The same texts: `kaoyi check --explain CODE`.\n",
    );
    for code in Code::ALL {
        let words = code
            .explanation()
            .split_whitespace()
            .collect::<Vec<_>>()
            .join(" ");
        write!(text, "\n## {}\n\n{}: {words}\n", code.name(), code.title()).unwrap();
    }
    current("docs/findings.md", &text);
}

#[test]
fn the_tables_of_values_are_current() {
    let corpus = embedded().unwrap();
    let mut text = String::from("# Values\n\nThis page is generated from `corpus/vocabulary`.\n");
    for facet in Facet::ALL {
        table(&mut text, facet.name(), corpus.vocabulary.scheme(facet));
    }
    for (name, scheme) in [
        ("degree", &corpus.vocabulary.degrees),
        ("part", &corpus.vocabulary.parts),
        ("preparation", &corpus.vocabulary.preparations),
    ] {
        table(&mut text, name, scheme);
    }
    measures(&mut text, &corpus);
    works(&mut text, &corpus);
    current("docs/values.md", &text);
}

fn measures(text: &mut String, corpus: &Corpus) {
    let file = &corpus.vocabulary.measures;
    text.push_str(
        "\n## units of weight and volume\n\n| id | 漢字 | pinyin | also | of |\n|---|---|---|---|---|\n",
    );
    for unit in &file.units {
        let (also, of) = (unit.also.join(", "), unit.measures.name());
        let line = format!(
            "| {} | {} | {} | {also} | {of} |",
            unit.id, unit.hant, unit.pinyin
        );
        writeln!(text, "{line}").unwrap();
    }
    text.push_str(
        "\n## measures of the periods\n\nRelations between units, then what one unit is held to be in grams or millilitres.\n\n\
         | period | measure | who says so |\n|---|---|---|\n",
    );
    for period in &file.periods {
        for one in &period.relations {
            let relation = format!("1 {} = {} {}", one.one, one.holds, one.of);
            let source = sourced(&one.source, None, Some(one.known));
            writeln!(text, "| {} | {relation} | {source} |", period.id).unwrap();
        }
        for one in &period.opinions {
            let sign = file.units.iter().find(|unit| unit.id == one.unit).unwrap();
            let sign = sign.measures.sign();
            let unit = one.measure.as_ref().unwrap_or(&one.unit);
            let mut value = format!("1 {unit} = {}", one.value);
            if let (Some(least), Some(greatest)) = (&one.least, &one.greatest) {
                write!(value, " ({least} to {greatest})").unwrap();
            }
            let source = sourced(&one.source, one.year, one.known);
            writeln!(text, "| {} | {value} {sign} | {source} |", period.id).unwrap();
        }
    }
}

fn table(text: &mut String, name: &str, scheme: &Scheme) {
    write!(
        text,
        "\n## {name}\n\n| id | 漢字 | pinyin | English | opposite |\n|---|---|---|---|---|\n"
    )
    .unwrap();
    for value in scheme.values() {
        let opposite = value.opposite.join(", ");
        writeln!(
            text,
            "| {} | {} | {} | {} | {opposite} |",
            value.id, value.hant, value.pinyin, value.english
        )
        .unwrap();
    }
}

/// Source, year and how it is known, each where it says something.
fn sourced(source: &str, year: Option<i32>, known: Option<Known>) -> String {
    let year = year.map(|year| year.to_string());
    let year = year.filter(|year| !source.contains(year.as_str()));
    let known = known.filter(|_| !source.contains("no source"));
    let known = known.map(|known| format!("{known:?}").to_lowercase());
    let year = year.map_or_else(String::new, |year| format!(", {year}"));
    let known = known.map_or_else(String::new, |known| format!("; {known}"));
    format!("{source}{year}{known}")
}

fn works(text: &mut String, corpus: &Corpus) {
    write!(
        text,
        "\n## works\n\n| id | title | date | kind | draws on |\n|---|---|---|---|---|\n"
    )
    .unwrap();
    for work in corpus.works() {
        let debts = work
            .draws_on
            .iter()
            .map(|debt| corpus.work(debt.work).id.as_str())
            .collect::<Vec<_>>()
            .join(", ");
        let kind = format!("{:?}", work.kind).to_lowercase();
        writeln!(
            text,
            "| {} | {} {} | {} | {kind} | {debts} |",
            work.id,
            work.hant,
            work.pinyin,
            work.date.short()
        )
        .unwrap();
    }
}

#[test]
fn the_date_of_the_corpus_belongs_to_its_content() {
    let key = kaoyi::corpus::content_key(None).unwrap();
    if std::env::var_os("KAOYI_REWRITE").is_some() && kaoyi::corpus::dated_key() != key {
        current("src/corpus/edition.txt", &format!("{} {key}\n", today()));
        return;
    }
    let found = format!("{} {key}\n", kaoyi::corpus::date());
    current("src/corpus/edition.txt", &found);
}

/// The day by the machine's clock, `YYYY-MM-DD`; the months begin with March, so that the leap day comes last.
fn today() -> String {
    let seconds = std::time::SystemTime::UNIX_EPOCH
        .elapsed()
        .unwrap()
        .as_secs();
    let days = seconds / 86_400 + 719_468;
    let (era, of_era) = (days / 146_097, days % 146_097);
    let year = (of_era - of_era / 1460 + of_era / 36_524 - of_era / 146_096) / 365;
    let of_year = of_era - (365 * year + year / 4 - year / 100);
    let month = (5 * of_year + 2) / 153;
    let day = of_year - (153 * month + 2) / 5 + 1;
    let month = if month < 10 { month + 3 } else { month - 9 };
    let year = year + era * 400 + u64::from(month <= 2);
    format!("{year:04}-{month:02}-{day:02}")
}
