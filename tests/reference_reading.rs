//! The reader against the reference reading: articles drawn at random from nineteen books, labelled by
//! readers. The phrases of the development half are read here; the whole texts, which are not part of
//! the project, are read when `KAOYI_TEXTS` names their folder.

use std::collections::{BTreeMap, BTreeSet, HashMap};
use std::fs;
use std::io::Write as _;
use std::path::Path;

use crate::support::root;
use kaoyi::claim::{Facet, Scheme, ValueId};
use kaoyi::corpus::{Corpus, WorkLookup, embedded};
use kaoyi::reader::{ArticleReading, Folder, Layout, Reader, Speaker, articles};
use serde::Deserialize;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Label {
    work: String,
    ordinal: u32,
    heading: String,
    sayings: Vec<Said>,
    actions: Option<BTreeSet<String>>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Said {
    by: Option<String>,
    #[serde(default)]
    flavour: Vec<Flavour>,
    #[serde(default)]
    nature: BTreeSet<String>,
    toxicity: Option<String>,
    #[serde(default)]
    channel: BTreeSet<String>,
    scope: Option<BTreeMap<String, String>>,
    doubt: Option<String>,
    phrase: Option<String>,
}

#[derive(Deserialize)]
#[serde(untagged)]
enum Flavour {
    Plain(String),
    Degree(BTreeMap<String, String>),
}

impl Said {
    fn flavours(&self) -> BTreeSet<String> {
        let id = |one: &Flavour| match one {
            Flavour::Plain(id) => id.clone(),
            Flavour::Degree(map) => map.keys().next().cloned().unwrap_or_default(),
        };
        self.flavour.iter().map(id).collect()
    }

    /// Whether the work itself says it, of the drug as such, without doubt.
    fn own(&self) -> bool {
        self.by.is_none() && self.scope.is_none() && self.doubt.is_none()
    }
}

fn labels(half: &str) -> Vec<Label> {
    let path = root().join(format!("tests/data/reading/{half}.yaml"));
    serde_yaml::from_str(&fs::read_to_string(path).unwrap()).unwrap()
}

fn ids(scheme: &Scheme, values: impl IntoIterator<Item = ValueId>) -> BTreeSet<String> {
    values
        .into_iter()
        .map(|value| scheme.value(value).id.clone())
        .collect()
}

/// The work's own sayings on the drug as such, without doubt: flavour, nature, toxicity, channel.
fn own(corpus: &Corpus, reading: &ArticleReading) -> [BTreeSet<String>; 4] {
    let vocabulary = &corpus.vocabulary;
    let own: Vec<_> = reading
        .sayings
        .iter()
        .filter(|one| one.by == Speaker::Work && one.limit.is_whole() && one.doubt.is_none())
        .collect();
    let channels = ids(
        vocabulary.scheme(Facet::Channel),
        own.iter().flat_map(|one| one.channel.clone()),
    );
    [
        ids(
            vocabulary.scheme(Facet::Flavour),
            own.iter()
                .flat_map(|one| one.flavour.iter().map(|(value, _)| *value)),
        ),
        ids(
            vocabulary.scheme(Facet::Nature),
            own.iter().flat_map(|one| one.nature.clone()),
        ),
        ids(
            vocabulary.scheme(Facet::Toxicity),
            own.iter().filter_map(|one| one.toxicity),
        ),
        channels
            .into_iter()
            .filter(|id| id != "gate-of-life" && !id.ends_with("vessel"))
            .collect(),
    ]
}

#[test]
fn the_phrases_of_the_reference_reading_are_read_as_labelled() {
    let corpus = embedded().unwrap();
    let reader = Reader::new(&corpus).unwrap();
    let [layout, ..] = Layout::known();
    let (mut right, mut all, mut wrong) = (0, 0, Vec::new());
    for label in labels("development") {
        for said in label.sayings.iter().filter(|said| said.own()) {
            let Some(phrase) = &said.phrase else { continue };
            let text = format!("<篇名>{}\n内容：{phrase}。\n", label.heading);
            let article = articles(&text, &layout).remove(0);
            let reading = reader.read(&article, &label.work, &layout, &mut Folder::new());
            let [flavour, nature, toxicity, channel] = own(&corpus, &reading);
            let expected = (
                said.flavours(),
                said.nature.clone(),
                said.toxicity.iter().cloned().collect::<BTreeSet<_>>(),
                said.channel.clone(),
            );
            all += 1;
            if (flavour, nature, toxicity, channel) == expected {
                right += 1;
            } else {
                wrong.push(format!("{} {}: {phrase}", label.work, label.ordinal));
            }
        }
    }
    // A phrase of 24 characters may lack the words that tell how it is meant.
    assert!(
        all > 200 && right * 100 >= all * 96,
        "{right} of {all}: {wrong:#?}"
    );
}

/// Shares of articles that are read right, and of speakers and actions.
#[derive(Default)]
struct Score {
    articles: usize,
    right: [usize; 4],
    said: [usize; 3],
    actions: [usize; 3],
}

impl Score {
    fn print(&self, half: &str) {
        let share = |k: usize, n: usize| format!("{k}/{n} = {:.3}", k as f64 / n.max(1) as f64);
        let mut lines = vec![format!("{half}: {} articles", self.articles)];
        let facets = ["flavour", "nature", "toxicity", "channel"];
        for (name, right) in facets.into_iter().zip(self.right) {
            lines.push(format!("  {name} {}", share(right, self.articles)));
        }
        for (name, [both, read, labelled]) in [("speakers", self.said), ("actions", self.actions)] {
            let (precision, recall) = (share(both, read), share(both, labelled));
            lines.push(format!("  {name}: precision {precision}, recall {recall}"));
        }
        let text = lines.join("\n") + "\n";
        std::io::stderr().write_all(text.as_bytes()).unwrap();
    }
}

fn score(half: &str) -> Score {
    let folder = std::env::var("KAOYI_TEXTS").expect("KAOYI_TEXTS names the folder of the texts");
    let corpus = embedded().unwrap();
    let mut readings: HashMap<String, Vec<ArticleReading>> = HashMap::new();
    let mut score = Score::default();
    for label in labels(half) {
        let of_work = readings
            .entry(label.work.clone())
            .or_insert_with(|| whole_text(&corpus, Path::new(&folder), &label.work));
        let reading = &of_work[label.ordinal as usize - 1];
        compare(&corpus, &label, reading, &mut score);
    }
    score.print(half);
    score
}

fn whole_text(corpus: &Corpus, folder: &Path, work: &str) -> Vec<ArticleReading> {
    let text = fs::read_to_string(folder.join(format!("{work}.txt"))).unwrap();
    let layout = Layout::recognise(&text).unwrap();
    let reader = Reader::new(corpus).unwrap();
    let mut folds = Folder::new();
    articles(&text, &layout)
        .iter()
        .map(|article| reader.read(article, work, &layout, &mut folds))
        .collect()
}

fn compare(corpus: &Corpus, label: &Label, reading: &ArticleReading, score: &mut Score) {
    score.articles += 1;
    let mut expected: [BTreeSet<String>; 4] = Default::default();
    for said in label.sayings.iter().filter(|said| said.own()) {
        expected[0].extend(said.flavours());
        expected[1].extend(said.nature.iter().cloned());
        expected[2].extend(said.toxicity.clone());
        expected[3].extend(said.channel.iter().cloned());
    }
    let found = own(corpus, reading);
    for (place, (found, expected)) in found.iter().zip(&expected).enumerate() {
        score.right[place] += usize::from(found == expected);
    }
    if ["bencao-gangmu", "wu-pu-bencao"].contains(&label.work.as_str()) {
        let labelled = said_by(corpus, label);
        let read = read_by(corpus, reading);
        score.said[0] += read.intersection(&labelled).count();
        score.said[1] += read.len();
        score.said[2] += labelled.len();
    }
    if let Some(actions) = &label.actions {
        let scheme = corpus.vocabulary.scheme(Facet::Action);
        let read = ids(
            scheme,
            reading.sayings.iter().flat_map(|one| one.action.clone()),
        );
        score.actions[0] += read.intersection(actions).count();
        score.actions[1] += read.len();
        score.actions[2] += actions.len();
    }
}

/// Speaker and value of every labelled statement without doubt.
fn said_by(corpus: &Corpus, label: &Label) -> BTreeSet<(String, String)> {
    let speaker = |name: &str| match corpus.find_work(name.trim_end_matches('氏')) {
        WorkLookup::One(work) if corpus.work(work).id == label.work => String::new(),
        WorkLookup::One(work) => corpus.work(work).id.clone(),
        _ => name.to_owned(),
    };
    let mut all = BTreeSet::new();
    for said in label.sayings.iter().filter(|said| said.doubt.is_none()) {
        let by = said.by.as_deref().map(speaker).unwrap_or_default();
        let values = said.flavours().into_iter().chain(said.nature.clone());
        let toxicity = said.toxicity.iter().map(|one| format!("{one} toxicity"));
        all.extend(values.chain(toxicity).map(|value| (by.clone(), value)));
    }
    all
}

fn read_by(corpus: &Corpus, reading: &ArticleReading) -> BTreeSet<(String, String)> {
    let vocabulary = &corpus.vocabulary;
    let mut all = BTreeSet::new();
    for one in reading.sayings.iter().filter(|one| one.doubt.is_none()) {
        let by = match &one.by {
            Speaker::Work => String::new(),
            Speaker::Other(name) => name.clone(),
        };
        let flavours = ids(
            vocabulary.scheme(Facet::Flavour),
            one.flavour.iter().map(|(value, _)| *value),
        );
        let natures = ids(vocabulary.scheme(Facet::Nature), one.nature.clone());
        let toxicity = ids(vocabulary.scheme(Facet::Toxicity), one.toxicity);
        let toxicity = toxicity.into_iter().map(|id| format!("{id} toxicity"));
        let values = flavours.into_iter().chain(natures).chain(toxicity);
        all.extend(values.map(|value| (by.clone(), value)));
    }
    all
}

/// The least share of articles that must be read right, of a thousand: flavour, nature, toxicity,
/// channel. What was reached when each file was looked at last, so that no change loses it unseen; the
/// aim is 980, 980, 990 and 960.
fn reads_at_least(file: &str, least: [usize; 4]) {
    let score = score(file);
    for (right, least) in score.right.into_iter().zip(least) {
        assert!(right * 1000 >= score.articles * least, "{:?}", score.right);
    }
}

#[test]
#[ignore = "reads the books' texts in the folder KAOYI_TEXTS"]
fn the_development_half_is_read_right() {
    reads_at_least("development", [980, 980, 990, 970]);
}

#[test]
#[ignore = "reads the books' texts in the folder KAOYI_TEXTS"]
fn the_half_kept_aside_is_read_as_well_as_before() {
    reads_at_least("aside", [970, 980, 975, 965]);
}

#[test]
#[ignore = "reads the books' texts in the folder KAOYI_TEXTS"]
fn the_last_look_is_read_as_well_as_before() {
    reads_at_least("last-look", [970, 980, 975, 990]);
}
