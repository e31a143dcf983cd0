//! Packages, files put in place, what is refused, the key of the content.

use std::collections::BTreeSet;
use std::fs;

use crate::exporting::rows;
use crate::support::{kaoyi, root, text};
use kaoyi::corpus::embedded;
use kaoyi::report::export::{Export, Format};
use kaoyi::report::view::{CorpusView, Labels};
use kaoyi::text::{Converter, Script};
use pretty_assertions::assert_eq;
use serde_json::Value;

#[test]
fn a_package_describes_its_tables_as_they_are() {
    let folder = tempfile::tempdir().unwrap();
    let target = folder.path().join("new/package");
    let run = kaoyi(&["export", "package", "bohe", "juhua", "-o", text(&target)]);
    assert_eq!(run.code, 0, "{}", run.whole());
    let read = |name: &str| fs::read_to_string(target.join(name)).unwrap();
    let description: Value = serde_json::from_str(&read("datapackage.json")).unwrap();
    for resource in description["resources"].as_array().unwrap() {
        let table = read(resource["path"].as_str().unwrap());
        let fields = resource["schema"]["fields"].as_array().unwrap();
        let named: Vec<&str> = fields
            .iter()
            .map(|field| field["name"].as_str().unwrap())
            .collect();
        assert_eq!(table.lines().next().unwrap(), named.join(","));
        for row in rows(&table) {
            for field in fields {
                let cell = &row[field["name"].as_str().unwrap()];
                let required = field["constraints"]["required"] == true;
                assert!(!required || !cell.is_empty(), "{field} {row:?}");
                let fits = match field["type"].as_str().unwrap() {
                    "integer" => cell.is_empty() || cell.parse::<i64>().is_ok(),
                    "boolean" => cell == "true" || cell == "false",
                    _ => true,
                };
                assert!(fits, "{field} {cell}");
            }
        }
    }
    let ids = |name: &str| -> BTreeSet<String> {
        rows(&read(name))
            .into_iter()
            .map(|mut row| row.remove("id").unwrap())
            .collect()
    };
    let (works, herbs) = (ids("works.csv"), ids("herbs.csv"));
    assert_eq!(
        herbs,
        BTreeSet::from(["bohe".to_owned(), "juhua".to_owned()])
    );
    for row in rows(&read("claims.csv")) {
        assert!(
            herbs.contains(&row["herb"])
                && works.contains(&row["work"])
                && works.contains(&row["by"])
        );
        assert!(
            row["through"].is_empty()
                || row["through"].split("; ").all(|work| works.contains(work))
        );
    }
}

#[test]
fn a_file_is_put_in_place_whole_or_not_at_all() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("claims.csv");
    fs::write(&path, "before").unwrap();
    let run = kaoyi(&["export", "csv", "bohe", "-o", text(&path), "--json"]);
    assert_eq!(
        run.json()["files"][0]["bytes"],
        fs::metadata(&path).unwrap().len()
    );
    assert_eq!(
        fs::read_dir(folder.path()).unwrap().count(),
        1,
        "nothing is left beside it"
    );
    let schema = fs::read_to_string(root().join("schema/output/export.schema.json")).unwrap();
    let schema = jsonschema::validator_for(&serde_json::from_str(&schema).unwrap()).unwrap();
    assert!(schema.is_valid(&run.json()));
    let nowhere = folder.path().join("not/there.csv");
    let run = kaoyi(&["export", "csv", "bohe", "-o", text(&nowhere)]);
    assert_eq!(run.code, 2);
    assert!(
        run.err.replace('\n', " ").contains("could not be"),
        "{}",
        run.err
    );
}

#[test]
fn what_cannot_be_meant_is_refused() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("file");
    fs::write(&file, "").unwrap();
    for (args, word) in [
        (vec!["export", "package", "bohe"], "-o DIR"),
        (vec!["export", "csv", "bohe", "--json"], "ndjson"),
        (
            vec!["export", "csv", "bohe", "-o", text(folder.path())],
            "is a folder",
        ),
        (
            vec!["export", "package", "bohe", "-o", text(&file)],
            "is a file",
        ),
        (vec!["export", "csvv", "bohe"], "csv"),
        (vec!["export", "csv", "bohee", "juhuaa"], "juhua"),
    ] {
        let run = kaoyi(&args);
        assert!(run.code == 2 && run.out.is_empty(), "{args:?}");
        assert!(
            run.err.replace('\n', " ").contains(word),
            "{args:?}: {}",
            run.err
        );
    }
    let run = kaoyi(&["export", "csv", "bohee", "juhuaa"]);
    assert!(
        run.err.contains("bohee") && run.err.contains("juhuaa"),
        "all at once: {}",
        run.err
    );
}

#[test]
fn an_export_goes_herb_by_herb_and_stops_when_the_writer_does() {
    struct Full(usize);
    impl std::io::Write for Full {
        fn write(&mut self, bytes: &[u8]) -> std::io::Result<usize> {
            if self.0 < bytes.len() {
                return Err(std::io::Error::other("full"));
            }
            self.0 -= bytes.len();
            Ok(bytes.len())
        }
        fn flush(&mut self) -> std::io::Result<()> {
            Ok(())
        }
    }
    let corpus = embedded().unwrap();
    let script = Converter::new(Script::Recorded).unwrap();
    let labels = Labels::new(&corpus, &script);
    let about = CorpusView::new(&corpus, None).unwrap();
    let herbs = (0..corpus.herb_count() as u32)
        .map(kaoyi::corpus::HerbId)
        .collect();
    let export = Export {
        labels: &labels,
        about: &about,
        herbs,
        whole: true,
        selection: Default::default(),
        raw: false,
    };
    for format in [Format::Csv, Format::Ndjson, Format::Tei, Format::Jsonld] {
        let error = export.write(format, &mut Full(100_000)).unwrap_err();
        assert!(error.to_string().contains("full"), "{format:?}: {error}");
    }
}

#[test]
fn the_key_of_the_corpus_is_what_sha256sum_gives() {
    let script = "sha256sum herbs/*.yaml vocabulary/*.yaml works/*.yaml | sha256sum";
    let sum = std::process::Command::new("sh")
        .args(["-c", script])
        .current_dir(root().join("corpus"))
        .env("LC_ALL", "C")
        .output();
    // Not every system has the command.
    let sum = sum.map(|sum| String::from_utf8(sum.stdout).unwrap());
    let sum = sum.unwrap_or_default();
    let key = kaoyi::corpus::content_key(None).unwrap();
    assert!(sum.len() < 64 || sum.starts_with(&key), "{sum} {key}");
    let folder = kaoyi::corpus::content_key(Some(&root().join("corpus"))).unwrap();
    assert_eq!(folder, key, "a folder with the same files has the same key");
}
