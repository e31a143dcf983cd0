//! What is looked for: no words hurt the index; the best sayings are among those found, and as many; marked places hold what
//! was looked for; spans of a scale are closed; folding what is folded changes nothing.

use std::collections::BTreeSet;
use std::sync::OnceLock;

use kaoyi::claim::Facet;
use kaoyi::compare::{Wanted, parse_question};
use kaoyi::corpus::Lookup;
use kaoyi::index::{Asked, Library, Opened, Search, Words, places_of};
use kaoyi::text::{HanFolder, fold, nearest};

use super::folder;

/// An open corpus, small and invented, with its index.
struct Open {
    library: Library,
    words: Words,
    han: HanFolder,
    _root: tempfile::TempDir,
}

fn open() -> &'static Open {
    static OPEN: OnceLock<Open> = OnceLock::new();
    OPEN.get_or_init(|| {
        let root = tempfile::tempdir().unwrap();
        folder::write(root.path(), &folder::files(folder::SMALL));
        let Opened::Library(library) = Library::folder(root.path(), None).unwrap() else {
            panic!("the small corpus has no fault");
        };
        let words = library.words().unwrap();
        Open {
            words,
            library: *library,
            han: HanFolder::new().unwrap(),
            _root: root,
        }
    })
}

/// A line of phrases apart by `|`, and below it lines `facet word` of properties wanted.
pub fn run(data: &[u8]) {
    let Ok(text) = std::str::from_utf8(data) else {
        return;
    };
    let mut lines = text.lines();
    let first = lines.next().unwrap_or_default();
    let (any, first) = first
        .strip_prefix("any ")
        .map_or((false, first), |rest| (true, rest));
    let phrases: Vec<String> = first.split('|').take(8).map(str::to_owned).collect();
    for phrase in &phrases {
        folded(phrase);
        named(phrase);
    }
    found(Asked {
        phrases,
        any,
        ..Asked::default()
    });
    let wanted: Vec<Wanted> = lines.take(8).filter_map(property).collect();
    properties(wanted);
}

fn folded(phrase: &str) {
    let once = fold(phrase);
    assert_eq!(fold(&once), once, "{phrase:?}");
    let folded = open().words.folded(phrase);
    // Places in the folded text are places in the text.
    assert_eq!(folded.chars().count(), phrase.chars().count(), "{phrase:?}");
    assert_eq!(
        open().han.fold(&open().han.fold(phrase)),
        open().han.fold(phrase)
    );
    for (from, to) in places_of(phrase, phrase) {
        assert!(from < to && to <= phrase.chars().count());
    }
    let near = nearest(phrase, ["sweet", "acrid", "薄荷"]);
    assert!(near.len() <= 3);
}

fn named(phrase: &str) {
    let corpus = &open().library.corpus;
    if let Lookup::One(herb) = corpus.find_herb(phrase) {
        assert!(
            corpus
                .named(herb)
                .all()
                .any(|name| fold(name) == fold(phrase))
                || !phrase.trim().is_empty()
        );
    }
    for one in open().words.named(corpus, phrase).unwrap() {
        assert!((one.herb.0 as usize) < corpus.herb_count());
    }
    open().words.headed(phrase).unwrap();
}

fn found(asked: Asked) {
    let Open { library, words, .. } = open();
    let found = words.find(&library.corpus, &asked).unwrap();
    let count: usize = found.herbs.iter().map(|herb| herb.count()).sum();
    assert_eq!(found.by_work.values().sum::<usize>(), count);
    let herbs: BTreeSet<_> = found.herbs.iter().map(|one| one.herb).collect();
    assert_eq!(herbs.len(), found.herbs.len(), "each herb once");
    let best = words.best(&asked, 0, 100).unwrap();
    assert_eq!((best.count, best.sayings.len()), (count, count.min(100)));
    assert!(
        best.sayings
            .windows(2)
            .all(|pair| pair[0].score >= pair[1].score)
    );
    let all: Vec<_> = found
        .herbs
        .iter()
        .flat_map(|herb| words.sayings(&found.answers, herb, usize::MAX))
        .collect();
    assert!(best.sayings.iter().all(|one| all.contains(one)));
    for one in all {
        let herb = library.corpus.herb(one.herb).unwrap();
        let saying = &herb.entries[one.entry].sayings[one.saying];
        assert_eq!(saying.by, one.by);
        let wording = words.folded(saying.wording.as_deref().unwrap_or_default());
        for phrase in &asked.phrases {
            for (from, to) in places_of(&words.folded(phrase), &wording) {
                assert!(from < to && to <= wording.chars().count());
            }
        }
    }
    // The second page goes on where the first ended.
    let next = words.best(&asked, 1, 100).unwrap();
    assert_eq!(next.sayings.len(), count.saturating_sub(1).min(100));
}

fn property(line: &str) -> Option<Wanted> {
    let vocabulary = &open().library.corpus.vocabulary;
    let (facet, word) = line.split_once(' ')?;
    if let Ok(question) = parse_question(vocabulary, word) {
        let id = &vocabulary.scheme(question.facet).value(question.value).id;
        let told = parse_question(vocabulary, &format!("{}:{id}", question.facet.name()));
        assert_eq!(told, Ok(question), "by its id");
    }
    let facet = Facet::ALL.into_iter().find(|one| one.name() == facet)?;
    let wanted = Wanted::parse(vocabulary, facet, word).ok()?;
    assert!(wanted.ends.0 <= wanted.ends.1);
    assert!(
        wanted.values.contains(&wanted.ends.0) && wanted.values.contains(&wanted.ends.1),
        "{wanted:?}"
    );
    if let Some((from, to)) = word.split_once("..") {
        let back = Wanted::parse(vocabulary, facet, &format!("{to}..{from}"));
        assert_eq!(
            back.ok().map(|one| one.values),
            Some(wanted.values.clone()),
            "either way round"
        );
    }
    Some(wanted)
}

fn properties(wanted: Vec<Wanted>) {
    let library = &open().library;
    let search = Search {
        wanted: wanted.clone(),
        ..Search::default()
    };
    let hits = library.find(&search, None).unwrap();
    for herb in &hits.herbs {
        assert_eq!(herb.backings.len(), wanted.len());
        assert!(
            herb.backings
                .iter()
                .all(|one| one.k <= one.n && one.meets(&library.corpus.vocabulary, search.by))
        );
    }
    let never = Search {
        never: wanted,
        ..Search::default()
    };
    assert!(library.find(&never, None).unwrap().herbs.len() <= library.corpus.herb_count());
}
