//! Tables of scores: every fault with its place, all at once, and the rest used.

use crate::support::kaoyi;
use insta::assert_snapshot;
use kaoyi::corpus::{Code, embedded};
use kaoyi::tasting::{Table, read_table};
use pretty_assertions::assert_eq;
use proptest::prelude::*;

fn read(text: &str) -> Table {
    read_table(&embedded().unwrap(), "class.csv", text.as_bytes())
}

/// `line:column code nearest`
fn faults(table: &Table) -> Vec<String> {
    let place = |place: Option<usize>| place.map_or("–".to_owned(), |place| place.to_string());
    table
        .findings
        .iter()
        .map(|one| {
            let near = one.nearest.join("|");
            format!(
                "{}:{} {} {near}",
                place(one.line),
                place(one.column),
                one.code.name()
            )
        })
        .collect()
}

const FAULTY: &str = "\
herb,taster,date,code,cup,acrid,swete,warmth,direction
薄荷,A,2026-03-14,417,1,6.5,2,-2,up; otu
bohee,B,2026-03-14,417,1,6,2,-1,up
薄荷,,2026-02-30,417,x,6,2,-1,
薄荷,C,2026-03-14,417,1,11,2,-5.2,
薄荷,D,2026-03-14,417,1,\"3,7\",2,warm,
薄荷,A,2026-03-14,417,1,4,2,-1,
薄荷,E,2026-03-14,417,1,4,2,-1,,more
薄荷,F,2026-03-14,417,1,,,,
薄荷,G,2026-03-14,417,1,0,,0,
";

#[test]
fn every_fault_is_told_with_its_place_and_the_rest_is_used() {
    let table = read(FAULTY);
    assert_eq!(
        faults(&table),
        [
            "1:33 unknown-key sweet",
            "2:32 unknown-value out",
            "3:1 unknown-herb bohe",
            "4:1 missing-key ",
            "4:5 wrong-form ",
            "4:20 wrong-form ",
            "5:23 wrong-form 10",
            "5:28 wrong-form -5",
            "6:23 wrong-form 3.5",
            "6:31 wrong-form ",
            "7:1 duplicate-entry ",
            "8:31 wrong-form ",
        ]
    );
    let used: Vec<&str> = table
        .tastings
        .iter()
        .map(|one| one.taster.as_deref().unwrap())
        .collect();
    assert_eq!(used, ["A", "G"]);
    assert_eq!((table.rows, table.left_out, table.unfilled), (9, 6, 1));
    let zero = &table.tastings[1].scores;
    assert_eq!(
        zero.flavours["acrid"].value(),
        0.0,
        "a zero that is written is a score"
    );
}

#[test]
fn the_page_shows_the_faults_and_then_the_panel() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("class.csv");
    std::fs::write(
        &file,
        "herb,taster,date,acrid\n薄荷,A,2026-03-14,6\n薄荷,B,2026-03-14,six\n薄荷,C,2026-03-14,4\n",
    )
    .unwrap();
    let name = file.to_str().unwrap();
    let run = kaoyi(&["taste", "panel", name]);
    assert_eq!(run.code, 1, "answered, with faults");
    assert_snapshot!(run.err.replace(name, "class.csv"), @r"
    error[wrong-form]: value of the wrong form: found `six`
     --> class.csv:3:17
      |
    3 | 薄荷,B,2026-03-14,six
      |                   ^^^
      |
      = note: expected a number from 0 to 10, in steps of 0.5; leave the cell
              empty where nothing was scored

    1 fault
    What is not at fault was used.
    ");
    assert!(run.out.contains("a panel of 2 tasters") && run.out.contains("1 left out for a fault"));
    let json = kaoyi(&["taste", "panel", name, "--json"]).json();
    assert_eq!(
        (&json["findings"][0]["line"], &json["findings"][0]["column"]),
        (&3.into(), &17.into())
    );
}

#[test]
fn a_table_without_its_columns_says_which_are_missing() {
    for (text, missing) in [
        ("", "herb, taster, date"),
        ("herb,acrid\n薄荷,3\n", "taster, date"),
        ("a,b\n1,2\n", "herb, taster, date"),
    ] {
        let table = read(text);
        let last = table
            .findings
            .iter()
            .find(|one| one.code == Code::MissingKey)
            .unwrap();
        assert!(last.found.ends_with(missing), "{}", last.found);
        assert!(table.tastings.is_empty() && last.expected.contains("taste form"));
    }
}

#[test]
fn semicolons_with_decimal_commas_and_chinese_headings_are_read() {
    let text = "\u{feff}herb;taster;date;辛;甘;warmth\r\nmint;A;2026-03-14;6,5;2;\u{2212}1,5\r\n";
    let table = read(text);
    assert_eq!(faults(&table), Vec::<String>::new());
    let scores = &table.tastings[0].scores;
    assert_eq!(
        (
            scores.flavours["acrid"].value(),
            scores.warmth.unwrap().value()
        ),
        (6.5, -1.5)
    );
    assert_eq!(table.tastings[0].herb, "bohe");
}

#[test]
fn a_table_in_another_encoding_is_refused_with_the_place() {
    let table = read_table(
        &embedded().unwrap(),
        "class.csv",
        b"herb,taster\nbohe,\xe9\n",
    );
    assert_eq!(faults(&table), ["2:6 not-utf8 "]);
}

#[test]
fn the_empty_table_of_a_form_is_read_without_a_fault() {
    let run = kaoyi(&[
        "taste",
        "form",
        "bohe",
        "juhua",
        "--csv",
        "--tasters",
        "12",
        "--cups",
        "2",
        "--seed",
        "7",
        "--date",
        "2026-03-14",
    ]);
    let table = read(&run.out);
    assert_eq!(faults(&table), Vec::<String>::new());
    assert_eq!((table.rows, table.unfilled), (48, 48));
}

#[test]
fn of_several_herbs_one_must_be_chosen() {
    let class = "docs/examples/class/scores.csv";
    let run = kaoyi(&["taste", "panel", class]);
    assert_eq!(run.code, 2);
    assert!(run.err.contains("--herb") && run.err.contains("bohe") && run.err.contains("juhua"));
    let other = kaoyi(&["taste", "panel", class, "--herb", "gancao"]);
    assert!(other.code == 2 && other.err.contains("甘草") && other.err.contains("bohe"));
    let none = kaoyi(&["taste", "panel", "no such file.csv"]);
    assert!(none.code == 2 && none.err.contains("no such file.csv"));
}

proptest! {
    #[test]
    fn no_table_makes_it_panic(text in "(herb|taster|date|acrid|薄荷|A|2026-03-14|[0-9.]{1,3}|[,;\n\"\t -]){0,60}") {
        let table = read(&text);
        prop_assert!(table.tastings.len() + table.left_out + table.unfilled == table.rows || table.rows == 0);
    }
}
