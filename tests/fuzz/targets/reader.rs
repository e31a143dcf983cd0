//! A book's text, in any bytes: what is read stands where it is said to stand, becomes entries that can be merged, and
//! merging them a second time changes nothing.

use std::sync::OnceLock;

use kaoyi::corpus::{self, Corpus, Target};
use kaoyi::reader::{self, ArticleReading, Folder, Herbs, Layout, Reader, Tally};

/// The work that is read.
const WORK: &str = "bencao-gangmu";

fn corpus() -> &'static Corpus {
    static CORPUS: OnceLock<Corpus> = OnceLock::new();
    CORPUS.get_or_init(|| corpus::embedded().unwrap())
}

fn reader() -> &'static Reader<'static> {
    static READER: OnceLock<Reader<'static>> = OnceLock::new();
    READER.get_or_init(|| Reader::new(corpus()).unwrap())
}

/// The bytes of a book.
pub fn run(data: &[u8]) {
    let Ok((text, encoding)) = reader::decode(data, None) else {
        return;
    };
    // Told is as recognised.
    assert_eq!(reader::decode(data, Some(encoding)).unwrap().0, text);
    let Some(layout) = Layout::recognise(&text) else {
        return;
    };
    let characters: Vec<char> = text.chars().collect();
    let mut folder = Folder::new();
    let mut readings = Vec::new();
    for article in reader::articles(&text, &layout) {
        let here: String = characters[article.start..]
            .iter()
            .take(article.body.chars().count())
            .collect();
        assert_eq!(
            here, article.body,
            "an article stands where it is said to begin"
        );
        let reading = reader().read(&article, WORK, &layout, &mut folder);
        places(&reading, &characters, &article);
        assert_eq!(reader().read(&article, WORK, &layout, &mut folder), reading);
        readings.push(reading);
    }
    let tally = Tally::of(&readings);
    assert_eq!(tally.articles, readings.len());
    merged(&readings);
}

/// Every saying and every unread clause lies in its article.
fn places(reading: &ArticleReading, characters: &[char], article: &reader::Article<'_>) {
    let spans = reading
        .sayings
        .iter()
        .map(|one| one.span)
        .chain(reading.unread.iter().map(|one| one.span));
    for span in spans {
        assert!(
            span.start <= span.end && span.end <= characters.len(),
            "{span:?} of {}",
            characters.len()
        );
        assert!(
            span.end <= article.start + article.body.chars().count(),
            "{span:?} {article:?}"
        );
    }
}

/// Entries are written, read back, and known again.
fn merged(readings: &[ArticleReading]) {
    let mut herbs = Herbs::new(corpus()).unwrap();
    let mut entries: Vec<(Target, corpus::EntryRecord)> = Vec::new();
    for reading in readings {
        let Some(draft) = reader::draft(reading, WORK, corpus()) else {
            continue;
        };
        for wording in draft
            .entry
            .sayings
            .iter()
            .filter_map(|one| one.wording.as_ref())
        {
            assert!(
                (1..=corpus::WORDING_LIMIT).contains(&wording.chars().count()),
                "{wording}"
            );
        }
        if let Some(target) = herbs
            .target(reading, WORK)
            .filter(|_| !draft.entry.sayings.is_empty())
        {
            entries.push((target, draft.entry));
        }
    }
    let folder = tempfile::tempdir().unwrap();
    let count = entries.len();
    let first = corpus::merge(folder.path(), corpus(), entries.clone()).unwrap();
    assert_eq!(
        (first.added, first.same + first.replaced, first.kept.len()),
        (count, 0, 0)
    );
    let again = corpus::merge(folder.path(), corpus(), entries).unwrap();
    assert_eq!(
        (again.same, again.added + again.replaced, again.files),
        (count, 0, 0),
        "a second time"
    );
}
