//! Many at once: programs that make the same index, write the same notebook and merge into the same folder; a thousand
//! readers of one index, and a thousand connections to one room.

use std::io::{Read, Write};
use std::net::TcpStream;
use std::process::Stdio;
use std::time::{Duration, Instant};

use crate::faults_support::{Place, book, kept};
use crate::support::{Run, text};
use crate::web_support::Reading;
use kaoyi::corpus;
use kaoyi::index::{Asked, Library, Opened};
use kaoyi::tasting::Notebook;
use pretty_assertions::assert_eq;

#[test]
fn programs_that_make_the_same_index_and_write_the_same_notebook_hold_nobody_up() {
    let place = Place::large();
    let find = ["find", "味辛", "--top", "2", "--corpus", "corpus"];
    let started: Vec<_> = (1..=8)
        .map(|cup: u32| {
            let cup = cup.to_string();
            let add = [
                "taste",
                "add",
                "bohe",
                "--date",
                "2026-03-14",
                "--score",
                "acrid=6",
                "--cup",
                &cup,
            ];
            let start = |arguments: &[&str]| {
                let mut command = place.command(arguments);
                command
                    .stdout(Stdio::piped())
                    .stderr(Stdio::piped())
                    .spawn()
                    .unwrap()
            };
            [start(&find), start(&add)]
        })
        .collect();
    let runs: Vec<[Run; 2]> = started
        .into_iter()
        .map(|two| two.map(|one| Run::from(one.wait_with_output().unwrap())))
        .collect();
    let right = place.run(&find);
    for [found, added] in &runs {
        assert_eq!((&found.out, found.code), (&right.out, 0), "{}", found.err);
        assert_eq!(added.code, 0, "{}", added.whole());
    }
    let (notebook, findings) = Notebook::open(&place.at("notebook"));
    assert_eq!(
        (notebook.all().len(), notebook.passed_over(), findings),
        (8, &[][..], vec![])
    );
    let files = kept(&place.cache());
    assert!(
        !files
            .iter()
            .any(|file| text(file).contains("beside-") || text(file).contains("/.tmp")),
        "{files:?}"
    );
}

#[test]
fn merges_into_one_folder_at_once_lose_nothing_of_each_other() {
    let place = Place::new();
    let many = place.file("book.txt", &book(25));
    let works = ["circle-first", "circle-second"];
    let started: Vec<_> = (0..6)
        .map(|n| {
            let mut command =
                place.command(&["read", &many, "--work", works[n % 2], "--into", "corpus"]);
            command
                .stdout(Stdio::piped())
                .stderr(Stdio::piped())
                .spawn()
                .unwrap()
        })
        .collect();
    for one in started {
        let run = Run::from(one.wait_with_output().unwrap());
        assert_eq!(run.code, 0, "{}", run.whole());
    }
    let loaded = corpus::load_folder(&place.corpus()).unwrap();
    assert_eq!(loaded.findings, []);
    let corpus = loaded.corpus.unwrap();
    let herbs = corpus.herbs().unwrap();
    let merged: Vec<_> = herbs
        .iter()
        .filter(|herb| herb.id != "circle-mint")
        .collect();
    assert_eq!(merged.len(), 25);
    for herb in merged {
        assert_eq!(herb.entries.len(), 2, "{}: an entry of each work", herb.id);
    }
}

#[test]
fn a_thousand_readers_of_an_index_go_on_when_it_is_made_anew() {
    let place = Place::large();
    let open = || {
        let Opened::Library(library) =
            Library::folder(&place.corpus(), Some(&place.cache())).unwrap()
        else {
            panic!("the folder has no fault");
        };
        library
    };
    let library = open();
    let asked = Asked {
        phrases: vec!["味辛".to_owned()],
        ..Asked::default()
    };
    let right = library.words().unwrap().best(&asked, 0, 3).unwrap();
    let readers: Vec<_> = (0..1000).map(|_| library.words().unwrap()).collect();
    // Another herb: another key, and the old index goes.
    let record = std::fs::read_to_string(place.mint()).unwrap();
    place.herb(&record.replace("味辛微甘", "味微甘"));
    let fewer = open().words().unwrap().best(&asked, 0, 3).unwrap();
    assert!(fewer.count < right.count);
    for reader in &readers {
        assert_eq!(reader.not_kept, None);
        assert_eq!(reader.best(&asked, 0, 3).unwrap(), right);
    }
}

