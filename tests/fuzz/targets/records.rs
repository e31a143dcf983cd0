//! A corpus folder with records, works and vocabulary of any kind: every fault has its place, a corpus without fault gives
//! figures within their bounds, and is the same when it is compiled and opened again.

use std::path::Path;
use std::sync::OnceLock;

use kaoyi::claim::Facet;
use kaoyi::compare::{self, Selection};
use kaoyi::corpus::{self, Corpus, Finding, Herb, HerbId};

use super::folder;

/// The files of the small corpus, and over them those of the input.
pub fn run(data: &[u8]) {
    let Ok(text) = std::str::from_utf8(data) else {
        return;
    };
    static SMALL: OnceLock<Vec<(String, String)>> = OnceLock::new();
    let small = SMALL.get_or_init(|| folder::files(folder::SMALL));
    let given = folder::files(text);
    let root = tempfile::tempdir().unwrap();
    folder::write(root.path(), small);
    folder::write(root.path(), &given);
    let loaded = corpus::load_folder(root.path()).unwrap();
    for finding in &loaded.findings {
        has_its_place(finding, root.path());
    }
    assert_eq!(loaded.corpus.is_some(), loaded.findings.is_empty());
    // Looking twice costs as much again: of every fourth input.
    if data.len().is_multiple_of(4) {
        let again = corpus::load_folder(root.path()).unwrap();
        assert_eq!(
            again.findings, loaded.findings,
            "the same folder, the same faults"
        );
    }
    let Some(corpus) = loaded.corpus else { return };
    for herb in corpus.herbs().unwrap() {
        figures(&corpus, herb);
    }
    compiled(&corpus, root.path());
}

/// A finding that names a line names one of the file, and shows it.
fn has_its_place(finding: &Finding, root: &Path) {
    assert!(
        !finding.found.is_empty() && !finding.expected.is_empty(),
        "{finding:?}"
    );
    let Some(line) = finding.line else { return };
    assert!(Path::new(&finding.file).starts_with(root), "{finding:?}");
    let text = std::fs::read_to_string(&finding.file).unwrap();
    let text = text.strip_prefix('\u{feff}').unwrap_or(&text);
    // Behind the last line there may be a place where something is missing.
    assert!(
        line >= 1 && line <= text.split('\n').count() + 1,
        "{finding:?}"
    );
    assert!(
        finding.column.is_none_or(|column| column >= 1),
        "{finding:?}"
    );
    if let (Some(shown), Some(whole)) = (&finding.excerpt, text.split('\n').nth(line - 1)) {
        assert!(whole.starts_with(shown.as_str()), "{finding:?} {whole:?}");
    }
}

/// What can be said of every figure, whatever the books say.
fn figures(corpus: &Corpus, herb: &Herb) {
    let whole = Selection::default();
    for facet in Facet::ALL {
        let view = compare::view(corpus, herb, facet, &whole);
        let lines = compare::lines(corpus, &view);
        assert!(lines.count <= view.witnesses.len());
        assert_eq!(lines.count == 0, view.witnesses.is_empty());
        let profile = compare::profile(corpus, &view);
        assert_eq!((profile.n, profile.m), (view.witnesses.len(), lines.count));
        for support in &profile.supports {
            assert!(
                1 <= support.k && support.k <= support.n && support.n == profile.n,
                "{support:?}"
            );
            assert!(
                1 <= support.j && support.j <= support.k && support.j <= support.m,
                "{support:?}"
            );
            assert_eq!(support.by.len(), support.k);
            if let Some(interval) = support.interval {
                let share = support.k as f64 / support.n as f64;
                assert!(
                    0.0 <= interval.low && interval.low <= share + 1e-9,
                    "{support:?}"
                );
                assert!(
                    share <= interval.high + 1e-9 && interval.high <= 1.0,
                    "{support:?}"
                );
            }
        }
        for difference in compare::differences(corpus, &view) {
            assert!(
                !difference.sides.is_empty() || view.witnesses.len() > 1,
                "{difference:?}"
            );
        }
    }
}

/// A compiled corpus is the corpus; one that was damaged is told from it.
fn compiled(corpus: &Corpus, root: &Path) {
    let mut bytes = Vec::new();
    corpus.write_compiled(7, &mut bytes).unwrap();
    let path = root.join("compiled");
    std::fs::write(&path, &bytes).unwrap();
    let (key, opened) = Corpus::open_compiled(&path).unwrap();
    assert_eq!(key, 7);
    assert_eq!(opened.herb_count(), corpus.herb_count());
    for place in (0_u32..).take(corpus.herb_count()).map(HerbId) {
        assert_eq!(
            format!("{:?}", opened.herb(place).unwrap()),
            format!("{:?}", corpus.herb(place).unwrap())
        );
    }
    // One byte turned, at a place that the records choose.
    let place = bytes.iter().map(|byte| usize::from(*byte)).sum::<usize>() % bytes.len();
    bytes[place] ^= 0x20;
    std::fs::write(&path, &bytes).unwrap();
    if let Some((_, damaged)) = Corpus::open_compiled(&path) {
        for place in (0_u32..).take(corpus.herb_count()).map(HerbId) {
            if let Ok(herb) = damaged.herb(place) {
                assert_eq!(
                    format!("{herb:?}"),
                    format!("{:?}", corpus.herb(place).unwrap())
                );
            }
        }
    }
}
