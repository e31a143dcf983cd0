//! Corpora made from a known truth along a known tree of copying: what counting books and counting lines get right, and
//! where both fail. The table in the methods is held against it.

use std::fs;

use crate::support::root;
use kaoyi::claim::Facet;
use kaoyi::compare::{lines, view};
use kaoyi::corpus::{Corpus, load_folder};
use pretty_assertions::assert_eq;

/// Three families of books: each book and the one it draws on.
const PARENTS: [Option<usize>; 12] = [
    None,
    Some(0),
    Some(1),
    Some(1),
    Some(3),
    Some(4),
    Some(4),
    None,
    Some(7),
    None,
    Some(9),
    Some(6),
];
const NATURES: [&str; 4] = ["cold", "cool", "warm", "hot"];
const HERBS: usize = 200;

/// One run: how often a book copies the book it draws on, and how often a book that judges for itself is right.
#[derive(Clone, Copy)]
struct Setting {
    copies: f64,
    right: f64,
}

/// What each book says of an herb, and whether it judged for itself.
fn herb(random: &mut fastrand::Rng, setting: Setting) -> Vec<(usize, bool)> {
    let truth = random.usize(..NATURES.len());
    let mut said: Vec<(usize, bool)> = Vec::new();
    for parent in PARENTS {
        let copied = parent.filter(|_| random.f64() < setting.copies);
        said.push(match copied {
            Some(parent) => (said[parent].0, false),
            None if random.f64() < setting.right => (truth, true),
            None => (
                (truth + 1 + random.usize(..NATURES.len() - 1)) % NATURES.len(),
                true,
            ),
        });
    }
    said
}

fn write(folder: &std::path::Path, herbs: &[Vec<(usize, bool)>]) -> Corpus {
    fs::create_dir_all(folder.join("works")).unwrap();
    fs::create_dir_all(folder.join("herbs")).unwrap();
    let letter = |n: usize| char::from(b'a' + n as u8);
    for (n, parent) in PARENTS.iter().enumerate() {
        let year = 1900 + n;
        let debt = parent.map_or_else(String::new, |parent| {
            format!(
                "draws_on: [{{work: made-{}, why: made so}}]\n",
                letter(parent)
            )
        });
        let text = format!(
            "id: made-{0}\ntitle: {{hant: 園算{0}, pinyin: yuánsuàn {0}, english: made book {0}}}\nauthor: nobody\nkind: extant\n\
             date: {{from: {year}, to: {year}}}\n{debt}",
            letter(n)
        );
        fs::write(folder.join(format!("works/made-{}.yaml", letter(n))), text).unwrap();
    }
    for (place, said) in herbs.iter().enumerate() {
        let id = format!("made-{}{}", letter(place / 20), letter(place % 20));
        let mut text = format!(
            "id: {id}\nnames: {{hant: 園{id}, hans: 园{id}, pinyin: yuán{id}}}\nentries:\n"
        );
        for (n, (nature, _)) in said.iter().enumerate() {
            text.push_str(&format!(
                "  - work: made-{}\n    status: memory\n    sayings: [{{nature: {}}}]\n",
                letter(n),
                NATURES[*nature]
            ));
        }
        fs::write(folder.join(format!("herbs/{id}.yaml")), text).unwrap();
    }
    let loaded = load_folder(folder).unwrap();
    assert_eq!(loaded.findings.first(), None);
    loaded.corpus.unwrap()
}

/// The mean error, in hundredths, of the share of books and of the share of lines that state a nature, held against its
/// share among the judgements that were made independently.
fn errors(setting: Setting) -> (f64, f64) {
    let mut random = fastrand::Rng::with_seed(11);
    let herbs: Vec<_> = (0..HERBS).map(|_| herb(&mut random, setting)).collect();
    let folder = tempfile::tempdir().unwrap();
    let corpus = write(folder.path(), &herbs);
    let natures = corpus.vocabulary.scheme(Facet::Nature);
    let (mut by_book, mut by_line, mut figures) = (0.0, 0.0, 0.0);
    let ours = corpus.herbs().unwrap();
    let ours = ours.iter().filter(|one| one.id.starts_with("made-"));
    for (record, said) in ours.zip(&herbs) {
        let view = view(&corpus, record, Facet::Nature, &Default::default());
        let lines = lines(&corpus, &view);
        let judged = said.iter().filter(|(_, own)| *own).count() as f64;
        for (place, nature) in NATURES.iter().enumerate() {
            let value = natures.place(nature).unwrap();
            let truth = said.iter().filter(|one| **one == (place, true)).count() as f64 / judged;
            let states = |n: &usize| view.witnesses[*n].values.contains(&value);
            let k = (0..view.witnesses.len()).filter(states).count() as f64;
            let mut of_lines: Vec<usize> = (0..view.witnesses.len())
                .filter(states)
                .map(|n| lines.line_of[n])
                .collect();
            of_lines.sort_unstable();
            of_lines.dedup();
            by_book += (k / view.witnesses.len() as f64 - truth).abs();
            by_line += (of_lines.len() as f64 / lines.count as f64 - truth).abs();
            figures += 1.0;
        }
    }
    (100.0 * by_book / figures, 100.0 * by_line / figures)
}

#[test]
fn counting_lines_undoes_copying_and_overdoes_it_where_nobody_copies() {
    let guide = fs::read_to_string(root().join("docs/methods.md")).unwrap();
    let settings = [
        (0.95, 0.9),
        (0.95, 0.6),
        (0.7, 0.9),
        (0.7, 0.6),
        (0.0, 0.9),
        (0.0, 0.6),
    ];
    let mut rows = Vec::new();
    for (copies, right) in settings {
        let (book, line) = errors(Setting { copies, right });
        if copies > 0.5 && right < 0.7 {
            assert!(
                line < book,
                "copies {copies}, right {right}: books {book:.1}, lines {line:.1}"
            );
        }
        if copies == 0.0 {
            assert_eq!(book, 0.0, "without copying each book is a judgement");
            assert!(line > 0.0);
        }
        rows.push(format!("| {copies} | {right} | {book:.1} | {line:.1} |"));
    }
    for row in &rows {
        assert!(
            guide.contains(row.as_str()),
            "the table of the methods is out of date:\n{}",
            rows.join("\n")
        );
    }
}