/// As many connections as the system lets a test hold, up to a thousand.
fn crowd(room: &Reading, first: &[u8]) -> Vec<TcpStream> {
    let mut crowd = Vec::new();
    for _ in 0..1000 {
        let Ok(mut stream) = TcpStream::connect(&room.host) else {
            break;
        };
        if stream.write_all(first).is_err() {
            break;
        }
        crowd.push(stream);
    }
    crowd
}

#[test]
fn a_thousand_open_connections_keep_nobody_waiting_without_a_word() {
    let place = Place::new();
    let room = Reading::open(&["--corpus", text(&place.corpus())]);
    let again = format!("GET /style.css HTTP/1.1\r\nHost: {}\r\n\r\n", room.host);
    for first in [&b""[..], b"GET / HTT", again.as_bytes()] {
        let crowd = crowd(&room, first);
        let begun = Instant::now();
        let mut told = 0;
        // Others are answered, or told to come again, and soon all are answered.
        loop {
            let asked = Instant::now();
            let answer = room.get("/api/works");
            assert!(
                asked.elapsed() < Duration::from_secs(8),
                "{:?} with {} others",
                asked.elapsed(),
                crowd.len()
            );
            if answer.status == 200 {
                break;
            }
            assert_eq!(
                (answer.status, answer.head("retry-after")),
                (503, Some("5"))
            );
            assert!(
                answer.json()["error"]
                    .as_str()
                    .unwrap()
                    .contains("too many readers"),
                "{answer:?}"
            );
            assert!(answer.head("content-security-policy").is_some());
            told += 1;
            assert!(
                begun.elapsed() < Duration::from_secs(20),
                "told {told} times"
            );
            std::thread::sleep(Duration::from_millis(250));
        }
        drop(crowd);
    }
    let mut rest = String::new();
    let mut stream = room.connect();
    stream
        .write_all(
            again
                .replace("\r\n\r\n", "\r\nConnection: close\r\n\r\n")
                .as_bytes(),
        )
        .unwrap();
    stream.read_to_string(&mut rest).unwrap();
    assert!(rest.starts_with("HTTP/1.1 200"), "{rest}");
}

#[test]
fn an_id_that_another_merge_gave_to_another_herb_meanwhile_is_not_written_over() {
    let place = Place::new();
    let loaded = corpus::load_folder(&place.corpus()).unwrap();
    let before = place.content("corpus");
    let other = corpus::NewHerb {
        id: "circle-mint".to_owned(),
        hant: "園博合".to_owned(),
        hans: "园博合".to_owned(),
        pinyin: "yuán bó hé".to_owned(),
        substance: None,
    };
    let entry = corpus::EntryRecord {
        work: "circle-first".to_owned(),
        at: None,
        status: corpus::Status::Read,
        note: None,
        sayings: Vec::new(),
    };
    let entries = vec![(corpus::Target::New(other), entry)];
    let refused = corpus::merge(&place.corpus(), &loaded.corpus.unwrap(), entries).unwrap_err();
    assert!(refused.to_string().contains("merge again"), "{refused}");
    assert_eq!(place.content("corpus"), before);
}

#[cfg(unix)]
#[test]
fn a_merged_file_may_be_read_by_those_who_could_read_it() {
    use std::os::unix::fs::PermissionsExt;
    let place = Place::new();
    let book = place.file("book.txt", &book(2));
    let merge = ["read", &book, "--work", "circle-first", "--into", "corpus"];
    assert_eq!(place.run(&merge).code, 0);
    let mode = |file: &str| {
        let about = std::fs::metadata(place.corpus().join(file)).unwrap();
        about.permissions().mode() & 0o777
    };
    let usual = mode("works/circle-first.yaml");
    assert_eq!(mode("herbs/circle-mint.yaml"), usual);
}
